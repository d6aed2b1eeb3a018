"""If these fail, a change of colour is graded otherwise than the grey scale would."""

from __future__ import annotations

import numpy as np
import pytest

from studio_gui.domain.colour.grades import GREY_SCALE, cielab_difference, grey_scale_grade
from tests.published import published


def grade(difference: float) -> str:
    return grey_scale_grade(np.array([50.0, 0.0, 0.0]), np.array([50.0 + difference, 0.0, 0.0]))


@pytest.mark.parametrize(("place", "step"), list(enumerate(GREY_SCALE)))
def test_every_step_is_as_published_and_grades_itself(place: int, step: tuple[str, float]) -> None:
    name, difference = step
    assert difference == published(f"R127{'abcdefghi'[place]}")
    assert grade(difference) == name


def test_between_two_steps_the_nearer_one_counts_and_halfway_the_worse() -> None:
    assert [grade(difference) for difference in (0.39, 0.4, 0.41, 8.1, 8.3, 60.0)] == [
        "5",
        "4-5",
        "4-5",
        "2",
        "1-2",
        "1",
    ]


def test_every_direction_counts() -> None:
    assert cielab_difference(np.array([50.0, 1.0, 2.0]), np.array([52.0, 2.0, 4.0])) == pytest.approx(3.0)
