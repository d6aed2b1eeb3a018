"""Liquid in the fibre: what is held, what runs free, and what the core needs.

The rule of this module: published figures hardly exist, so soak, uptake and both limits are the user's own
measurements; equal to a limit is inside it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.ranges import RELATIVE_TOLERANCE

FloatArray = NDArray[np.float64]


def above(value: ArrayLike, limit: ArrayLike) -> NDArray[np.bool_]:
    """Tell, per element, whether `value` is above `limit` by more than the relative tolerance.

    >>> bool(above(0.1 + 0.2, 0.3))
    False
    """
    # as numpy.isclose reckons it, which takes ten times as long on a few dozen sections
    tolerance = 1e-12 + RELATIVE_TOLERANCE * np.abs(limit)
    return np.greater(np.subtract(value, limit), tolerance)


def held_ml_per_g(
    soak_ml_per_g: ArrayLike, liquid_ml: ArrayLike, wiped_ml: ArrayLike, fibre_g: ArrayLike
) -> FloatArray:
    """Return what the fibre holds, ml per g: soak + applied - wiped, never below 0. Shapes broadcast.

    >>> round(float(held_ml_per_g(1.1, 45.0, 0.0, 22.5)), 6)
    3.1
    """
    added = np.subtract(liquid_ml, wiped_ml) / np.asarray(fibre_g, dtype=np.float64)
    return np.maximum(np.add(soak_ml_per_g, added), 0.0)


def free_ml(held: ArrayLike, limit_ml_per_g: ArrayLike, fibre_g: ArrayLike) -> FloatArray:
    """Return the liquid (ml) that the fibre cannot hold: ``(held - limit) * g``, 0 when within the limit.

    >>> round(float(free_ml(3.1, 2.5, 22.5)), 6)
    13.5
    """
    surplus = np.subtract(held, limit_ml_per_g) * fibre_g
    return np.where(above(held, limit_ml_per_g), surplus, 0.0)


def wiped_share(wiped_ml: ArrayLike, soak_ml: ArrayLike, liquid_ml: ArrayLike) -> FloatArray:
    """Return the share (0 to 1) of the dye that wiping takes along, cold and fully mixed.

    >>> round(float(wiped_share(13.5, 24.75, 45.0)), 4)
    0.1935
    """
    present = np.add(soak_ml, liquid_ml)
    taken = np.minimum(wiped_ml, present)
    return np.divide(taken, present, out=np.zeros(np.shape(taken)), where=present > 0.0)


@dataclass(frozen=True, slots=True)
class MeasuredHolding:
    """What three weighings of a tuft tell, ml per g of dry fibre."""

    soak_ml_per_g: float
    limit_ml_per_g: float


def holding_from_weighings(
    dry_g: float, squeezed_g: float, soaked_g: float, liquor_density_g_per_ml: float = 1.0
) -> MeasuredHolding:
    """Return soak and holding limit from a tuft weighed dry, squeezed, and wrapped without dripping.

    Raises
    ------
    InvalidPlan
        ``weighings-not-rising`` unless 0 < dry < squeezed < soaked.

    Source: wet pick-up is the mass of liquor over the mass of dry goods.

    >>> holding_from_weighings(10.0, 20.0, 45.0)
    MeasuredHolding(soak_ml_per_g=1.0, limit_ml_per_g=3.5)
    """
    if not 0.0 < dry_g < squeezed_g < soaked_g:
        raise InvalidPlan("weighings-not-rising", dry_g=dry_g, squeezed_g=squeezed_g, soaked_g=soaked_g)
    per_gram = dry_g * liquor_density_g_per_ml
    return MeasuredHolding((squeezed_g - dry_g) / per_gram, (soaked_g - dry_g) / per_gram)


def void_volume_ml_per_g(bulk_density_g_per_ml: float, fibre_density_g_per_ml: float = 1.31) -> float:
    """Return the room between the fibres, ml per g: an upper bound of any holding limit, no more.

    ``1 / bulk density - 1 / fibre density``. Wool 1.31 g/ml at 65 % relative humidity: Morton and Hearle,
    Physical Properties of Textile Fibres, 2008, Table 5.1.

    Raises
    ------
    InvalidPlan
        ``denser-than-fibre`` unless 0 < bulk density < fibre density.

    >>> round(void_volume_ml_per_g(0.2), 3)
    4.237
    """
    if not 0.0 < bulk_density_g_per_ml < fibre_density_g_per_ml:
        raise InvalidPlan("denser-than-fibre", bulk=bulk_density_g_per_ml, fibre=fibre_density_g_per_ml)
    return 1.0 / bulk_density_g_per_ml - 1.0 / fibre_density_g_per_ml
