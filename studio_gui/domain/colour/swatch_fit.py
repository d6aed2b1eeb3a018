"""Swatches of a dye, weighed against one another, and the spectrum that suits them best.

The rule of this module: of all spectra that give the colours the smoothest is taken; a spectrum that was
measured is taken as it is. A dye is fitted on the fibre
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
from functools import partial
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from studio_gui.domain.colour.fibre_fit import BANDS, STEPS_BETWEEN_BANDS, fibre_k_over_s, lab_and_slopes
from studio_gui.domain.colour.kubelka_munk import (
    internal_from_measured,
    k_over_s,
    reflectance_from_k_over_s,
)
from studio_gui.domain.colour.least_squares import MOST_STEPS, least_squares
from studio_gui.domain.colour.spaces import Array, lab_from_hex, lab_from_xyz
from studio_gui.domain.colour.spectra import xyz_from_reflectance
from studio_gui.domain.colour.swatches import Swatch

#: Power of depth by which a dye's K/S grows when swatches do not tell.
USUAL_EXPONENT = 0.9
_USUAL_LOG_EXPONENT = float(np.log(USUAL_EXPONENT))

# In ln b: how far swatches easily pull the exponent, and the most they can.
_EXPONENT_SPREAD = 0.3
_EXPONENT_REACH = 3.0 * _EXPONENT_SPREAD
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

#: Takes weights of the swatches (n,), a point to start from and the most steps; returns a better point: 31
#: ln u and ln b.
_Solver: TypeAlias = Callable[[Array, Array, int], Array]


@dataclass(frozen=True, slots=True, eq=False)
class Samples:
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
        lab, slopes = lab_and_slopes(internal)
        return lab, slopes * (-internal / np.sqrt(k * (k + 2.0)) * dye)[:, np.newaxis, :]

    def distances(self, point: Array) -> Array:
        """Return how far each is from what 31 ln u and ln b give, CIE Lab distance, shape (n,)."""
        log_dye = point[:-1] + exponent_at(point[-1]) * self.logs_of_depth[:, np.newaxis]
        away: Array = np.linalg.norm(self.lab_and_slopes(log_dye)[0] - self.targets, axis=1)
        return away


def samples_of(swatches: tuple[Swatch, ...]) -> Samples:
    """Return swatches as arrays; those of measured ones have the Lab of their spectrum."""
    return Samples(
        fibres=np.array([fibre_k_over_s(swatch.fibre_srgb) for swatch in swatches]),
        targets=np.array([_lab_of(swatch) for swatch in swatches]),
        logs_of_depth=np.log([swatch.depth_pct_owf for swatch in swatches]),
    )


def _lab_of(swatch: Swatch) -> Array:
    if swatch.reflectance is None:
        return lab_from_hex(swatch.srgb)
    return lab_from_xyz(xyz_from_reflectance(np.array(swatch.reflectance)))


def _from_colours(samples: Samples, weights: Array, start: Array, most_steps: int) -> Array:
    """Return the smoothest dye that gives the colours: 31 ln u and ln b."""
    count = len(weights)
    smoothing = _ONE_SWATCH_SMOOTHING if count == 1 else _SEVERAL_SWATCHES_SMOOTHING
    usual = np.zeros(BANDS + 1)
    usual[-1] = _USUAL_LOG_EXPONENT
    prior_slopes = np.zeros((BANDS, BANDS + 1))
    prior_slopes[:-1, :-1] = np.sqrt(smoothing) * STEPS_BETWEEN_BANDS
    prior_slopes[-1, -1] = 1.0 / _EXPONENT_SPREAD
    logs, is_free = samples.logs_of_depth, samples.exponent_is_free
    roots = np.sqrt(weights)[:, np.newaxis]

    def residuals(point: Array) -> tuple[Array, Array]:
        exponent = exponent_at(point[-1])
        lab, by_band = samples.lab_and_slopes(point[:-1] + exponent * logs[:, np.newaxis])
        by_exponent = (
            by_band.sum(axis=2, keepdims=True) * (logs * exponent * is_free)[:, np.newaxis, np.newaxis]
        )
        slopes = np.concatenate((by_band, by_exponent), axis=2) * roots[:, :, np.newaxis]
        errors = (lab - samples.targets) * roots
        return (
            np.concatenate((prior_slopes @ (point - usual), errors.ravel())),
            np.vstack((prior_slopes, slopes.reshape(-1, BANDS + 1))),
        )

    return least_squares(residuals, start, most_steps)


def _from_spectra(
    samples: Samples,
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
        exponent = exponent_at(point[0])
        lab, by_band = samples.lab_and_slopes(log_dye + exponent * away)
        slopes = by_band.sum(axis=2) * away * exponent * roots
        errors = np.append(
            (lab - samples.targets) * roots, (point[0] - _USUAL_LOG_EXPONENT) / _EXPONENT_SPREAD
        )
        return errors, np.append(slopes, 1.0 / _EXPONENT_SPREAD)[:, np.newaxis]

    log_exponent = start[-1:]
    if samples.exponent_is_free:
        log_exponent = least_squares(residuals, log_exponent, most_steps)
    return np.append(log_dye - exponent_at(log_exponent[0]) * mean_log, log_exponent)


def _solver(swatches: tuple[Swatch, ...], samples: Samples) -> _Solver:
    """Return what fits these swatches: by their spectra where any was measured, else by their colours."""
    measured = np.flatnonzero([swatch.is_measured for swatch in swatches])
    if not measured.size:
        return partial(_from_colours, samples)
    spectra = np.array([swatch.reflectance for swatch in swatches if swatch.reflectance is not None])
    internal = np.clip(internal_from_measured(spectra), _DARKEST_MEASURED, 1.0)
    dyes = np.maximum(k_over_s(internal) - samples.fibres[measured], _LEAST_DYE_K_OVER_S)
    return partial(_from_spectra, samples, measured, np.log(dyes))


def fitted(swatches: tuple[Swatch, ...], samples: Samples) -> Array:
    """Return the dye of swatches and of the same as arrays: 31 ln u and ln b, shape (32,).

    Of three swatches or more, those that the rest contradict count for less.
    """
    solve = _solver(swatches, samples)
    weights = np.ones(len(samples.targets))
    point = solve(weights, np.append(np.zeros(BANDS), _USUAL_LOG_EXPONENT), MOST_STEPS)
    if len(weights) < _FEWEST_TO_WEIGH:
        return point
    away = samples.distances(point)
    if away.max() > _TRUSTED_SPREADS:
        point = _without_the_odd_one(samples, solve, point, away)
    spread = np.inf
    for _ in range(_WEIGHINGS):
        away = samples.distances(point)
        # never wider again, or the odd one would buy its say back bit by bit
        spread = min(spread, max(1.4826 * _median(away), _LEAST_SPREAD))
        trusted = _TRUSTED_SPREADS * spread
        before, weights = weights, (trusted / np.maximum(away, trusted)) ** 2
        if np.abs(weights - before).max() < _SAME_WEIGHT:
            break
        point = solve(weights, point, _MORE_STEPS)
    return point


def _without_the_odd_one(samples: Samples, solve: _Solver, point: Array, away: Array) -> Array:
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
    steps = STEPS_BETWEEN_BANDS @ point[:-1]
    return float(away @ away + unusual**2 + _SEVERAL_SWATCHES_SMOOTHING * steps @ steps)


def _median(values: Array) -> float:
    """Return the median; that of numpy loads masked arrays, which a start can do without."""
    ranked = np.sort(values)
    return float(ranked[(len(ranked) - 1) // 2] + ranked[len(ranked) // 2]) / 2.0


def exponent_at(log_exponent: float) -> float:
    """The exponent at a point of the fit, kept where a power of depth still makes sense."""
    away = np.clip(log_exponent - _USUAL_LOG_EXPONENT, -_EXPONENT_REACH, _EXPONENT_REACH)
    return USUAL_EXPONENT * float(np.exp(away))
