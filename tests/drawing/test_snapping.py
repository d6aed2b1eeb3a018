"""If these fail, a dragged thing rests where nothing draws it, or does not find back to where it was."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.edits.folds import move_fold
from studio_gui.domain.edits.inputs import set_fibre
from studio_gui.domain.edits.sections import set_locked
from studio_gui.domain.fibre import MassMark
from studio_gui.domain.yarn import Knitting, Stripe, Yarn
from studio_gui.drawing.snapping import SnapMark, at_rest, boundary_marks, fold_marks, guide_words
from tests.drawing.plans import plain_plan

places = st.floats(0.0, 4.0)


@given(places, places, st.lists(places, max_size=6), st.sampled_from([0.001, 0.01, 0.05]))
def test_it_rests_on_a_mark_a_tick_or_where_it_was(
    wanted: float, origin: float, marks: list[float], tick: float
) -> None:
    reach = 0.02
    rest = at_rest(wanted, origin, [SnapMark(place, "mirror") for place in marks], reach, tick)
    if rest.mark is not None:
        assert rest.place_m == rest.mark.place_m
        assert abs(rest.place_m - wanted) <= reach
        assert abs(rest.place_m - wanted) == min(abs(place - wanted) for place in marks)
    elif rest.place_m != origin:
        assert rest.place_m / tick == pytest.approx(round(rest.place_m / tick), abs=1e-6)
        assert abs(rest.place_m - wanted) <= tick / 2.0 + 1e-9


@given(places, st.lists(places, max_size=6))
def test_back_where_it_was_is_where_it_was(origin: float, marks: list[float]) -> None:
    rest = at_rest(origin, origin, [SnapMark(place, "mirror") for place in marks], 0.02, 0.01)
    assert rest.place_m == origin


def test_a_boundary_is_drawn_to_the_mirror_of_another() -> None:
    plan = move_boundary(plain_plan(4), 0, 0.7)
    mirrors = {
        mark.place_m: mark.other_m for mark in boundary_marks(plan, 2, "trade") if mark.reason == "mirror"
    }
    assert mirrors == pytest.approx({3.3: 0.7, 2.0: 2.0})
    mark = next(one for one in boundary_marks(plan, 2, "trade") if one.other_m == 0.7)
    assert guide_words(mark, plan) == "mirrors A | B"


def test_what_follows_on_a_shift_draws_nothing() -> None:
    marks = boundary_marks(plain_plan(4), 0, "shift")
    assert {mark.reason for mark in marks} == {"middle"}


def test_a_boundary_is_drawn_to_halves_and_to_the_end_of_a_shorter_leg() -> None:
    plan = move_fold(plain_plan(4, passes=2), 0, 2.04)
    marks = {mark.reason: mark.place_m for mark in boundary_marks(plan, 0, "trade")}
    assert marks["halves"] == pytest.approx(0.5)
    assert marks["leg end"] == pytest.approx(0.08)
    assert all(guide_words(mark, plan) for mark in boundary_marks(plan, 0, "trade"))


def test_a_boundary_is_drawn_to_where_wanted_stripes_meet_and_to_where_the_last_ends() -> None:
    # 100 g over 4 m, 1,000 m of singles: 250 rows of 1 m are 1 m of roving
    stripes = (Stripe("q1", 250.0), Stripe("q3", 100.0), Stripe("q2", 150.0))
    yarn = Yarn(structure="single", knitting=Knitting(row_m=1.0), stripes=stripes)
    plan = replace(plain_plan(4), yarn=yarn)
    marks = [mark for mark in boundary_marks(plan, 0, "shift") if mark.reason == "stripe"]
    assert [mark.place_m for mark in marks] == pytest.approx([1.0, 1.4, 2.0])
    assert [guide_words(mark, plan) for mark in marks] == [
        "stripes A | C",
        "stripes C | B",
        "end of the last stripe, B",
    ]
    mirrored = replace(plan, yarn=replace(yarn, structure="both ends", take_up=0.0, stripes=stripes[:2]))
    words = [guide_words(mark, mirrored) for mark in boundary_marks(mirrored, 0, "trade")]
    last = "end of the last stripe, C"
    assert words[:4] == ["stripes A | C", last, last, "stripes C | A"]


def test_a_fold_is_drawn_to_equal_legs_and_equal_weights() -> None:
    even = plain_plan(4, passes=2)
    slipped = move_fold(even, 0, 2.04)
    (equal,) = fold_marks(slipped, 0)
    assert equal.reason == "equal legs"
    assert equal.place_m == pytest.approx(2.0)
    uneven = set_fibre(even, mass_marks=(MassMark(0.5, 0.52),))
    by_weight = {mark.reason: mark.place_m for mark in fold_marks(uneven, 0)}
    # 52 g lie on the first 2 m at 26 g/m: 50 g at 50/26 m
    assert by_weight["equal weight"] == pytest.approx(50.0 / 26.0)
    assert all(guide_words(mark, uneven) for mark in fold_marks(uneven, 0))


def test_what_is_locked_leaves_a_fold_without_marks() -> None:
    plan = set_locked(move_fold(plain_plan(4, passes=2), 0, 2.04), ("s4",), True)
    assert fold_marks(plan, 0) == ()
