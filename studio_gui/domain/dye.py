"""Depth of shade: dye on the weight of the fibre.

The rule of this module: ``depth % = applied (ml/g) * jar strength (% w/v)``. The same jar with more
millilitres per gram is darker.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from studio_gui.domain.errors import InvalidPlan

FloatArray = NDArray[np.float64]


def depth_pct_owf(stock_ml: ArrayLike, strength_pct: ArrayLike, fibre_g: ArrayLike) -> FloatArray:
    """Return the depth of shade (g dye per 100 g dry fibre) that `stock_ml` of a stock (% w/v) gives.

    Shapes broadcast. Source: the definition of % shade on the weight of fibre.

    >>> round(float(depth_pct_owf(60.0, 1.0, 113.4)), 3)
    0.529
    """
    return np.multiply(stock_ml, strength_pct, dtype=np.float64) / np.asarray(fibre_g, dtype=np.float64)


def stock_ml(fibre_g: ArrayLike, depth: ArrayLike, strength_pct: ArrayLike) -> FloatArray:
    """Return the stock (ml) for a depth (% owf): ``fibre g * depth % / stock %``. Shapes broadcast.

    Source: lab-dip practice, ml = material g x shade % / stock %.

    >>> float(stock_ml(5.0, 1.5, 1.0))
    7.5
    """
    return np.multiply(fibre_g, depth, dtype=np.float64) / np.asarray(strength_pct, dtype=np.float64)


def jar_strength_pct(depth: ArrayLike, applied_ml_per_g: ArrayLike) -> FloatArray:
    """Return the jar's strength (% w/v) that gives `depth` (% owf) at `applied_ml_per_g`.

    >>> float(jar_strength_pct(0.9, 1.5))
    0.6
    """
    return np.asarray(depth, dtype=np.float64) / np.asarray(applied_ml_per_g, dtype=np.float64)


def reachable_depth_pct_owf(
    applied_ml_per_g: ArrayLike, taken_ml_per_g: ArrayLike, strength_pct: ArrayLike
) -> FloatArray:
    """Return the deepest shade (% owf) that a stock (% w/v) reaches: ``(applied - taken) * stock %``.

    `taken_ml_per_g` is what the other dyes of the same jar need, ml of stock per g of fibre; where they leave
    no room the depth is 0. Shapes broadcast. Source: the definition of % shade on the weight of fibre, with a
    jar that is neat stock.

    >>> float(reachable_depth_pct_owf(1.5, 0.0, 1.0)), float(reachable_depth_pct_owf(1.5, 0.9, 2.0).round(9))
    (1.5, 1.2)
    """
    room = np.maximum(np.subtract(applied_ml_per_g, taken_ml_per_g, dtype=np.float64), 0.0)
    return room * np.asarray(strength_pct, dtype=np.float64)


@dataclass(frozen=True, slots=True)
class SpoonStrength:
    """A stock strength by spoon, % w/v; `spread_share` is half the spread as a share of the middle."""

    low_pct: float
    middle_pct: float
    high_pct: float
    spread_share: float


def spoon_strength(spoon_low_g: float, spoon_high_g: float, volume_ml: float) -> SpoonStrength:
    """Return what one level spoon that weighs between two values gives in `volume_ml` of stock.

    Raises
    ------
    InvalidPlan
        ``spoon-not-rising`` unless 0 < low <= high and volume > 0.

    >>> round(spoon_strength(3.8, 4.9, 240.0).middle_pct, 2)
    1.81
    """
    if not (0.0 < spoon_low_g <= spoon_high_g and volume_ml > 0.0):
        raise InvalidPlan("spoon-not-rising", low_g=spoon_low_g, high_g=spoon_high_g, volume_ml=volume_ml)
    low, high = 100.0 * spoon_low_g / volume_ml, 100.0 * spoon_high_g / volume_ml
    middle = (low + high) / 2.0
    return SpoonStrength(low, middle, high, (high - low) / 2.0 / middle)
