"""The best liquors for a wanted colour: up to three bottles, in amounts that can be measured.

The rule of this module: liquors are ranked after rounding to graduations. Every set of up to three dyes is
tried, and of a single bottle every amount. A bottle more has to bring the colour nearer by an amount that
could be seen. No single dye is nearer by CIEDE2000 than the nearest of those found.

What ranks:

- A colour within reach, or without much chroma: CIEDE2000.
- A colour that is far (`LEAST_CHROMA_OF_FAR`, `FAR`): the distance in IPT. CIEDE2000 is made for small
  differences, and so far away would have a grey before a duller colour of the hue that is wanted. What has a
  hue over 90 degrees away in IPT is not offered. The nearest by CIEDE2000 always is.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from studio_gui.domain.colour.deliverable import Measuring, counts_near
from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.ipt import ipt_from_lab, is_opposite
from studio_gui.domain.colour.nearest_doses import (
    MOST_BOTTLES,
    Measure,
    by_ciede2000,
    by_ipt,
    nearest_doses,
)
from studio_gui.domain.colour.palette import Palette
from studio_gui.domain.colour.spaces import Array

#: What a bottle more has to gain, CIEDE2000 or hundredths of IPT; our choice.
WORTH_A_BOTTLE = 0.3
#: A liquor that is so much farther, CIEDE2000 or hundredths of IPT, than the best is another colour; our
#: choice.
WORTH_A_LOOK = 12.0
#: A colour of at least this CIELAB chroma is far where the nearest that the dyes give, before rounding, is
#: more than `FAR`, CIEDE2000, away; both are our choice.
LEAST_CHROMA_OF_FAR = 25.0
FAR = 10.0

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
    """The best liquors, and the nearest colour there is if anything could be measured.

    Parameters
    ----------
    found
        At least one: undyed fibre, where there is no dye. In the order of CIEDE2000, or of IPT where the
        colour is far; then the nearest by CIEDE2000 is among them, anywhere.
    exact_lab
        CIE Lab, shape (3,), before rounding, nearest by what ranks.
    exact_difference
        CIEDE2000 from the wanted colour to the nearest by CIEDE2000, before rounding.
    is_far
        Whether IPT ranks.
    """

    found: tuple[Match, ...]
    exact_lab: Array
    exact_difference: float
    is_far: bool


def match_colour(palette: Palette, measuring: Measuring, wanted_lab: Array, most: int = 8) -> Matches:
    """Return the best liquors for CIE Lab, shape (3,), in the one jar of `measuring`; at most `most`."""
    measure = by_ciede2000(wanted_lab)
    doses = nearest_doses(palette, measuring, measure)
    counts = _amounts_to_try(measuring, doses)
    nearest = _nearest(palette, measuring, measure, doses, counts)
    exact_difference = float(measure.away(nearest))
    is_far = bool(exact_difference > FAR and np.hypot(*wanted_lab[1:]) >= LEAST_CHROMA_OF_FAR)
    if is_far:
        measure = by_ipt(wanted_lab)
        doses = nearest_doses(palette, measuring, measure)
        counts = np.unique(np.concatenate((counts, _amounts_to_try(measuring, doses))), axis=0)
        nearest = _nearest(palette, measuring, measure, doses, counts)
    reached = measuring.doses(counts[np.newaxis])[0]
    labs = palette.lab(reached)
    differences = ciede2000(labs, wanted_lab)
    first = int(differences.argmin())
    away = measure.away(labs)
    if is_far:
        opposite = is_opposite(ipt_from_lab(labs), ipt_from_lab(wanted_lab))
        away = np.where(opposite, np.inf, away)
    stays = is_far or np.count_nonzero(counts[first]) == 1
    kept = _worth_a_look(counts, away, first if stays else None)[:most]
    if stays and first not in kept:
        kept = [*kept[: most - 1], first]
    found = tuple(
        Match(counts[place], reached[place], labs[place], float(differences[place])) for place in kept
    )
    return Matches(found, nearest, min(exact_difference, float(differences[first])), is_far)


def _worth_a_look(counts: Array, away: Array, stays: int | None) -> list[int]:
    """Return which of the graduations, (c, b), to offer, best first: of each set of bottles the best.

    A set has to be not much farther `away`, (c,), than the best, and nearer than any with fewer bottles; or
    to be the place that `stays`.
    """
    best: dict[frozenset[int], int] = {}
    for place in np.argsort(away, kind="stable").tolist():
        best.setdefault(frozenset(np.flatnonzero(counts[place]).tolist()), place)
    return [
        place
        for bottles, place in best.items()
        if place == stays
        or (
            away[place] < np.inf
            and away[place] <= away.min() + WORTH_A_LOOK
            and not any(
                other < bottles and away[rival] < away[place] + WORTH_A_BOTTLE
                for other, rival in best.items()
            )
        )
    ]


def _nearest(palette: Palette, measuring: Measuring, measure: Measure, doses: Array, counts: Array) -> Array:
    """Return the CIE Lab, (3,), that is nearest, of doses, (k, d), and of graduations, (c, b)."""
    labs = palette.lab(np.concatenate((doses, measuring.doses(counts[np.newaxis])[0])))
    nearest: Array = labs[measure.away(labs).argmin()]
    return nearest


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
