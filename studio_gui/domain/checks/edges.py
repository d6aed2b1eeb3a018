"""Checks of edges: where two neighbours turn to mud as they run into one another.

The rule of this module: an edge is judged by the half-and-half mix of its two sections, as
`studio_gui.domain.colour.mud` says, wherever their dye can meet at all. A mend is offered only where it
leaves no muddy edge of its own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.at_hand import AtHand, at_hand
from studio_gui.domain.checks.check import Check, Mend
from studio_gui.domain.colour.difference import lies_between
from studio_gui.domain.colour.mud import CHROMA_KEPT, chroma, muddiness
from studio_gui.domain.edits.bridges import insert_bridge, insert_bridge_of_dye, widest_gap_m
from studio_gui.domain.edits.order import move_sections
from studio_gui.domain.errors import Param, RovingLayError
from studio_gui.domain.figures import SectionFigures
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import exceeds
from studio_gui.domain.spinning.advice import least_length_m

FloatArray = NDArray[np.float64]

#: Length of a bridge, in wicking widths: two are wicked edges, the one between shows its colour; our choice.
BRIDGE_IN_WICKINGS = 3.0
#: What is shorter, in wicking widths, has no colour of its own: both its edges wick together.
CLEAR_IN_WICKINGS = 2.0
#: Of so many muddy edges bridges and orders are looked for; of more, gaps alone are offered.
MOST_SEARCHED = 12
#: With more colours than this another order is not looked for.
MOST_COLOURS_TO_REORDER = 60


def muddy_edges(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``edge-muddy`` for each edge whose mix loses chroma against both of its sections."""
    plan = figures.plan
    wicking_m = plan.wicking_mm / 1000.0
    meets = np.array(
        [exceeds(wicking_m, max(boundary.gap_m, 0.0)) for boundary in plan.boundaries], dtype=bool
    )
    meets &= figures.judged[:-1] & figures.judged[1:]
    if not meets.any() or not plan.dyes:
        return
    hand = at_hand(plan)
    doses = hand.doses_left(figures)
    mixed, duller, muddy = muddiness(hand.palette, doses[:-1], doses[1:])
    found = np.flatnonzero(muddy & meets).tolist()
    if not found:
        return
    orders = _orders(plan, hand, doses)
    for index in found:
        params: dict[str, Param] = {
            "kept_share": float(mixed[index] / duller[index]),
            "limit_share": CHROMA_KEPT,
            "wicking_mm": plan.wicking_mm,
        }
        searched = index in found[:MOST_SEARCHED]
        mends = list(_bridges(figures, hand, doses, index)) if searched else []
        mends += _gap(plan, index)
        mends += orders.moves(index) if searched and orders is not None else ()
        ids = (plan.sections[index].id, plan.sections[index + 1].id)
        yield Check("edge-muddy", "note", ids, params, tuple(mends))


def _can(edit: Callable[[], Plan]) -> bool:
    """Tell whether nothing is in the way of an edit."""
    try:
        edit()
    except RovingLayError:
        return False
    return True


def _bridges(figures: SectionFigures, hand: AtHand, doses: FloatArray, index: int) -> Iterator[Mend]:
    """Yield the bridge that keeps most chroma: a liquor that is on the lay already, else a dye alone."""
    plan = figures.plan
    if not _has_room(figures, index):
        return
    length_m = _bridge_m(figures, index)
    place: dict[str, Param] = {"section_id": plan.sections[index].id, "length_m": length_m}
    painted = np.flatnonzero(figures.judged)
    known = painted[np.unique(figures.liquor_index[painted], return_index=True)[1]]
    for which in _clean_between(hand, doses, index, doses[known]):
        liquor_id = plan.sections[known[which]].liquor_id
        if _can(partial(insert_bridge, plan, index, liquor_id, length_m)):
            yield Mend("bridge-with-liquor", {**place, "liquor_id": liquor_id})
            return
    depth = float(doses[index : index + 2].sum() / 2.0)
    for which in _clean_between(hand, doses, index, depth * np.eye(doses.shape[1])):
        (one,) = hand.depths((depth * np.eye(doses.shape[1])[which]).tolist())
        if _can(partial(insert_bridge_of_dye, plan, index, one.stock_id, depth, length_m)):
            yield Mend("bridge-with-dye", {**place, "stock_id": one.stock_id, "depth_pct_owf": depth})
            return


def _bridge_m(figures: SectionFigures, index: int) -> float:
    """Return how long (m) a bridge is: a clean stripe of yarn, where its neighbours stay such too."""
    stripe_m = least_length_m(figures.plan.yarn)
    short_m = BRIDGE_IN_WICKINGS * figures.plan.wicking_mm / 1000.0
    left_m = _shorter_m(figures, index) - stripe_m / 2.0  # each neighbour gives half
    return short_m if exceeds(stripe_m, left_m) else max(short_m, stripe_m)


def _shorter_m(figures: SectionFigures, index: int) -> float:
    """Return the length (m) of the shorter of the sections at an edge."""
    return float(np.diff(figures.edges_m)[index : index + 2].min())


def _has_room(figures: SectionFigures, index: int) -> bool:
    """Tell whether both sections of an edge keep a colour of their own beside a bridge."""
    wicking_m, shorter_m = figures.plan.wicking_mm / 1000.0, _shorter_m(figures, index)
    return not exceeds(CLEAR_IN_WICKINGS * wicking_m, shorter_m - BRIDGE_IN_WICKINGS * wicking_m / 2.0)


def _clean_between(hand: AtHand, doses: FloatArray, index: int, bridges: FloatArray) -> list[int]:
    """Return which of the doses (k, dyes) bridge an edge without mud, the most colourful first."""
    ends = doses[index : index + 2, np.newaxis]
    mixed, _, muddy = muddiness(hand.palette, ends, bridges)
    own = chroma(hand.palette.lab(bridges))
    least = CHROMA_KEPT * chroma(hand.palette.lab(ends[:, 0])).min()
    worst = np.minimum(mixed.min(axis=0), own)
    clean = ~muddy.any(axis=0) & (worst >= least)
    return [which for which in np.argsort(-worst, kind="stable").tolist() if clean[which]]


def _gap(plan: Plan, index: int) -> Iterator[Mend]:
    """Yield a gap as wide as dye wicks, where it fits."""
    gap_m = plan.wicking_mm / 1000.0
    if not exceeds(gap_m, widest_gap_m(plan, index)):
        yield Mend("leave-gap", {"section_id": plan.sections[index].id, "gap_m": gap_m})


@dataclass(frozen=True, eq=False)
class _Orders:
    """What order does to muddy edges: `which` colour a section has, which pairs are muddy, their Lab."""

    plan: Plan
    which: NDArray[np.intp]
    muddy: NDArray[np.bool_]
    labs: FloatArray

    def moves(self, index: int) -> Iterator[Mend]:
        """Yield the move of one section of an edge that leaves the fewest muddy edges, if fewer than now."""
        colours = self.which
        now = int(self.muddy[colours[:-1], colours[1:]].sum())
        rated = []
        for moved in (index, index + 1):
            rest = np.delete(colours, moved)
            between = self.muddy[rest[:-1], rest[1:]].astype(int)
            beside = self.muddy[colours[moved], rest].astype(int)
            # at every place of the rest: what it parts is gone, what it lies beside comes
            left = between.sum() - np.pad(between, 1) + np.pad(beside, (1, 0)) + np.pad(beside, (0, 1))
            for at, count in enumerate(left.tolist()):
                rated.append((count, abs(at - moved), moved, at if at <= moved else at + 1))
        for left, _, moved, before in sorted(one for one in rated if one[0] < now):
            if self._keeps_fades(moved, before) and _can(
                partial(move_sections, self.plan, moved, moved, before)
            ):
                section_id = self.plan.sections[moved].id
                yield Mend("move-section", {"section_id": section_id, "before": before, "count": left})
                return

    def _keeps_fades(self, moved: int, before: int) -> bool:
        """Tell whether no step of a fade is lost when section `moved` goes before section `before`."""
        rest = np.delete(self.which, moved)
        changed = np.insert(rest, before if before <= moved else before - 1, self.which[moved])
        return _steps_of_fades(self.labs[changed]) >= _steps_of_fades(self.labs[self.which])


def _steps_of_fades(labs: FloatArray) -> int:
    """Return how many sections, (n, 3) Lab, are steps between their neighbours."""
    return int(lies_between(labs[:-2], labs[1:-1], labs[2:]).sum())


def _orders(plan: Plan, hand: AtHand, doses: FloatArray) -> _Orders | None:
    """Return what other orders do; None where there are too few sections or too many colours."""
    colours, which = np.unique(doses, axis=0, return_inverse=True)
    if len(colours) > MOST_COLOURS_TO_REORDER or len(doses) < 3:
        return None
    muddy = muddiness(hand.palette, colours[:, np.newaxis], colours)[2]
    return _Orders(plan, which.reshape(-1), muddy, hand.palette.lab(colours))
