"""The fibre and how it lies: one roving of the set, its unevenness, its folds.

The rule of this module: positions are stored, never lengths or weights of pieces, so that everything cut
from a roving tiles it exactly.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import Literal

from studio_gui.domain.colour.swatches import checked_srgb
from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.ranges import RELATIVE_TOLERANCE, checked

Matching = Literal["by length", "by weight"]
MATCHINGS: tuple[Matching, ...] = ("by length", "by weight")

WHITE_WOOL_SRGB = "#f3eee2"
MOST_MASS_MARKS = 500
MOST_FOLDS = 15

#: Least step from mark to mark, as a share of length and of weight: with less, a short section could weigh 0.
LEAST_MARK_STEP = 1e-6


@dataclass(frozen=True, slots=True)
class MassMark:
    """`mass_share` of the roving's weight lies before `strip_share` of its length (both 0 to 1)."""

    strip_share: float
    mass_share: float

    def __post_init__(self) -> None:
        checked("strip_share", self.strip_share)
        checked("mass_share", self.mass_share)


@dataclass(frozen=True, slots=True)
class Roving:
    """One roving of the set that was weighed by itself: its weight, g, and its own unevenness."""

    mass_g: float
    mass_marks: tuple[MassMark, ...] = ()

    def __post_init__(self) -> None:
        checked("mass_g", self.mass_g)
        _check_marks(self.mass_marks)


@dataclass(frozen=True, slots=True)
class Fibre:
    """The rovings of the set; `mass_g` (air-dry) and `length_m` are those of ONE roving.

    `mass_marks` describe an uneven top: between neighbouring marks, and towards both ends, the linear
    density is even. No marks: even throughout. Shares, so that a new weight or length keeps the unevenness.

    `measured` has every roving that was weighed by itself; `mass_g` is then their mean, and the marks are
    theirs alone. None: all are alike.
    """

    mass_g: float
    length_m: float
    rovings: int = 1
    undyed_srgb: str = WHITE_WOOL_SRGB
    mass_marks: tuple[MassMark, ...] = ()
    measured: tuple[Roving, ...] = ()

    def __post_init__(self) -> None:
        checked("mass_g", self.mass_g)
        checked("length_m", self.length_m)
        checked("rovings", self.rovings)
        if not isinstance(self.rovings, int):
            raise InvalidPlan("not-a-whole-number", field="rovings", value=self.rovings)
        object.__setattr__(self, "undyed_srgb", checked_srgb("undyed_srgb", self.undyed_srgb))
        _check_marks(self.mass_marks)
        if self.measured:
            self._check_measured()

    def roving(self, index: int) -> Fibre:
        """Return roving `index` of the set (from 0) as a set of one, with its own weight and unevenness."""
        return _one(self, self.measured[index] if self.measured else None)

    @property
    def g_per_m(self) -> float:
        """Weight per length of a roving, g/m: the mean where the top is uneven.

        >>> Fibre(100.0, 4.0).g_per_m
        25.0
        """
        return self.mass_g / self.length_m

    @property
    def weight_marks(self) -> tuple[MassMark, ...]:
        """The marks of the mean of the set: a roving's own where all are alike."""
        return _mean_marks(self.measured) if self.measured else self.mass_marks

    def _check_measured(self) -> None:
        if len(self.measured) != self.rovings:
            raise InvalidPlan(
                "rovings-do-not-match", field="measured", count=len(self.measured), rovings=self.rovings
            )
        if self.mass_marks:
            raise InvalidPlan("marks-of-set-and-rovings", field="mass_marks")
        mean_g = mean_mass_g(self.measured)
        if not math.isclose(mean_g, self.mass_g, rel_tol=RELATIVE_TOLERANCE):
            raise InvalidPlan("mass-is-not-the-mean", field="mass_g", value=self.mass_g, mean_g=mean_g)


def mean_mass_g(measured: tuple[Roving, ...]) -> float:
    """Return the mean weight of rovings, g.

    >>> mean_mass_g((Roving(98.0), Roving(102.0)))
    100.0
    """
    return math.fsum(one.mass_g for one in measured) / len(measured)


@lru_cache(maxsize=64)
def _one(fibre: Fibre, roving: Roving | None) -> Fibre:
    mass_g, marks = (fibre.mass_g, fibre.mass_marks) if roving is None else (roving.mass_g, roving.mass_marks)
    return Fibre(mass_g, fibre.length_m, 1, fibre.undyed_srgb, marks)


@lru_cache(maxsize=64)
def _mean_marks(measured: tuple[Roving, ...]) -> tuple[MassMark, ...]:
    total_g = math.fsum(one.mass_g for one in measured)
    places = sorted({mark.strip_share for one in measured for mark in one.mass_marks})
    marks = []
    for place in places:
        before_g = math.fsum(one.mass_g * _share_before(one, place) for one in measured)
        marks.append(MassMark(place, before_g / total_g))
    return tuple(marks)


def _share_before(roving: Roving, strip_share: float) -> float:
    marks = (MassMark(0.0, 0.0), *roving.mass_marks, MassMark(1.0, 1.0))
    low, high = next((a, b) for a, b in pairwise(marks) if strip_share <= b.strip_share)
    part = (strip_share - low.strip_share) / (high.strip_share - low.strip_share)
    return low.mass_share + part * (high.mass_share - low.mass_share)


def _check_marks(mass_marks: tuple[MassMark, ...]) -> None:
    if len(mass_marks) > MOST_MASS_MARKS:
        raise InvalidPlan("too-many", field="mass_marks", count=len(mass_marks), most=MOST_MASS_MARKS)
    marks = (MassMark(0.0, 0.0), *mass_marks, MassMark(1.0, 1.0))
    for before, after in pairwise(marks):
        step = min(after.strip_share - before.strip_share, after.mass_share - before.mass_share)
        if step < LEAST_MARK_STEP:
            raise InvalidPlan("marks-not-rising", field="mass_marks", value=after.strip_share)


@dataclass(frozen=True, slots=True)
class Lay:
    """How each roving lies on the film.

    `fold_positions_m` are places along the roving, rising. Matching ``by length`` lays the legs straight,
    so that legs of unequal length overlap where they can; ``by weight`` eases every leg until equal shares
    of its weight lie side by side. `overhang_m` is the extra film of both ends together.
    """

    fold_positions_m: tuple[float, ...] = ()
    matching: Matching = "by length"
    overhang_m: float = 0.20  # common practice, no source: 10 cm at each end

    def __post_init__(self) -> None:
        checked("overhang_m", self.overhang_m)
        if self.matching not in MATCHINGS:
            raise InvalidPlan("not-one-of", field="matching", value=self.matching)
        if len(self.fold_positions_m) > MOST_FOLDS:
            raise InvalidPlan(
                "too-many", field="fold_positions_m", count=len(self.fold_positions_m), most=MOST_FOLDS
            )
        previous = 0.0
        for position in self.fold_positions_m:
            checked("fold_position_m", position)
            if position <= previous:
                raise InvalidPlan("folds-not-rising", field="fold_positions_m", value=position)
            previous = position

    @property
    def passes(self) -> int:
        """Number of legs side by side in one roving."""
        return len(self.fold_positions_m) + 1


def even_folds(length_m: float, passes: int) -> tuple[float, ...]:
    """Return the fold positions (m) that cut `length_m` into `passes` equal legs.

    >>> even_folds(6.0, 2)
    (3.0,)
    """
    return tuple(length_m * leg / passes for leg in range(1, passes))
