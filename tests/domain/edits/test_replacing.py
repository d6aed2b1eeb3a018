"""If these fail, taking a bottle or a liquor away leaves a hole, moves a shade unasked, or loses liquid."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.replacing import remove_from_liquors, repaint, replace_stock
from studio_gui.domain.edits.stocks import add_stock
from studio_gui.domain.errors import EditRefused, InvalidPlan, RovingLayError
from studio_gui.domain.figures import section_figures
from studio_gui.domain.liquors import DyeDepth, Part
from studio_gui.domain.plan import AcidLine, Plan
from tests.scenes.scene_plans import by_depth, by_parts, dye, laid, let_down
from tests.strategies import plans

PLAN = laid(
    [("A", 1.0), ("B", 1.0), ("C", 1.0)],
    [dye("D"), dye("E"), let_down("AW", 10.0), let_down("Water")],
    [
        by_parts("A", {"D": 20.0, "E": 5.0, "AW": 25.0}),
        by_depth("B", {"D": 0.5}),
        by_parts("C", {"E": 10.0, "AW": 40.0}),
    ],
)


def test_a_stock_leaves_its_liquors_and_the_others_keep_their_ratio() -> None:
    plan = remove_from_liquors(PLAN, "D")
    assert [stock.id for stock in plan.stocks] == ["E", "AW", "Water"]
    assert plan.liquor("A").parts == (Part("E", 5.0), Part("AW", 25.0))
    assert plan.liquor("B").depths == ()
    assert plan.liquor("C") == PLAN.liquor("C")


def test_the_only_filling_of_a_jar_by_depth_cannot_leave_it() -> None:
    filling = PLAN.liquor("B").parts[0].stock_id
    with pytest.raises(InvalidPlan, match="depth-without-let-down"):
        remove_from_liquors(PLAN, filling)


def test_an_acid_line_ends_with_its_stock_or_goes_over_to_the_next() -> None:
    sour = add_stock(add_stock(PLAN, let_down("Citric", 200.0)), let_down("Vinegar", 50.0))
    lined = replace(sour, acid_line=AcidLine("Citric", 10.0))
    assert remove_from_liquors(lined, "Citric").acid_line is None
    assert replace_stock(lined, "Citric", "Vinegar").acid_line == AcidLine("Vinegar", 10.0)
    assert replace_stock(lined, "AW", "Water").acid_line == lined.acid_line
    with pytest.raises(InvalidPlan, match="acid-line-without-acid"):
        replace_stock(lined, "Citric", "Water")


def test_another_stock_takes_the_place_and_amounts_are_put_together() -> None:
    plan = replace_stock(PLAN, "D", "E")
    assert plan.liquor("A").parts == (Part("E", 25.0), Part("AW", 25.0))
    assert plan.liquor("B").depths == (DyeDepth("E", 0.5),)
    with pytest.raises(EditRefused, match="other-role"):
        replace_stock(PLAN, "D", "AW")
    with pytest.raises(EditRefused, match="stock-in-use"):
        replace_stock(PLAN, "D", "D")


def test_sections_of_a_liquor_are_painted_with_another() -> None:
    plan = repaint(PLAN, "A", "C")
    assert [section.liquor_id for section in plan.sections] == ["C", "B", "C"]
    assert [liquor.id for liquor in plan.liquors] == ["B", "C"]
    with pytest.raises(EditRefused, match="liquor-in-use"):
        repaint(PLAN, "A", "A")
    with pytest.raises(InvalidPlan, match="unknown-liquor"):
        repaint(PLAN, "A", "Z")


@given(plans(most_sections=4), st.data())
def test_nothing_that_is_left_names_what_was_taken_away(plan: Plan, data: st.DataObject) -> None:
    gone = data.draw(st.sampled_from([stock.id for stock in plan.stocks]))
    alike = [one.id for one in plan.stocks if one.role == plan.stock(gone).role and one.id != gone]
    edits = [partial(remove_from_liquors, plan, gone)]
    edits += [partial(replace_stock, plan, gone, by) for by in alike]
    for edit in edits:
        try:
            left = edit()
        except RovingLayError:
            continue
        assert gone not in [stock.id for stock in left.stocks]
        assert not left.liquors_with(gone)
        assert [liquor.id for liquor in left.liquors] == [liquor.id for liquor in plan.liquors]


@given(plans(most_sections=4), st.data())
def test_replacing_keeps_every_section_s_liquid(plan: Plan, data: st.DataObject) -> None:
    dyes = [stock.id for stock in plan.dyes]
    if len(dyes) < 2:
        return
    gone, by = data.draw(st.permutations(dyes))[:2]
    try:
        left = replace_stock(plan, gone, by)
    except RovingLayError:
        return
    before, after = section_figures(plan), section_figures(left)
    assert after.liquid_ml == pytest.approx(before.liquid_ml, rel=1e-9, abs=1e-9)
