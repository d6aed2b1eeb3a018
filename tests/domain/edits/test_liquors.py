"""If these fail, a typed "12 + 38" or a depth paints something else, or changes a section it should not."""

from __future__ import annotations

from dataclasses import replace
from itertools import islice
from math import nan

import pytest

from studio_gui.domain.edits.liquors import (
    add_liquor,
    letters,
    own_liquor,
    paint_amounts,
    remove_liquor,
    replace_liquor,
    set_depths,
    set_parts,
    to_depth_basis,
    to_parts_basis,
)
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.edits.stocks import add_stock
from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.figures import section_figures
from studio_gui.domain.liquors import DyeDepth, Part
from studio_gui.domain.plan import AcidLine, Liquid, Plan
from tests.scenes.scene_plans import by_depth, by_parts, dye, laid, let_down

PLAN = laid(
    [("A", 1.0), ("B", 1.0), ("A", 2.0)],
    [dye("D"), dye("E", srgb="#a8382f"), let_down("AW", 10.0), let_down("Water")],
    [by_parts("A", {"D": 12.0, "AW": 38.0}), by_depth("B", {"D": 0.5})],
    liquid=Liquid(uptake_ml_per_g=2.0, penetration_ml_per_g=1.0),
)


def depths(plan: Plan) -> list[list[float]]:
    rows: list[list[float]] = section_figures(plan).depth_pct_owf.tolist()
    return rows


def test_letters_go_on_after_z() -> None:
    assert list(islice(letters(), 25, 53))[::26] == ["Z", "AZ"]
    assert list(islice(letters(), 52, 53)) == ["BA"]


def test_12_and_38_are_parts_for_all_and_50_ml_for_this_section() -> None:
    painted = paint_amounts(PLAN, "s2", {"E": 12.0, "Water": 38.0})
    assert painted.liquor("B").parts == (Part("E", 12.0), Part("Water", 38.0))
    assert painted.liquor("B").depths == ()
    assert painted.section("s2").fixed_ml == 50.0
    shared = paint_amounts(PLAN, "s1", {"D": 10.0, "AW": 40.0})
    assert section_figures(shared).liquid_ml.tolist() == pytest.approx([50.0, 50.0, 100.0])
    assert shared.section("s3").fixed_ml is None
    assert section_figures(shared).amounts_ml[2].tolist() == pytest.approx([20.0, 0.0, 80.0, 0.0])


@pytest.mark.parametrize("amounts", [{}, {"D": 0.0}, {"D": nan}])
def test_nothing_typed_paints_nothing(amounts: dict[str, float]) -> None:
    with pytest.raises(EditRefused, match="nothing-typed"):
        paint_amounts(PLAN, "s1", amounts)


@pytest.mark.parametrize(
    ("amounts", "code"),
    [({"D": -1.0, "AW": 5.0}, "out-of-range"), ({"Z": 5.0}, "unknown-stock"), ({"D": 2e6}, "out-of-range")],
)
def test_amounts_that_cannot_be_are_refused(amounts: dict[str, float], code: str) -> None:
    with pytest.raises(InvalidPlan, match=code):
        paint_amounts(PLAN, "s1", amounts)


def test_parts_leave_volumes_alone() -> None:
    changed = set_parts(PLAN, "A", {"D": 1.0, "AW": 1.0})
    assert section_figures(changed).liquid_ml.tolist() == section_figures(PLAN).liquid_ml.tolist()
    assert depths(changed)[0][0] == pytest.approx(1.0)


def test_a_new_liquor_gets_the_next_letter_and_the_basis_of_what_is_in_it() -> None:
    plan, first = add_liquor(PLAN, "Pale", parts=(Part("AW", 1.0),))
    plan, second = add_liquor(plan, "Deep", parts=(Part("AW", 1.0),), depths=(DyeDepth("E", 1.0),))
    assert [plan.liquor(one).letter for one in (first, second)] == ["C", "D"]
    assert [plan.liquor(one).basis for one in (first, second)] == ["parts", "depth"]


def test_an_unknown_liquor_is_not_replaced() -> None:
    with pytest.raises(InvalidPlan, match="unknown-liquor"):
        replace_liquor(PLAN, by_parts("Z", {}))


def test_a_section_gets_a_liquor_of_its_own_only_where_it_shares_one() -> None:
    own = own_liquor(PLAN, "s3")
    assert own.section("s3").liquor_id not in {"A", "B"}
    assert own.section("s1").liquor_id == "A"
    assert own.liquor(own.section("s3").liquor_id).parts == PLAN.liquor("A").parts
    assert own_liquor(PLAN, "s2") is PLAN


def test_only_an_unused_liquor_is_removed() -> None:
    with pytest.raises(EditRefused, match="liquor-in-use") as refusal:
        remove_liquor(PLAN, "A")
    assert refusal.value.params["count"] == 2
    plan, extra = add_liquor(PLAN, "Extra")
    assert remove_liquor(plan, extra) == PLAN


def test_depths_keep_the_liquors_let_downs_or_take_the_named_one_or_the_first() -> None:
    assert set_depths(PLAN, "A", {"E": 0.3}).liquor("A").parts == (Part("AW", 38.0),)
    assert set_depths(PLAN, "A", {"E": 0.3}, "Water").liquor("A").parts == (Part("Water", 1.0),)
    neat = set_parts(PLAN, "A", {"D": 1.0})
    assert set_depths(neat, "A", {"E": 0.3}).liquor("A").parts == (Part("AW", 1.0),)
    assert depths(set_depths(PLAN, "A", {"E": 0.3}))[2] == pytest.approx([0.0, 0.3])


def test_depth_needs_something_to_fill_the_jar_with() -> None:
    dry = laid([("A", 1.0)], [dye("D")], [by_parts("A", {"D": 1.0})])
    with pytest.raises(EditRefused, match="no-let-down"):
        set_depths(dry, "A", {"D": 0.3})


def test_a_depth_out_of_reach_in_any_section_is_refused_and_one_just_reached_is_not() -> None:
    assert depths(set_depths(PLAN, "A", {"D": 2.0}))[0][0] == pytest.approx(2.0)
    drier = change_section(PLAN, "s3", fixed_ml=50.0)
    with pytest.raises(EditRefused, match="depth-unreachable") as refusal:
        set_depths(drier, "A", {"D": 1.5, "E": 0.1})
    told = refusal.value.params
    assert told["section_id"] == "s3"
    assert told["needed_ml"] == pytest.approx(80.0)
    assert told["liquid_ml"] == pytest.approx(50.0)
    assert told["reach_pct_owf"] == pytest.approx(1.0)
    assert told["needed_strength_g_per_l"] == pytest.approx(10.0 * 75.0 / 45.0)


def test_to_depth_and_back_the_shade_stays() -> None:
    by_depths = to_depth_basis(PLAN, "A")
    assert by_depths.liquor("A").basis == "depth"
    assert depths(by_depths) == [pytest.approx(row) for row in depths(PLAN)]
    back = to_parts_basis(by_depths, "A")
    assert back.liquor("A").basis == "parts"
    assert depths(back) == [pytest.approx(row) for row in depths(PLAN)]
    assert [part.stock_id for part in back.liquor("A").parts] == ["D", "AW"]


def test_one_liquor_at_two_uptakes_gets_their_mean_depth_by_weight() -> None:
    uneven = change_section(PLAN, "s3", fixed_ml=50.0)
    mean = (0.48 * 25.0 + 0.24 * 50.0) / 75.0
    (depth,) = to_depth_basis(uneven, "A").liquor("A").depths
    assert depth.depth_pct_owf == pytest.approx(mean)


def test_a_liquor_nobody_paints_has_no_depth_and_no_jar_yet() -> None:
    plan, extra = add_liquor(PLAN, "Extra", parts=(Part("D", 1.0), Part("AW", 1.0)))
    assert to_depth_basis(plan, extra).liquor(extra).depths == (DyeDepth("D", 0.0),)
    with pytest.raises(EditRefused, match="liquor-not-painted"):
        to_parts_basis(plan, extra)


def test_parts_taken_from_a_jar_leave_the_acid_line_out() -> None:
    lined = replace(add_stock(PLAN, let_down("Citric", 200.0)), acid_line=AcidLine("Citric", 15.0))
    parts = to_parts_basis(lined, "B")
    assert [part.stock_id for part in parts.liquor("B").parts] == ["D", "AW"]
    before, after = section_figures(lined).amounts_ml, section_figures(parts).amounts_ml
    assert after.tolist() == [pytest.approx(row) for row in before.tolist()]
