"""Half against half of one roving, colour by colour.

The rule of this module: a roving is broken in two at `break_m`, and both halves are read from their outer
ends, as they are spun: metres count from there, and a slide is the first half's metres less the second's. A
colour is a stretch of one liquor, however many sections it has. Colours of the halves are matched in their
order; what has no match is a colour of one half alone.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from itertools import takewhile, zip_longest

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.plies import break_m, break_share
from studio_gui.domain.spinning.strands import LEAST_SHARE, roving_cuts

#: Matching takes the product of two lists' lengths in steps; longer ones are matched at their two ends alone.
MOST_STEPS = 1_000_000


@dataclass(frozen=True, slots=True)
class HalfColour:
    """A colour of one half: liquor (index in ``plan.liquors``), m of singles from the outer end, its g."""

    liquor: int
    start_m: float
    end_m: float
    weight_g: float

    @property
    def length_m(self) -> float:
        """Singles of it, m."""
        return self.end_m - self.start_m


@dataclass(frozen=True, slots=True)
class ColourPair:
    """One colour of both halves; None where a half has nothing that matches."""

    first: HalfColour | None
    second: HalfColour | None

    @property
    def liquor(self) -> int:
        """The liquor of both, index in ``plan.liquors``."""
        return next(one.liquor for one in (self.first, self.second) if one is not None)

    @property
    def slide_m(self) -> float | None:
        """How much later the first half comes to this colour's end, m of singles; None without a match."""
        if self.first is None or self.second is None:
            return None
        return self.first.end_m - self.second.end_m

    @property
    def start_slide_m(self) -> float | None:
        """The same at the colour's start."""
        if self.first is None or self.second is None:
            return None
        return self.first.start_m - self.second.start_m


@dataclass(frozen=True)
class Halves:
    """Both halves of roving `roving` (from 0) of the set, broken `break_m` along it, and their colours."""

    plan: Plan
    roving: int
    break_m: float
    pairs: tuple[ColourPair, ...]
    weights_g: tuple[float, float]

    @property
    def lengths_m(self) -> tuple[float, float]:
        """Singles of each half, m."""
        grist = self.plan.yarn.singles_m_per_g
        return self.weights_g[0] * grist, self.weights_g[1] * grist

    @property
    def difference_g(self) -> float:
        """How much heavier the first half is, g; below 0 where the second is."""
        return self.weights_g[0] - self.weights_g[1]

    @property
    def difference_share(self) -> float:
        """The halves' difference as a share of half the roving, 0 to 2: 6 g of 78 and 72 g are 0.08."""
        return abs(self.difference_g) / (sum(self.weights_g) / 2.0)

    @property
    def are_alike(self) -> bool:
        """Whether both halves have the same colours in the same order."""
        return all(pair.first is not None and pair.second is not None for pair in self.pairs)

    @property
    def unmatched(self) -> tuple[ColourPair, ...]:
        """The colours of one half alone, in their order."""
        return tuple(pair for pair in self.pairs if pair.slide_m is None)

    @property
    def widest(self) -> ColourPair | None:
        """The colour at whose end the halves have slid apart most; None where none matches."""
        matched = [pair for pair in self.pairs if pair.slide_m is not None]
        return max(matched, key=lambda pair: abs(pair.slide_m or 0.0), default=None)

    @property
    def widest_start(self) -> ColourPair | None:
        """The colour whose starts lie farthest apart: where colours lack a match, these tell more."""
        matched = [pair for pair in self.pairs if pair.start_slide_m is not None]
        return max(matched, key=lambda pair: abs(pair.start_slide_m or 0.0), default=None)

    @property
    def widest_slide_m(self) -> float:
        """How far the halves have slid apart there, m of singles, never below 0; 0 where nothing matches."""
        return 0.0 if self.widest is None else abs(self.widest.slide_m or 0.0)

    @property
    def apart_share(self) -> float:
        """The widest slide of halves that are alike, as a share of half the singles.

        Of halves that are not, their difference: what does not match cannot slide.
        """
        if not self.are_alike:
            return self.difference_share
        return self.widest_slide_m / (sum(self.lengths_m) / 2.0)


def halves(plan: Plan, roving: int = 0) -> Halves:
    """Return both halves of one roving (from 0), read from their outer ends.

    Errors: none; a plan is valid. Cost is linear in sections times passes where the halves' colours agree.

    >>> from studio_gui.domain.new_plan import new_plan
    >>> halves(new_plan()).weights_g, halves(new_plan()).are_alike
    ((50.0, 50.0), False)
    """
    cuts = roving_cuts(plan, roving)
    total_g = cuts.fibre.mass_g
    break_g = break_share(plan, roving) * total_g
    places = {liquor.id: place for place, liquor in enumerate(plan.liquors)}
    liquors = np.array([places[plan.sections[section].liquor_id] for section in cuts.sections.tolist()])
    before_g = np.diff(np.clip(cuts.cuts_g, 0.0, break_g))
    behind_g = np.diff(np.clip(cuts.cuts_g, break_g, total_g))
    grist, least_g = plan.yarn.singles_m_per_g, LEAST_SHARE * total_g
    first = _colours(liquors, before_g, grist, least_g)
    second = _colours(liquors[::-1], behind_g[::-1], grist, least_g)
    pairs = tuple(matched(first, second))
    return Halves(plan, roving, break_m(plan, roving), pairs, (break_g, total_g - break_g))


def most_uneven_roving(plan: Plan) -> int:
    """Return the roving (from 0) whose halves differ most in weight; the first where all are alike."""
    if not plan.fibre.measured:
        return 0
    return max(range(plan.fibre.rovings), key=lambda roving: abs(break_share(plan, roving) - 0.5))


def matched(first: Sequence[HalfColour], second: Sequence[HalfColour]) -> list[ColourPair]:
    """Match the colours of two halves in their order, as many as possible in a row.

    >>> one = [HalfColour(liquor, 0.0, 1.0, 1.0) for liquor in (0, 1, 2)]
    >>> [(pair.liquor, pair.slide_m) for pair in matched(one, [one[0], one[2]])]
    [(0, 0.0), (1, None), (2, 0.0)]
    """
    lists = ([one.liquor for one in first], [one.liquor for one in second])
    pairs: list[ColourPair] = []
    at = [0, 0]
    for here, there, size in _agreeing(*lists):
        pairs += [ColourPair(one, None) for one in first[at[0] : here]]
        pairs += [ColourPair(None, one) for one in second[at[1] : there]]
        pairs += [ColourPair(first[here + step], second[there + step]) for step in range(size)]
        at = [here + size, there + size]
    return pairs


def _agreeing(first: list[int], second: list[int]) -> list[tuple[int, int, int]]:
    """Return where two lists agree: (place in the first, in the second, how long), the last of no length."""
    head = len(list(takewhile(lambda two: two[0] == two[1], zip_longest(first, second))))
    rest, other = first[head:], second[head:]
    blocks = [(0, 0, head)]
    if len(rest) * len(other) <= MOST_STEPS:
        found = SequenceMatcher(None, rest, other, autojunk=False).get_matching_blocks()
        return blocks + [(head + block.a, head + block.b, block.size) for block in found]
    return [*blocks, (len(first), len(second), 0)]


def _colours(
    liquors: NDArray[np.intp], weights_g: NDArray[np.float64], m_per_g: float, least_g: float
) -> tuple[HalfColour, ...]:
    """Return the colours of a half from the liquors and weights of its stretches, from its outer end."""
    kept = weights_g > least_g
    liquors, weights_g = liquors[kept], weights_g[kept]
    firsts = np.flatnonzero(np.diff(liquors, prepend=-1))
    ends_g = np.cumsum(weights_g)
    places_g = [0.0, *ends_g[firsts[1:] - 1].tolist(), *ends_g[-1:].tolist()]
    return tuple(
        HalfColour(int(liquors[place]), start_g * m_per_g, end_g * m_per_g, end_g - start_g)
        for place, start_g, end_g in zip(firsts.tolist(), places_g, places_g[1:], strict=False)
    )
