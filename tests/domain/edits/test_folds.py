"""If these fail, a dragged fold takes paint along, tears a leg, or gives the roving another length."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.edits.folds import SHORTEST_LEG_M, fold_place_m, fold_range, move_fold, start_m
from studio_gui.domain.edits.inputs import fold_by_weight, set_lay, set_passes
from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.geometry import legs
from studio_gui.domain.plan import Plan
from tests.drawing.plans import plain_plan
from tests.strategies import plans


def folded(passes: int = 2) -> Plan:
    """Four metres, four sections."""
    return plain_plan(4, passes=passes)


def test_a_fold_that_slips_four_centimetres_makes_unequal_legs() -> None:
    # two legs of 2 m, as in the scene of the slipped fold: 204 and 196 cm
    moved = move_fold(folded(), 0, 2.04)
    assert moved.lay.fold_positions_m == pytest.approx((2.04,))
    assert moved.lay_length_m == pytest.approx(2.04)
    assert start_m(moved) == 0.0
    assert [one.position_m for one in moved.boundaries] == [one.position_m for one in folded().boundaries]


def test_a_fold_pulled_in_lets_the_far_end_reach_out_and_leaves_the_paint_on_the_film() -> None:
    moved = move_fold(folded(), 0, 1.96)
    assert moved.lay_length_m == pytest.approx(2.04)
    assert start_m(moved) == pytest.approx(0.08)
    from_start = [one.position_m - start_m(moved) for one in moved.boundaries]
    assert from_start == pytest.approx([one.position_m for one in folded().boundaries])


@pytest.mark.parametrize("index", [0, 1, 2])
def test_other_folds_stay_where_they_lie_on_the_film(index: int) -> None:
    plan = folded(4)
    place = fold_place_m(plan, index)
    moved = move_fold(plan, index, place + (0.05 if index % 2 == 0 else -0.02))
    for other in {0, 1, 2} - {index}:
        on_film = fold_place_m(moved, other) - start_m(moved)
        assert on_film == pytest.approx(fold_place_m(plan, other) - start_m(plan))


def test_a_fold_goes_as_far_as_the_shortest_leg() -> None:
    low, high = fold_range(folded(), 0)
    assert (low, high) == pytest.approx((SHORTEST_LEG_M, 4.0 - SHORTEST_LEG_M))
    with pytest.raises(EditRefused, match="fold-out-of-range"):
        move_fold(folded(), 0, high + 0.01)
    with pytest.raises(InvalidPlan, match="section-too-short"):
        move_fold(folded(), 0, low)  # the last boundaries would lie beyond the fold


def test_the_far_end_may_not_reach_back_over_the_first_boundary() -> None:
    # fold 1 lies on the left; pulled far inwards the start moves right of nothing, but outwards it would
    plan = folded(3)
    low, _ = fold_range(plan, 1)
    moved = move_fold(plan, 1, max(low, -0.1))
    assert start_m(moved) > 0.0


def test_legs_laid_by_weight_lie_by_length_once_a_fold_was_taken() -> None:
    moved = move_fold(fold_by_weight(folded()), 0, 2.01)
    assert moved.lay.matching == "by length"


@given(plans(), st.data())
def test_the_roving_keeps_its_length_and_every_leg_is_left(plan: Plan, data: st.DataObject) -> None:
    share = data.draw(st.floats(0.0, 1.0))
    try:
        plan = plan if plan.lay.passes > 1 else set_passes(plan, 2)
        index = data.draw(st.integers(0, plan.lay.passes - 2))
        low, high = fold_range(plan, index)
        moved = move_fold(plan, index, low + share * (high - low))
    except (EditRefused, InvalidPlan):
        return  # something locked, or no room left for a section
    runs = legs(moved.fibre, moved.lay)
    assert runs[0].strip_from_m == 0.0
    assert runs[-1].strip_to_m == plan.fibre.length_m
    assert all(leg.strip_to_m - leg.strip_from_m > 0.0 for leg in runs)
    assert min(leg.lay_low_m for leg in runs) == pytest.approx(0.0, abs=1e-9)


def test_a_fold_pulled_out_may_not_leave_the_first_boundary_before_the_lay() -> None:
    plan = set_lay(set_passes(plain_plan(4), 2), fold_positions_m=(1.0,))
    assert start_m(plan) == pytest.approx(2.0)
    short = move_boundary(plan, 0, 0.1)
    with pytest.raises(InvalidPlan, match="section-too-short"):
        move_fold(short, 0, fold_place_m(short, 0) + 1.0)
