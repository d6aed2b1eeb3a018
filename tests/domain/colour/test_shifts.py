"""If these fail, a nudge is told as another one than it was, or its side effects pass without a word."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.colour.shifts import AXES, Direction, Word, hue_change, shift

RED = np.array([40.0, 30.0, 0.0])


@pytest.mark.parametrize(
    ("direction", "after", "asked", "besides"),
    [
        ("lighter", (42.0, 30.5, 1.0), 2.0, {}),
        ("lighter", (42.0, 28.0, 1.4), 2.0, {"yellower": 1.4, "duller": 2.0}),
        ("deeper", (38.5, 33.0, -1.5), 1.5, {"bluer": 1.5, "more vivid": 3.0}),
        ("redder", (38.0, 32.0, 0.5), 2.0, {"deeper": 2.0}),
        ("greener", (41.5, 28.0, -3.0), 2.0, {"lighter": 1.5, "bluer": 3.0}),
        ("yellower", (40.0, 27.0, 4.0), 4.0, {"greener": 3.0}),
        ("bluer", (40.0, 33.0, -4.0), 4.0, {"redder": 3.0}),
    ],
)
def test_what_is_noticed_besides_is_told(
    direction: Direction, after: tuple[float, float, float], asked: float, besides: dict[Word, float]
) -> None:
    found = shift(RED, np.array(after), direction)
    assert (found.asked, dict(found.besides)) == (asked, besides)


def test_a_grey_that_gets_a_hue_has_changed_it() -> None:
    grey = np.array([50.0, 0.0, 0.0])
    assert hue_change(grey, np.array([52.0, 3.0, 4.0])) == pytest.approx(5.0)
    assert dict(shift(grey, np.array([52.0, 0.0, 4.0]), "lighter").besides) == {"yellower": 4.0}


@given(st.tuples(*[st.floats(-60.0, 60.0)] * 2), st.floats(0.0, 2.0))
def test_the_same_hue_is_no_change_of_it(ab: tuple[float, float], times: float) -> None:
    before = np.array([50.0, *ab])
    after = np.array([55.0, ab[0] * times, ab[1] * times])
    chroma = float(np.linalg.norm(before[1:]))
    assert float(hue_change(before, after)) <= max(10.0 - chroma, 0.0) + 1e-9


def test_every_direction_has_its_opposite() -> None:
    assert sorted(AXES.values()) == [(axis, sense) for axis in range(3) for sense in (-1.0, 1.0)]
