"""If these fail, a colour typed, measured or shown is not the colour computed with."""

from __future__ import annotations

from collections.abc import Callable
from types import ModuleType

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.colour import spaces
from studio_gui.domain.colour.spaces import Array

COLOURS: Array = np.random.default_rng(20070).uniform(0.0, 1.0, (6, 40, 3))

hex_colours = st.integers(0, 0xFFFFFF).map(lambda code: f"#{code:06x}")


def test_the_matrix_is_the_published_one() -> None:
    # IEC 61966-2-1:1999, 5.2, printed with four decimals.
    published = [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]]
    assert spaces.xyz_from_linear(np.eye(3)) == pytest.approx(np.array(published).T, abs=6e-5)


def test_the_white_is_the_white_of_every_space() -> None:
    white = np.ones(3)
    assert spaces.linear_from_srgb(white) == pytest.approx(white)
    assert spaces.xyz_from_linear(white) == pytest.approx(spaces.WHITE_XYZ)
    assert spaces.lab_from_hex("#ffffff") == pytest.approx(np.array([100.0, 0.0, 0.0]), abs=1e-9)
    assert spaces.lab_from_hex("#000000") == pytest.approx(np.zeros(3), abs=1e-12)


def test_srgb_agrees_with_colour_science(colour_science: ModuleType) -> None:
    linear = colour_science.cctf_decoding(COLOURS, function="sRGB")
    assert spaces.linear_from_srgb(COLOURS) == pytest.approx(linear, abs=1e-9)
    assert spaces.srgb_from_linear(COLOURS) == pytest.approx(
        colour_science.cctf_encoding(COLOURS, function="sRGB"), abs=1e-9
    )
    reference = colour_science.RGB_COLOURSPACES["sRGB"]
    matrix = colour_science.normalised_primary_matrix(reference.primaries, reference.whitepoint)
    assert spaces.xyz_from_linear(np.eye(3)) == pytest.approx(matrix.T, abs=1e-9)


def test_lab_agrees_with_colour_science(colour_science: ModuleType) -> None:
    # From black to white, so that the straight line near black is used too.
    xyz = COLOURS**4 * spaces.WHITE_XYZ
    white_xy = np.array([0.3127, 0.3290])
    lab = colour_science.XYZ_to_Lab(xyz, white_xy)
    assert spaces.lab_from_xyz(xyz) == pytest.approx(lab, abs=1e-9)
    assert spaces.xyz_from_lab(lab) == pytest.approx(colour_science.Lab_to_XYZ(lab, white_xy), abs=1e-9)


@given(hex_colours)
def test_a_colour_comes_back_from_every_space_unchanged(srgb: str) -> None:
    encoded = spaces.srgb_from_hex(srgb)
    linear = spaces.linear_from_srgb(encoded)
    xyz = spaces.xyz_from_linear(linear)
    assert spaces.hex_from_srgb(encoded) == srgb
    assert spaces.srgb_from_linear(linear) == pytest.approx(encoded, abs=1e-7)
    assert spaces.linear_from_xyz(xyz) == pytest.approx(linear, abs=1e-12)
    assert spaces.xyz_from_lab(spaces.lab_from_xyz(xyz)) == pytest.approx(xyz, abs=1e-12)


def test_text_is_clipped_and_numbers_are_not() -> None:
    outside = np.array([-0.2, 0.5, 1.2])
    assert spaces.hex_from_srgb(outside) == "#0080ff"
    assert spaces.srgb_from_linear(spaces.linear_from_srgb(outside)) == pytest.approx(outside)


@pytest.mark.parametrize("xyz", [(0.3, 0.4, 0.2), (0.9, 1.0, 1.0), (0.004, 0.005, 0.003)])
def test_the_slope_of_lab_is_its_slope(xyz: tuple[float, float, float]) -> None:
    point, step = np.array(xyz), 1e-7
    by_steps = [
        (spaces.lab_from_xyz(point + offset) - spaces.lab_from_xyz(point - offset)) / (2.0 * step)
        for offset in step * np.eye(3)
    ]
    assert spaces.lab_slope(point) == pytest.approx(np.array(by_steps).T, rel=1e-5, abs=1e-4)


@pytest.mark.parametrize(
    "conversion",
    [
        spaces.linear_from_srgb,
        spaces.srgb_from_linear,
        spaces.xyz_from_linear,
        spaces.linear_from_xyz,
        spaces.lab_from_xyz,
        spaces.xyz_from_lab,
    ],
)
def test_every_conversion_takes_any_shape_and_passes_on_what_is_not_a_number(
    conversion: Callable[[Array], Array],
) -> None:
    together = conversion(COLOURS)
    assert together.shape == COLOURS.shape
    assert together[3, 7] == pytest.approx(conversion(COLOURS[3, 7]), rel=1e-12)
    assert conversion(np.empty((0, 3))).shape == (0, 3)
    assert np.isnan(conversion(np.full(3, np.nan))).all()


def test_constants_cannot_be_changed_from_outside() -> None:
    for constant in (spaces.WHITE_XYZ, spaces.XYZ_FROM_LINEAR, spaces.LINEAR_FROM_XYZ):
        assert not constant.flags.writeable


@given(hex_colours)
def test_a_colour_goes_through_lab_and_comes_back(srgb: str) -> None:
    assert spaces.hex_from_lab(spaces.lab_from_hex(srgb)) == (srgb, False)


@pytest.mark.parametrize(
    "lab", [(50.0, -100.0, 0.0), (60.0, 0.0, 130.0), (101.0, 0.0, 0.0), (30.0, 60.0, -110.0)]
)
def test_a_colour_beyond_srgb_is_told_and_stands_for_the_nearest_code(lab: tuple[float, ...]) -> None:
    srgb, is_outside = spaces.hex_from_lab(np.array(lab))
    assert is_outside
    codes = [int(srgb[place : place + 2], 16) for place in (1, 3, 5)]
    assert 0 in codes or 255 in codes, "some channel is at its end"
