"""If these fail, a pasted list of lengths paints other lengths than it says, or moves what is locked."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.boundaries import lengths_m, set_gap
from studio_gui.domain.edits.lengths import fill_factor, run_at_lengths, run_for, sections_from_lengths
from studio_gui.domain.edits.sections import change_section, set_locked
from studio_gui.domain.errors import EditRefused, InvalidPlan, RovingLayError
from studio_gui.domain.plan import Plan
from tests.drawing.plans import plain_plan

PLAN = plain_plan(4)
LISTS = st.lists(st.floats(0.5, 2.0), min_size=1, max_size=12)


def code(edit: type[RovingLayError], plan: Plan, first: int, last: int, given_m: list[float]) -> str:
    with pytest.raises(edit) as refused:
        run_at_lengths(plan, first, last, given_m)
    return refused.value.code


def test_a_list_fills_the_lay_in_its_proportions() -> None:
    assert lengths_m(run_at_lengths(PLAN, 0, 3, [0.5, 1.0, 2.0, 0.5])) == pytest.approx((0.5, 1.0, 2.0, 0.5))
    assert fill_factor(PLAN, 0, 3, [0.5, 1.0, 2.0, 0.5]) == pytest.approx(1.0)
    assert lengths_m(run_at_lengths(PLAN, 0, 3, [1.0, 2.0, 4.0, 1.0])) == pytest.approx((0.5, 1.0, 2.0, 0.5))
    assert fill_factor(PLAN, 0, 3, [1.0, 2.0, 4.0, 1.0]) == pytest.approx(0.5)


def test_a_list_for_a_run_leaves_the_others_where_they_are() -> None:
    plan = run_at_lengths(PLAN, 1, 2, [0.3, 0.9])
    assert plan.edges_m == pytest.approx((0.0, 1.0, 1.5, 3.0, 4.0))
    assert (plan.edges_m[1], plan.edges_m[3]) == (1.0, 3.0)
    assert fill_factor(PLAN, 1, 2, [0.3, 0.9]) == pytest.approx(2.0 / 1.2)


def test_locked_sections_outside_the_run_are_no_hindrance_and_inside_they_are() -> None:
    assert run_at_lengths(set_locked(PLAN, ["s4"], True), 0, 2, [1.0, 0.5, 1.5]).edges_m[3] == 3.0
    assert code(EditRefused, set_locked(PLAN, ["s2"], True), 0, 2, [1.0, 0.5, 1.5]) == "boundary-locked"


@pytest.mark.parametrize(
    ("chosen", "count", "run"),
    [
        ([1, 2], 2, (1, 2)),
        ([1, 2], 4, (0, 3)),
        ([2], 1, (2, 2)),
        ([], 4, (0, 3)),
        ([0, 2], 2, None),
        ([1, 2], 3, None),
        ([], 0, None),
    ],
)
def test_a_list_is_for_the_chosen_run_or_for_all(
    chosen: list[int], count: int, run: tuple[int, int] | None
) -> None:
    assert run_for(PLAN, chosen, count) == run


def test_what_is_no_list_for_the_run_is_refused() -> None:
    assert code(EditRefused, PLAN, 0, 3, [1.0]) == "lengths-do-not-match"
    assert code(InvalidPlan, PLAN, 0, 1, [1.0, 0.0]) == "section-too-short"
    assert code(InvalidPlan, PLAN, 0, 1, [1.0, 501.0]) == "out-of-range"


def test_more_lengths_begin_the_colours_anew() -> None:
    plan = sections_from_lengths(change_section(PLAN, "s1", fixed_ml=30.0), [1.0] * 6)
    assert [section.liquor_id for section in plan.sections] == ["q1", "q2", "q3", "q1", "q1", "q2"]
    assert [section.fixed_ml for section in plan.sections] == [30.0, None, None, None, None, None]
    assert len({section.id for section in plan.sections}) == 6
    assert lengths_m(plan) == pytest.approx([4.0 / 6.0] * 6)


def test_fewer_lengths_keep_the_first_sections_and_their_gaps() -> None:
    plan = sections_from_lengths(set_gap(set_gap(PLAN, 0, 0.02), 2, -0.03), [0.1, 0.3])
    assert [section.id for section in plan.sections] == ["s1", "s2"]
    assert [(round(b.position_m, 9), b.gap_m) for b in plan.boundaries] == [(1.0, 0.02)]


def test_sections_are_not_made_from_nothing_nor_past_what_a_plan_holds() -> None:
    with pytest.raises(EditRefused, match="lengths-do-not-match"):
        sections_from_lengths(PLAN, [])
    with pytest.raises(RovingLayError) as refused:
        sections_from_lengths(PLAN, [0.1] * 2001)
    assert refused.value.code == "too-many"
    with pytest.raises(EditRefused, match="section-locked"):
        sections_from_lengths(set_locked(PLAN, ["s3"], True), [1.0, 1.0])


@given(LISTS)
def test_any_list_covers_the_lay_in_its_proportions(given_m: list[float]) -> None:
    plan = sections_from_lengths(PLAN, given_m)
    lengths = lengths_m(plan)
    assert sum(lengths) == pytest.approx(PLAN.lay_length_m)
    for (a, b), (wanted_a, wanted_b) in zip(pairwise(lengths), pairwise(given_m), strict=True):
        assert a * wanted_b == pytest.approx(b * wanted_a)


@given(LISTS)
def test_a_list_of_the_lay_s_own_lengths_changes_nothing(given_m: list[float]) -> None:
    plan = sections_from_lengths(PLAN, given_m)
    again = run_at_lengths(plan, 0, len(plan.sections) - 1, lengths_m(plan))
    assert again.edges_m == pytest.approx(plan.edges_m, abs=1e-9)
