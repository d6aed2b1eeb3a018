"""If these fail, two bottles with the same dye are coloured as if they were two dyes."""

from __future__ import annotations

import numpy as np
import pytest

from studio_gui.domain.colour.fit import dye_curve
from studio_gui.domain.colour.mixing import predicted_lab
from studio_gui.domain.colour.palette import dyes_of_bottles
from tests.domain.colour.dyes import WOOL, curve, palette


def test_colours_come_in_the_shape_of_the_doses() -> None:
    doses = np.linspace(0.0, 2.0, 12).reshape(2, 3, 2)
    labs = palette("red", "blue").lab(doses)
    assert labs.shape == (2, 3, 3)
    alone = predicted_lab(doses[1, 2][np.newaxis], (curve("red"), curve("blue")), WOOL)
    assert labs[1, 2] == pytest.approx(alone[0])


def test_what_is_not_taken_up_is_not_seen() -> None:
    lab = palette("red").lab(np.array([[6.0], [20.0]]))
    assert lab[1] == pytest.approx(lab[0])


def test_bottles_with_the_same_swatches_hold_the_same_dye() -> None:
    assert dyes_of_bottles([curve("blue"), curve("red"), curve("blue"), curve("lemon")]) == (0, 1, 0, 2)
    assert dyes_of_bottles([]) == ()


def test_the_same_dye_is_known_by_what_it_absorbs_however_long_ago_it_was_fitted() -> None:
    first = curve("blue")
    dye_curve.cache_clear()
    again = curve("blue")
    assert again is not first
    assert dyes_of_bottles([first, curve("red"), again]) == (0, 1, 0)
