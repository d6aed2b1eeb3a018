"""Edits of what the rovings weigh: each by itself, and each along its length.

The rule of this module: weights stay as they were read. Pieces weigh what they weigh, and the roving their
sum; thickness measured here and there only says how the roving's own weight is spread.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.edits.inputs import set_fibre
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.fibre import LEAST_MARK_STEP, Fibre, MassMark, Roving, mean_mass_g
from studio_gui.domain.geometry import mass_to
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import checked

#: Pieces may be longer or shorter than the roving by this share: tape and hand are not better.
LENGTHS_AGREE = 0.02
#: Marks between two places where thickness was measured; between marks a top counts as even.
MARKS_BETWEEN = 8


def roving_of_pieces(length_m: float, pieces: Sequence[tuple[float, float]]) -> Roving:
    """Return a roving of `length_m` that was weighed in pieces, (length m, weight g), from start to end.

    Raises
    ------
    EditRefused
        ``pieces-do-not-fill`` when their lengths make up another roving.
    InvalidPlan
        ``out-of-range`` for a weight that no roving may have; ``marks-not-rising`` for a piece of nothing.

    >>> roving_of_pieces(6.0, [(2.0, 52.0), (4.0, 98.0)]).mass_marks
    (MassMark(strip_share=0.3333333333333333, mass_share=0.3466666666666667),)
    """
    total_m = sum(checked("boundary_m", piece_m) for piece_m, _ in pieces)
    total_g = sum(checked("mass_g", piece_g) for _, piece_g in pieces)
    if abs(total_m - length_m) > LENGTHS_AGREE * length_m:
        raise EditRefused("pieces-do-not-fill", total_m=total_m, length_m=length_m)
    ends = np.cumsum(pieces, axis=0)[:-1]
    marks = tuple(MassMark(place_m / total_m, before_g / total_g) for place_m, before_g in ends.tolist())
    return Roving(total_g, marks)


def pieces_of(fibre: Fibre) -> tuple[tuple[float, float], ...]:
    """Return the pieces, (length m, weight g), that a fibre's marks describe; `roving_of_pieces` undone.

    >>> pieces_of(Fibre(150.0, 6.0, mass_marks=(MassMark(0.5, 0.52),)))
    ((3.0, 78.0), (3.0, 72.0))
    """
    inner = ((mark.strip_share, mark.mass_share) for mark in fibre.weight_marks)
    ends = ((0.0, 0.0), *inner, (1.0, 1.0))
    return tuple(
        ((end - start) * fibre.length_m, (after - before) * fibre.mass_g)
        for (start, before), (end, after) in pairwise(ends)
    )


def thickness_of(fibre: Fibre) -> tuple[tuple[float, float], ...]:
    """Return the mean thickness of each piece, (m from the start of its middle, g/m).

    >>> thickness_of(Fibre(150.0, 6.0, mass_marks=(MassMark(0.5, 0.52),)))
    ((1.5, 26.0), (4.5, 24.0))
    """
    places, start_m = [], 0.0
    for length_m, mass_g in pieces_of(fibre):
        places.append((start_m + length_m / 2.0, mass_g / length_m))
        start_m += length_m
    return tuple(places)


def half_weights_g(roving: Roving) -> tuple[float, float]:
    """Return what the first and the second half of a roving's length weigh, g.

    >>> half_weights_g(Roving(150.0, (MassMark(0.5, 0.52),)))
    (78.0, 72.0)
    """
    first_g = float(mass_to(Fibre(roving.mass_g, 1.0, mass_marks=roving.mass_marks), 0.5))
    return first_g, roving.mass_g - first_g


def roving_of_thickness(mass_g: float, length_m: float, places: Sequence[tuple[float, float]]) -> Roving:
    """Return a roving of `mass_g` whose thickness was measured at (m from the start, g/m), rising.

    Between two places the thickness runs straight, before the first and behind the last it stays. It says how
    the weight is spread, not how much there is.

    Raises
    ------
    EditRefused
        ``places-not-rising``, or ``place-past-end`` for one that lies behind the roving's end.

    >>> roving_of_thickness(150.0, 6.0, [(1.0, 26.0), (5.0, 26.0)]).mass_marks[0]
    MassMark(strip_share=0.16666666666666666, mass_share=0.16666666666666666)
    """
    at = np.array([checked("boundary_m", place_m) for place_m, _ in places])
    thick = np.array([checked("linear_density_g_per_m", g_per_m) for _, g_per_m in places])
    for before, after in pairwise(at.tolist()):
        if after <= before:
            raise EditRefused("places-not-rising", place_m=after)
    if at[-1] > length_m:
        raise EditRefused("place-past-end", place_m=float(at[-1]), length_m=length_m)
    steps = [np.linspace(a, b, MARKS_BETWEEN, endpoint=False) for a, b in pairwise(at.tolist())]
    knots = _apart(np.concatenate(([0.0], *steps, at[-1:])), length_m)
    densities = np.interp(knots, at, thick)
    before_g = np.concatenate(([0.0], np.cumsum((densities[1:] + densities[:-1]) / 2.0 * np.diff(knots))))
    inner = zip((knots / length_m).tolist()[1:-1], (before_g / before_g[-1]).tolist()[1:-1], strict=True)
    return Roving(checked("mass_g", mass_g), tuple(MassMark(place, mass) for place, mass in inner))


def set_all_rovings(plan: Plan, roving: Roving) -> Plan:
    """Let every roving of the set weigh and spread its weight as `roving` does."""
    return set_fibre(plan, mass_g=roving.mass_g, mass_marks=roving.mass_marks)


def set_one_roving(plan: Plan, index: int, roving: Roving) -> Plan:
    """Weigh roving `index` (from 0) by itself; the others stay as they are."""
    fibre = plan.fibre
    alike = Roving(fibre.mass_g, fibre.mass_marks)
    measured = list(fibre.measured or (alike,) * fibre.rovings)
    measured[index] = roving
    return replace(
        plan,
        fibre=replace(fibre, mass_g=mean_mass_g(tuple(measured)), mass_marks=(), measured=tuple(measured)),
    )


def _apart(places_m: NDArray[np.float64], length_m: float) -> NDArray[np.float64]:
    """Return rising places and the end, without those too close to another for a mark each."""
    least_m = 10.0 * LEAST_MARK_STEP * length_m
    rising = np.sort(places_m)
    kept = rising[(np.diff(rising, prepend=-length_m) > least_m) & (rising < length_m - least_m)]
    return np.append(kept, length_m)
