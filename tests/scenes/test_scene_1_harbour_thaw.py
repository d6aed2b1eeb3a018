"""If these fail, the amounts or the acid of a matching set of four are wrong on the bench: "Harbour Thaw"."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio_gui.domain.bench import syringe_fills
from studio_gui.domain.checks.check import Check
from studio_gui.domain.edits.inputs import set_bench
from studio_gui.domain.edits.mends import apply_mend
from studio_gui.domain.edits.stocks import add_stock, change_stock
from studio_gui.domain.plan import AcidLine, Plan
from studio_gui.domain.worksheet import Worksheet, worksheet
from tests.scenes.scene_plans import harbour_thaw, let_down

ML = 0.05


@pytest.fixture(scope="module")
def sheet() -> Worksheet:
    return worksheet(harbour_thaw())


def test_weights_and_liquid_of_every_section(sheet: Worksheet) -> None:
    figures = sheet.figures
    assert (figures.fibre_g / 4).tolist() == pytest.approx([20.0, 15.0, 30.0, 10.0, 25.0], abs=0.05)
    assert (figures.liquid_ml / 4).tolist() == pytest.approx([30.0, 22.5, 45.0, 15.0, 37.5], abs=ML)
    assert figures.liquid_ml.tolist() == pytest.approx([120.0, 90.0, 180.0, 60.0, 150.0], abs=ML)
    assert sheet.totals.fibre_g == pytest.approx(400.0)
    assert sheet.totals.liquid_ml == pytest.approx(600.0)
    assert sheet.totals.jars_ml == pytest.approx(630.0)


def test_every_depth_is_reached(sheet: Worksheet) -> None:
    # columns: blue, black, yellow, red
    assert sheet.figures.depth_pct_owf.tolist() == [
        pytest.approx([0.90, 0.30, 0.0, 0.0]),
        pytest.approx([0.225, 0.075, 0.0, 0.0]),
        pytest.approx([0.30, 0.0, 0.60, 0.0]),
        pytest.approx([0.0, 0.0, 0.30, 0.0]),
        pytest.approx([0.0, 0.0, 0.45, 0.60]),
    ]


@pytest.mark.parametrize(
    ("row", "jar_ml", "amounts_ml"),
    [
        (0, 126.0, [75.6, 25.2, 0.0, 0.0, 25.2]),
        (1, 94.5, [14.175, 4.725, 0.0, 0.0, 75.6]),
        (2, 189.0, [37.8, 0.0, 75.6, 0.0, 75.6]),
        (3, 63.0, [0.0, 0.0, 12.6, 0.0, 50.4]),
        (4, 157.5, [0.0, 0.0, 47.25, 63.0, 47.25]),
    ],
)
def test_what_goes_into_every_jar(sheet: Worksheet, row: int, jar_ml: float, amounts_ml: list[float]) -> None:
    jar = sheet.make_up.jars[row]
    assert jar.jar_ml == pytest.approx(jar_ml, abs=ML)
    assert jar.amounts_ml.tolist() == pytest.approx(amounts_ml, abs=ML)


def test_what_the_set_needs_of_every_stock(sheet: Worksheet) -> None:
    need = sheet.make_up.need_ml
    assert need.tolist() == pytest.approx([127.575, 29.925, 135.45, 63.0, 274.05], abs=0.0005)
    assert need.sum() == pytest.approx(630.0)


def test_no_dose_is_split_over_two_fills_of_a_60_ml_syringe(sheet: Worksheet) -> None:
    doses = (sheet.figures.liquid_ml / 4).tolist()
    fills = [syringe_fills(dose, 4, 60.0) for dose in doses]
    assert [fill.fills for fill in fills] == [2, 2, 4, 1, 4]
    assert [fill.fill_ml for fill in fills] == pytest.approx([60.0, 45.0, 45.0, 60.0, 37.5], abs=ML)
    assert sum(fill.fills for fill in fills) == 13
    assert fills[0].stops_ml == pytest.approx((60.0, 30.0, 0.0), abs=ML)


def test_its_cards_fill_a_syringe_13_times_and_add_up_to_whole_ml(sheet: Worksheet) -> None:
    made = worksheet(set_bench(sheet.plan, syringe_ml=60.0)).cards
    assert sum(dose.fills.fills for card in made for dose in card.doses) == 13
    assert [card.total_ml for card in made] == [126.0, 95.0, 189.0, 63.0, 158.0]
    assert [amount.measured_ml for amount in made[0].amounts] == [76.0, 25.0, 25.0]
    assert not any(card.is_too_coarse for card in made)


def test_its_bottles_hold_what_the_cards_take(sheet: Worksheet) -> None:
    bottles = sheet.bottles
    assert [bottle.need_ml for bottle in bottles] == pytest.approx(
        [
            sum(a.measured_ml for c in sheet.cards for a in c.amounts if a.stock_id == b.stock_id)
            for b in bottles
        ]
    )
    dyes = [bottle for bottle in bottles if bottle.dye_g]
    assert [bottle.dye_g for bottle in dyes] == pytest.approx([bottle.made_ml / 100.0 for bottle in dyes])


def finding(plan: Plan, code: str) -> Check:
    return next(check for check in worksheet(plan).checks if check.code == code)


def test_the_darkest_section_gets_a_quarter_of_the_palest_ones_acid_and_a_warning(sheet: Worksheet) -> None:
    assert sheet.figures.acid_pct_owf.tolist() == pytest.approx([0.30, 1.20, 0.60, 1.20, 0.45], abs=0.0005)
    warning = finding(sheet.plan, "acid-uneven")
    assert warning.severity == "warning"
    assert warning.params["lowest_id"] == "s1"
    assert warning.params["lowest_pct_owf"] == pytest.approx(0.30)
    assert warning.params["highest_pct_owf"] == pytest.approx(1.20)
    assert warning.params["ratio"] == pytest.approx(4.0)


def test_acid_in_every_bottle_makes_all_alike(sheet: Worksheet) -> None:
    mend = next(m for m in finding(sheet.plan, "acid-uneven").mends if m.code == "acid-in-every-bottle")
    mended = worksheet(apply_mend(sheet.plan, mend))
    assert mended.figures.acid_pct_owf.tolist() == pytest.approx([1.5] * 5)
    assert mended.figures.amounts_ml.tolist() == sheet.figures.amounts_ml.tolist()
    assert not [check for check in mended.checks if check.code.startswith("acid")]


def lined() -> Plan:
    """The other way out: the acid water becomes plain water, and a 20 % citric stock a line of its own."""
    plan = change_stock(harbour_thaw(), "AW", acid_g_per_l=0.0)
    plan = add_stock(plan, let_down("Citric", 200.0))
    return replace(plan, acid_line=AcidLine("Citric", 10.0))


def test_acid_as_a_line_of_its_own_takes_its_room_from_the_water() -> None:
    sheet = worksheet(lined())
    slate = sheet.make_up.jars[0].amounts_ml.tolist()
    assert slate == pytest.approx([75.6, 25.2, 0.0, 0.0, 18.9, 6.3], abs=0.0005)
    assert slate[5] * 200.0 / 1000.0 == pytest.approx(1.26)  # g citric
    assert sum(slate) == pytest.approx(126.0)


def test_with_the_acid_line_every_section_has_the_same_acid_and_no_depth_moved() -> None:
    sheet = worksheet(lined())
    assert sheet.figures.acid_pct_owf.tolist() == pytest.approx([1.5] * 5)
    before = worksheet(harbour_thaw()).figures
    assert sheet.figures.depth_pct_owf.tolist() == [
        pytest.approx(row) for row in before.depth_pct_owf.tolist()
    ]
    assert not [check for check in sheet.checks if check.code.startswith("acid")]


def test_the_acid_line_is_offered_where_a_stronger_citric_stock_stands_on_the_shelf() -> None:
    plan = add_stock(harbour_thaw(), let_down("Citric", 200.0))
    mend = next(m for m in finding(plan, "acid-uneven").mends if m.code == "acid-line")
    assert mend.params["stock_id"] == "Citric"
    assert mend.params["still_uneven"] is False
    mended = apply_mend(plan, mend)
    assert worksheet(mended).figures.acid_pct_owf.tolist() == pytest.approx([1.5] * 5)
