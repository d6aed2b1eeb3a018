"""Combs fibres: makes the tile of fibres that the program ships.

The rule of this module: the same seed combs the same fibres, and the tile has no edge, neither along the
strand nor across it. `python -m studio_gui.drawing.fibre.comb` writes the shipped file again.

Lengths, crimp and number of fibres: our choice by eye, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from studio_gui.paths import fibre_path

ROWS = 864
COLUMNS = 2048
HAIR_ROWS = 24
SEED = 20
#: Rows across one fibre; its profile is lit from the side of row 0.
FIBRE_ROWS = 4
_PROFILE = (0.24, 0.20, 0.02, -0.46)
_LAYERS = 9.0  # how many fibres lie over each other on average

Bytes = NDArray[np.uint8]
Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class CombedTop:
    """Fibres of a tile without edges.

    `light` is (rows, columns): how light the uppermost fibre is, 0 to 255 for -1 to 1. `shift`, same shape,
    is how far dye ran along this fibre, 0 to 255 for -2.5 to 2.5, normally spread with deviation 1. `hair` is
    (hair rows, columns): cover by single hairs that leave the wool whose edge runs through the middle row.
    """

    light: Bytes
    shift: Bytes
    hair: Bytes

    def save(self, path: Path) -> None:
        """Write the tile to a file; differences along the fibres, which pack well."""
        np.savez_compressed(
            path, light=_differences(self.light), shift=_differences(self.shift), hair=_differences(self.hair)
        )


def load(path: Path) -> CombedTop:
    """Return the tile that `CombedTop.save` wrote."""
    with np.load(path, allow_pickle=False) as arrays:
        light, shift, hair = (
            np.cumsum(arrays[name], axis=1, dtype=np.uint8) for name in ("light", "shift", "hair")
        )
    return CombedTop(light, shift, hair)


def combed_top(rows: int = ROWS, columns: int = COLUMNS, seed: int = SEED) -> CombedTop:
    """Return a newly combed tile; takes a second or two at full size.

    >>> combed_top(24, 64).light.shape
    (24, 64)
    """
    random = np.random.Generator(np.random.PCG64(seed))
    light = np.full((rows, columns), 128, dtype=np.uint8)
    shift = np.full((rows, columns), 128, dtype=np.uint8)
    longest = min(600, columns - 1)
    count = round(_LAYERS * rows * columns / (FIBRE_ROWS * 0.65 * longest))
    lengths = (longest * (0.3 + 0.7 * random.random(count))).astype(np.intp)
    starts = (columns * random.random(count)).astype(np.intp)
    middles = rows * random.random(count)
    brightness = 0.26 * _normal(random, count)
    shifts = np.clip(_normal(random, count), -2.5, 2.5)
    for number in range(count):
        along = np.arange(lengths[number])
        places = (starts[number] + along) % columns
        middle = np.rint(middles[number] + _course(random, along)).astype(np.intp)
        for row, part in enumerate(_PROFILE):
            light[(middle + row) % rows, places] = _byte(brightness[number] + part, 1.0, 8)
        for row in range(FIBRE_ROWS - 1):
            shift[(middle + row) % rows, places] = _byte(shifts[number], 2.5, 8)
    return CombedTop(light, shift, _hairs(random, columns))


def _course(random: np.random.Generator, along: NDArray[np.intp]) -> Floats:
    """Return how far from its middle row a fibre runs: a slant, a slow bend and its crimp."""
    slant, bend, crimp, length, phase, phase_2, phase_3 = random.random(7)
    course: Floats = (
        34.0 * (slant - 0.5) * (along / 500.0 - 0.5)
        + 12.0 * (bend - 0.5) * np.sin(along / 70.0 + 6.28 * phase)
        + (0.8 + 2.0 * crimp)
        * np.sin(along / (4.5 + 4.5 * length) + 6.28 * phase_2)
        * (0.5 + 0.5 * np.sin(along / 40.0 + 6.28 * phase_3))
    )
    return course


def _hairs(random: np.random.Generator, columns: int) -> Bytes:
    """Return hairs that leave the edge of the wool in a low bow and come back, or end in the air."""
    cover = np.zeros((HAIR_ROWS, columns))
    for _ in range(columns // 7):
        length = int(min(12.0 + 64.0 * random.random() ** 2, columns - 1))
        rise = (0.12 + 0.88 * random.random() ** 3) * min(0.5 * HAIR_ROWS - 3.0, 0.13 * length)
        free = 0.5 + 0.5 * random.random() if random.random() < 0.45 else 1.0
        share = np.arange(int(length * free)) / length
        share = share if random.random() < 0.5 else share[::-1]
        wave = 0.5 * np.sin(share * (6.0 + 9.0 * random.random()) + 6.28 * random.random())
        height = HAIR_ROWS / 2.0 - 1.5 + 4.0 * rise * share * (1.0 - share) + wave * np.sin(np.pi * share)
        places = (int(columns * random.random()) + np.arange(len(share))) % columns
        strength = (0.15 + 0.7 * random.random() ** 2) * np.minimum(1.0, 4.0 * (1.0 - share))
        low = np.clip(np.floor(height), 0, HAIR_ROWS - 2).astype(np.intp)
        for row, part in ((low, 1.0 - (height - low)), (low + 1, height - low)):
            cover[row, places] = np.maximum(cover[row, places], strength * part)
    return np.rint(255.0 * np.clip(cover, 0.0, 1.0)).astype(np.uint8)


def _normal(random: np.random.Generator, count: int) -> Floats:
    """Return normally spread numbers, made of even ones, whose stream stays the same between releases."""
    normal: Floats = np.sqrt(-2.0 * np.log1p(-random.random(count))) * np.cos(
        2.0 * np.pi * random.random(count)
    )
    return normal


def _byte(value: float, limit: float, step: int) -> int:
    """Return 0 to 255 for -limit to limit, in steps: few different bytes pack well."""
    return min(round((127.5 + 127.5 * min(max(value / limit, -1.0), 1.0)) / step) * step, 255)


def _differences(values: Bytes) -> Bytes:
    return np.diff(values, axis=1, prepend=np.uint8(0))


if __name__ == "__main__":
    combed_top().save(fibre_path())
