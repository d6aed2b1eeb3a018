"""If these fail, a far colour is ranked and called by another hue than the eye's."""

from __future__ import annotations

from types import ModuleType

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.colour.ipt import ipt_from_lab, ipt_from_xyz, is_opposite
from studio_gui.domain.colour.spaces import WHITE_XYZ, Array, xyz_from_lab

LABS = st.tuples(st.floats(1.0, 100.0), st.floats(-90.0, 90.0), st.floats(-90.0, 90.0)).map(np.array)


def test_it_agrees_with_colour_science(colour_science: ModuleType) -> None:
    labs = np.random.default_rng(1998).uniform((0.0, -90.0, -90.0), (100.0, 90.0, 90.0), (500, 3))
    assert ipt_from_lab(labs) == pytest.approx(colour_science.XYZ_to_IPT(xyz_from_lab(labs)), abs=1e-9)


@pytest.mark.parametrize("lightness", [0.0, 1.0, 20.0, 50.0, 100.0])
def test_greys_have_no_hue(lightness: float) -> None:
    # to the four places of the matrices, as they were published
    assert ipt_from_lab(np.array([lightness, 0.0, 0.0]))[1:] == pytest.approx([0.0, 0.0], abs=2e-4)


def test_white_is_one_and_black_nought() -> None:
    assert ipt_from_xyz(WHITE_XYZ) == pytest.approx([1.0, 0.0, 0.0], abs=2e-4)
    assert ipt_from_xyz(np.zeros(3)).tolist() == [0.0, 0.0, 0.0]


@given(LABS, st.floats(0.01, 1.0))
def test_less_light_leaves_the_hue(lab: Array, share: float) -> None:
    # the power lets a factor of the light through as a factor of all three
    xyz = xyz_from_lab(lab)
    assert ipt_from_xyz(share * xyz) == pytest.approx(share**0.43 * ipt_from_xyz(xyz), abs=1e-9)


@given(st.lists(LABS, min_size=1, max_size=5))
def test_many_colours_come_as_each_alone(labs: list[Array]) -> None:
    together = ipt_from_lab(np.array([labs, labs]))
    assert together.shape == (2, len(labs), 3)
    for place, lab in enumerate(labs):
        assert together[1, place] == pytest.approx(ipt_from_lab(lab), abs=1e-12)


@given(LABS, LABS)
def test_opposite_is_over_a_right_angle(one: Array, other: Array) -> None:
    ipt = ipt_from_lab(np.array([one, other]))
    angles = np.arctan2(ipt[:, 2], ipt[:, 1])
    apart = abs((angles[0] - angles[1] + np.pi) % (2.0 * np.pi) - np.pi)
    if abs(apart - np.pi / 2.0) > 1e-6 and np.hypot(ipt[:, 1], ipt[:, 2]).min() > 1e-6:
        assert bool(is_opposite(ipt[0], ipt[1])) == (apart > np.pi / 2.0)
