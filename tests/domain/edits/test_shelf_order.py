"""If these fail, arranging bottles loses one, or changes what is painted."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.shelf_order import move_liquor, move_stock, moved
from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.figures import section_figures
from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.plan import Plan
from tests.strategies import plans


@given(st.lists(st.integers(), min_size=1, max_size=8, unique=True), st.data())
def test_one_moves_and_the_others_keep_their_order(items: list[int], data: st.DataObject) -> None:
    place = data.draw(st.integers(0, len(items) - 1))
    by = data.draw(st.integers(-10, 10))
    after = moved(items, place, by)
    assert after.index(items[place]) == min(max(place + by, 0), len(items) - 1)
    assert [item for item in after if item != items[place]] == items[:place] + items[place + 1 :]


@given(plans(most_sections=4), st.data(), st.integers(-3, 3))
def test_order_moves_no_shade_and_no_letter(plan: Plan, data: st.DataObject, by: int) -> None:
    stock = data.draw(st.sampled_from(plan.stocks))
    liquor = data.draw(st.sampled_from(plan.liquors))
    after = move_liquor(move_stock(plan, stock.id, by), liquor.id, by)
    assert {one.id: one for one in after.liquors} == {one.id: one for one in plan.liquors}
    assert {one.id: one for one in after.stocks} == {one.id: one for one in plan.stocks}
    depths = [section_figures(one).depth_in_all_pct_owf for one in (plan, after)]
    assert depths[1] == pytest.approx(depths[0], rel=1e-9, abs=1e-12)


def test_what_is_not_there_is_not_moved() -> None:
    plan = new_plan()
    with pytest.raises(InvalidPlan, match="unknown-stock"):
        move_stock(plan, "Z", 1)
    with pytest.raises(InvalidPlan, match="unknown-liquor"):
        move_liquor(plan, "Z", 1)
