"""If these fail, a plan can hold a number that is none, or one that no bench has."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.ranges import RANGES, checked, exceeds


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, "3", None, True, 10**400, 1j, [1.0]])
def test_what_is_no_number_is_refused_as_such(value: object) -> None:
    with pytest.raises(InvalidPlan) as refusal:
        checked("mass_g", value)
    assert refusal.value.code == "not-a-number"
    assert refusal.value.params["field"] == "mass_g"


@pytest.mark.parametrize("name", [name for name, bounds in RANGES.items() if not bounds.low_excluded])
def test_both_ends_of_a_range_are_in_it_and_what_is_beyond_is_refused_with_the_range(name: str) -> None:
    bounds = RANGES[name]
    assert checked(name, bounds.low) == bounds.low
    assert checked(name, bounds.high) == bounds.high
    for value in (math.nextafter(bounds.low, -math.inf), math.nextafter(bounds.high, math.inf)):
        with pytest.raises(InvalidPlan) as refusal:
            checked(name, value)
        assert refusal.value.code == "out-of-range"
        assert refusal.value.params == {"field": name, "value": value, "low": bounds.low, "high": bounds.high}


@pytest.mark.parametrize("name", [name for name, bounds in RANGES.items() if bounds.low_excluded])
def test_a_low_end_that_is_excluded_is_refused_and_said_to_be(name: str) -> None:
    bounds = RANGES[name]
    above = math.nextafter(bounds.low, math.inf)
    assert checked(name, above) == above
    with pytest.raises(InvalidPlan) as refusal:
        checked(name, bounds.low)
    assert (refusal.value.code, refusal.value.params["low_excluded"]) == ("out-of-range", True)


def test_a_number_passes_as_it_is() -> None:
    assert checked("rovings", 4) == 4
    assert isinstance(checked("rovings", 4), int)
    assert checked("mass_g", np.float64(25.5)) == 25.5


@given(st.floats(1e-6, 1e6), st.integers(1, 60))
def test_a_limit_reached_in_steps_is_not_exceeded(limit: float, steps: int) -> None:
    assert not exceeds(sum([limit / steps] * steps), limit)


@given(st.floats(1e-3, 1e6))
def test_a_millionth_above_is_above(limit: float) -> None:
    assert exceeds(limit * 1.000001, limit)
    assert not exceeds(limit, limit * 1.000001)
