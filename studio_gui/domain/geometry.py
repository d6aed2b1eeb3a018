"""From the lay to the roving to grams.

The rule of this module: `strip_position` and `mass_to` are the only ways from a place on the lay to a place
on the roving to a weight, so that unequal legs and uneven top live in one place.

Words: the *lay* runs along the film from 0 to `lay_length_m`; the *strip* is the roving unrolled, 0 to its
length; a *leg* is the roving between two folds (or an end), one to a pass.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike, NDArray

from studio_gui.domain.fibre import Fibre, Lay, even_folds
from studio_gui.domain.ranges import RELATIVE_TOLERANCE

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Leg:
    """One pass of a roving: strip `strip_from_m` to `strip_to_m`, on the lay `lay_low_m` to `lay_high_m`.

    `forward` when the strip runs with the lay.
    """

    strip_from_m: float
    strip_to_m: float
    lay_low_m: float
    lay_high_m: float
    forward: bool


@lru_cache(maxsize=64)
def legs(fibre: Fibre, lay: Lay) -> tuple[Leg, ...]:
    """Return the legs of one roving, in spinning order.

    Equal legs all span the whole lay. Unequal legs laid by length keep their folds together as the roving
    lies, to and fro; laid by weight every leg is eased over the whole lay.
    """
    places = (0.0, *lay.fold_positions_m, fibre.length_m)
    lengths = np.diff(places)
    mean_m = fibre.length_m / lay.passes
    if lay.matching == "by weight" or np.allclose(lengths, mean_m, rtol=RELATIVE_TOLERANCE, atol=0.0):
        spans = [(0.0, mean_m)] * lay.passes
    else:
        turns = np.concatenate(([0.0], np.cumsum(lengths * np.resize([1.0, -1.0], lay.passes))))
        turns -= turns.min()
        spans = [(float(min(a, b)), float(max(a, b))) for a, b in pairwise(turns)]
    return tuple(
        Leg(float(places[k]), float(places[k + 1]), *spans[k], forward=k % 2 == 0) for k in range(lay.passes)
    )


def lay_length_m(fibre: Fibre, lay: Lay) -> float:
    """Return the length of the lay on the film, without the extra film, m.

    >>> lay_length_m(Fibre(150.0, 6.0), Lay((3.0,)))
    3.0
    """
    return max(leg.lay_high_m for leg in legs(fibre, lay))


def film_length_m(fibre: Fibre, lay: Lay) -> float:
    """Return the length of film to cut: lay length plus the extra film of both ends, m."""
    return lay_length_m(fibre, lay) + lay.overhang_m


def mass_to(fibre: Fibre, strip_m: ArrayLike) -> FloatArray:
    """Return the weight (g) of one roving before `strip_m` (m along the strip, any shape, clipped to it).

    >>> float(mass_to(Fibre(100.0, 4.0), 1.0))
    25.0
    """
    shares = np.asarray(strip_m, dtype=np.float64) / fibre.length_m
    if not fibre.weight_marks:  # an even top needs no table, and most are
        return fibre.mass_g * np.minimum(np.maximum(shares, 0.0), 1.0)
    return fibre.mass_g * np.interp(shares, *_mass_knots(fibre))


def strip_at_mass(fibre: Fibre, mass_g: ArrayLike) -> FloatArray:
    """Return the place on the strip (m) before which `mass_g` of one roving lies: `mass_to` inverted.

    >>> float(strip_at_mass(Fibre(100.0, 4.0), 25.0))
    1.0
    """
    strip_shares, mass_shares = _mass_knots(fibre)
    shares = np.asarray(mass_g, dtype=np.float64) / fibre.mass_g
    return fibre.length_m * np.interp(shares, mass_shares, strip_shares)


def strip_position(fibre: Fibre, lay: Lay, pass_index: int, lay_x: ArrayLike) -> FloatArray:
    """Return the place on the strip (m) that lies at `lay_x` (m along the lay, any shape) in one pass.

    Equal legs: ``k*L + x`` forward and ``(k+1)*L - x`` back. A place that a shorter leg does not reach is
    given that leg's end, so that nothing of it is counted there.

    >>> float(strip_position(Fibre(150.0, 6.0), Lay((3.0,)), 1, 0.6))
    5.4
    """
    leg = legs(fibre, lay)[pass_index]
    x = np.asarray(lay_x, dtype=np.float64)
    span_m = (leg.lay_low_m, leg.lay_high_m)
    ends_m = (leg.strip_from_m, leg.strip_to_m) if leg.forward else (leg.strip_to_m, leg.strip_from_m)
    if lay.matching == "by length":
        return np.interp(x, span_m, ends_m)
    return strip_at_mass(fibre, np.interp(x, span_m, mass_to(fibre, ends_m)))


def lay_position(fibre: Fibre, lay: Lay, strip_m: ArrayLike) -> FloatArray:
    """Return where a place on the strip lies on the lay (m, any shape): `strip_position` inverted.

    >>> round(float(lay_position(Fibre(150.0, 6.0), Lay((3.0,)), 5.4)), 9)
    0.6
    """
    strip = np.asarray(strip_m, dtype=np.float64)
    passes = legs(fibre, lay)
    here = np.searchsorted(lay.fold_positions_m, strip, side="right")
    low, high = (np.array([leg.lay_low_m for leg in passes]), np.array([leg.lay_high_m for leg in passes]))
    forward = np.array([leg.forward for leg in passes])
    ends = np.array([0.0, *lay.fold_positions_m, fibre.length_m])
    at, knots = (
        (strip, ends) if lay.matching == "by length" else (mass_to(fibre, strip), mass_to(fibre, ends))
    )
    part = np.clip((at - knots[here]) / (knots[here + 1] - knots[here]), 0.0, 1.0)
    part = np.where(forward[here], part, 1.0 - part)
    places: FloatArray = low[here] + part * (high - low)[here]
    return places


def lay_mass_to(fibre: Fibre, lay: Lay, lay_x: ArrayLike) -> FloatArray:
    """Return the weight (g) of the WHOLE SET that lies before `lay_x` (m along the lay, any shape)."""
    if not fibre.measured:
        return fibre.rovings * _one_mass_to(fibre, lay, lay_x)
    total = np.zeros(np.shape(lay_x))
    for index in range(fibre.rovings):
        total += _one_mass_to(fibre.roving(index), lay, lay_x)
    return total


def _one_mass_to(fibre: Fibre, lay: Lay, lay_x: ArrayLike) -> FloatArray:
    """Return the weight (g) of one roving that lies before `lay_x`, on all its legs."""
    total = np.zeros(np.shape(lay_x))
    for k, leg in enumerate(legs(fibre, lay)):
        here = mass_to(fibre, strip_position(fibre, lay, k, lay_x))
        total += np.abs(here - mass_to(fibre, leg.strip_from_m if leg.forward else leg.strip_to_m))
    return total


def equal_mass_folds(fibre: Fibre, passes: int) -> tuple[float, ...]:
    """Return the fold positions (m along the roving) that give `passes` legs of equal weight.

    >>> equal_mass_folds(Fibre(150.0, 6.0), 2)
    (3.0,)
    """
    if not fibre.weight_marks:
        return even_folds(fibre.length_m, passes)
    shares = np.arange(1, passes) / passes
    return tuple(float(place) for place in strip_at_mass(fibre, shares * fibre.mass_g))


def _mass_knots(fibre: Fibre) -> tuple[list[float], list[float]]:
    strip = [0.0, *(mark.strip_share for mark in fibre.weight_marks), 1.0]
    mass = [0.0, *(mark.mass_share for mark in fibre.weight_marks), 1.0]
    return strip, mass
