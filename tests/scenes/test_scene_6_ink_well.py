"""If these fail, an over-wet section pools, or its ways out do not cost what the program says: "Ink Well"."""

from __future__ import annotations

import pytest

from studio_gui.domain.checks.check import Check, Mend
from studio_gui.domain.edits.mends import apply_mend
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.figures import SectionFigures, section_figures
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from tests.scenes.scene_plans import ink_well

INK = 1


def finding(plan: Plan) -> Check:
    (check,) = [check for check in worksheet(plan).checks if check.code == "over"]
    assert check.section_ids == ("s2",)
    return check


def mend(plan: Plan, code: str) -> Mend:
    return next(mend for mend in finding(plan).mends if mend.code == code)


def mended(plan: Plan, code: str) -> SectionFigures:
    return section_figures(apply_mend(plan, mend(plan, code)))


def test_13_5_ml_are_free() -> None:
    figures = section_figures(ink_well())
    assert figures.fibre_g[INK] == pytest.approx(22.5)
    assert figures.applied_ml_per_g[INK] == pytest.approx(2.0)
    assert figures.depth_pct_owf[INK].sum() == pytest.approx(1.40)
    assert figures.held_ml_per_g[INK] == pytest.approx(3.1)
    assert figures.held_ml_per_g[INK] * figures.fibre_g[INK] == pytest.approx(69.75)
    assert figures.free_ml[INK] == pytest.approx(13.5)
    assert figures.saturation(INK) == "over"
    assert [figures.saturation(index) for index in (0, 2)] == ["in range", "in range"]


def test_left_alone_it_creeps_into_both_neighbours() -> None:
    told = finding(ink_well())
    assert told.severity == "warning"
    assert told.params["free_ml"] == pytest.approx(13.5)
    assert told.params["free_dye_g"] == pytest.approx(0.061, abs=0.0005)
    assert told.params["creep_before_pct_owf"] == pytest.approx(0.305, abs=0.0005)
    assert told.params["creep_after_pct_owf"] == pytest.approx(0.305, abs=0.0005)


def test_all_four_ways_out_are_offered() -> None:
    assert [one.code for one in finding(ink_well()).mends] == [
        "spin-out",
        "less-but-stronger",
        "two-passes",
        "wipe",
    ]


def test_spinning_out_first_needs_no_other_recipe() -> None:
    assert mend(ink_well(), "spin-out").params["soak_ml_per_g"] == pytest.approx(0.5)
    figures = mended(ink_well(), "spin-out")
    assert figures.free_ml[INK] == 0.0
    assert figures.amounts_ml[INK].tolist() == section_figures(ink_well()).amounts_ml[INK].tolist()


@pytest.mark.parametrize(
    ("stock_pct", "dye_ml", "let_down_ml"), [(1.0, 31.5, 0.0), (2.0, 15.75, 15.75)], ids=["neat", "half"]
)
def test_less_but_stronger_keeps_the_depth(stock_pct: float, dye_ml: float, let_down_ml: float) -> None:
    offer = mend(ink_well(stock_pct), "less-but-stronger")
    assert offer.params["liquid_ml"] == pytest.approx(31.5)
    assert offer.params["jar_pct"] == pytest.approx(1.00)
    assert offer.params["dye_ml"] == pytest.approx(dye_ml)
    assert offer.params["let_down_ml"] == pytest.approx(let_down_ml, abs=1e-9)
    figures = mended(ink_well(stock_pct), "less-but-stronger")
    assert figures.liquid_ml[INK] == pytest.approx(31.5)
    assert figures.depth_pct_owf[INK].sum() == pytest.approx(1.40)
    assert figures.amounts_ml[INK].tolist() == pytest.approx([dye_ml, let_down_ml], abs=1e-9)
    assert figures.free_ml[INK] == 0.0


def test_two_passes_press_out_as_much_as_comes_after() -> None:
    offer = mend(ink_well(), "two-passes").params
    assert offer["first_ml"] == pytest.approx(31.5)
    assert offer["press_out_ml"] == pytest.approx(13.5)
    assert offer["second_pass_ml"] == pytest.approx(13.5)
    figures = mended(ink_well(), "two-passes")
    assert figures.free_ml[INK] == 0.0
    assert figures.left_pct_owf[INK].sum() == pytest.approx(1.40)


def test_blotting_takes_dye_along_and_says_how_much() -> None:
    offer = mend(ink_well(), "wipe").params
    assert offer["wiped_ml"] == pytest.approx(13.5)
    assert 100.0 * float(offer["dye_lost_share"] or 0.0) == pytest.approx(19.35, abs=0.005)
    assert offer["depth_after_pct_owf"] == pytest.approx(1.129, abs=0.0005)
    figures = mended(ink_well(), "wipe")
    assert figures.left_pct_owf[INK].sum() == pytest.approx(1.129, abs=0.0005)
    assert figures.depth_pct_owf[INK].sum() == pytest.approx(1.40)


def test_a_planned_blot_makes_it_a_note() -> None:
    told = finding(change_section(ink_well(), "s2", wiped_ml=13.5))
    assert told.severity == "note"
    assert told.params["free_before_wiping_ml"] == pytest.approx(13.5)
    assert told.params["free_ml"] == 0.0
    assert told.mends == ()
