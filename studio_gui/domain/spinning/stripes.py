"""Wanted stripes on the lay, and sections in rows of knitting.

The rule of this module: a stripe of plied yarn takes ``plied m / (1 - take-up)`` metres of each strand (three
times that of a chain's one); grams are that by grist; where they lie is the business of
`studio_gui.domain.spinning.yarn_map`. Stripes and sections invert each other.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate, pairwise

from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.yarn_map import YarnMap, folds_of, take_up_of, yarn_map
from studio_gui.domain.yarn import Stripe

#: Stripes that need so much more than there is, as a share, still fit: they were rounded when typed.
ROUNDING_SHARE = 1e-3
#: Less of the yarn than this share is no stripe and no leftover.
LEAST_SHARE = 1e-9


@dataclass(frozen=True, eq=False)
class StripePlan:
    """Where the wanted stripes lie, and whether the roving is enough for them.

    Lengths are plied metres, those of singles say so; weights are of ONE roving, with what comes back of
    every stripe on other legs, halves and strips.

    Attributes
    ----------
    yarn_m
        Plied metres of every wanted stripe.
    order
        The stripe (its place in the plan) of every section that the stripes make, along the lay.
    edges_m
        Where these sections start and end, m along the lay; the last stripe takes what is left. Stripes that
        find no room are left out.
    marks_m
        Where a stripe starts or ends inside the lay, rising; with where the last one would end.
    """

    plan: Plan
    map: YarnMap
    yarn_m: tuple[float, ...]
    order: tuple[int, ...]
    edges_m: tuple[float, ...]
    marks_m: tuple[float, ...]

    @property
    def strand_m(self) -> tuple[float, ...]:
        """Singles that every stripe takes of one strand, m; of a chain three times what lies in the yarn."""
        a_metre = folds_of(self.plan) / (1.0 - take_up_of(self.plan))
        return tuple(metres * a_metre for metres in self.yarn_m)

    @property
    def strand_g(self) -> tuple[float, ...]:
        """Fibre that every stripe takes of one strand, g."""
        return tuple(metres / self.plan.yarn.singles_m_per_g for metres in self.strand_m)

    @property
    def lay_m(self) -> tuple[float, ...]:
        """What every stripe has of the lay, all its places together, m; 0 of one that finds no room."""
        lengths_m = [0.0] * len(self.yarn_m)
        for stripe, (start_m, end_m) in zip(self.order, pairwise(self.edges_m), strict=False):
            lengths_m[stripe] += end_m - start_m
        return tuple(lengths_m)

    @property
    def needed_m(self) -> float:
        """All stripes together, plied m."""
        return sum(self.yarn_m)

    @property
    def available_m(self) -> float:
        """What the roving gives, plied m."""
        return self.map.available_m

    @property
    def left_m(self) -> float:
        """What is left over, plied m; below 0 what is missing; 0 within rounding."""
        left = self.available_m - self.needed_m
        return 0.0 if -ROUNDING_SHARE * self.available_m <= left <= LEAST_SHARE * self.available_m else left

    @property
    def fits(self) -> bool:
        """Whether the roving is enough, but for rounding."""
        return self.left_m >= 0.0

    @property
    def left_rows(self) -> float:
        """`left_m` in rows of the knitting."""
        return self.left_m / self.plan.yarn.knitting.metres_a_row

    @property
    def available_g(self) -> float:
        """Weight of one roving that can be striped, g."""
        return self.map.usable_g

    @property
    def needed_g(self) -> float:
        """Weight of one roving that the stripes take, g; 0 where nothing can be striped."""
        return self.needed_m * self._g_a_metre

    @property
    def left_g(self) -> float:
        """`left_m` in g of one roving."""
        return self.left_m * self._g_a_metre

    @cached_property
    def _g_a_metre(self) -> float:
        return self.available_g / self.available_m if self.available_m > 0.0 else 0.0


@dataclass(frozen=True, slots=True)
class SectionRows:
    """What a section is in the yarn: plied metres of one place, and rows of the knitting.

    The section over the middle of a mirrored lay has two places side by side; its metres are their mean.
    """

    section_index: int
    yarn_m: float
    rows: float


def stripe_m(plan: Plan, stripe: Stripe) -> float:
    """Return the plied metres of a wanted stripe.

    >>> from studio_gui.domain.new_plan import new_plan
    >>> stripe_m(new_plan(), Stripe("l1", 8.0, "rows"))
    12.0
    """
    return stripe.amount * (plan.yarn.knitting.metres_a_row if stripe.measure == "rows" else 1.0)


def stripe_edges(plan: Plan) -> StripePlan:
    """Lay the wanted stripes out on the plan's lay. Errors: none."""
    lay = yarn_map(plan)
    yarn_m = tuple(stripe_m(plan, stripe) for stripe in plan.yarn.stripes)
    needed_m, available_m = sum(yarn_m), lay.available_m
    rounded = available_m < needed_m <= available_m * (1.0 + ROUNDING_SHARE)
    squeeze = available_m / needed_m if rounded else 1.0
    ends_m = [end_m * squeeze for end_m in accumulate(yarn_m)]
    least_m = LEAST_SHARE * available_m
    inner = [end_m for end_m in ends_m[:-1] if end_m < available_m - least_m]
    shown = list(range(min(len(inner) + 1, len(yarn_m)))) if available_m > 0.0 else []
    cuts = [lay.lay_at(end_m) for end_m in inner]
    tail = [lay.lay_at(ends_m[-1])] if yarn_m and ends_m[-1] < available_m - least_m else []
    return StripePlan(
        plan=plan,
        map=lay,
        yarn_m=yarn_m,
        order=_along_the_lay(lay, shown),
        edges_m=(0.0, *sorted(place for cut in cuts for place in cut), plan.lay_length_m),
        marks_m=tuple(sorted(place for cut in (*cuts, *tail) for place in cut)),
    )


def rows_of_sections(plan: Plan) -> tuple[SectionRows, ...]:
    """Return what every section is in the yarn, in the lay's order: metres and rows of one place.

    A section that is in no yarn (wound off, or left over) has 0. Errors: none.
    """
    lay = yarn_map(plan)
    metres = lay.yarn_before(plan.edges_m).tolist()
    half_m = lay.available_m
    row_m = plan.yarn.knitting.metres_a_row
    found = []
    for index, (start, end) in enumerate(pairwise(metres)):
        spans = lay.mirrored and start < half_m * (1.0 - LEAST_SHARE) and end > half_m * (1.0 + LEAST_SHARE)
        yarn_m = (end - start) / (2.0 if spans else 1.0)
        found.append(SectionRows(index, yarn_m, yarn_m / row_m))
    return tuple(found)


def pattern_of_sections(plan: Plan) -> tuple[SectionRows, ...]:
    """Return the sections in the yarn's order, once each, as far as stripes are planned.

    On a mirrored lay those of the first half, the one over the middle as far as the middle. Sections that are
    in no yarn are left out.
    """
    lay = yarn_map(plan)
    metres = [min(place, lay.available_m) for place in lay.yarn_before(plan.edges_m).tolist()]
    row_m = plan.yarn.knitting.metres_a_row
    lengths = [(index, end - start) for index, (start, end) in enumerate(pairwise(metres))]
    least_m = LEAST_SHARE * lay.available_m
    kept = [SectionRows(index, length, length / row_m) for index, length in lengths if length > least_m]
    return tuple(reversed(kept)) if lay.backward else tuple(kept)


def _along_the_lay(lay: YarnMap, shown: Sequence[int]) -> tuple[int, ...]:
    """Return stripes in the order in which they lie."""
    if lay.mirrored:
        return (*shown, *reversed(shown[:-1]))
    return tuple(reversed(shown)) if lay.backward else tuple(shown)
