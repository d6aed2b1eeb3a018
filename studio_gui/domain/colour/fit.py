"""From the colour of a sample to what its fibre or its dye absorbs.

The rule of this module: three numbers of a colour do not fix 31 bands, so of all spectra that give the
colour the smoothest is taken; a spectrum that was measured is taken as it is. A dye is fitted on the fibre
each swatch was dyed on; its K/S grows as depth to the power `b`: ``k = k_fibre + u * depth_pct_owf ** b``, u
the K/S of the dye at 1 % owf. One depth cannot tell `b`; it stays at `USUAL_EXPONENT` until a second depth is
given. Of three swatches or more, one that the others do not bear out loses its say, step by step.

The smoothing, `USUAL_EXPONENT`, how far `b` may stray and how a swatch loses its say are our choices, from a
trial of two-dye mixes and of invented dyes with one swatch mislabelled; no published table of K/S against
depth of acid dyes on wool was found. How far a swatch may be off is measured by the median, as in P. J.
Huber, "Robust Estimation of a Location Parameter", Annals of Mathematical Statistics 35, 1964.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache, partial
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.fluorescence import Excess, excess_over
from studio_gui.domain.colour.kubelka_munk import (
    SURFACE_REFLECTANCE,
    internal_from_measured,
    k_over_s,
    measured_from_internal,
    reflectance_from_k_over_s,
)
from studio_gui.domain.colour.least_squares import MOST_STEPS, Residuals, least_squares
from studio_gui.domain.colour.spaces import (
    Array,
    lab_from_hex,
    lab_from_xyz,
    lab_slope,
    linear_from_xyz,
    read_only,
    xyz_from_lab,
    xyz_from_linear,
)
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

# Of three swatches or more: rounds of weighing them anew, and CIE Lab distances in which one keeps its say.
_FEWEST_TO_WEIGH = 3
_WEIGHINGS = 6
_MORE_STEPS = 10
_TRUSTED_SPREADS = 1.5
_LEAST_SPREAD = 0.5
_SAME_WEIGHT = 0.01
_ODD_ONES_TRIED = 4
_NO_SAY = 1e-6
# A measured band is never quite black, and never quite without dye.
_DARKEST_MEASURED = 1e-4
_LEAST_DYE_K_OVER_S = 1e-5

_BANDS = WAVELENGTHS_NM.size
_STEPS_BETWEEN_BANDS: Array = np.diff(np.eye(_BANDS), axis=0)

#: Takes weights of the swatches (n,), a point to start from and the most steps; returns a better point: 31
#: ln u and ln b.
_Solver: TypeAlias = Callable[[Array, Array, int], Array]


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
    """

    unit_k_over_s: Array
    exponent: float
    misses: tuple[float, ...]
    excess: Excess | None = None


def _lab_and_slopes(internal_reflectance: Array) -> tuple[Array, Array]:
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
        slope_of_steps = np.sqrt(smoothing) * _STEPS_BETWEEN_BANDS

        def residuals(logit: Array) -> tuple[Array, Array]:
            internal = 1.0 / (1.0 + np.exp(-logit))
            lab, lab_slopes = _lab_and_slopes(internal)
            errors = np.concatenate([slope_of_steps @ logit, lab - target])
            return errors, np.vstack([slope_of_steps, lab_slopes * internal * (1.0 - internal)])

        return residuals

    logit = np.zeros(_BANDS)
    for smoothing in _FIBRE_SMOOTHING:
        logit = least_squares(smoothed_by(smoothing), logit)
    return read_only(k_over_s(1.0 / (1.0 + np.exp(-logit))))


@dataclass(frozen=True, slots=True, eq=False)
class _Samples:
    """Swatches as arrays, one row each."""

    fibres: Array
    targets: Array
    logs_of_depth: Array

    @property
    def exponent_is_free(self) -> bool:
        """Whether there are two depths, which tell how the dye builds up."""
        return bool(self.logs_of_depth.min() < self.logs_of_depth.max())

    def lab_and_slopes(self, log_dye: Array) -> tuple[Array, Array]:
        """Return Lab (n, 3) of each on its fibre with ln K/S of the dye (n, 31); derivatives (n, 3, 31)."""
        dye = np.exp(log_dye)
        k = self.fibres + dye
        internal = reflectance_from_k_over_s(k)
        lab, slopes = _lab_and_slopes(internal)
        return lab, slopes * (-internal / np.sqrt(k * (k + 2.0)) * dye)[:, np.newaxis, :]

    def distances(self, point: Array) -> Array:
        """Return how far each is from what 31 ln u and ln b give, CIE Lab distance, shape (n,)."""
        log_dye = point[:-1] + _exponent(point[-1]) * self.logs_of_depth[:, np.newaxis]
        away: Array = np.linalg.norm(self.lab_and_slopes(log_dye)[0] - self.targets, axis=1)
        return away


def _samples(swatches: tuple[Swatch, ...]) -> _Samples:
    return _Samples(
        fibres=np.array([fibre_k_over_s(swatch.fibre_srgb) for swatch in swatches]),
        targets=np.array([_lab_of(swatch) for swatch in swatches]),
        logs_of_depth=np.log([swatch.depth_pct_owf for swatch in swatches]),
    )


def _lab_of(swatch: Swatch) -> Array:
    if swatch.reflectance is None:
        return lab_from_hex(swatch.srgb)
    return lab_from_xyz(xyz_from_reflectance(np.array(swatch.reflectance)))


def _from_colours(samples: _Samples, weights: Array, start: Array, most_steps: int) -> Array:
    """Return the smoothest dye that gives the colours: 31 ln u and ln b."""
    count = len(weights)
    smoothing = _ONE_SWATCH_SMOOTHING if count == 1 else _SEVERAL_SWATCHES_SMOOTHING
    usual = np.zeros(_BANDS + 1)
    usual[-1] = _USUAL_LOG_EXPONENT
    prior_slopes = np.zeros((_BANDS, _BANDS + 1))
    prior_slopes[:-1, :-1] = np.sqrt(smoothing) * _STEPS_BETWEEN_BANDS
    prior_slopes[-1, -1] = 1.0 / _EXPONENT_SPREAD
    logs, is_free = samples.logs_of_depth, samples.exponent_is_free
    roots = np.sqrt(weights)[:, np.newaxis]

    def residuals(point: Array) -> tuple[Array, Array]:
        exponent = _exponent(point[-1])
        lab, by_band = samples.lab_and_slopes(point[:-1] + exponent * logs[:, np.newaxis])
        by_exponent = (
            by_band.sum(axis=2, keepdims=True) * (logs * exponent * is_free)[:, np.newaxis, np.newaxis]
        )
        slopes = np.concatenate((by_band, by_exponent), axis=2) * roots[:, :, np.newaxis]
        errors = (lab - samples.targets) * roots
        return (
            np.concatenate((prior_slopes @ (point - usual), errors.ravel())),
            np.vstack((prior_slopes, slopes.reshape(-1, _BANDS + 1))),
        )

    return least_squares(residuals, start, most_steps)


def _from_spectra(
    samples: _Samples,
    measured: npt.NDArray[np.intp],
    log_dyes: Array,
    weights: Array,
    start: Array,
    most_steps: int,
) -> Array:
    """Return the dye of measured spectra: 31 ln u, their weighted mean, and ln b that suits all swatches.

    `log_dyes` are ln K/S of the dye in those swatches, shape (m, 31), that `measured` (m,) counts.
    """
    say = weights[measured] / weights[measured].sum()
    log_dye, mean_log = say @ log_dyes, float(say @ samples.logs_of_depth[measured])
    away = (samples.logs_of_depth - mean_log)[:, np.newaxis]
    roots = np.sqrt(weights)[:, np.newaxis]

    def residuals(point: Array) -> tuple[Array, Array]:
        exponent = _exponent(point[0])
        lab, by_band = samples.lab_and_slopes(log_dye + exponent * away)
        slopes = by_band.sum(axis=2) * away * exponent * roots
        errors = np.append(
            (lab - samples.targets) * roots, (point[0] - _USUAL_LOG_EXPONENT) / _EXPONENT_SPREAD
        )
        return errors, np.append(slopes, 1.0 / _EXPONENT_SPREAD)[:, np.newaxis]

    log_exponent = start[-1:]
    if samples.exponent_is_free:
        log_exponent = least_squares(residuals, log_exponent, most_steps)
    return np.append(log_dye - _exponent(log_exponent[0]) * mean_log, log_exponent)


def _solver(swatches: tuple[Swatch, ...], samples: _Samples) -> _Solver:
    """Return what fits these swatches: by their spectra where any was measured, else by their colours."""
    measured = np.flatnonzero([swatch.is_measured for swatch in swatches])
    if not measured.size:
        return partial(_from_colours, samples)
    spectra = np.array([swatch.reflectance for swatch in swatches if swatch.reflectance is not None])
    internal = np.clip(internal_from_measured(spectra), _DARKEST_MEASURED, 1.0)
    dyes = np.maximum(k_over_s(internal) - samples.fibres[measured], _LEAST_DYE_K_OVER_S)
    return partial(_from_spectra, samples, measured, np.log(dyes))


def _fitted(samples: _Samples, solve: _Solver) -> Array:
    """Return 31 ln u and ln b; of three swatches or more, those that the rest contradict count for less."""
    weights = np.ones(len(samples.targets))
    point = solve(weights, np.append(np.zeros(_BANDS), _USUAL_LOG_EXPONENT), MOST_STEPS)
    if len(weights) < _FEWEST_TO_WEIGH:
        return point
    away = samples.distances(point)
    if away.max() > _TRUSTED_SPREADS:
        point = _without_the_odd_one(samples, solve, point, away)
    spread = np.inf
    for _ in range(_WEIGHINGS):
        away = samples.distances(point)
        # never wider again, or the odd one would buy its say back bit by bit
        spread = min(spread, max(1.4826 * float(np.median(away)), _LEAST_SPREAD))
        trusted = _TRUSTED_SPREADS * spread
        before, weights = weights, (trusted / np.maximum(away, trusted)) ** 2
        if np.abs(weights - before).max() < _SAME_WEIGHT:
            break
        point = solve(weights, point, _MORE_STEPS)
    return point


def _without_the_odd_one(samples: _Samples, solve: _Solver, point: Array, away: Array) -> Array:
    """Return the fit without the one swatch whose absence lets all others agree best, or `point`.

    Only those farthest away are tried. Two swatches always agree, but only with the true one do they build up
    as dyes do.
    """
    found = [(_disagreement(point, away), point)]
    for odd in np.argsort(away)[::-1][:_ODD_ONES_TRIED].tolist():
        weights = np.ones(len(away))
        weights[odd] = _NO_SAY
        tried = solve(weights, point, _MORE_STEPS)
        found.append((_disagreement(tried, np.delete(samples.distances(tried), odd)), tried))
    return min(found, key=lambda one: one[0])[1]


def _disagreement(point: Array, away: Array) -> float:
    """Sum of squares: how far swatches are away, how unusual the build-up is, how rough the spectrum."""
    unusual = (point[-1] - _USUAL_LOG_EXPONENT) / _EXPONENT_SPREAD
    steps = _STEPS_BETWEEN_BANDS @ point[:-1]
    return float(away @ away + unusual**2 + _SEVERAL_SWATCHES_SMOOTHING * steps @ steps)


def _exponent(log_exponent: float) -> float:
    """The exponent at a point of the fit, kept where a power of depth still makes sense."""
    away = np.clip(log_exponent - _USUAL_LOG_EXPONENT, -_EXPONENT_REACH, _EXPONENT_REACH)
    return USUAL_EXPONENT * float(np.exp(away))


@lru_cache(maxsize=256)
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
    samples = _samples(swatches)
    point = _fitted(samples, _solver(swatches, samples))
    exponent = _exponent(point[-1])
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
    return DyeCurve(read_only(unit), exponent, tuple(misses.tolist()), excess)
