"""The doses that come nearest to a colour, before they are rounded to what can be measured.

The rule of this module: every set of up to three dyes is tried, within what the jar holds. How near is told
by a `Measure`: by CIEDE2000, or by the distance in IPT.

Method: least squares in the local shape of CIEDE2000 about the wanted colour, or in IPT, for all sets at once
(K. Levenberg, 1944; D. W. Marquardt, 1963), then a search with the difference itself (R. Hooke, T. A. Jeeves,
"'Direct Search' Solution of Numerical and Statistical Problems", Journal of the ACM 8(2), 1961).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import combinations
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.colour.deliverable import Measuring
from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.ipt import ipt_from_lab
from studio_gui.domain.colour.palette import Palette
from studio_gui.domain.colour.spaces import Array

#: Which dyes a row is about, (r, 3).
_Dyes: TypeAlias = NDArray[np.intp]

MOST_BOTTLES = 3

_STARTS_PCT_OWF = (0.15, 1.0)
_LEAST_DOSE_PCT_OWF = 1e-4
_ROUNDS_FOR_ALL = 4
_ROUNDS_FOR_FEW = 10
_FEW = 40
_KEPT = 12
_SEARCH_ROUNDS = 12
_LOG_STEP = 1e-3
_LARGEST_LOG_STEP = 1.5


@dataclass(frozen=True, slots=True, eq=False)
class Measure:
    """How far colours are from the wanted one.

    Parameters
    ----------
    errors
        Of CIE Lab, (..., 3), what least squares make small, (..., 3).
    away
        Of CIE Lab, (..., 3), the difference itself, (...).
    """

    errors: Callable[[Array], Array]
    away: Callable[[Array], Array]


def by_ciede2000(wanted_lab: Array) -> Measure:
    """Return CIEDE2000 from a colour, CIE Lab (3,)."""
    shape = _shape_of_difference(wanted_lab)
    return Measure(lambda lab: (lab - wanted_lab) @ shape.T, lambda lab: ciede2000(lab, wanted_lab))


def by_ipt(wanted_lab: Array) -> Measure:
    """Return the distance in IPT, in hundredths: one is about as much light as one of L*."""
    wanted = ipt_from_lab(wanted_lab)

    def errors(lab: Array) -> Array:
        return 100.0 * (ipt_from_lab(lab) - wanted)

    def away(lab: Array) -> Array:
        distance: Array = np.sqrt((errors(lab) ** 2).sum(axis=-1))
        return distance

    return Measure(errors, away)


def nearest_doses(palette: Palette, measuring: Measuring, measure: Measure) -> Array:
    """Return the best doses, (k, d), of the best sets of dyes, nearest first."""
    sets = _sets(measuring.dyes)
    if not len(sets):
        return np.zeros((1, measuring.dyes))
    room = _Room(measuring)
    used = np.concatenate([sets] * len(_STARTS_PCT_OWF))
    logs = np.log(np.repeat(_STARTS_PCT_OWF, len(sets)))[:, np.newaxis] * np.ones((1, MOST_BOTTLES))
    logs = _improved(palette, room, measure, used, logs, _ROUNDS_FOR_ALL)
    away = measure.away(palette.lab(room.doses(used, logs)))
    few = np.argsort(away, kind="stable")[:_FEW]
    used = used[few]
    logs = _improved(palette, room, measure, used, logs[few], _ROUNDS_FOR_FEW)
    logs, away = _searched(palette, room, measure, used, logs)
    order = np.argsort(away, kind="stable")[:_KEPT]
    return room.doses(used[order], logs[order])


def _sets(dyes: int) -> _Dyes:
    """Return every set of up to three dyes, (s, 3); a place that is not used says `dyes`."""
    rows = [
        (*chosen, *[dyes] * (MOST_BOTTLES - size))
        for size in range(1, MOST_BOTTLES + 1)
        for chosen in combinations(range(dyes), size)
    ]
    return np.array(rows, dtype=np.intp)


class _Room:
    """What fits into the jar: doses are cut together where they need more than it holds."""

    def __init__(self, measuring: Measuring) -> None:
        strongest = np.zeros(measuring.dyes)
        for bottle, dye in enumerate(measuring.dye_of):
            strongest[dye] = max(strongest[dye], measuring.doses_pct_owf[0, bottle])
        self._jar_of_one = 1.0 / (strongest * measuring.graduations[0])
        self._dyes = measuring.dyes

    def doses(self, used: _Dyes, logs: Array) -> Array:
        """Return doses of all dyes, (r, d), of the logs of doses, (r, 3), of the dyes that are used."""
        doses = np.zeros((len(logs), self._dyes + 1))
        np.put_along_axis(doses, used, np.maximum(np.exp(logs), _LEAST_DOSE_PCT_OWF), axis=1)
        fitting = doses[:, : self._dyes]
        need = fitting @ self._jar_of_one
        fitted: Array = fitting / np.maximum(need, 1.0)[:, np.newaxis]
        return fitted


def _shape_of_difference(lab: Array) -> Array:
    """Return the matrix, (3, 3), by which small changes of Lab become CIEDE2000 at one colour."""
    unit = 0.5 * np.eye(3)
    single = ciede2000(lab + unit, lab) ** 2
    double = ciede2000(lab + unit[:, np.newaxis] + unit, lab) ** 2
    form = (double - single[:, np.newaxis] - single) / 2.0
    np.fill_diagonal(form, single)
    values, vectors = np.linalg.eigh(form / 0.25)
    scaled: Array = (vectors * np.sqrt(np.maximum(values, 1e-4))).T
    return scaled


def _improved(
    palette: Palette, room: _Room, measure: Measure, used: _Dyes, logs: Array, rounds: int
) -> Array:
    """Return the logs of doses, (r, 3), after so many rounds of damped least squares, each row for itself."""
    damping = np.full(len(logs), 1e-2)
    errors = measure.errors(palette.lab(room.doses(used, logs)))
    costs = (errors**2).sum(axis=1)
    for _ in range(rounds):
        moved = logs[:, np.newaxis] + _LOG_STEP * np.eye(MOST_BOTTLES)
        labs = palette.lab(room.doses(np.repeat(used, MOST_BOTTLES, axis=0), moved.reshape(-1, MOST_BOTTLES)))
        there = measure.errors(labs).reshape(moved.shape)
        slopes = np.swapaxes(there - errors[:, np.newaxis], 1, 2) / _LOG_STEP
        curvature = np.swapaxes(slopes, 1, 2) @ slopes
        damped = curvature + (damping[:, np.newaxis, np.newaxis] + 1e-9) * np.eye(MOST_BOTTLES)
        downhill = np.swapaxes(slopes, 1, 2) @ errors[:, :, np.newaxis]
        step = np.clip(-np.linalg.solve(damped, downhill)[:, :, 0], -_LARGEST_LOG_STEP, _LARGEST_LOG_STEP)
        new_errors = measure.errors(palette.lab(room.doses(used, logs + step)))
        new_costs = (new_errors**2).sum(axis=1)
        better = new_costs < costs
        logs = np.where(better[:, np.newaxis], logs + step, logs)
        errors = np.where(better[:, np.newaxis], new_errors, errors)
        costs = np.where(better, new_costs, costs)
        damping = np.where(better, damping / 8.0, damping * 6.0)
    return logs


def _searched(
    palette: Palette, room: _Room, measure: Measure, used: _Dyes, logs: Array
) -> tuple[Array, Array]:
    """Return the logs of doses, (r, 3), after a direct search, and their differences, (r,)."""
    differences = measure.away(palette.lab(room.doses(used, logs)))
    ways = np.concatenate((np.eye(MOST_BOTTLES), -np.eye(MOST_BOTTLES)))
    reach = np.full(len(logs), 0.4)
    rows = np.arange(len(logs))
    for _ in range(_SEARCH_ROUNDS):
        tried = logs[:, np.newaxis] + reach[:, np.newaxis, np.newaxis] * ways
        labs = palette.lab(room.doses(np.repeat(used, len(ways), axis=0), tried.reshape(-1, MOST_BOTTLES)))
        found = measure.away(labs).reshape(len(logs), len(ways))
        best = found.argmin(axis=1)
        better = found[rows, best] < differences
        logs = np.where(better[:, np.newaxis], tried[rows, best], logs)
        differences = np.minimum(differences, found[rows, best])
        reach = np.where(better, reach, reach / 2.0)
    return logs, differences
