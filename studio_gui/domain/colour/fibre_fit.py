"""The undyed fibre's spectrum from its colour.

The rule of this module: three numbers of a colour do not fix 31 bands, so of all spectra that give the colour
the smoothest is taken. The smoothing is our choice, no source.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from studio_gui.domain.colour.kubelka_munk import (
    SURFACE_REFLECTANCE,
    k_over_s,
    measured_from_internal,
)
from studio_gui.domain.colour.least_squares import Residuals, least_squares
from studio_gui.domain.colour.spaces import Array, lab_from_hex, lab_from_xyz, lab_slope, read_only
from studio_gui.domain.colour.spectra import WAVELENGTHS_NM, WEIGHTS_D65_2DEG, xyz_from_reflectance

BANDS = WAVELENGTHS_NM.size
#: ``STEPS_BETWEEN_BANDS @ spectrum``: the steps from band to band, shape (30, 31).
STEPS_BETWEEN_BANDS: Array = read_only(np.diff(np.eye(BANDS), axis=0))

_FIBRE_SMOOTHING = (1.0, 0.03, 1e-3, 1e-5)


def lab_and_slopes(internal_reflectance: Array) -> tuple[Array, Array]:
    """Return Lab (..., 3) of internal reflectance (..., 31), and its derivative by band (..., 3, 31)."""
    xyz = xyz_from_reflectance(measured_from_internal(internal_reflectance))
    slopes = lab_slope(xyz) @ WEIGHTS_D65_2DEG.T * (1.0 - SURFACE_REFLECTANCE)
    return lab_from_xyz(xyz), slopes


@lru_cache(maxsize=256)
def fibre_k_over_s(undyed_srgb: str) -> Array:
    """Return K/S of undyed fibre, shape (31,), above 0, read-only, from its colour ``#rrggbb``.

    The colour comes back within 0.01 CIEDE2000, except that those darker than L* 27 with a primary near 0 are
    missed by up to 4, and black by 2.6, because the surface alone is lighter.

    >>> fibre_k_over_s("#f2ebdc").shape
    (31,)
    """
    target = lab_from_hex(undyed_srgb)

    def smoothed_by(smoothing: float) -> Residuals:
        slope_of_steps = np.sqrt(smoothing) * STEPS_BETWEEN_BANDS

        def residuals(logit: Array) -> tuple[Array, Array]:
            internal = 1.0 / (1.0 + np.exp(-logit))
            lab, lab_slopes = lab_and_slopes(internal)
            errors = np.concatenate([slope_of_steps @ logit, lab - target])
            return errors, np.vstack([slope_of_steps, lab_slopes * internal * (1.0 - internal)])

        return residuals

    logit = np.zeros(BANDS)
    for smoothing in _FIBRE_SMOOTHING:
        logit = least_squares(smoothed_by(smoothing), logit)
    return read_only(k_over_s(1.0 / (1.0 + np.exp(-logit))))
