"""Swatches of a dye, weighed against one another, and the spectrum that suits them best.

The rule of this module: of all spectra that give the colours the smoothest is taken, or where one was
measured, the one that departs from it most smoothly. In the colours a measured swatch has the same say as
any other; alone it is met as it is. A dye is fitted on the fibre each swatch was dyed on; its K/S grows as
depth to the power `b`: ``k = k_fibre + u * depth_pct_owf ** b``, u the K/S of the dye at 1 % owf. One depth
cannot tell `b`; it stays at `USUAL_EXPONENT` until a second depth is given. Of three swatches or more, one
that the others do not bear out loses its say, step by step.

The smoothing, `USUAL_EXPONENT`, how far `b` may stray and how a swatch loses its say are our choices, from a
trial of two-dye mixes and of invented dyes with one swatch mislabelled; no published table of K/S against
depth of acid dyes on wool was found. How far a swatch may be off is measured by the median, as in P. J.
Huber, "Robust Estimation of a Location Parameter", Annals of Mathematical Statistics 35, 1964.
"""

from __future__ import annotations

from dataclasses import dataclass

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


@dataclass(frozen=True, slots=True, eq=False)
class Samples:
    """Swatches as arrays, one row each.

    Parameters
    ----------
    fibres
        K/S of the fibres, shape (n, 31).
    targets
        Lab of the swatches, shape (n, 3).
    within_reach
        The same, but for measured ones as absorption alone gives it: less the light of a fluorescent dye.
    logs_of_depth
        ln of depth in % owf, shape (n,).
    measured
        Which ones were measured, shape (m,).
    log_dyes
        ln K/S of the dye in those, at their depths, shape (m, 31).
    """

    fibres: Array
    targets: Array
    within_reach: Array
    logs_of_depth: Array
    measured: npt.NDArray[np.intp]
    log_dyes: Array

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
    fibres = np.array([fibre_k_over_s(swatch.fibre_srgb) for swatch in swatches])
    targets = np.array([_lab_of(swatch) for swatch in swatches])
    within_reach, log_dyes = targets.copy(), np.zeros((0, BANDS))
    measured = np.flatnonzero([swatch.is_measured for swatch in swatches])
    if measured.size:
        spectra = np.array([swatch.reflectance for swatch in swatches if swatch.reflectance is not None])
        internal = np.clip(internal_from_measured(spectra), _DARKEST_MEASURED, 1.0)
        dyes = np.maximum(k_over_s(internal) - fibres[measured], _LEAST_DYE_K_OVER_S)
        log_dyes = np.log(dyes)
        within_reach[measured] = lab_and_slopes(reflectance_from_k_over_s(fibres[measured] + dyes))[0]
    logs_of_depth = np.log([swatch.depth_pct_owf for swatch in swatches])
    return Samples(fibres, targets, within_reach, logs_of_depth, measured, log_dyes)


def _lab_of(swatch: Swatch) -> Array:
    if swatch.reflectance is None:
        return lab_from_hex(swatch.srgb)
    return lab_from_xyz(xyz_from_reflectance(np.array(swatch.reflectance)))


def _shape_of_spectra(samples: Samples, weights: Array) -> Array:
    """Return how ln u changes from band to band by the measured spectra, as far as they have a say; else 0.

    Steps from band to band are the same at every depth, so that a wrong depth does not spoil them.
    """
    measured = samples.measured
    if not measured.size:
        return np.zeros(BANDS - 1)
    say = weights[measured]
    mean: Array = (say / say.sum()) @ samples.log_dyes
    shape: Array = float(say.max()) * (STEPS_BETWEEN_BANDS @ mean)
    return shape


def _solved(samples: Samples, weights: Array, start: Array, most_steps: int) -> Array:
    """Return the dye that gives the colours and departs most smoothly from what was measured.

    31 ln u and ln b. Every sample has one say in the colours; a measured one lends its shape besides.
    """
    alone = len(weights) == 1 and not samples.measured.size
    root = np.sqrt(_ONE_SWATCH_SMOOTHING if alone else _SEVERAL_SWATCHES_SMOOTHING)
    wanted = np.append(root * _shape_of_spectra(samples, weights), _USUAL_LOG_EXPONENT / _EXPONENT_SPREAD)
    prior_slopes = np.zeros((BANDS, BANDS + 1))
    prior_slopes[:-1, :-1] = root * STEPS_BETWEEN_BANDS
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
        errors = (lab - samples.within_reach) * roots
        return (
            np.concatenate((prior_slopes @ point - wanted, errors.ravel())),
            np.vstack((prior_slopes, slopes.reshape(-1, BANDS + 1))),
        )

    return least_squares(residuals, start, most_steps)


def _start(samples: Samples) -> Array:
    """Return where a fit begins: at the measured spectra, else at a grey dye."""
    log_dye = np.zeros(BANDS)
    if samples.measured.size:
        mean_log = samples.logs_of_depth[samples.measured].mean()
        log_dye = samples.log_dyes.mean(axis=0) - USUAL_EXPONENT * mean_log
    return np.append(log_dye, _USUAL_LOG_EXPONENT)


def fitted(samples: Samples) -> Array:
    """Return the dye of swatches: 31 ln u and ln b, shape (32,).

    Of three swatches or more, those that the rest contradict count for less.
    """
    weights = np.ones(len(samples.targets))
    point = _solved(samples, weights, _start(samples), MOST_STEPS)
    if len(weights) < _FEWEST_TO_WEIGH:
        return point
    if samples.distances(point).max() > _TRUSTED_SPREADS:
        _, point = _without_the_odd_one(samples, point)
    spread = np.inf
    for _ in range(_WEIGHINGS):
        away = samples.distances(point)
        # never wider again, or the odd one would buy its say back bit by bit
        spread = min(spread, max(1.4826 * _median(away), _LEAST_SPREAD))
        trusted = _TRUSTED_SPREADS * spread
        before, weights = weights, (trusted / np.maximum(away, trusted)) ** 2
        if np.abs(weights - before).max() < _SAME_WEIGHT:
            break
        point = _solved(samples, weights, point, _MORE_STEPS)
    return point


def odd_one(samples: Samples, point: Array) -> int | None:
    """Return which swatch, from 0, contradicts all others; None where none does, or it cannot be told.

    It is the one without which the others agree best, and the one that a fit weighed by the others leaves
    farthest away. Two swatches cannot tell which of them is wrong.
    """
    away = samples.distances(point)
    if len(away) < _FEWEST_TO_WEIGH or away.max() <= _TRUSTED_SPREADS:
        return None
    odd, _ = _without_the_odd_one(samples, point)
    return odd if odd == int(away.argmax()) else None


def _without_the_odd_one(samples: Samples, point: Array) -> tuple[int | None, Array]:
    """Return the swatch whose absence lets all others agree best, and the fit without it; or None, `point`.

    Only those farthest away are tried. Two swatches always agree, but only with the true one do they build up
    as dyes do.
    """
    away, everyone = samples.distances(point), np.ones(len(samples.targets))
    found: list[tuple[float, int | None, Array]] = [
        (_disagreement(samples, everyone, point, away), None, point)
    ]
    for odd in np.argsort(away)[::-1][:_ODD_ONES_TRIED].tolist():
        weights = everyone.copy()
        weights[odd] = _NO_SAY
        tried = _solved(samples, weights, point, _MORE_STEPS)
        others = np.delete(samples.distances(tried), odd)
        found.append((_disagreement(samples, weights, tried, others), odd, tried))
    _, odd_one, fit = min(found, key=lambda one: one[0])
    return odd_one, fit


def _disagreement(samples: Samples, weights: Array, point: Array, away: Array) -> float:
    """Sum of squares: how far swatches are away, how unusual the build-up is, how rough the spectrum."""
    unusual = (point[-1] - _USUAL_LOG_EXPONENT) / _EXPONENT_SPREAD
    steps = STEPS_BETWEEN_BANDS @ point[:-1] - _shape_of_spectra(samples, weights)
    return float(away @ away + unusual**2 + _SEVERAL_SWATCHES_SMOOTHING * steps @ steps)


def _median(values: Array) -> float:
    """Return the median; that of numpy loads masked arrays, which a start can do without."""
    ranked = np.sort(values)
    return float(ranked[(len(ranked) - 1) // 2] + ranked[len(ranked) // 2]) / 2.0


def exponent_at(log_exponent: float) -> float:
    """The exponent at a point of the fit, kept where a power of depth still makes sense."""
    away = np.clip(log_exponent - _USUAL_LOG_EXPONENT, -_EXPONENT_REACH, _EXPONENT_REACH)
    return USUAL_EXPONENT * float(np.exp(away))
