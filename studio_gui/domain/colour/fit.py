"""From the colour of a sample to what its fibre or its dye absorbs.

The rule of this module: three numbers of a colour do not fix 31 bands, so of all spectra that give the
colour the smoothest is taken. A dye is fitted on the fibre each swatch was dyed on; its K/S grows as depth
to the power `b`: ``k = k_fibre + u * depth_pct_owf ** b``, u the K/S of the dye at 1 % owf. One depth
cannot tell `b`; it stays at `USUAL_EXPONENT` until a second depth is given.

The smoothing, `USUAL_EXPONENT` and how far `b` may stray are our choices, from a trial of two-dye mixes; no
published table of K/S against depth of acid dyes on wool was found. Method: K. Levenberg, "A Method for the
Solution of Certain Non-Linear Problems in Least Squares", 1944; D. W. Marquardt, "An Algorithm for
Least-Squares Estimation of Nonlinear Parameters", 1963.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.kubelka_munk import (
    SURFACE_REFLECTANCE,
    k_over_s,
    measured_from_internal,
    reflectance_from_k_over_s,
)
from studio_gui.domain.colour.spaces import Array, lab_from_hex, lab_from_xyz, lab_slope, read_only
from studio_gui.domain.colour.spectra import WAVELENGTHS_NM, WEIGHTS_D65_2DEG, xyz_from_reflectance
from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.errors import InvalidPlan

#: Power of depth by which a dye's K/S grows when swatches do not tell.
USUAL_EXPONENT = 0.9
_USUAL_LOG_EXPONENT = float(np.log(USUAL_EXPONENT))

# In ln b: how far swatches easily pull the exponent, and the most they can.
_EXPONENT_SPREAD = 0.3
_EXPONENT_REACH = 3.0 * _EXPONENT_SPREAD
# Above this the fibre reflects a tenth of what its surface does: darker cannot be seen, so it is not told.
_BLACKEST_K_OVER_S = 1000.0
_FIBRE_SMOOTHING = (1.0, 0.03, 1e-3, 1e-5)
_ONE_SWATCH_SMOOTHING = 0.01
_SEVERAL_SWATCHES_SMOOTHING = 5.0

_LARGEST_STEP = 3.0
_MOST_STEPS = 60
_FIRST_DAMPING = 1e-3
_LEAST_DAMPING = 1e-7
_HOPELESS_DAMPING = 1e9
_SETTLED_SHARE = 1e-7
_SETTLED_COST = 1e-9

_BANDS = WAVELENGTHS_NM.size
_STEPS_BETWEEN_BANDS: Array = np.diff(np.eye(_BANDS), axis=0)

#: Residuals (m,) at a point (p,) and their derivatives (m, p).
_Residuals = Callable[[Array], tuple[Array, Array]]


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
    """

    unit_k_over_s: Array
    exponent: float
    misses: tuple[float, ...]


def _least_squares(residuals: _Residuals, start: Array) -> Array:
    """Return the point near `start` where the sum of squared residuals is least (Levenberg-Marquardt)."""
    point, damping = start, _FIRST_DAMPING
    errors, slopes = residuals(point)
    cost = float(errors @ errors)
    for _ in range(_MOST_STEPS):
        curvature = slopes.T @ slopes
        damped = curvature + damping * np.diag(np.diag(curvature))
        step = np.clip(-np.linalg.solve(damped, slopes.T @ errors), -_LARGEST_STEP, _LARGEST_STEP)
        new_errors, new_slopes = residuals(point + step)
        new_cost = float(new_errors @ new_errors)
        if new_cost < cost:
            settled = cost - new_cost <= _SETTLED_SHARE * cost + _SETTLED_COST
            point, errors, slopes, cost = point + step, new_errors, new_slopes, new_cost
            damping = max(damping / 10.0, _LEAST_DAMPING)
            if settled:
                break
        else:
            damping *= 5.0
            if damping > _HOPELESS_DAMPING:
                break
    return point


def _lab_and_slopes(internal_reflectance: Array) -> tuple[Array, Array]:
    """Return Lab (3,) of internal reflectance (31,), and its derivative by band (3, 31)."""
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

    def smoothed_by(smoothing: float) -> _Residuals:
        slope_of_steps = np.sqrt(smoothing) * _STEPS_BETWEEN_BANDS

        def residuals(logit: Array) -> tuple[Array, Array]:
            internal = 1.0 / (1.0 + np.exp(-logit))
            lab, lab_slopes = _lab_and_slopes(internal)
            errors = np.concatenate([slope_of_steps @ logit, lab - target])
            return errors, np.vstack([slope_of_steps, lab_slopes * internal * (1.0 - internal)])

        return residuals

    logit = np.zeros(_BANDS)
    for smoothing in _FIBRE_SMOOTHING:
        logit = _least_squares(smoothed_by(smoothing), logit)
    return read_only(k_over_s(1.0 / (1.0 + np.exp(-logit))))


def _dye_residuals(swatches: tuple[Swatch, ...]) -> _Residuals:
    """Residuals of a dye at a point of 31 ln u and ln b: smoothness, usual `b`, Lab of every swatch."""
    fibres = [fibre_k_over_s(swatch.fibre_srgb) for swatch in swatches]
    targets = [lab_from_hex(swatch.srgb) for swatch in swatches]
    logs_of_depth = [float(np.log(swatch.depth_pct_owf)) for swatch in swatches]
    exponent_is_free = len(set(logs_of_depth)) > 1
    smoothing = _ONE_SWATCH_SMOOTHING if len(swatches) == 1 else _SEVERAL_SWATCHES_SMOOTHING
    usual = np.zeros(_BANDS + 1)
    usual[-1] = _USUAL_LOG_EXPONENT
    prior_slopes = np.zeros((_BANDS, _BANDS + 1))
    prior_slopes[:-1, :-1] = np.sqrt(smoothing) * _STEPS_BETWEEN_BANDS
    prior_slopes[-1, -1] = 1.0 / _EXPONENT_SPREAD

    def residuals(point: Array) -> tuple[Array, Array]:
        exponent = _exponent(point[-1])
        errors, slopes = [prior_slopes @ (point - usual)], [prior_slopes]
        for fibre, target, log_of_depth in zip(fibres, targets, logs_of_depth, strict=True):
            dye = np.exp(point[:-1] + exponent * log_of_depth)
            k = fibre + dye
            internal = reflectance_from_k_over_s(k)
            lab, lab_slopes = _lab_and_slopes(internal)
            by_band = lab_slopes * (-internal / np.sqrt(k * (k + 2.0)) * dye)
            by_exponent = by_band.sum(axis=1, keepdims=True) * (log_of_depth * exponent * exponent_is_free)
            errors.append(lab - target)
            slopes.append(np.hstack([by_band, by_exponent]))
        return np.concatenate(errors), np.vstack(slopes)

    return residuals


def _exponent(log_exponent: float) -> float:
    """The exponent at a point of the fit, kept where a power of depth still makes sense."""
    away = np.clip(log_exponent - _USUAL_LOG_EXPONENT, -_EXPONENT_REACH, _EXPONENT_REACH)
    return USUAL_EXPONENT * float(np.exp(away))


@lru_cache(maxsize=256)
def dye_curve(swatches: tuple[Swatch, ...]) -> DyeCurve:
    """Return what a dye absorbs, fitted to one swatch or several; the fit of equal swatches is kept.

    One swatch fixes a colour, not a spectrum: mixes can be off by 4 CIEDE2000 or more. Above about 4 % owf,
    and beyond the deepest swatch, the curve is extrapolation. The exponent stays within 0.37 and 2.2.

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
    start = np.append(np.zeros(_BANDS), _USUAL_LOG_EXPONENT)
    point = _least_squares(_dye_residuals(swatches), start)
    exponent = _exponent(point[-1])
    deepest = max(swatch.depth_pct_owf for swatch in swatches) ** exponent
    unit = np.minimum(np.exp(point[:-1]), _BLACKEST_K_OVER_S / deepest)
    misses = tuple(_miss(swatch, unit * swatch.depth_pct_owf**exponent) for swatch in swatches)
    return DyeCurve(unit_k_over_s=read_only(unit), exponent=exponent, misses=misses)


def _miss(swatch: Swatch, dye_k_over_s: Array) -> float:
    """CIEDE2000 between a swatch and what the dye gives on its fibre."""
    internal = reflectance_from_k_over_s(fibre_k_over_s(swatch.fibre_srgb) + dye_k_over_s)
    lab = lab_from_xyz(xyz_from_reflectance(measured_from_internal(internal)))
    return float(ciede2000(lab, lab_from_hex(swatch.srgb)))
