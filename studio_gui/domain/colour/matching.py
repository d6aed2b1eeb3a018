"""The best liquors for a wanted colour: up to three bottles, in amounts that can be measured.

The rule of this module: liquors are ranked by CIEDE2000 after rounding to graduations. Every set of up to
three dyes is tried, and of a single bottle every amount; so no single dye does better. A bottle more has to
bring the colour nearer by an amount that could be seen.

Method: least squares in the local shape of CIEDE2000 about the wanted colour, for all sets at once
(K. Levenberg, 1944; D. W. Marquardt, 1963), then a search with CIEDE2000 itself (R. Hooke, T. A. Jeeves,
"'Direct Search' Solution of Numerical and Statistical Problems", Journal of the ACM 8(2), 1961).
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.colour.deliverable import Measuring, counts_near
from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.palette import Palette
from studio_gui.domain.colour.spaces import Array

#: Which dyes a row is about, (r, 3).
_Dyes: TypeAlias = NDArray[np.intp]

MOST_BOTTLES = 3
#: What a bottle more has to gain, CIEDE2000; our choice.
WORTH_A_BOTTLE = 0.3
#: A liquor that is so much farther, CIEDE2000, than the best is another colour; our choice.
WORTH_A_LOOK = 12.0

_STARTS_PCT_OWF = (0.15, 1.0)
_LEAST_DOSE_PCT_OWF = 1e-4
_ROUNDS_FOR_ALL = 4
_ROUNDS_FOR_FEW = 10
_FEW = 40
_KEPT = 12
_SEARCH_ROUNDS = 12
_LOG_STEP = 1e-3
_LARGEST_LOG_STEP = 1.5
#: Amounts of a single bottle that are all tried.
_MOST_AMOUNTS = 400


@dataclass(frozen=True, slots=True, eq=False)
class Match:
    """A liquor for a wanted colour.

    Parameters
    ----------
    counts
        Graduations of each bottle in the jar, shape (b,).
    doses_pct_owf
        Dose of each dye, shape (d,).
    lab
        Predicted CIE Lab, shape (3,); indicative.
    difference
        CIEDE2000 from the wanted colour.
    """

    counts: Array
    doses_pct_owf: Array
    lab: Array
    difference: float


@dataclass(frozen=True, slots=True, eq=False)
class Matches:
    """The best liquors, nearest first, and the nearest colour there is if anything could be measured.

    Parameters
    ----------
    found
        At least one: undyed fibre, where there is no dye.
    exact_lab
        CIE Lab, shape (3,), before rounding.
    exact_difference
        Its CIEDE2000 from the wanted colour.
    """

    found: tuple[Match, ...]
    exact_lab: Array
    exact_difference: float


def match_colour(palette: Palette, measuring: Measuring, wanted_lab: Array, most: int = 8) -> Matches:
    """Return the best liquors for CIE Lab, shape (3,), in the one jar of `measuring`; at most `most`."""
    doses, exact = _nearest_doses(palette, measuring, wanted_lab)
    counts = _amounts_to_try(measuring, doses)
    reached = measuring.doses(counts[np.newaxis])[0]
    labs = palette.lab(reached)
    differences = ciede2000(labs, wanted_lab)
    best: dict[frozenset[int], int] = {}
    for place in np.argsort(differences, kind="stable").tolist():
        best.setdefault(frozenset(np.flatnonzero(counts[place]).tolist()), place)
    kept = [
        place
        for bottles, place in best.items()
        if differences[place] <= differences.min() + WORTH_A_LOOK
        and not any(
            other < bottles and differences[rival] < differences[place] + WORTH_A_BOTTLE
            for other, rival in best.items()
        )
    ]
    found = tuple(
        Match(counts[place], reached[place], labs[place], float(differences[place])) for place in kept[:most]
    )
    nearest = min(differences.min(), exact[0])
    lab = palette.lab(doses[0]) if exact[0] == nearest else labs[differences.argmin()]
    return Matches(found, lab, float(nearest))


def _nearest_doses(palette: Palette, measuring: Measuring, wanted_lab: Array) -> tuple[Array, Array]:
    """Return the best doses, (k, d), of the best sets of dyes, and their CIEDE2000, (k,), nearest first."""
    sets = _sets(measuring.dyes)
    if not len(sets):
        none = np.zeros((1, measuring.dyes))
        return none, ciede2000(palette.lab(none), wanted_lab)
    room = _Room(measuring)
    shape = _shape_of_difference(wanted_lab)
    used = np.concatenate([sets] * len(_STARTS_PCT_OWF))
    logs = np.log(np.repeat(_STARTS_PCT_OWF, len(sets)))[:, np.newaxis] * np.ones((1, MOST_BOTTLES))
    logs = _improved(palette, room, shape, wanted_lab, used, logs, _ROUNDS_FOR_ALL)
    differences = ciede2000(palette.lab(room.doses(used, logs)), wanted_lab)
    few = np.argsort(differences, kind="stable")[:_FEW]
    used = used[few]
    logs = _improved(palette, room, shape, wanted_lab, used, logs[few], _ROUNDS_FOR_FEW)
    logs, differences = _searched(palette, room, wanted_lab, used, logs)
    order = np.argsort(differences, kind="stable")[:_KEPT]
    return room.doses(used[order], logs[order]), differences[order]


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
    palette: Palette,
    room: _Room,
    shape: Array,
    wanted: Array,
    used: _Dyes,
    logs: Array,
    rounds: int,
) -> Array:
    """Return the logs of doses, (r, 3), after so many rounds of damped least squares, each row for itself."""
    damping = np.full(len(logs), 1e-2)
    errors = (palette.lab(room.doses(used, logs)) - wanted) @ shape.T
    costs = (errors**2).sum(axis=1)
    for _ in range(rounds):
        moved = logs[:, np.newaxis] + _LOG_STEP * np.eye(MOST_BOTTLES)
        labs = palette.lab(room.doses(np.repeat(used, MOST_BOTTLES, axis=0), moved.reshape(-1, MOST_BOTTLES)))
        there = ((labs - wanted) @ shape.T).reshape(moved.shape)
        slopes = np.swapaxes(there - errors[:, np.newaxis], 1, 2) / _LOG_STEP
        curvature = np.swapaxes(slopes, 1, 2) @ slopes
        damped = curvature + (damping[:, np.newaxis, np.newaxis] + 1e-9) * np.eye(MOST_BOTTLES)
        downhill = np.swapaxes(slopes, 1, 2) @ errors[:, :, np.newaxis]
        step = np.clip(-np.linalg.solve(damped, downhill)[:, :, 0], -_LARGEST_LOG_STEP, _LARGEST_LOG_STEP)
        new_errors = (palette.lab(room.doses(used, logs + step)) - wanted) @ shape.T
        new_costs = (new_errors**2).sum(axis=1)
        better = new_costs < costs
        logs = np.where(better[:, np.newaxis], logs + step, logs)
        errors = np.where(better[:, np.newaxis], new_errors, errors)
        costs = np.where(better, new_costs, costs)
        damping = np.where(better, damping / 8.0, damping * 6.0)
    return logs


def _searched(palette: Palette, room: _Room, wanted: Array, used: _Dyes, logs: Array) -> tuple[Array, Array]:
    """Return the logs of doses, (r, 3), after a direct search with CIEDE2000, and what it is then, (r,)."""
    differences = ciede2000(palette.lab(room.doses(used, logs)), wanted)
    ways = np.concatenate((np.eye(MOST_BOTTLES), -np.eye(MOST_BOTTLES)))
    reach = np.full(len(logs), 0.4)
    rows = np.arange(len(logs))
    for _ in range(_SEARCH_ROUNDS):
        tried = logs[:, np.newaxis] + reach[:, np.newaxis, np.newaxis] * ways
        labs = palette.lab(room.doses(np.repeat(used, len(ways), axis=0), tried.reshape(-1, MOST_BOTTLES)))
        found = ciede2000(labs, wanted).reshape(len(logs), len(ways))
        best = found.argmin(axis=1)
        better = found[rows, best] < differences
        logs = np.where(better[:, np.newaxis], tried[rows, best], logs)
        differences = np.minimum(differences, found[rows, best])
        reach = np.where(better, reach, reach / 2.0)
    return logs, differences


def _amounts_to_try(measuring: Measuring, doses_pct_owf: Array) -> Array:
    """Return graduations, (c, b), of three bottles at most that fit: about doses, and of each alone."""
    bottles = len(measuring.dye_of)
    tried = [np.zeros((1, bottles))]
    tried += [counts_near(measuring, doses[np.newaxis])[0] for doses in doses_pct_owf]
    if measuring.graduations[0] <= _MOST_AMOUNTS:
        amounts = np.arange(1.0, measuring.graduations[0] + 1.0)
        tried += [amounts[:, np.newaxis] * one for one in np.eye(bottles)]
    counts = np.unique(np.concatenate(tried), axis=0)
    fits = measuring.fits(counts[np.newaxis])[0]
    few: Array = counts[fits & ((counts > 0.0).sum(axis=1) <= MOST_BOTTLES)]
    return few
