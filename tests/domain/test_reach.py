"""If these fail, the editor offers a depth that is then refused, or hides one that the jar reaches."""

from __future__ import annotations

import pytest
from hypothesis import given

from studio_gui.domain.edits.liquors import add_liquor, set_depths
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.figures import section_figures
from studio_gui.domain.liquors import Part
from studio_gui.domain.plan import Liquid, Plan
from studio_gui.domain.reach import reach_pct_owf
from tests.scenes.scene_plans import by_depth, dye, ink, laid, let_down
from tests.strategies import plans


def reach(plan: Plan, liquor_id: str) -> list[float]:
    deepest: list[float] = reach_pct_owf(section_figures(plan), liquor_id).tolist()
    return deepest


@pytest.mark.parametrize(("stock_pct", "deepest"), [(1.0, 1.5), (2.0, 3.0), (4.0, 6.0)])
def test_ink_reaches_what_its_stock_and_wetness_give(stock_pct: float, deepest: float) -> None:
    assert reach(ink(stock_pct), "I") == pytest.approx([deepest])


def test_the_other_dyes_of_the_jar_take_room_and_the_driest_section_decides() -> None:
    plan = laid(
        [("A", 1.0), ("A", 1.0), ("A", 1.0)],
        [dye("D"), dye("E", 2.0), let_down("AW")],
        [by_depth("A", {"D": 0.5, "E": 1.0})],
        liquid=Liquid(uptake_ml_per_g=2.0),
    )
    assert reach(plan, "A") == pytest.approx([1.5, 3.0])
    assert reach(change_section(plan, "s2", fixed_ml=37.5), "A") == pytest.approx([1.0, 2.0])
    assert reach(change_section(plan, "s2", fixed_ml=10.0), "A") == [0.0, 0.0], "over already: no room"


def test_a_liquor_painted_nowhere_is_bound_by_the_range_only() -> None:
    plan, liquor_id = add_liquor(ink(1.0), "New", [Part("AW", 1.0)], by_depth("X", {"Ink": 1.0}).depths)
    assert reach(plan, liquor_id) == [100.0]


@given(plans(most_sections=6))
def test_what_is_offered_is_taken_and_a_little_more_is_refused(plan: Plan) -> None:
    for liquor in plan.liquors:
        if not liquor.depths:
            continue
        dyes = [one.id for one in plan.dyes]
        for wanted, deepest in zip(dyes, reach(plan, liquor.id), strict=True):
            depths = {one.stock_id: one.depth_pct_owf for one in liquor.depths}
            if wanted not in depths or not 0.0 < deepest < 90.0:
                continue
            set_depths(plan, liquor.id, depths | {wanted: deepest})
            with pytest.raises(EditRefused):
                set_depths(plan, liquor.id, depths | {wanted: deepest * 1.001 + 0.001})
