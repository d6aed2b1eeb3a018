"""If these fail, a change on the shelf moves a shade without a word, or takes a bottle that is needed."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.stocks import (
    add_stock,
    change_stock,
    change_strength_keeping_depth,
    copy_stock,
    free_stock_id,
    remove_stock,
    set_acid_everywhere,
    take_acid_of_water,
)
from studio_gui.domain.errors import EditRefused, InvalidPlan, RovingLayError
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import AcidLine, Plan
from tests.scenes.scene_plans import by_depth, by_parts, dye, laid, let_down
from tests.strategies import plans

PLAN = laid(
    [("A", 1.0), ("B", 1.0), ("Neat", 1.0)],
    [dye("D"), dye("Idle"), let_down("AW", 10.0), let_down("Water")],
    [
        by_parts("A", {"D": 20.0, "AW": 20.0, "Water": 10.0}),
        by_depth("B", {"D": 0.5}),
        by_parts("Neat", {"D": 5.0}),
    ],
)


def parts(plan: Plan, liquor_id: str) -> dict[str, float]:
    return {part.stock_id: part.parts for part in plan.liquor(liquor_id).parts}


def test_a_stock_goes_to_the_end_of_the_shelf_under_an_id_of_its_own() -> None:
    extra = dye(free_stock_id(PLAN))
    assert add_stock(PLAN, extra).stocks == (*PLAN.stocks, extra)
    with pytest.raises(InvalidPlan, match="id-twice"):
        add_stock(PLAN, dye("D"))


def test_a_copy_stands_behind_its_original() -> None:
    plan = copy_stock(PLAN, "D", "D copy")
    assert [stock.name for stock in plan.stocks][:2] == [PLAN.stock("D").name, "D copy"]
    assert replace(plan.stocks[1], id="D", name=PLAN.stock("D").name) == PLAN.stock("D")
    assert plan.liquors == PLAN.liquors


def test_unknown_acid_is_answered_with_that_of_the_acid_water() -> None:
    unknown = change_stock(PLAN, "D", acid_g_per_l=None)
    assert take_acid_of_water(unknown, "D").stock("D").acid_g_per_l == 10.0
    dry = change_stock(unknown, "AW", acid_g_per_l=None)
    with pytest.raises(EditRefused, match="no-acid-water"):
        take_acid_of_water(dry, "D")


def test_a_plain_change_of_strength_moves_the_shade() -> None:
    assert parts(change_stock(PLAN, "D", strength_g_per_l=20.0), "A") == parts(PLAN, "A")
    with pytest.raises(InvalidPlan, match="unknown-stock"):
        change_stock(PLAN, "Z", name="none")


def test_a_stronger_stock_gives_way_to_the_let_downs_in_their_ratio() -> None:
    stronger = change_strength_keeping_depth(PLAN, "D", 20.0)
    assert parts(stronger, "A") == pytest.approx({"D": 10.0, "AW": 80.0 / 3.0, "Water": 40.0 / 3.0})
    assert stronger.liquor("B") == PLAN.liquor("B")
    assert stronger.stock("D").strength_g_per_l == 20.0


def test_a_neat_liquor_is_filled_up_with_the_first_let_down() -> None:
    assert parts(change_strength_keeping_depth(PLAN, "D", 25.0), "Neat") == pytest.approx(
        {"D": 2.0, "AW": 3.0}
    )
    named = replace(PLAN, liquors=(*PLAN.liquors[:2], by_parts("Neat", {"AW": 0.0, "Water": 0.0, "D": 5.0})))
    filled = change_strength_keeping_depth(named, "D", 25.0)
    assert parts(filled, "Neat") == pytest.approx({"AW": 3.0, "Water": 0.0, "D": 2.0})


def test_without_any_let_down_a_neat_liquor_cannot_keep_its_volume() -> None:
    dry = laid([("Neat", 1.0)], [dye("D")], [by_parts("Neat", {"D": 5.0})])
    with pytest.raises(EditRefused, match="no-let-down"):
        change_strength_keeping_depth(dry, "D", 25.0)
    assert change_strength_keeping_depth(dry, "D", 10.0) == dry


def test_a_weaker_stock_needs_more_let_down_to_give_way_than_there_may_be() -> None:
    painted = replace(PLAN, liquors=(*PLAN.liquors[:2], by_parts("Neat", {"Idle": 1.0})))
    exactly = change_strength_keeping_depth(painted, "D", 4.0)
    assert parts(exactly, "A") == pytest.approx({"D": 50.0, "AW": 0.0, "Water": 0.0})
    with pytest.raises(EditRefused, match="let-down-runs-out") as refusal:
        change_strength_keeping_depth(painted, "D", 2.5)
    assert refusal.value.params == {
        "liquor": "A",
        "let_down_parts": 30.0,
        "needed_parts": pytest.approx(60.0),
    }


@pytest.mark.parametrize("strength", [0.0, -1.0, float("nan"), 1e9])
def test_a_strength_that_cannot_be_is_refused(strength: float) -> None:
    with pytest.raises(InvalidPlan):
        change_strength_keeping_depth(PLAN, "D", strength)


def test_a_let_down_has_no_strength_to_change() -> None:
    with pytest.raises(InvalidPlan, match="let-down-with-dye"):
        change_strength_keeping_depth(PLAN, "AW", 10.0)


def test_only_an_idle_bottle_leaves_the_shelf() -> None:
    assert [stock.id for stock in remove_stock(PLAN, "Idle").stocks] == ["D", "AW", "Water"]
    with pytest.raises(EditRefused, match="stock-in-use") as refusal:
        remove_stock(PLAN, "D")
    assert refusal.value.params["liquors"] == "A, B, Nea"
    lined = replace(add_stock(PLAN, let_down("Citric", 200.0)), acid_line=AcidLine("Citric", 10.0))
    with pytest.raises(EditRefused, match="stock-is-acid-line"):
        remove_stock(lined, "Citric")


def test_the_same_acid_in_all_bottles_or_in_those_named() -> None:
    assert {stock.acid_g_per_l for stock in set_acid_everywhere(PLAN, 7.0).stocks} == {7.0}
    some = set_acid_everywhere(PLAN, 7.0, ["D", "Water"])
    assert [stock.acid_g_per_l for stock in some.stocks] == [7.0, 0.0, 10.0, 7.0]


@given(plans(), st.data(), st.floats(0.5, 100.0))
def test_keeping_the_depth_keeps_every_depth_of_every_section(
    plan: Plan, data: st.DataObject, strength: float
) -> None:
    if not plan.dyes:
        return
    changed_id = data.draw(st.sampled_from([stock.id for stock in plan.dyes]))
    try:
        changed = change_strength_keeping_depth(plan, changed_id, strength)
    except RovingLayError:
        return
    before, after = section_figures(plan), section_figures(changed)
    on_parts = [plan.liquors[row].basis == "parts" for row in before.liquor_index]
    assert after.depth_pct_owf[on_parts] == pytest.approx(before.depth_pct_owf[on_parts], rel=1e-6, abs=1e-9)
    assert after.liquid_ml == pytest.approx(before.liquid_ml, rel=1e-9, abs=1e-9)
