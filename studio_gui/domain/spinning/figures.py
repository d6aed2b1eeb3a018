"""The yarn's figures: length, runs, pairs of colours, what is left over.

The rule of this module: strands are laid beside each other metre by metre from their starts, behind what was
wound off; the shortest ends the yarn, and what is left on the others is leftover. Lengths are *laid* (before
take-up) or *plied* (after it, times 1 - take-up), and say which.

A chain is one strand laid to and fro in loops: of three metres of it, one metre of yarn before take-up. A
change of colour at random in a loop of length L mixes ``2 L / 3`` of yarn on average, L at most.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from studio_gui.domain import yarn_counts
from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.mixing import PredictedColours
from studio_gui.domain.colour.spaces import lab_from_xyz, linear_from_srgb, xyz_from_linear
from studio_gui.domain.figures import SectionFigures
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import RELATIVE_TOLERANCE
from studio_gui.domain.spinning.plies import plies_of
from studio_gui.domain.spinning.strands import Strand, roving_cuts, strand
from studio_gui.domain.yarn import CHAIN_PLIES

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]
IndexArray = NDArray[np.intp]

#: Share of a loop that a change of colour mixes on average: mean of x, L and L - x over the three strands.
MEAN_SMEAR_SHARE = 2.0 / 3.0


@dataclass(frozen=True, slots=True)
class LiquorRun:
    """A stretch of singles of one liquor (index in ``plan.liquors``), m."""

    liquor: int
    length_m: float


class YarnRun(NamedTuple):
    """A stretch of yarn, plied metres from its start, and the liquor of every strand in it."""

    liquors: tuple[int, ...]
    start_m: float
    end_m: float
    solid: bool


@dataclass(frozen=True, slots=True)
class Pair:
    """How much of the yarn has these liquors side by side, one a strand; mixed loops of a chain have two."""

    liquors: tuple[int, ...]
    laid_m: float
    plied_m: float
    solid: bool


@dataclass(frozen=True, eq=False)
class Likeness:
    """Tells sections of one colour: of one liquor, or of colours that nobody tells apart.

    `liquor_index` (s,) and `lab` (s, 3) are of all sections; `limit` is CIEDE2000.
    """

    liquor_index: IndexArray
    lab: FloatArray
    limit: float

    def alike(self, first: IndexArray, second: IndexArray) -> BoolArray:
        """Return whether sections `first` and `second` (same shape) show one colour."""
        same: BoolArray = self.liquor_index[first] == self.liquor_index[second]
        other = np.nonzero(~same)
        if len(other[0]):
            same[other] = ciede2000(self.lab[first[other]], self.lab[second[other]]) < self.limit
        return same


@dataclass(frozen=True, eq=False)
class YarnFigures:
    """Figures of a plan's yarn; n stretches between neighbouring changes of any strand.

    Attributes
    ----------
    strands
        One a ply; a chain has one.
    cuts_m
        (n + 1,) where stretches start and end, laid m from the start of the yarn.
    sections
        (n, strands) the section that each strand comes from.
    solid
        (n,) whether the strands show one colour.
    changes_shown
        (n - 1,) whether the yarn changes to a colour that is clearly another.
    """

    plan: Plan
    strands: tuple[Strand, ...]
    cuts_m: FloatArray
    sections: IndexArray
    solid: BoolArray
    changes_shown: BoolArray
    likeness: Likeness

    @property
    def is_chain(self) -> bool:
        """Whether its one strand is laid threefold."""
        return self.plan.yarn.structure == "chain"

    @property
    def take_up(self) -> float:
        """Fraction of length lost on plying; a single is not plied."""
        is_plied = self.is_chain or len(self.strands) > 1
        return self.plan.yarn.take_up if is_plied else 0.0

    @property
    def laid_m(self) -> float:
        """Length of the yarn before take-up, m."""
        return float(self.cuts_m[-1])

    @property
    def plied_m(self) -> float:
        """Length of the plied yarn, m; of a single's singles."""
        return yarn_counts.plied_m([self.laid_m], self.take_up)

    @property
    def m_per_g(self) -> float:
        """Grist of the plied yarn, m per g of what is in it."""
        strands = CHAIN_PLIES if self.is_chain else len(self.strands)
        singles = self.plan.yarn.singles_m_per_g
        return yarn_counts.folded_m_per_g([singles] * strands, self.take_up)

    # -- what is left over ---------------------------------------------------------------------------------

    @cached_property
    def leftover_m(self) -> tuple[float, ...]:
        """Singles of every strand that are not in the yarn, m; with what was wound off."""
        return leftovers_m(self.strands, self.laid_m * (CHAIN_PLIES if self.is_chain else 1))

    @property
    def leftover_g(self) -> tuple[float, ...]:
        """Weight of `leftover_m`, g."""
        return tuple(m / one.m_per_g for m, one in zip(self.leftover_m, self.strands, strict=True))

    @property
    def leftover_shares(self) -> tuple[float, ...]:
        """`leftover_m` as shares of the longest strand, 0 to 1."""
        longest_m = max(one.length_m for one in self.strands)
        return tuple(m / longest_m for m in self.leftover_m)

    @property
    def leftover_share(self) -> float:
        """The largest leftover as a share of the longest strand."""
        return max(self.leftover_shares)

    # -- colours -------------------------------------------------------------------------------------------

    @cached_property
    def smear_m(self) -> FloatArray:
        """(n - 1,) yarn that each change of a chain mixes on average, laid m; no more than lies beside it."""
        if not self.is_chain:
            return np.zeros(len(self.cuts_m) - 2)
        lengths = np.diff(self.cuts_m)
        room = (lengths[:-1] + lengths[1:]) / 2.0
        return np.where(self.changes_shown, np.minimum(MEAN_SMEAR_SHARE * self.plan.yarn.loop_m, room), 0.0)

    @property
    def smear_each_m(self) -> float:
        """Yarn that one change of a chain mixes on average, laid m; 0 where nothing changes."""
        changes = np.count_nonzero(self.changes_shown)
        return float(self.smear_m.sum()) / changes if changes else 0.0

    @property
    def smear_worst_m(self) -> float:
        """Yarn that all changes of a chain mix at worst, laid m."""
        worst = float(np.count_nonzero(self.changes_shown)) * self.plan.yarn.loop_m if self.is_chain else 0.0
        return min(worst, self.laid_m)

    @cached_property
    def solid_laid_m(self) -> float:
        """Yarn of one colour, laid m; of a chain what its changes leave on average."""
        return float(np.diff(self.cuts_m)[self.solid].sum() - self.smear_m.sum())

    @property
    def solid_m(self) -> float:
        """Yarn of one colour, plied m."""
        return self.solid_laid_m * (1.0 - self.take_up)

    @property
    def barber_pole_m(self) -> float:
        """Yarn of several colours, plied m."""
        return max(self.plied_m - self.solid_m, 0.0)

    @property
    def solid_share(self) -> float:
        """Share of the yarn that is of one colour, 0 to 1; 0 where there is no yarn."""
        return self.solid_laid_m / self.laid_m if self.laid_m > 0.0 else 0.0

    def share(self, plied_m: float) -> float:
        """Return so many plied metres as a share of the yarn, 0 to 1; 0 where there is no yarn."""
        return plied_m / self.plied_m if self.plied_m > 0.0 else 0.0

    @cached_property
    def liquors(self) -> IndexArray:
        """(n, strands) the liquor of every strand."""
        return self.likeness.liquor_index[self.sections]

    @cached_property
    def runs(self) -> tuple[YarnRun, ...]:
        """The yarn from its start, neighbours with the same liquors as one."""
        firsts = _firsts_of_runs(self.liquors)
        ends_m = (self.cuts_m[[*firsts, -1]] * (1.0 - self.take_up)).tolist()
        return tuple(
            YarnRun(tuple(liquors), start_m, end_m, solid)
            for liquors, start_m, end_m, solid in zip(
                self.liquors[firsts].tolist(),
                ends_m[:-1],
                ends_m[1:],
                np.logical_and.reduceat(self.solid, firsts).tolist(),
                strict=True,
            )
        )

    def strand_runs(self, strand: int) -> tuple[LiquorRun, ...]:
        """Return the runs of one strand's singles, leftovers and all, neighbours of one liquor as one."""
        one = self.strands[strand]
        liquors = self.likeness.liquor_index[one.sections]
        firsts = _firsts_of_runs(liquors[:, np.newaxis])
        places = [*one.cuts_m[firsts].tolist(), one.length_m]
        return tuple(
            LiquorRun(int(liquors[first]), end - start)
            for first, start, end in zip(firsts, places, places[1:], strict=False)
        )

    @cached_property
    def pairs(self) -> tuple[Pair, ...]:
        """The pairs (triples...) of liquors that lie side by side, in the order in which they first come."""
        lengths = np.diff(self.cuts_m)
        smear = np.concatenate(([0.0], self.smear_m, [0.0])) / 2.0
        laid: dict[tuple[tuple[int, ...], bool], float] = {}
        rows = zip(
            self.liquors.tolist(), (lengths - smear[:-1] - smear[1:]).tolist(), self.solid, strict=True
        )
        for number, (liquors, length_m, solid) in enumerate(rows):
            key = (tuple(liquors), bool(solid))
            laid[key] = laid.get(key, 0.0) + length_m
            if self.is_chain and number < len(self.smear_m) and self.smear_m[number] > 0.0:
                mixed = ((liquors[0], int(self.liquors[number + 1, 0])), False)
                laid[mixed] = laid.get(mixed, 0.0) + float(self.smear_m[number])
        kept = 1.0 - self.take_up
        return tuple(Pair(liquors, m, m * kept, solid) for (liquors, solid), m in laid.items())

    # -- places --------------------------------------------------------------------------------------------

    def singles_m(self, laid_m: ArrayLike) -> FloatArray:
        """Return the metre of every strand that lies at `laid_m` (p,) of the yarn: (strands twisted, p)."""
        places = np.asarray(laid_m, dtype=np.float64)
        if not self.is_chain:
            return np.stack([places + one.ply.offset_m for one in self.strands])
        loop = self.plan.yarn.loop_m
        start = np.floor(places / loop) * loop
        within = places - start
        return np.stack(
            [3.0 * start + within, 3.0 * start + 2.0 * loop - within, 3.0 * start + 2.0 * loop + within]
        )

    def lay_m(self, laid_m: ArrayLike) -> FloatArray:
        """Return the place on the lay (m) of every strand at `laid_m` (p,): (strands twisted, p)."""
        places = self.singles_m(laid_m)
        strands = self.strands * CHAIN_PLIES if self.is_chain else self.strands
        return np.stack([one.lay_m(self.plan, metres) for one, metres in zip(strands, places, strict=True)])


def yarn_figures(figures: SectionFigures, colours: PredictedColours) -> YarnFigures:
    """Spin and ply the plan's yarn; cost is linear in sections times strips.

    `colours` are those of the sections.
    """
    plan = figures.plan
    strands = strands_of(plan)
    lab = lab_from_xyz(xyz_from_linear(linear_from_srgb(colours.srgb)))
    return plied(plan, strands, Likeness(figures.liquor_index, lab, plan.yarn.alike_difference))


def plied(plan: Plan, strands: tuple[Strand, ...], likeness: Likeness) -> YarnFigures:
    """Ply strands as the plan's yarn has it."""
    is_chain = plan.yarn.structure == "chain"
    cuts_m, sections = laid_together(strands, CHAIN_PLIES if is_chain else 1)
    solid = np.ones(len(sections), dtype=np.bool_)
    for first in range(sections.shape[1]):
        for second in range(first + 1, sections.shape[1]):
            solid &= likeness.alike(sections[:, first], sections[:, second])
    changes: BoolArray = np.any(~likeness.alike(sections[:-1], sections[1:]), axis=1)
    return YarnFigures(plan, strands, cuts_m, sections, solid, changes, likeness)


def strands_of(plan: Plan) -> tuple[Strand, ...]:
    """Spin the plies of a plan's yarn: one strand each, in their order."""
    plies = plies_of(plan)
    cuts = {number: roving_cuts(plan, number - 1) for number in {ply.roving for ply in plies}}
    return tuple(strand(ply, cuts[ply.roving], plan.yarn.singles_m_per_g) for ply in plies)


def leftovers_m(strands: Sequence[Strand], used_m: float) -> tuple[float, ...]:
    """Return the singles of every strand that are left, m, where `used_m` of each are in the yarn."""
    left = (one.length_m - used_m for one in strands)
    return tuple(
        m if m > RELATIVE_TOLERANCE * one.length_m else 0.0 for m, one in zip(left, strands, strict=True)
    )


def laid_together(strands: Sequence[Strand], folds: int = 1) -> tuple[FloatArray, IndexArray]:
    """Lay strands side by side, each `folds` times itself: (n + 1,) cuts, laid m, and (n, strands) sections.

    With nothing to lay, one stretch of no length at the strands' starts.
    """
    laid_m = min(one.usable_m for one in strands) / folds
    ends = [(one.cuts_m[1:-1] - one.ply.offset_m) / folds for one in strands]
    inner = np.sort(np.concatenate(ends))
    least = RELATIVE_TOLERANCE * laid_m
    inner = inner[(inner > least) & (inner < laid_m - least)]
    inner = inner[np.diff(inner, prepend=-1.0) > least] if len(inner) else inner
    cuts_m = np.concatenate(([0.0], inner, [laid_m]))
    middles = (cuts_m[:-1] + cuts_m[1:]) / 2.0
    columns = []
    for one in strands:
        at = np.searchsorted(one.cuts_m, middles * folds + one.ply.offset_m, side="right") - 1
        columns.append(one.sections[np.clip(at, 0, len(one.sections) - 1)])
    return cuts_m, np.stack(columns, axis=1)


def _firsts_of_runs(liquors: IndexArray) -> list[int]:
    """Return where rows of (n, strands) liquors differ from the row before, with 0."""
    changes = np.flatnonzero((liquors[1:] != liquors[:-1]).any(axis=1)) + 1
    return [0, *changes.tolist()]
