"""The yarn that is to be spun: grist, structure, and the stripes that are wanted of it.

The rule of this module: a yarn says how the fibre is divided among plies, never how many metres come of it;
that is worked out in `studio_gui.domain.spinning`. Places on a roving are shares of its weight, so that equal
shares give equal metres of singles however uneven the top.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.ranges import RELATIVE_TOLERANCE, checked, exceeds
from studio_gui.domain.text import ID_MAX, checked_text

Structure = Literal[
    "single", "both ends", "broken at the fold", "lengthwise", "fractal", "chain", "rovings", "free"
]
STRUCTURES: tuple[Structure, ...] = (
    "single",
    "both ends",
    "broken at the fold",
    "lengthwise",
    "fractal",
    "chain",
    "rovings",
    "free",
)
StripeMeasure = Literal["rows", "metres"]
STRIPE_MEASURES: tuple[StripeMeasure, ...] = ("rows", "metres")

MOST_PLIES = 8
MOST_STRIPS = 8
MOST_STRIPES = 500
CHAIN_PLIES = 3


@dataclass(frozen=True, slots=True)
class Strip:
    """One of the strips that a ply is split into lengthwise.

    `weight` is its weight beside the other strips of the ply: grams, where they were weighed. A flipped strip
    is spun from its other end.
    """

    weight: float = 1.0
    flipped: bool = False

    def __post_init__(self) -> None:
        checked("strip_weight", self.weight)


@dataclass(frozen=True, slots=True)
class Ply:
    """What one ply is spun from.

    A stretch of roving number `roving` of the set (from 1), from `from_share` to `to_share` of its weight
    (0 to 1; backwards when the first is larger), `cross_section` of its thickness (0 to 1), split into
    `strips` that are spun end to end. The first `offset_m` of its singles are wound off before plying.
    """

    roving: int = 1
    from_share: float = 0.0
    to_share: float = 1.0
    cross_section: float = 1.0
    strips: tuple[Strip, ...] = (Strip(),)
    offset_m: float = 0.0

    def __post_init__(self) -> None:
        if not isinstance(self.roving, int):
            raise InvalidPlan("not-a-whole-number", field="ply_roving", value=self.roving)
        checked("ply_roving", self.roving)
        checked("from_share", self.from_share)
        checked("to_share", self.to_share)
        checked("cross_section", self.cross_section)
        checked("offset_m", self.offset_m)
        _check_count("strips", len(self.strips), MOST_STRIPS)
        if abs(self.to_share - self.from_share) < RELATIVE_TOLERANCE:
            raise InvalidPlan("ply-without-fibre", field="from_share", value=self.from_share)


@dataclass(frozen=True, slots=True)
class Stripe:
    """A wanted stripe: so many rows, or metres of plied yarn, of one liquor."""

    liquor_id: str
    amount: float
    measure: StripeMeasure = "rows"

    def __post_init__(self) -> None:
        checked_text("liquor_id", self.liquor_id, ID_MAX, may_be_empty=False)
        checked("stripe_amount", self.amount)
        if self.measure not in STRIPE_MEASURES:
            raise InvalidPlan("not-one-of", field="measure", value=self.measure)


@dataclass(frozen=True, slots=True)
class Knitting:
    """The fabric that the yarn is judged in: `row_m` metres of yarn a row, or None for three times the width.

    Three times the width: common practice, no source.
    """

    width_m: float = 0.5
    row_m: float | None = None
    in_the_round: bool = False

    def __post_init__(self) -> None:
        checked("knitted_width_m", self.width_m)
        if self.row_m is not None:
            checked("row_m", self.row_m)

    @property
    def metres_a_row(self) -> float:
        """Yarn that one row takes, m.

        >>> Knitting(width_m=0.5).metres_a_row
        1.5
        """
        return 3.0 * self.width_m if self.row_m is None else self.row_m


@dataclass(frozen=True, slots=True)
class Yarn:
    """How the dyed rovings are spun and plied.

    Parameters
    ----------
    singles_m_per_g
        Grist of the singles, m/g.
    take_up
        Fraction of the strands' length lost on plying; 0.05 is a weaver's rule of thumb.
    staple_m
        Length of the fibre, m.
    structure
        How plies are made; ``free`` takes them from `plies`.
    splits
        Lengthwise and fractal: weights of the plies beside one another, grams where they were weighed.
    strips
        Fractal: what the second ply is split into.
    offsets_m
        Rovings: one ply a roving, and what is wound off each before plying, m of singles.
    loop_m
        Chain: length of a loop, m of yarn before take-up.
    alike_difference
        CIEDE2000 below which strands of two liquors count as one colour.
    note_share, warn_share
        Shares of the longest strand left over that are worth a note and a warning; common practice, no
        source.
    stripe_ply
        Which ply, from 1, the stripes govern where plies differ (fractal).
    spread
        Uneven spinning: the grist wanders this share up and down.
    """

    singles_m_per_g: float = 10.0
    take_up: float = 0.05
    staple_m: float = 0.09
    structure: Structure = "both ends"
    splits: tuple[float, ...] = (1.0, 1.0)
    strips: tuple[Strip, ...] = (Strip(), Strip())
    offsets_m: tuple[float, ...] = (0.0, 0.0)
    plies: tuple[Ply, ...] = ()
    loop_m: float = 0.3
    alike_difference: float = 2.0
    note_share: float = 0.01
    warn_share: float = 0.03
    knitting: Knitting = Knitting()
    stripes: tuple[Stripe, ...] = ()
    stripe_ply: int = 1
    spread: float = 0.1

    def __post_init__(self) -> None:
        for name in (
            "singles_m_per_g",
            "take_up",
            "staple_m",
            "loop_m",
            "alike_difference",
            "note_share",
            "warn_share",
            "stripe_ply",
            "spread",
        ):
            checked(name, getattr(self, name))
        if self.structure not in STRUCTURES:
            raise InvalidPlan("not-one-of", field="structure", value=self.structure)
        for weight in self.splits:
            checked("split_weight", weight)
        for offset in self.offsets_m:
            checked("offset_m", offset)
        _check_count("splits", len(self.splits), MOST_PLIES, least=2)
        _check_count("strips", len(self.strips), MOST_STRIPS)
        _check_count("offsets_m", len(self.offsets_m), MOST_PLIES)
        _check_count("plies", len(self.plies), MOST_PLIES, least=int(self.structure == "free"))
        _check_count("stripes", len(self.stripes), MOST_STRIPES, least=0)
        if self.structure == "free":
            check_thickness(self.plies)


def thickness_taken(plies: Sequence[Ply], roving: int) -> tuple[tuple[float, float, float], ...]:
    """Return what plies take of roving number `roving`, stretch by stretch.

    Each is from, to (shares of its weight, 0 to 1) and the share of its thickness, above 1 where more is
    taken than there is.

    >>> thickness_taken((Ply(to_share=0.5), Ply(from_share=1.0, to_share=0.25, cross_section=0.5)), 1)
    ((0.0, 0.25, 1.0), (0.25, 0.5, 1.5), (0.5, 1.0, 0.5))
    """
    here = [
        (*sorted((ply.from_share, ply.to_share)), ply.cross_section) for ply in plies if ply.roving == roving
    ]
    ends = sorted({end for low, high, _ in here for end in (low, high)})
    return tuple(
        (start, end, math.fsum(share for low, high, share in here if low <= start and end <= high))
        for start, end in pairwise(ends)
        if end - start > RELATIVE_TOLERANCE
    )


def check_thickness(plies: Sequence[Ply]) -> None:
    """Refuse plies that take more of a roving than it has.

    Raises
    ------
    InvalidPlan
        ``plies-take-too-much`` with the roving, the stretch (shares of its weight) and the share taken.
    """
    for roving in sorted({ply.roving for ply in plies}):
        for start, end, taken in thickness_taken(plies, roving):
            if exceeds(taken, 1.0):
                raise InvalidPlan(
                    "plies-take-too-much",
                    field="plies",
                    roving=roving,
                    from_share=start,
                    to_share=end,
                    taken_share=taken,
                )


def _check_count(name: str, count: int, most: int, least: int = 1) -> None:
    if count > most:
        raise InvalidPlan("too-many", field=name, count=count, most=most)
    if count < least:
        raise InvalidPlan("too-few", field=name, count=count, least=least)
