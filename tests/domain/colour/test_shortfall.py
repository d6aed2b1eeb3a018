"""If these fail, a painter is sent for the wrong bottle."""

from __future__ import annotations

import numpy as np
import pytest

from studio_gui.domain.colour.shortfall import Lack, hue_in_ipt, hue_of, lack_of_far, shortfall
from studio_gui.domain.colour.spaces import lab_from_hex


@pytest.mark.parametrize(
    ("wanted", "lack"),
    [
        ((70.0, 10.0, 20.0), "light"),
        ((30.0, 10.0, 20.0), "depth"),
        ((50.0, 60.0, 35.0), "red"),
        ((50.0, 10.0, 70.0), "yellow"),
        ((50.0, -40.0, 30.0), "green"),
        ((50.0, 0.0, -40.0), "blue"),
    ],
)
def test_what_is_missing_most_is_named(wanted: tuple[float, float, float], lack: Lack) -> None:
    found = shortfall(np.array(wanted), np.array([50.0, 10.0, 20.0]))
    assert found.lack == lack
    assert found.difference > 5.0


def test_every_hue_has_its_part_of_the_circle() -> None:
    angles = np.radians(np.arange(0.5, 360.0, 1.0))
    hues = [hue_of(float(np.cos(one)), float(np.sin(one))) for one in angles]
    assert len(set(hues)) == 9
    assert min(hues.count(hue) for hue in hues) >= 25
    assert hues[0] == hues[-1] == "magenta"


def test_nothing_is_missing_from_the_same_colour() -> None:
    assert shortfall(np.array([50.0, 10.0, 20.0]), np.array([50.0, 10.0, 20.0])).difference == 0.0


@pytest.mark.parametrize(
    ("srgb", "lack"),
    [
        ("#ff0000", "red"),
        ("#ff8000", "orange"),
        ("#e8d020", "yellow"),
        ("#00ff00", "green"),
        ("#00ffff", "turquoise"),
        ("#0000ff", "blue"),
        ("#8000ff", "violet"),
        ("#ff00ff", "magenta"),
        ("#ff0080", "magenta"),
    ],
)
def test_of_a_far_colour_its_own_hue_is_missing(srgb: str, lack: Lack) -> None:
    assert lack_of_far(lab_from_hex(srgb), np.array([60.0, -2.0, -4.0])) == lack


def test_a_far_colour_that_is_deep_lacks_depth() -> None:
    assert lack_of_far(np.array([10.0, 25.0, -8.0]), np.array([60.0, 20.0, -6.0])) == "depth"


def test_dull_colours_are_called_alike_by_both_angles() -> None:
    for degrees in range(360):
        angle = np.radians(degrees)
        lab = np.array([60.0, 40.0 * np.cos(angle), 40.0 * np.sin(angle)])
        around = [np.radians(degrees + turn) for turn in (-2.0, 0.0, 2.0)]
        assert hue_in_ipt(lab) in [hue_of(float(np.cos(one)), float(np.sin(one))) for one in around]
