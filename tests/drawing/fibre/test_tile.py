"""If these fail, fibres are too coarse or too fine for a screen, or read before anybody looks."""

from __future__ import annotations

import subprocess
import sys

import numpy as np
import pytest

from studio_gui.drawing.fibre.tile import fibre_tile


@pytest.mark.parametrize("ratio", [0.75, 1.0, 1.25, 1.5, 2.0, 3.0])
def test_layers_fit_together_and_keep_their_ranges(ratio: float) -> None:
    tile = fibre_tile(ratio)
    assert tile.light.shape == tile.shift.shape == tile.lock.shape == tile.relief.shape
    assert {layer.dtype for layer in (tile.light, tile.shift, tile.lock, tile.relief, tile.hair)} == {
        np.dtype(np.float32)
    }
    assert np.abs(tile.shift).max() <= 2.5
    assert np.abs(tile.lock).max() <= 1.0
    assert abs(float(tile.light.mean())) < 0.01
    assert 0.0 <= tile.hair.min() <= tile.hair.max() <= 1.0


def test_a_fibre_takes_one_to_two_pixels_at_every_ratio() -> None:
    """Thinner ones would flicker, thicker ones would look like yarn."""
    for ratio in (1.0, 2.0, 3.0):
        rows_a_fibre = 4.0 / (3.2 / ratio**0.6)
        assert 1.0 <= rows_a_fibre <= 2.5
        assert fibre_tile(ratio).rows_per_px < 2.0


def test_the_file_is_not_read_at_import() -> None:
    program = (
        "import studio_gui.drawing.fibre.picture as picture, studio_gui.drawing.fibre.tile as tile;"
        "assert tile._combed.cache_info().currsize == 0"
    )
    subprocess.run([sys.executable, "-c", program], check=True)
