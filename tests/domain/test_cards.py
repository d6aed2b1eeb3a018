"""If these fail, a card says amounts that do not add up, or hides how far off they are."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.bench import rounded_amounts
from studio_gui.domain.cards import (
    MOST_DEPTH_OFF,
    MOST_POINTS_OFF,
    in_jars_ml,
    measured_in_all_ml,
    shares_off,
    verdict,
)
from studio_gui.domain.edits.inputs import set_bench
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.plan import Bench, Liquid, Plan
from studio_gui.domain.worksheet import worksheet
from tests.scenes.scene_plans import by_depth, by_parts, dye, laid, let_down
from tests.strategies import plans

#: One jar of 34 ml, 32 of them painted: 75 parts of A and 25 of B.
CROSSFADE = laid(
    [("Mid", 0.2)],
    [dye("A"), dye("B")],
    [by_parts("Mid", {"A": 75.0, "B": 25.0})],
    rovings=4,
    liquid=Liquid(uptake_ml_per_g=1.6),
    bench=Bench(0.0, 2.0, 1.0),
)


def test_a_step_of_a_crossfade_in_whole_ml_is_26_and_8() -> None:
    (card,) = worksheet(CROSSFADE).cards
    assert [(one.stock_id, one.measured_ml) for one in card.amounts] == [("A", 26.0), ("B", 8.0)]
    assert card.total_ml == 34.0
    assert card.spare_ml == pytest.approx(2.0)
    assert card.points_off == pytest.approx(1.47, abs=0.01)
    assert not card.is_too_coarse
    assert card.doses == ()


def test_what_the_jars_of_a_liquor_hold_of_a_stock_is_told_beside_what_is_measured() -> None:
    cards = worksheet(CROSSFADE).cards
    assert in_jars_ml(cards, "Mid", "A") == pytest.approx((25.5, 26.0))
    assert in_jars_ml(cards, "Mid", "C") == in_jars_ml(cards, "Other", "A") == (0.0, 0.0)


def test_26_and_8_do_for_25_5_and_8_5_and_25_and_8_do_not() -> None:
    assert verdict((25.5, 8.5), (26.0, 8.0)) == "fine"
    assert verdict((25.5, 8.5), (25.0, 8.0)) == "short"
    assert verdict((25.5, 8.5), (27.0, 7.0)) == "off"
    assert verdict((), ()) == "fine"


def test_a_share_two_points_off_is_allowed_and_more_is_not() -> None:
    assert verdict((50.0, 50.0), (52.0, 48.0)) == "fine"
    assert verdict((50.0, 50.0), (52.1, 47.9)) == "off"


def test_a_graduation_too_coarse_for_the_jar_is_flagged() -> None:
    (card,) = worksheet(set_bench(CROSSFADE, graduation_ml=5.0)).cards
    assert [one.measured_ml for one in card.amounts] == [25.0, 10.0]
    assert measured_in_all_ml([card, card]) == 70.0
    assert [one.is_off for one in card.amounts] == [True, True]
    assert card.is_too_coarse


def test_an_amount_too_small_to_be_measured_is_flagged_however_small_its_share() -> None:
    trace = laid(
        [("Trace", 1.0)],
        [dye("A"), let_down("W")],
        [by_parts("Trace", {"A": 1.0, "W": 400.0})],
        bench=Bench(0.0, 0.0, 1.0),
    )
    (card,) = worksheet(trace).cards
    assert card.amounts[0].is_lost
    assert not card.amounts[0].is_off
    assert card.is_too_coarse


def test_a_dye_far_too_deep_is_flagged_though_it_is_few_points_of_the_jar() -> None:
    """1 ml for 0.54 in a jar of 32 ml is 1.4 points, and nearly twice the dye."""
    liquor = by_parts("Oat", {"Y": 2.2, "R": 0.54, "W": 29.26})
    plan = laid([("Oat", 1.0)], [dye("Y"), dye("R"), let_down("W")], [liquor], bench=Bench(0.0, 0.0, 1.0))
    plan = replace(plan, sections=(replace(plan.sections[0], fixed_ml=32.0),))
    red = next(one for one in worksheet(plan).cards[0].amounts if one.stock_id == "R")
    assert red.exact_ml == pytest.approx(0.54)
    assert red.measured_ml == 1.0
    assert red.points_off < MOST_POINTS_OFF
    assert red.depth_off == pytest.approx(0.85, abs=0.01)
    assert red.is_off
    assert worksheet(plan).cards[0].depth_off == pytest.approx(red.depth_off)


def test_jars_that_come_out_alike_by_rounding_tell_of_one_another() -> None:
    near = [by_parts("Near", {"A": 3.6, "W": 8.4}), by_parts("Far", {"A": 4.4, "W": 7.6})]
    apart = by_parts("Other", {"A": 8.0, "W": 4.0})
    stocks = [dye("A"), let_down("W")]
    plan = laid([("Near", 1.0), ("Far", 1.0), ("Other", 1.0)], stocks, [*near, apart])
    plan = replace(plan, sections=tuple(replace(section, fixed_ml=12.0) for section in plan.sections))
    cards = worksheet(set_bench(plan, spare_share=0.0, dead_ml=0.0, graduation_ml=1.0)).cards
    assert [card.alike for card in cards] == [("Far",), ("Near",), ()]
    assert [card.is_too_coarse for card in cards][:2] == [True, True]
    twice = set_bench(
        laid([("Near", 1.0), ("Same", 1.0)], stocks, [near[0], by_parts("Same", {"A": 3.6, "W": 8.4})])
    )
    assert [card.alike for card in worksheet(twice).cards] == [(), ()], "meant to be alike"


def test_a_card_lists_stocks_as_the_liquor_is_typed() -> None:
    liquor = by_parts("Moss", {"B": 40.0, "A": 120.0, "W": 27.0})
    plan = laid([("Moss", 1.0)], [dye("A"), let_down("W"), dye("B")], [liquor])
    assert [one.stock_id for one in worksheet(plan).cards[0].amounts] == ["B", "A", "W"]


def test_a_liquor_of_two_jars_has_two_numbered_cards() -> None:
    plan = laid([("Depth", 1.0), ("Depth", 1.0)], [dye("D"), let_down("AW")], [by_depth("Depth", {"D": 0.5})])
    made = worksheet(change_section(plan, "s1", fixed_ml=80.0)).cards
    assert [(card.number, card.count, card.jar.section_ids) for card in made] == [
        (1, 2, ("s2",)),
        (2, 2, ("s1",)),
    ]


def test_a_syringe_serves_whole_doses() -> None:
    (card,) = worksheet(set_bench(CROSSFADE, syringe_ml=20.0)).cards
    (dose,) = card.doses
    assert (dose.section_id, dose.fills.fills) == ("s1", 2)
    assert dose.dose_ml == pytest.approx(8.0)
    assert dose.fills.stops_ml == pytest.approx((16.0, 8.0, 0.0))


def test_a_section_painted_in_two_passes_is_not_filled_in_one() -> None:
    twice = change_section(set_bench(CROSSFADE, syringe_ml=20.0), "s1", second_pass_ml=10.0)
    assert worksheet(twice).cards[0].doses == ()


def test_no_liquor_has_no_shares() -> None:
    assert shares_off((0.0, 0.0), (0.0, 0.0)) == (0.0, 0.0)


@given(plans())
def test_a_card_adds_up_and_no_share_is_further_off_than_it_says(plan: Plan) -> None:
    sheet = worksheet(plan)
    assert [card.jar for card in sheet.cards] == list(sheet.make_up.jars)
    for card in sheet.cards:
        total = sum(one.measured_ml for one in card.amounts)
        assert card.total_ml == pytest.approx(total, abs=1e-6)
        assert card.total_ml >= card.jar.jar_ml * (1.0 - 1e-9) - 1e-6
        assert card.total_ml < card.jar.jar_ml + plan.bench.graduation_ml + 1e-6
        assert card.spare_ml == pytest.approx(card.total_ml - card.jar.sections_ml, abs=1e-6)
        for one in card.amounts:
            off = 100.0 * abs(one.measured_ml / total - one.share)
            assert off <= card.points_off + 1e-6
            deep = 0.0 if one.is_lost else abs(one.depth_off)
            near = min(abs(off - MOST_POINTS_OFF), abs(deep - MOST_DEPTH_OFF)) < 1e-6
            assert one.is_off == (off > MOST_POINTS_OFF or deep > MOST_DEPTH_OFF) or near
            assert abs(one.measured_ml - one.exact_ml) <= plan.bench.graduation_ml + 1e-6
        assert sum(one.share for one in card.amounts) == pytest.approx(1.0)


@given(
    st.lists(st.floats(0.0, 500.0), min_size=1, max_size=6).filter(lambda parts: sum(parts) > 1.0),
    st.sampled_from([0.1, 0.5, 1.0, 5.0]),
)
def test_rounded_amounts_are_never_short(amounts_ml: list[float], graduation_ml: float) -> None:
    assert verdict(amounts_ml, rounded_amounts(amounts_ml, graduation_ml)) != "short"
