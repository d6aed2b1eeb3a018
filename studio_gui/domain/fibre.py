"""The fibre and how it lies: one roving of the set, its unevenness, its folds.

The rule of this module: positions are stored, never lengths or weights of pieces, so that everything cut
from a roving tiles it exactly.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from studio_gui.domain.colour.swatches import checked_srgb
from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.ranges import checked

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
class Fibre:
    """The rovings of the set; `mass_g` (air-dry) and `length_m` are those of ONE roving.

    `mass_marks` describe an uneven top: between neighbouring marks, and towards both ends, the linear
    density is even. No marks: even throughout. Shares, so that a new weight or length keeps the unevenness.
    """

    mass_g: float
    length_m: float
    rovings: int = 1
    undyed_srgb: str = WHITE_WOOL_SRGB
    mass_marks: tuple[MassMark, ...] = ()

    def __post_init__(self) -> None:
        checked("mass_g", self.mass_g)
        checked("length_m", self.length_m)
        checked("rovings", self.rovings)
        if not isinstance(self.rovings, int):
            raise InvalidPlan("not-a-whole-number", field="rovings", value=self.rovings)
        object.__setattr__(self, "undyed_srgb", checked_srgb("undyed_srgb", self.undyed_srgb))
        if len(self.mass_marks) > MOST_MASS_MARKS:
            raise InvalidPlan(
                "too-many", field="mass_marks", count=len(self.mass_marks), most=MOST_MASS_MARKS
            )
        marks = (MassMark(0.0, 0.0), *self.mass_marks, MassMark(1.0, 1.0))
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
