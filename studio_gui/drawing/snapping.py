"""Where a dragged thing comes to rest.

The rule of this module: a mark within reach draws first, then the ruler's ticks; the place a thing came
from is as good as a tick, so that a drag out and back changes nothing.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from studio_gui.domain.edits.boundaries import Drag
from studio_gui.domain.edits.folds import fold_place_m
from studio_gui.domain.edits.inputs import fold_by_weight, set_passes
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.geometry import legs
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.stripes import stripe_edges
from studio_gui.wording.translation import translate

#: Why a place draws: as far from the end as another boundary is from the start; halfway between the
#: neighbours; the middle of the lay; where a shorter leg ends; where a wanted stripe starts or ends; legs of
#: equal length or weight.
Reason = Literal["mirror", "halves", "middle", "leg end", "stripe", "equal legs", "equal weight"]

REACH_PX = 6.0


@dataclass(frozen=True, slots=True)
class SnapMark:
    """A place (m along the lay) that draws a dragged thing; `other_m` is the place it is the mirror of."""

    place_m: float
    reason: Reason
    other_m: float | None = None


@dataclass(frozen=True, slots=True)
class Rest:
    """Where a dragged thing comes to rest, and on which mark, None for a tick or the place it came from."""

    place_m: float
    mark: SnapMark | None = None


def at_rest(
    wanted_m: float, origin_m: float, marks: Iterable[SnapMark], reach_m: float, tick_m: float
) -> Rest:
    """Return where something dragged to `wanted_m` comes to rest.

    The nearest mark within `reach_m`; else the nearer of `origin_m` and the next multiple of `tick_m`.

    >>> at_rest(1.231, 1.0, [SnapMark(1.2345, "mirror")], 0.01, 0.05)
    Rest(place_m=1.2345, mark=SnapMark(place_m=1.2345, reason='mirror', other_m=None))
    >>> at_rest(1.231, 1.0, [], 0.01, 0.05)
    Rest(place_m=1.25, mark=None)
    """
    mark = min(marks, key=lambda one: abs(one.place_m - wanted_m), default=None)
    origin_is_near = abs(wanted_m - origin_m) <= reach_m / 2.0
    if mark is not None and abs(mark.place_m - wanted_m) <= reach_m and not origin_is_near:
        return Rest(mark.place_m, mark)
    tick = round(round(wanted_m / tick_m) * tick_m, 9)
    return Rest(origin_m if abs(wanted_m - origin_m) < abs(wanted_m - tick) else tick)


def boundary_marks(plan: Plan, index: int, drag: Drag) -> tuple[SnapMark, ...]:
    """Return the marks that draw boundary `index` of `plan`; what follows it on a shift draws nothing."""
    length_m = plan.lay_length_m
    edges = plan.edges_m
    staying = plan.boundaries[:index] if drag == "shift" else plan.boundaries
    mirrors = [
        SnapMark(length_m - one.position_m, "mirror", one.position_m)
        for number, one in enumerate(staying)
        if number != index
    ]
    ends = {
        round(place, 9)
        for leg in legs(plan.fibre, plan.lay)
        for place in (leg.lay_low_m, leg.lay_high_m)
        if 0.0 < place < length_m
    }
    halves = (edges[index] + edges[index + 2]) / 2.0
    own = [SnapMark(halves, "halves")] if drag == "trade" else []
    return (
        *(SnapMark(place, "stripe") for place in stripe_edges(plan).marks_m),
        *own,
        SnapMark(length_m / 2.0, "middle"),
        *mirrors,
        *(SnapMark(place, "leg end") for place in sorted(ends)),
    )


def fold_marks(plan: Plan, index: int) -> tuple[SnapMark, ...]:
    """Return the marks that draw fold `index`: where legs are equal in length or, uneven top, in weight."""
    places: list[SnapMark] = []
    folds = plan.lay.fold_positions_m
    ways: tuple[tuple[Reason, Plan | None], ...] = (
        ("equal legs", _tried(plan, by_weight=False)),
        ("equal weight", _tried(plan, by_weight=True) if plan.fibre.mass_marks else None),
    )
    for reason, other in ways:
        if other is not None:
            longer_m = _leg_m(other, index) - _leg_m(plan, index)
            outwards = 1.0 if legs(plan.fibre, plan.lay)[index].forward else -1.0
            before_stays = index == 0 or abs(other.lay.fold_positions_m[index - 1] - folds[index - 1]) < 1e-6
            if before_stays:
                places.append(SnapMark(fold_place_m(plan, index) + outwards * longer_m, reason))
    return tuple(places)


def guide_words(mark: SnapMark, plan: Plan) -> str:
    """Return why a mark draws, in a few words for the guide."""
    if mark.reason == "mirror" and mark.other_m is not None:
        index = min(
            range(len(plan.boundaries)),
            key=lambda one: abs(plan.boundaries[one].position_m - (mark.other_m or 0.0)),
        )
        letters = [plan.liquor(section.liquor_id).letter for section in plan.sections[index : index + 2]]
        return translate("Snapping", "mirrors {0} | {1}").format(*letters)
    if mark.reason == "stripe":
        return _stripe_words(mark, plan)
    return {
        "halves": translate("Snapping", "equal halves"),
        "middle": translate("Snapping", "middle of the lay"),
        "leg end": translate("Snapping", "end of a leg"),
        "equal legs": translate("Snapping", "legs of equal length"),
        "equal weight": translate("Snapping", "legs of equal weight"),
        "mirror": "",
        "stripe": "",
    }[mark.reason]


def _stripe_words(mark: SnapMark, plan: Plan) -> str:
    """Return which wanted stripes meet at a mark; of the last one's end, which that is."""
    laid = stripe_edges(plan)
    letters = [plan.liquor(plan.yarn.stripes[stripe].liquor_id).letter for stripe in laid.order]
    if mark.place_m in laid.edges_m:
        index = laid.edges_m.index(mark.place_m)
        return translate("Snapping", "stripes {0} | {1}").format(*letters[index - 1 : index + 1])
    last = plan.yarn.stripes[max(laid.order)].liquor_id
    return translate("Snapping", "end of the last stripe, {0}").format(plan.liquor(last).letter)


def _leg_m(plan: Plan, index: int) -> float:
    places = list(pairwise((0.0, *plan.lay.fold_positions_m, plan.fibre.length_m)))
    return places[index][1] - places[index][0]


def _tried(plan: Plan, *, by_weight: bool) -> Plan | None:
    """Return the plan folded evenly, None where something locked does not allow it."""
    try:
        return fold_by_weight(plan) if by_weight else set_passes(plan, plan.lay.passes)
    except RovingLayError:
        return None
