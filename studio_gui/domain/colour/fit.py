"""What a dye absorbs at any depth, from its swatches.

The rule of this module: a curve is fitted once and kept; who asks again for equal swatches gets the same one.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.fluorescence import Excess, excess_over
from studio_gui.domain.colour.kubelka_munk import measured_from_internal, reflectance_from_k_over_s
from studio_gui.domain.colour.spaces import (
    Array,
    lab_from_xyz,
    linear_from_xyz,
    read_only,
    xyz_from_lab,
    xyz_from_linear,
)
from studio_gui.domain.colour.spectra import xyz_from_reflectance
from studio_gui.domain.colour.swatch_fit import exponent_at, fitted, odd_one, samples_of
from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.errors import InvalidPlan

# Above this the fibre reflects a tenth of what its surface does: darker cannot be seen, so it is not told.
_BLACKEST_K_OVER_S = 1000.0


@dataclass(frozen=True, slots=True, eq=False)
class DyeCurve:
    """What one dye absorbs at any depth; compared by identity, because `dye_curve` keeps its results.

    Parameters
    ----------
    unit_k_over_s
        K/S of the dye alone at 1 % owf, shape (31,), above 0, read-only.
    exponent
        Power of depth by which it grows.
    misses
        CIEDE2000 between each swatch and the colour the curve gives at its depth on its fibre.
    excess
        What a fluorescent dye sends out on top; None for others.
    odd_one
        Which swatch, from 0, contradicts all others; None where none does, or it cannot be told.
    """

    unit_k_over_s: Array
    exponent: float
    misses: tuple[float, ...]
    excess: Excess | None = None
    odd_one: int | None = None


@lru_cache(maxsize=1024)  # more than a plan has dyes, or each of its worksheets would fit them all again
def dye_curve(swatches: tuple[Swatch, ...], *, fluorescent: bool = False) -> DyeCurve:
    """Return what a dye absorbs, fitted to one swatch or several; the fit of equal swatches is kept.

    One swatch fixes a colour, not a spectrum: mixes can be off by 4 CIEDE2000 or more. Above about 4 % owf,
    and beyond the deepest swatch, the curve is extrapolation. The exponent stays within 0.37 and 2.2. A
    `fluorescent` dye alone comes back at each swatch as it was entered, straight in between.

    Raises
    ------
    InvalidPlan
        ``no-swatches`` when there is nothing to fit.

    >>> curve = dye_curve((Swatch(1.0, "#e8d020", "#f2ebdc"),))
    >>> curve.exponent, curve.misses[0] < 0.5
    (0.9, True)
    """
    if not swatches:
        raise InvalidPlan("no-swatches", field="swatches")
    samples = samples_of(swatches)
    point = fitted(samples)
    exponent = exponent_at(point[-1])
    depths = np.exp(samples.logs_of_depth)
    unit = np.minimum(np.exp(point[:-1]), _BLACKEST_K_OVER_S / depths.max() ** exponent)
    internal = reflectance_from_k_over_s(samples.fibres + unit * depths[:, np.newaxis] ** exponent)
    xyz = xyz_from_reflectance(measured_from_internal(internal))
    excess = None
    if fluorescent:
        linear = linear_from_xyz(xyz)
        excess = excess_over(depths, linear_from_xyz(xyz_from_lab(samples.targets)), linear)
        xyz = xyz_from_linear(linear + excess.at(depths))
    misses = ciede2000(lab_from_xyz(xyz), samples.targets)
    return DyeCurve(read_only(unit), exponent, tuple(misses.tolist()), excess, odd_one(samples, point))
