"""If these fail, wool shows another colour than the plan's, or a drag leaves old colours behind."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from studio_gui.drawing.fibre.colouring import ColouredWool
from studio_gui.drawing.fibre.maps import FibreMaps, fibre_maps
from tests.drawing.fibre.places import strands_place

Floats = NDArray[np.float64]


@pytest.fixture(scope="module")
def maps() -> FibreMaps:
    return fibre_maps(strands_place(2))


def channels(pixels: NDArray[np.uint32]) -> NDArray[np.int64]:
    """Return (height, width, 4): red, green, blue, alpha."""
    return np.stack([pixels >> shift & 255 for shift in (16, 8, 0, 24)], axis=-1).astype(np.int64)


def colours(maps: FibreMaps, seed: int) -> Floats:
    return np.random.default_rng(seed).random((maps.columns, 3))


@given(data=st.data())
def test_painting_a_range_is_painting_all(data: st.DataObject) -> None:
    maps = fibre_maps(strands_place(2, width=160, left=-40.0, right=130.0))
    first = data.draw(st.integers(0, maps.columns), label="first")
    last = data.draw(st.integers(first, maps.columns), label="last")
    before, after = colours(maps, 1), colours(maps, 1)
    after[first:last] = colours(maps, 2)[first:last]
    part, whole = ColouredWool(maps), ColouredWool(maps)
    part.paint(before)
    old = part.pixels.copy()
    drawn = part.paint(after, first, last)
    whole.paint(after)
    assert np.array_equal(part.pixels, whole.pixels)
    changed = np.flatnonzero((part.pixels != old).any(axis=0))
    assert set(changed.tolist()) <= set(drawn)


def test_a_narrow_change_draws_few_columns(maps: FibreMaps) -> None:
    wool = ColouredWool(maps)
    drawn = wool.paint(colours(maps, 1), 200, 210)
    assert len(drawn) <= 10 + 2 * maps.margin


def test_alpha_is_cover_over_shadow_and_colour_is_premultiplied(maps: FibreMaps) -> None:
    wool = ColouredWool(maps)
    wool.paint(np.ones((maps.columns, 3)))
    seen = channels(wool.pixels)
    cover, shadow = maps.cover.astype(float) / 255.0, maps.shadow.astype(float) / 255.0
    alpha = cover + (1.0 - cover) * shadow
    assert np.abs(seen[..., 3] - 255.0 * alpha).max() <= 1.0
    assert (seen[..., :3] <= seen[..., 3:]).all()
    assert (seen[..., :3] <= maps.cover[..., np.newaxis]).all(), "bare film shines"


def test_a_colour_keeps_its_hue_and_stays_near_itself(maps: FibreMaps) -> None:
    """Shade acts on light: on average of linear light the wool is near the colour, never another hue."""
    rgb = np.array([0.72, 0.24, 0.20])
    wool = ColouredWool(maps)
    wool.paint(np.tile(rgb, (maps.columns, 1)))
    seen = channels(wool.pixels)[maps.cover == 255][:, :3] / 255.0
    assert (seen[:, 0] > seen[:, 1]).all()
    assert (seen[:, 0] > seen[:, 2]).all()
    light = (seen**2.2).mean(axis=0)
    assert light == pytest.approx(rgb**2.2, rel=0.25)


def test_a_shade_of_one_shows_the_dye_itself(maps: FibreMaps) -> None:
    rgb = np.array([0.2, 0.5, 0.8])
    wool = ColouredWool(maps)
    wool.paint(np.tile(rgb, (maps.columns, 1)))
    seen = channels(wool.pixels)[maps.cover == 255][:, :3]
    step = round(63 * (1.0 - 0.14) / (1.50 - 0.14))
    at_one = seen[maps.shade_step[maps.cover == 255] == step]
    assert np.abs(at_one.mean(axis=0) - 255.0 * rgb).max() < 3.0


def test_two_colours_meet_in_a_feathered_edge_only(maps: FibreMaps) -> None:
    red, blue = np.array([0.8, 0.1, 0.1]), np.array([0.1, 0.1, 0.8])
    columns = np.arange(maps.columns) - maps.margin
    wool = ColouredWool(maps)
    wool.paint(np.where((columns < 200)[:, np.newaxis], red, blue))
    seen = channels(wool.pixels)
    reds = (seen[..., 0] > seen[..., 2]) & (maps.cover > 128)
    blues = (seen[..., 0] < seen[..., 2]) & (maps.cover > 128)
    assert not blues[:, : 200 - maps.margin].any()
    assert not reds[:, 200 + maps.margin :].any()
    near = slice(194, 206)
    assert reds[:, near].any(axis=0).all()
    assert blues[:, near].any(axis=0).all()


def test_nothing_to_paint_changes_nothing(maps: FibreMaps) -> None:
    wool = ColouredWool(maps)
    wool.paint(colours(maps, 1))
    before = wool.pixels.copy()
    wool.paint(colours(maps, 2), 30, 30)
    assert np.array_equal(wool.pixels, before)
