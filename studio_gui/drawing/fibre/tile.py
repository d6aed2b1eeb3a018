"""The shipped fibres at the fineness that a picture needs, read when first asked for.

The rule of this module: a fibre is about as thick on every strand, so a thicker strand has more fibres, not
thicker ones; locks, the tufts that fibres lie in, grow with the strand.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from studio_gui.drawing.fibre.comb import CombedTop, load
from studio_gui.paths import fibre_path

#: In fact always float32; its products with plain numbers are not known to be.
Floats: TypeAlias = NDArray[np.floating[Any]]

#: Rows of the shipped tile to a pixel where a fibre has its natural thickness.
ROWS_PER_PX = 3.2


@dataclass(frozen=True, eq=False)
class FibreTile:
    """Fibres, locks and hairs, each without edges, as (rows, columns) of float32.

    All but the hairs have their first row once more at the end, so that every row has a next one.

    `light` and `relief` are about -1 to 1 with mean 0; `shift` is in deviations, -2.5 to 2.5; `hair` is 0 to
    1. `rows_per_px` and `columns_per_px` say how fine `light` and `shift` are.
    """

    light: Floats
    shift: Floats
    lock: Floats
    relief: Floats
    hair: Floats
    rows_per_px: float
    columns_per_px: float


@lru_cache(maxsize=1)
def _combed() -> CombedTop:
    return load(fibre_path())


@lru_cache(maxsize=3)
def fibre_tile(device_pixel_ratio: float) -> FibreTile:
    """Return the fibres for pictures of a device pixel ratio, about 0.2 s when it is new."""
    top = _combed()
    # Finer than on coarse screens, but not hair by hair: between the same pixels and the same size.
    fineness = max(device_pixel_ratio, 0.5) ** 0.6
    rows_per_px = ROWS_PER_PX / fineness
    together = max(int(rows_per_px), 1)
    kept = top.light.shape[0] // together * together
    light = top.light[:kept].reshape(-1, together, top.light.shape[1]).mean(axis=1, dtype=np.float32)
    light = (light - light.mean()) / 127.5
    shift = (top.shift[together // 2 : kept : together].astype(np.float32) - 127.5) * (2.5 / 127.5)
    lock = _evened(_blurred(light, 2.2, 22.0))
    return FibreTile(
        light=_closed(light),
        shift=_closed(shift),
        lock=_closed(lock),
        relief=_closed(_evened(np.roll(lock, -1, axis=0) - np.roll(lock, 1, axis=0))),
        hair=top.hair.astype(np.float32) / 255.0,
        rows_per_px=rows_per_px / together,
        columns_per_px=1.0 / fineness,
    )


def _closed(layer: Floats) -> Floats:
    return np.concatenate((layer, layer[:1]))


def _blurred(values: Floats, rows: float, columns: float) -> Floats:
    """Return values blurred round the tile's edges with a bell of these deviations."""
    waves = np.fft.rfft2(values)
    down = np.fft.fftfreq(values.shape[0])[:, np.newaxis]
    along = np.fft.rfftfreq(values.shape[1])[np.newaxis, :]
    waves *= np.exp(-2.0 * np.pi**2 * ((rows * down) ** 2 + (columns * along) ** 2))
    return np.fft.irfft2(waves, values.shape).astype(np.float32)


def _evened(values: Floats) -> Floats:
    """Return values about 0, with deviation 0.4 and nothing beyond -1 to 1."""
    even: Floats = np.clip((values - values.mean()) * (0.4 / values.std()), -1.0, 1.0).astype(np.float32)
    return even
