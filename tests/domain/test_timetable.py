"""If these fail, a step starts before the one before it has ended."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.inputs import set_timetable
from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.timetable import STEPS, Timetable, timed_steps


def test_the_usual_steaming_is_45_minutes_and_the_usual_cooling_12_hours() -> None:
    assert (Timetable().steam_min, Timetable().cool_min, Timetable().start_min) == (45.0, 720.0, None)


@given(st.lists(st.floats(0.0, 20_160.0), min_size=7, max_size=7), st.none() | st.floats(0.0, 1439.0))
def test_steps_follow_one_another_and_take_what_they_take(
    minutes: list[float], start_min: float | None
) -> None:
    plan = set_timetable(new_plan(), **dict(zip((f"{step}_min" for step in STEPS), minutes, strict=True)))
    steps = timed_steps(set_timetable(plan, start_min=start_min).timetable)
    assert tuple(one.step for one in steps) == STEPS
    assert steps[0].begins_min == (start_min or 0.0)
    for one, after in pairwise(steps):
        assert one.ends_min == after.begins_min
    assert [one.minutes for one in steps] == pytest.approx(minutes, abs=1e-9)


@pytest.mark.parametrize("name", [*(f"{step}_min" for step in STEPS), "start_min"])
def test_times_that_no_work_takes_are_refused(name: str) -> None:
    with pytest.raises(InvalidPlan, match="out-of-range"):
        set_timetable(new_plan(), **{name: -1.0})


def test_a_start_can_be_given_and_taken_back() -> None:
    plan = set_timetable(new_plan(), start_min=540.0, steam_min=60.0)
    assert plan.timetable == Timetable(steam_min=60.0, start_min=540.0)
    assert set_timetable(plan, start_min=None).timetable.start_min is None
