"""If these fail, a bottle runs short, or is mixed too weak or too strong."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.bottles import RESERVE_SHARE, powder_g, suggested_ml
from studio_gui.domain.edits.stocks import change_stock
from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.plan import Bench, Plan
from studio_gui.domain.worksheet import worksheet
from tests.scenes.scene_plans import by_parts, dye, laid, let_down
from tests.strategies import plans

PLAN = laid(
    [("Pale", 1.0), ("Deep", 1.0)],
    [dye("D"), replace(dye("E"), strength_g_per_l=20.0), let_down("W"), let_down("AW"), let_down("C")],
    [
        by_parts("Pale", {"D": 12.0, "E": 1.0, "W": 30.0, "AW": 8.0}),
        by_parts("Deep", {"D": 30.0, "C": 20.0}),
    ],
    bench=Bench(spare_share=0.0),
)
PLAN = change_stock(PLAN, "C", acid_g_per_l=200.0)
PLAN = change_stock(PLAN, "AW", acid_g_per_l=10.0)
PLAN = change_stock(PLAN, "W", acid_g_per_l=0.0)


def test_acid_is_made_first_the_strongest_before_the_rest_and_water_last() -> None:
    assert [bottle.stock_id for bottle in worksheet(PLAN).bottles] == ["C", "AW", "E", "D", "W"]


def test_powder_is_what_the_strength_asks_of_the_volume_made() -> None:
    made = {bottle.stock_id: bottle for bottle in worksheet(change_stock(PLAN, "D", made_ml=250.0)).bottles}
    assert (made["D"].made_ml, made["D"].dye_g, made["D"].is_suggested) == (250.0, 2.5, False)
    assert made["C"].acid_g == pytest.approx(made["C"].made_ml * 0.2)
    assert (made["W"].dye_g, made["W"].acid_g) == (0.0, 0.0)


def test_an_acid_that_is_not_known_is_not_taken_for_none() -> None:
    made = worksheet(change_stock(PLAN, "D", acid_g_per_l=None)).bottles
    assert {bottle.stock_id: bottle.acid_g for bottle in made}["D"] is None


def test_a_bottle_that_is_made_too_small_says_by_how_much() -> None:
    bottle = next(one for one in worksheet(PLAN).bottles if one.stock_id == "D")
    assert bottle.short_ml == 0.0
    small = change_stock(PLAN, "D", made_ml=bottle.need_ml - 5.0)
    assert next(one for one in worksheet(small).bottles if one.stock_id == "D").short_ml == 5.0


def test_a_stock_that_nobody_needs_is_made_only_where_somebody_said_so() -> None:
    more = replace(PLAN, stocks=(*PLAN.stocks, replace(dye("F"), id="F")))
    assert "F" not in {bottle.stock_id for bottle in worksheet(more).bottles}
    assert "F" in {bottle.stock_id for bottle in worksheet(change_stock(more, "F", made_ml=50.0)).bottles}


def test_a_volume_that_no_bottle_has_is_refused() -> None:
    with pytest.raises(InvalidPlan, match="out-of-range"):
        change_stock(PLAN, "D", made_ml=0.0)


@given(st.floats(1e-6, 1e6))
def test_what_is_suggested_is_enough_and_not_much_more(need_ml: float) -> None:
    made_ml = suggested_ml(need_ml)
    wanted_ml = need_ml * (1.0 + RESERVE_SHARE)
    assert wanted_ml * (1.0 - 1e-6) <= made_ml <= max(wanted_ml * 1.1, wanted_ml + 5.0) + 1e-6


def test_nothing_is_suggested_where_nothing_is_needed() -> None:
    assert suggested_ml(0.0) == 0.0


def test_fifteen_grams_a_litre_in_250_ml_are_3_75_g() -> None:
    assert powder_g(250.0, 15.0) == pytest.approx(3.75)


@given(plans())
def test_bottles_give_what_the_cards_take(plan: Plan) -> None:
    sheet = worksheet(plan)
    need = {bottle.stock_id: bottle.need_ml for bottle in sheet.bottles}
    for stock_id in (stock.id for stock in plan.stocks):
        taken = sum(a.measured_ml for card in sheet.cards for a in card.amounts if a.stock_id == stock_id)
        assert need.get(stock_id, 0.0) == pytest.approx(taken, abs=1e-6)
    for bottle in sheet.bottles:
        if bottle.is_suggested:
            assert bottle.short_ml == 0.0
