"""If these fail, the shipped fibres are not those that the program combs, or have a seam."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from studio_gui.drawing.fibre.comb import COLUMNS, HAIR_ROWS, ROWS, combed_top, load
from studio_gui.paths import fibre_path

SIZE_LIMIT = 600_000


def test_the_shipped_tile_is_the_one_that_is_combed() -> None:
    """All but a few texels: another machine's sine may round one fibre another way."""
    shipped, again = load(fibre_path()), combed_top()
    assert shipped.light.shape == shipped.shift.shape == (ROWS, COLUMNS)
    assert shipped.hair.shape == (HAIR_ROWS, COLUMNS)
    for one, other in (
        (shipped.light, again.light),
        (shipped.shift, again.shift),
        (shipped.hair, again.hair),
    ):
        assert (one == other).mean() > 0.999


def test_the_shipped_tile_is_small() -> None:
    assert fibre_path().stat().st_size < SIZE_LIMIT


def test_combing_is_repeatable_and_seeds_differ(tmp_path: Path) -> None:
    one, again, other = combed_top(48, 256, seed=1), combed_top(48, 256, seed=1), combed_top(48, 256, seed=2)
    assert np.array_equal(one.light, again.light)
    assert np.array_equal(one.shift, again.shift)
    assert np.array_equal(one.hair, again.hair)
    assert not np.array_equal(one.light, other.light)
    one.save(tmp_path / "tile.npz")
    read = load(tmp_path / "tile.npz")
    assert np.array_equal(read.light, one.light)
    assert np.array_equal(read.shift, one.shift)
    assert np.array_equal(read.hair, one.hair)


@pytest.mark.parametrize("axis", [0, 1])
def test_the_tile_has_no_seam(axis: int) -> None:
    light = load(fibre_path()).light.astype(int)
    steps = np.abs(light - np.roll(light, 1, axis=axis))
    at_seam = np.take(steps, 0, axis=axis).mean()
    assert at_seam < 1.25 * steps.mean() + 1.0


def test_displacements_have_mean_0_and_deviation_1() -> None:
    """Else dye would be drawn as if it ran to one side, or farther than the wicking width says."""
    shift = (load(fibre_path()).shift.astype(float) - 127.5) * (2.5 / 127.5)
    assert abs(shift.mean()) < 0.05
    assert shift.std() == pytest.approx(1.0, abs=0.1)
