"""If these fail, cutting and joining sections spills or makes liquid."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.boundaries import lengths_m, set_gap
from studio_gui.domain.edits.sections import (
    change_section,
    duplicate,
    follow_fibre,
    merge,
    paint_per_gram,
    split,
)
from studio_gui.domain.edits.sections import set_locked as lock
from studio_gui.domain.errors import EditRefused, InvalidPlan, RovingLayError
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import Plan
from tests.scenes.scene_plans import by_parts, dye, laid, let_down
from tests.strategies import plans

PLAN = laid(
    [("A", 1.0), ("B", 1.0), ("A", 2.0)],
    [dye("D"), let_down("AW")],
    [by_parts("A", {"D": 12.0, "AW": 38.0}), by_parts("B", {"D": 1.0})],
)


def liquid_ml(plan: Plan) -> list[float]:
    return [float(amount) for amount in section_figures(plan).liquid_ml]


def test_a_cut_shares_liquid_by_weight_and_keeps_the_liquor() -> None:
    wet = change_section(PLAN, "s3", fixed_ml=80.0, wiped_ml=4.0, second_pass_ml=8.0)
    cut = split(wet, 2, 2.5)
    assert lengths_m(cut) == pytest.approx((1.0, 1.0, 0.5, 1.5))
    first, second = cut.sections[2:]
    assert (first.id, second.id) == ("s3", "s4")
    assert (first.liquor_id, second.liquor_id) == ("A", "A")
    assert [first.fixed_ml, second.fixed_ml] == pytest.approx([20.0, 60.0])
    assert (first.wiped_ml, second.wiped_ml) == pytest.approx((1.0, 3.0))
    assert (first.second_pass_ml, second.second_pass_ml) == pytest.approx((2.0, 6.0))


def test_liquid_by_the_gram_is_fixed_at_so_many_ml() -> None:
    # 2 m of 25 g/m are 50 g
    assert paint_per_gram(PLAN, "s3", 1.4).sections[2].fixed_ml == pytest.approx(70.0)
    with pytest.raises(InvalidPlan, match="out-of-range"):
        paint_per_gram(PLAN, "s3", 40.5)


def test_liquid_follows_the_fibre_again_where_it_is_named() -> None:
    fixed = change_section(change_section(PLAN, "s1", fixed_ml=9.0), "s3", fixed_ml=80.0)
    plan = follow_fibre(fixed, ["s3", "s2"])
    assert [section.fixed_ml for section in plan.sections] == [9.0, None, None]


def test_a_cut_leaves_the_gaps_on_both_sides() -> None:
    cut = split(set_gap(set_gap(PLAN, 0, 0.1), 1, 0.2), 1, 1.5)
    assert [boundary.gap_m for boundary in cut.boundaries] == [0.1, 0.0, 0.2]


@pytest.mark.parametrize("place", [0.5, 1.0, 1.0505, 1.9, 3.0, -1.0, float("nan")])
def test_a_cut_that_leaves_nearly_nothing_is_refused_with_the_range(place: float) -> None:
    gapped = set_gap(set_gap(PLAN, 0, 0.1), 1, 0.2)
    with pytest.raises(EditRefused, match="boundary-out-of-range") as refusal:
        split(gapped, 1, place)
    assert refusal.value.params["low_m"] == pytest.approx(1.051)
    assert refusal.value.params["high_m"] == pytest.approx(1.899)


def test_what_is_locked_is_not_cut_joined_or_doubled() -> None:
    locked = lock(PLAN, ["s2"], True)
    with pytest.raises(EditRefused, match="section-locked"):
        split(locked, 1, 1.5)
    with pytest.raises(EditRefused, match="section-locked"):
        merge(locked, 0, 1)
    with pytest.raises(EditRefused, match="section-locked"):
        duplicate(locked, 0)
    assert lock(locked, ["s2"], False) == PLAN


def test_locking_an_unknown_section_is_refused() -> None:
    with pytest.raises(InvalidPlan, match="unknown-section"):
        lock(PLAN, ["s2", "s9"], True)
    with pytest.raises(InvalidPlan, match="unknown-section"):
        change_section(PLAN, "s9", locked=True)


def test_joined_sections_follow_the_fibre_if_all_did() -> None:
    joined = merge(PLAN, 0, 2)
    assert (joined.sections[0].id, joined.sections[0].fixed_ml) == ("s1", None)
    assert sum(liquid_ml(joined)) == pytest.approx(sum(liquid_ml(PLAN)))


def test_joined_sections_keep_their_liquid_if_any_was_fixed() -> None:
    wet = change_section(PLAN, "s2", fixed_ml=80.0, wiped_ml=5.0, second_pass_ml=10.0)
    joined = merge(change_section(wet, "s1", wiped_ml=1.0), 0, 1, keep=1)
    assert joined.sections[0].id == "s2"
    assert joined.sections[0].liquor_id == "B"
    assert joined.sections[0].fixed_ml == pytest.approx(62.5 + 80.0)
    assert joined.sections[0].wiped_ml == pytest.approx(6.0)
    assert joined.sections[0].second_pass_ml == pytest.approx(10.0)


@pytest.mark.parametrize(("first", "last"), [(1, 1), (2, 1), (-1, 1), (1, 3)])
def test_less_than_a_run_of_two_is_not_joined(first: int, last: int) -> None:
    with pytest.raises(EditRefused, match="nothing-to-merge"):
        merge(PLAN, first, last)


def test_a_double_stands_beside_its_original_and_all_make_room() -> None:
    doubled = duplicate(set_gap(set_gap(PLAN, 0, 0.1), 1, 0.2), 1)
    assert [section.id for section in doubled.sections] == ["s1", "s2", "s4", "s3"]
    assert lengths_m(doubled) == pytest.approx((0.8, 0.8, 0.8, 1.6))
    assert [boundary.gap_m for boundary in doubled.boundaries] == [0.1, 0.0, 0.2]


@given(plans(), st.data())
def test_cut_and_joined_again_a_section_is_what_it_was(plan: Plan, data: st.DataObject) -> None:
    plan = lock(plan, [section.id for section in plan.sections], False)
    index = data.draw(st.integers(0, len(plan.sections) - 1))
    start_m, end_m = plan.edges_m[index : index + 2]
    place = start_m + (end_m - start_m) * data.draw(st.floats(0.0, 1.0))
    try:
        cut = split(plan, index, place)
    except RovingLayError:
        return
    assert sum(liquid_ml(cut)) == pytest.approx(sum(liquid_ml(plan)), rel=1e-9, abs=1e-9)
    again = merge(cut, index, index + 1)
    assert again.edges_m == plan.edges_m
    assert [section.id for section in again.sections] == [section.id for section in plan.sections]
    assert liquid_ml(again) == pytest.approx(liquid_ml(plan), rel=1e-9, abs=1e-9)
    old, new = plan.sections[index], again.sections[index]
    assert (new.wiped_ml, new.second_pass_ml) == pytest.approx((old.wiped_ml, old.second_pass_ml))
