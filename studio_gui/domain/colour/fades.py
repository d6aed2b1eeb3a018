"""Fades whose steps look alike, in amounts that the bench can measure.

The rule of this module: a fade runs straight from one set of doses to the next, no dye turns back on the
way, and one that two stops have alike stays as it is between them, as far as it can be measured. An end that
is asked for with dye gets some, the nearest where none is near. Its sections are placed so that neighbouring
steps of CIEDE2000 are equal; then the best row of deliverable doses near these is chosen as a whole, by the
shortest path (R. Bellman, "Dynamic Programming", 1957; A. J. Viterbi, "Error Bounds for Convolutional Codes",
IEEE Transactions on Information Theory 13(2), 1967). The weights are our choices.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.colour.deliverable import Measuring, counts_near
from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.evenness import Evenness, evenness
from studio_gui.domain.colour.palette import Palette
from studio_gui.domain.colour.shortfall import REACHED
from studio_gui.domain.colour.spaces import Array

_SAMPLES_OF_A_LEG = 300
_PLACING_ROUNDS = 8
_PLACING_POWER = 0.8

#: Deliverable mixes that are weighed for each section.
_MOST_CANDIDATES = 24
#: Mixes that an end may be, of those near what was asked for.
_MOST_AT_AN_END = 3
_PULL_TO_IDEAL = 0.02
#: Steps that are aimed at, as shares of the ideal one.
_AIMS = (0.7, 0.85, 1.0, 1.15, 1.3)
_SAME_DOSE = 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class Fade:
    """A fade of n sections that can be measured.

    Parameters
    ----------
    counts
        Graduations of each bottle in each jar, shape (n, b).
    doses_pct_owf
        Dose of each dye, shape (n, d).
    labs
        Predicted CIE Lab, shape (n, 3); indicative.
    evenness
        How even its steps are.
    """

    counts: Array
    doses_pct_owf: Array
    labs: Array
    evenness: Evenness


@dataclass(frozen=True, slots=True, eq=False)
class IdealFade:
    """A fade as it would be if anything could be measured.

    Parameters
    ----------
    doses_pct_owf
        Dose of each dye, shape (n, d).
    labs
        CIE Lab, shape (n, 3).
    leg_of
        Between which two stops each section lies, counted from 0, shape (n,).
    step
        Mean CIEDE2000 from section to section.
    """

    doses_pct_owf: Array
    labs: Array
    leg_of: Array
    step: float


def ideal_fade(palette: Palette, stops_pct_owf: Array, count: int) -> IdealFade:
    """Return `count` sections, 2 or more, that lead evenly through stops, shape (m, d), m of 2 or more.

    The first and last section are the ends; a stop between them is passed, and need not be a section.
    """
    along = _sample_places(len(stops_pct_owf) - 1)
    doses = _doses_at(stops_pct_owf, along)
    labs = palette.lab(doses)
    walked = np.concatenate(([0.0], np.cumsum(ciede2000(labs[:-1], labs[1:]))))
    weights = np.full(count - 1, 1.0)
    for _ in range(_PLACING_ROUNDS):
        ends = np.concatenate(([0.0], np.cumsum(weights))) / weights.sum() * walked[-1]
        places = np.interp(ends, walked, along)
        here = palette.lab(_doses_at(stops_pct_owf, places))
        steps = ciede2000(here[:-1], here[1:])
        weights *= (max(float(steps.mean()), _SAME_DOSE) / np.maximum(steps, _SAME_DOSE)) ** _PLACING_POWER
    leg_of = np.minimum(places.astype(int), len(stops_pct_owf) - 2)
    return IdealFade(_doses_at(stops_pct_owf, places), here, leg_of, float(steps.mean()))


def solve_fade(palette: Palette, measuring: Measuring, stops_pct_owf: Array) -> Fade:
    """Return the most even fade found for the jars of `measuring`, never less even than the naive ones.

    Doses beyond what a jar holds are for the caller to refuse: see `Measuring.least_graduations`.
    """
    ideal = ideal_fade(palette, stops_pct_owf, len(measuring.graduations))
    counts = _likely_counts(palette, measuring, ideal)
    rows = _best_rows(palette, measuring, ideal, counts, stops_pct_owf)
    found = [_chosen(palette, measuring, row) for row in rows if measuring.fits(row).all()]
    found += naive_fades(palette, measuring, stops_pct_owf)
    return min(found, key=lambda fade: (_bare_ends(fade, stops_pct_owf), *fade.evenness.rank))


def _bare_ends(fade: Fade, stops: Array) -> int:
    """Return how many ends are asked for with dye and get none."""
    wanted = stops[[0, -1]].sum(axis=-1) > 0.0
    return int((wanted & ~fade.counts[[0, -1]].any(axis=-1)).sum())


def naive_fades(palette: Palette, measuring: Measuring, stops_pct_owf: Array) -> tuple[Fade, Fade]:
    """Return what is painted without a solver: equal shares, and a halving series.

    Halving goes from the deeper end: each section has half as far to the other end as the one before, and the
    last is that end.
    """
    count = len(measuring.graduations)
    equal = np.linspace(0.0, len(stops_pct_owf) - 1.0, count)
    left = np.append(0.5 ** np.arange(count - 1.0), 0.0)
    halved = (1.0 - left) * (len(stops_pct_owf) - 1.0)
    if stops_pct_owf[-1].sum() > stops_pct_owf[0].sum():
        halved = (len(stops_pct_owf) - 1.0) - halved[::-1]
    first, second = (_nearest(palette, measuring, _doses_at(stops_pct_owf, one)) for one in (equal, halved))
    return first, second


def _sample_places(legs: int) -> Array:
    """Return places along the stops, dense at every stop: a pale dose changes most at its start."""
    share = np.linspace(0.0, 1.0, _SAMPLES_OF_A_LEG)
    dense = share**3 * (10.0 - 15.0 * share + 6.0 * share**2)
    return np.unique(np.concatenate([leg + dense for leg in range(legs)]))


def _doses_at(stops: Array, along: Array) -> Array:
    """Return the doses, (p, d), at places along stops, 0 to m - 1, straight between them."""
    leg = np.minimum(along.astype(int), len(stops) - 2)
    share = (along - leg)[:, np.newaxis]
    doses: Array = stops[leg] * (1.0 - share) + stops[leg + 1] * share
    return doses


def _likely_counts(palette: Palette, measuring: Measuring, ideal: IdealFade) -> Array:
    """Return the deliverable graduations, (n, c, b), that look most like the ideal sections."""
    counts = counts_near(measuring, ideal.doses_pct_owf)
    away = ciede2000(palette.lab(measuring.doses(counts)), ideal.labs[:, np.newaxis])
    away = np.where(measuring.fits(counts), away, np.inf)
    nearest = np.argsort(away, axis=1, kind="stable")[:, :_MOST_CANDIDATES]
    return np.take_along_axis(counts, nearest[:, :, np.newaxis], axis=1)


def _best_rows(
    palette: Palette, measuring: Measuring, ideal: IdealFade, counts: Array, stops: Array
) -> list[Array]:
    """Return rows of graduations, (n, b) each: the shortest path for every step that is aimed at."""
    doses = measuring.doses(counts)
    labs = palette.lab(doses)
    away = ciede2000(labs, ideal.labs[:, np.newaxis])
    away = np.where(measuring.fits(counts), away, np.inf)
    for end, stop in ((0, stops[0]), (-1, stops[-1])):
        if stop.any():  # undyed is no shade of what was asked for
            away[end, ~counts[end].any(axis=-1)] = np.inf
        away[end, np.argsort(away[end], kind="stable")[_MOST_AT_AN_END:]] = np.inf
        away[end, away[end] > max(float(away[end].min()), REACHED)] = np.inf
    away = np.where(_strays(measuring, ideal, doses, away, stops), np.inf, _PULL_TO_IDEAL * away**2)
    steps = ciede2000(labs[:-1, :, np.newaxis], labs[1:, np.newaxis])
    towards = np.sign(np.diff(stops, axis=0))[ideal.leg_of]
    change = (doses[1:, np.newaxis] - doses[:-1, :, np.newaxis]) * towards[:-1, np.newaxis, np.newaxis]
    back = (change < -_SAME_DOSE).any(axis=-1) & (ideal.leg_of[1:] == ideal.leg_of[:-1])[
        :, np.newaxis, np.newaxis
    ]
    rows = []
    for aim in _AIMS:
        costs = np.where(back, np.inf, (steps - aim * ideal.step) ** 2)
        places = _shortest_path(away, costs)
        if places is not None:
            rows.append(counts[np.arange(len(counts)), places])
    return rows


def _strays(
    measuring: Measuring, ideal: IdealFade, doses: Array, away: Array, stops: Array
) -> NDArray[np.bool_]:
    """Tell of which mixes, (n, c), a dye that stays as it is on its leg is further off than it has to be.

    That is half a graduation, or what the best of the mixes that may be taken are off.
    """
    off = np.abs(doses - ideal.doses_pct_owf[:, np.newaxis])
    least = np.where(np.isfinite(away)[:, :, np.newaxis], off, np.inf).min(axis=1)
    finest = np.stack([_finest_dose(measuring, dye) for dye in range(measuring.dyes)], axis=-1)
    stays = np.abs(np.diff(stops, axis=0))[ideal.leg_of] < _SAME_DOSE
    too_far = off > np.maximum(least, finest / 2.0)[:, np.newaxis] + _SAME_DOSE
    strays: NDArray[np.bool_] = (too_far & stays[:, np.newaxis]).any(axis=-1)
    return strays


def _finest_dose(measuring: Measuring, dye: int) -> Array:
    """Return the least dose of a dye that a graduation gives in each jar, (n,)."""
    jars = np.arange(len(measuring.graduations))
    doses: Array = measuring.doses_pct_owf[jars, measuring.finest(dye)]
    return doses


def _shortest_path(node_costs: Array, edge_costs: Array) -> list[int] | None:
    """Return the node of each of n layers, (n, c), for which nodes and edges, (n - 1, c, c), cost least.

    None where every way costs infinitely much.
    """
    total = node_costs[0]
    before = []
    for edges, nodes in zip(edge_costs, node_costs[1:], strict=True):
        through = total[:, np.newaxis] + edges
        before.append(through.argmin(axis=0))
        total = through.min(axis=0) + nodes
    if not np.isfinite(total).any():
        return None
    places = [int(total.argmin())]
    for origin in reversed(before):
        places.append(int(origin[places[-1]]))
    return places[::-1]


def _nearest(palette: Palette, measuring: Measuring, wanted_pct_owf: Array) -> Fade:
    """Return the fade whose doses are the nearest that fit, with no eye to how they look."""
    counts = counts_near(measuring, wanted_pct_owf)
    one = np.maximum(wanted_pct_owf.max(axis=0), _SAME_DOSE)
    away = np.abs((measuring.doses(counts) - wanted_pct_owf[:, np.newaxis]) / one).sum(axis=-1)
    away = np.where(measuring.fits(counts), away, np.inf)
    return _chosen(palette, measuring, counts[np.arange(len(counts)), away.argmin(axis=1)])


def _chosen(palette: Palette, measuring: Measuring, counts: Array) -> Fade:
    doses = measuring.doses(counts)
    labs = palette.lab(doses)
    return Fade(counts, doses, labs, evenness(labs))
