"""If these fail, the list says that a liquor is made of something else than its jar is."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given

from studio_gui.domain.liquors import DyeDepth, Liquor, Part
from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.plan import Plan
from studio_gui.wording.recipes import named_recipe, shown_recipe
from studio_gui.wording.translation import ENGLISH
from tests.strategies import plans

PLAN = new_plan()


def test_by_depth_the_filling_is_named_with_its_share_only_where_there_are_two() -> None:
    one = Liquor("q9", "Z", "", "depth", (Part("k2", 1.0),), (DyeDepth("k1", 0.5),))
    assert named_recipe(PLAN, one, ENGLISH) == "0.5 % Blue + Acid water"
    plan = replace(PLAN, stocks=(*PLAN.stocks, replace(PLAN.stocks[1], id="k3", name="Water")))
    two = replace(one, parts=(Part("k2", 1.0), Part("k3", 3.0)))
    assert named_recipe(plan, two, ENGLISH) == "0.5 % Blue + 1 Acid water + 3 Water"


def test_let_down_alone_and_nothing_at_all() -> None:
    water = Liquor("q9", "Z", "", "depth", (Part("k2", 1.0),), ())
    assert shown_recipe(water, ENGLISH) == "1"
    assert named_recipe(PLAN, water, ENGLISH) == "Acid water"
    empty = Liquor("q9", "Z", "")
    assert shown_recipe(empty, ENGLISH) == named_recipe(PLAN, empty, ENGLISH) == "empty"


@given(plans(most_sections=2))
def test_every_liquor_has_as_many_figures_as_it_has_amounts(plan: Plan) -> None:
    for liquor in plan.liquors:
        figures = liquor.depths or liquor.parts
        assert shown_recipe(liquor, ENGLISH).count(" + ") == max(len(figures) - 1, 0)
        assert "\n" not in named_recipe(plan, liquor, ENGLISH)
