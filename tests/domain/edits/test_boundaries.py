"""If these fail, a moved boundary tears the lay, moves what is locked, or stops short of its limits."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.boundaries import (
    Drag,
    at_lengths,
    boundary_range,
    equalise,
    gap_range,
    is_locked,
    lengths_m,
    move_boundary,
    rescaled,
    reverse,
    set_gap,
    set_section_length,
)
from studio_gui.domain.edits.sections import set_locked
from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.plan import SHORTEST_SECTION_M, Plan
from studio_gui.domain.sections import Boundary
from tests.scenes.scene_plans import by_parts, dye, laid
from tests.strategies import plans


def four(*locked: str) -> Plan:
    """Four sections of 1 m, the named ones locked."""
    plan = laid([("A", 1.0)] * 4, [dye("D")], [by_parts("A", {"D": 1.0})])
    return set_locked(plan, locked, True)


def refused(code: str) -> pytest.RaisesExc[EditRefused]:
    return pytest.raises(EditRefused, match=f"^{code}")


def test_a_plain_drag_trades_between_neighbours() -> None:
    assert lengths_m(move_boundary(four(), 1, 2.5)) == pytest.approx((1.0, 1.5, 0.5, 1.0))


def test_shift_moves_all_that_follows() -> None:
    assert lengths_m(move_boundary(four(), 1, 2.5, "shift")) == pytest.approx((1.0, 1.5, 1.0, 0.5))


@pytest.mark.parametrize(
    ("index", "drag", "low", "high"),
    [(0, "trade", 0.0, 2.0), (1, "trade", 1.0, 3.0), (1, "shift", 1.0, 3.0), (0, "shift", 0.0, 2.0)],
)
def test_a_boundary_goes_as_far_as_the_shortest_section(
    index: int, drag: Drag, low: float, high: float
) -> None:
    least = SHORTEST_SECTION_M
    assert boundary_range(four(), index, drag) == pytest.approx((low + least, high - least))


def test_gaps_take_their_room_from_the_range() -> None:
    gapped = set_gap(set_gap(four(), 0, 0.2), 1, 0.1)
    low, high = boundary_range(gapped, 1)
    assert low == pytest.approx(1.0 + 0.1 + 0.05 + SHORTEST_SECTION_M)
    assert high == pytest.approx(3.0 - 0.05 - SHORTEST_SECTION_M)
    overlapping = set_gap(four(), 1, -0.4)
    assert boundary_range(overlapping, 1) == boundary_range(four(), 1)


def test_a_gap_wider_than_its_neighbours_is_refused() -> None:
    with pytest.raises(InvalidPlan, match="section-too-short"):
        set_gap(move_boundary(four(), 0, 0.3), 0, 0.7)
    assert set_gap(four(), 2, -0.3).boundaries[2].gap_m == -0.3


@pytest.mark.parametrize("place", [0.5, 3.5, -1.0, 99.0, math.nan])
def test_beyond_its_range_a_boundary_is_refused_with_the_range(place: float) -> None:
    with refused("boundary-out-of-range") as refusal:
        move_boundary(four(), 1, place)
    assert refusal.value.params["low_m"] == pytest.approx(1.001)
    assert refusal.value.params["high_m"] == pytest.approx(2.999)


def test_boundaries_of_a_locked_section_stay() -> None:
    plan = four("s3")
    assert [is_locked(plan, index) for index in range(3)] == [False, True, True]
    for index in (1, 2):
        with refused("boundary-locked") as refusal:
            move_boundary(plan, index, 2.1)
        assert refusal.value.params["section_id"] == "s3"
    with refused("boundary-locked"):
        move_boundary(plan, 0, 1.1, "shift")
    assert move_boundary(plan, 0, 1.1).boundaries[0].position_m == 1.1


def test_a_length_is_set_by_the_end_and_of_the_last_section_by_the_start() -> None:
    assert lengths_m(set_section_length(four(), 1, 1.4)) == pytest.approx((1.0, 1.4, 0.6, 1.0))
    assert lengths_m(set_section_length(four(), 1, 1.4, "shift")) == pytest.approx((1.0, 1.4, 1.0, 0.6))
    assert lengths_m(set_section_length(four(), 3, 1.4, "shift")) == pytest.approx((1.0, 1.0, 0.6, 1.4))


def test_the_whole_lay_has_no_boundary_to_set_its_length_by() -> None:
    whole = laid([("A", 1.0)], [dye("D")], [by_parts("A", {"D": 1.0})])
    with refused("only-section"):
        set_section_length(whole, 0, 0.5)


def test_equal_lengths_between_outer_edges() -> None:
    plan = move_boundary(move_boundary(four(), 0, 0.2), 2, 3.8)
    assert lengths_m(equalise(plan, 0, 1)) == pytest.approx((1.0, 1.0, 1.8, 0.2))
    assert lengths_m(equalise(plan, 0, 3)) == pytest.approx((1.0, 1.0, 1.0, 1.0))
    assert equalise(plan, 2, 2) == plan
    with refused("boundary-locked"):
        equalise(four("s2"), 0, 3)


def test_reversed_sections_keep_their_lengths_and_gaps() -> None:
    plan = set_gap(move_boundary(four(), 0, 0.2), 0, 0.1)
    turned = reverse(plan)
    assert [section.id for section in turned.sections] == ["s4", "s3", "s2", "s1"]
    assert lengths_m(turned) == pytest.approx((1.0, 1.0, 1.8, 0.2))
    assert [boundary.gap_m for boundary in turned.boundaries] == [0.0, 0.0, 0.1]
    with refused("section-locked"):
        reverse(four("s1"))


def test_a_new_length_scales_what_is_behind_the_last_locked_place() -> None:
    assert rescaled(four(), 8.0) == pytest.approx((2.0, 4.0, 6.0))
    assert rescaled(four("s1"), 7.0) == pytest.approx((1.0, 3.0, 5.0))
    assert rescaled(four("s2"), 6.0) == pytest.approx((1.0, 2.0, 4.0))


def test_what_is_before_a_locked_place_does_not_move_by_a_hair() -> None:
    odd = tuple(Boundary(place) for place in (0.1 + 0.2, 0.7 + 0.1, 1.1 + 2.2))
    plan = replace(four("s3"), boundaries=odd)
    assert rescaled(plan, 7.77) == tuple(boundary.position_m for boundary in odd)


def test_a_length_that_locked_sections_forbid_is_refused() -> None:
    with refused("length-pinned"):
        rescaled(four("s4"), 5.0)
    with refused("length-too-short"):
        rescaled(four("s3"), 3.0)
    assert rescaled(four("s4"), 4.0) == (1.0, 2.0, 3.0)  # nothing to do


def test_typed_lengths_share_the_lay() -> None:
    assert lengths_m(at_lengths(four(), (1.0, 2.0, 3.0, 2.0))) == pytest.approx((0.5, 1.0, 1.5, 1.0))
    kept = at_lengths(four("s1"), (1.0, 0.5, 1.5, 1.0))
    assert lengths_m(kept) == pytest.approx((1.0, 0.5, 1.5, 1.0))
    assert kept.boundaries[0] == four("s1").boundaries[0]
    with refused("boundary-locked"):
        at_lengths(four("s1"), (1.1, 0.9, 1.0, 1.0))
    with refused("lengths-do-not-match"):
        at_lengths(four(), (1.0, 3.0))


@pytest.mark.parametrize("length_m", [0.0, 0.0005, -1.0, math.nan])
def test_a_typed_length_no_section_may_have_is_refused(length_m: float) -> None:
    with pytest.raises(InvalidPlan):
        at_lengths(four(), (length_m,) * 4)


def test_a_single_length_of_nothing_is_refused_too() -> None:
    whole = laid([("A", 1.0)], [dye("D")], [by_parts("A", {"D": 1.0})])
    with pytest.raises(InvalidPlan, match="section-too-short"):
        at_lengths(whole, (0.0,))


@given(plans().filter(lambda plan: len(plan.boundaries) > 0), st.data())
def test_every_place_in_range_can_be_taken_and_none_a_millimetre_beyond(
    plan: Plan, data: st.DataObject
) -> None:
    plan = replace(plan, sections=tuple(replace(section, locked=False) for section in plan.sections))
    index = data.draw(st.integers(0, len(plan.boundaries) - 1))
    drag: Drag = data.draw(st.sampled_from(("trade", "shift")))
    low, high = boundary_range(plan, index, drag)
    for place in (low, high, data.draw(st.floats(low, high))):
        assert move_boundary(plan, index, place, drag).boundaries[index].position_m == place
    for place in (low - 0.001, high + 0.001):
        with pytest.raises(EditRefused, match="boundary-out-of-range"):
            move_boundary(plan, index, place, drag)


@given(plans(), st.data())
def test_any_gap_in_range_fits_and_a_wider_one_does_not(plan: Plan, data: st.DataObject) -> None:
    if not plan.boundaries:
        return
    index = data.draw(st.integers(0, len(plan.boundaries) - 1))
    low, high = gap_range(plan, index)
    assert low <= plan.boundaries[index].gap_m <= high
    set_gap(plan, index, low)
    set_gap(plan, index, high)
    with pytest.raises(InvalidPlan):
        set_gap(plan, index, high + 0.001)
