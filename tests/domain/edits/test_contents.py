"""If these fail, putting a stock into a liquor or taking it out changes more than that."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio_gui.domain.edits.contents import put_in, take_out
from studio_gui.domain.edits.liquors import to_depth_basis
from studio_gui.domain.edits.stocks import add_stock
from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.figures import section_figures
from studio_gui.domain.liquors import DyeDepth, Part
from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.plan import Plan
from studio_gui.domain.stocks import Stock


@pytest.fixture
def plan() -> Plan:
    """Liquor q1 has 30 parts of dye k1 and 20 of acid water k2; k3 is plain water, k4 another dye."""
    shelf = add_stock(new_plan(), Stock("k3", "Plain water", "let-down"))
    return add_stock(shelf, replace(shelf.stock("k1"), id="k4", name="Red"))


def test_a_stock_put_in_by_parts_moves_nothing_yet(plan: Plan) -> None:
    fuller = put_in(plan, "q1", "k3")
    assert fuller.liquor("q1").parts == (Part("k1", 30.0), Part("k2", 20.0), Part("k3", 0.0))
    before, after = section_figures(plan), section_figures(fuller)
    assert after.amounts_ml.tolist() == before.amounts_ml.tolist()


def test_an_empty_liquor_is_painted_with_the_first_stock_put_in(plan: Plan) -> None:
    empty = take_out(take_out(plan, "q1", "k1"), "q1", "k2")
    assert section_figures(empty).liquid_ml[0] == 0.0
    assert section_figures(put_in(empty, "q1", "k3")).liquid_ml[0] == 125.0


def test_on_depth_a_dye_goes_in_at_depth_0_and_a_let_down_fills_the_jar(plan: Plan) -> None:
    by_depth = to_depth_basis(plan, "q1")
    assert put_in(by_depth, "q1", "k4").liquor("q1").depths[-1] == DyeDepth("k4", 0.0)
    assert put_in(by_depth, "q1", "k3").liquor("q1").parts == (Part("k3", 1.0),)


def test_a_dye_taken_out_leaves_the_others_their_depth(plan: Plan) -> None:
    by_depth = put_in(to_depth_basis(plan, "q1"), "q1", "k4")
    assert take_out(by_depth, "q1", "k4") == to_depth_basis(plan, "q1")


def test_the_last_let_down_of_a_liquor_by_depth_stays(plan: Plan) -> None:
    with pytest.raises(InvalidPlan, match="depth-without-let-down"):
        take_out(to_depth_basis(plan, "q1"), "q1", "k2")


def test_dyes_stand_before_let_downs(plan: Plan) -> None:
    for stock_id in ("k3", "k4"):
        plan = put_in(plan, "q1", stock_id)
    assert plan.liquor("q1").stock_ids == ("k1", "k4", "k2", "k3")
