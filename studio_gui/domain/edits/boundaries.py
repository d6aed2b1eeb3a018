"""Edits of where sections meet.

The rule of this module: the lay's two ends never move here, sections always tile it, and a boundary of a
locked section stays where it is.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Literal

import numpy as np

from studio_gui.domain.errors import EditRefused
from studio_gui.domain.plan import SHORTEST_SECTION_M, Plan, too_short
from studio_gui.domain.ranges import RANGES, checked
from studio_gui.domain.sections import Boundary

Drag = Literal["trade", "shift"]


def is_locked(plan: Plan, index: int) -> bool:
    """Tell whether boundary `index` touches a locked section."""
    return plan.sections[index].locked or plan.sections[index + 1].locked


def boundary_range(plan: Plan, index: int, drag: Drag = "trade") -> tuple[float, float]:
    """Return the lowest and highest place (m) that boundary `index` may take.

    Raises
    ------
    EditRefused
        ``boundary-locked`` when it, or on ``shift`` any that would follow, touches a locked section.
    """
    for follower in range(index, len(plan.boundaries)) if drag == "shift" else (index,):
        _refuse_locked(plan, follower)
    edges, gaps = plan.edges_m, plan.half_gaps_m
    giving = len(plan.sections) - 1 if drag == "shift" else index + 1
    low = edges[index] + gaps[index] + gaps[index + 1] + SHORTEST_SECTION_M
    room = edges[giving + 1] - edges[giving] - gaps[giving] - gaps[giving + 1] - SHORTEST_SECTION_M
    here = edges[index + 1]
    return min(low, here), max(here + room, here)


def refuse_outside(position_m: float, low_m: float, high_m: float) -> None:
    """Raise `EditRefused` ``boundary-out-of-range`` unless the place is in range; at its ends it is."""
    if not low_m - 1e-12 <= position_m <= high_m + 1e-12:
        raise EditRefused("boundary-out-of-range", position_m=position_m, low_m=low_m, high_m=high_m)


def move_boundary(plan: Plan, index: int, position_m: float, drag: Drag = "trade") -> Plan:
    """Move boundary `index` to `position_m` (m along the lay).

    ``trade`` takes from one neighbour what it gives to the other; ``shift`` moves every later boundary along,
    and the last section gives or takes.

    Raises
    ------
    EditRefused
        ``boundary-locked``; ``boundary-out-of-range`` with low and high.
    """
    low, high = boundary_range(plan, index, drag)
    refuse_outside(position_m, low, high)
    boundaries = list(plan.boundaries)
    delta = position_m - boundaries[index].position_m
    boundaries[index] = replace(boundaries[index], position_m=position_m)
    if drag == "shift":
        boundaries[index + 1 :] = [
            Boundary(follower.position_m + delta, follower.gap_m) for follower in boundaries[index + 1 :]
        ]
    return plan.with_boundaries(tuple(boundaries))


def set_section_length(plan: Plan, index: int, length_m: float, drag: Drag = "trade") -> Plan:
    """Give section `index` a length by moving its end, or its start when it is the last one.

    Raises
    ------
    EditRefused
        ``only-section`` when the section is the whole lay; else as `move_boundary`.
    """
    if len(plan.sections) == 1:
        raise EditRefused("only-section", length_m=plan.lay_length_m)
    edges = plan.edges_m
    if index == len(plan.sections) - 1:
        return move_boundary(plan, index - 1, edges[-1] - length_m)
    return move_boundary(plan, index, edges[index] + length_m, drag)


def gap_range(plan: Plan, index: int) -> tuple[float, float]:
    """Return the widest overlap, below 0, and the widest gap (m) that fit on boundary `index`."""
    edges, gaps = plan.edges_m, plan.half_gaps_m
    lengths = (edges[index + 1] - edges[index], edges[index + 2] - edges[index + 1])
    free_m = min(lengths[0] - gaps[index], lengths[1] - gaps[index + 2]) - SHORTEST_SECTION_M
    here, widest = plan.boundaries[index].gap_m, RANGES["gap_m"]
    low, high = max(-2.0 * min(lengths), widest.low), min(2.0 * free_m, widest.high)
    return min(low, here), max(high, here)


def set_gap(plan: Plan, index: int, gap_m: float) -> Plan:
    """Set the signed gap (m) on boundary `index`: above 0 unpainted, below 0 overlap."""
    boundaries = list(plan.boundaries)
    boundaries[index] = replace(boundaries[index], gap_m=gap_m)
    return plan.with_boundaries(tuple(boundaries))


def equalise(plan: Plan, first: int, last: int) -> Plan:
    """Give sections `first` to `last` equal lengths between their outer edges.

    Raises
    ------
    EditRefused
        ``boundary-locked`` when a boundary between them touches a locked section.
    """
    edges = plan.edges_m
    count = last - first + 1
    boundaries = list(plan.boundaries)
    for index in range(first, last):
        _refuse_locked(plan, index)
        place = edges[first] + (edges[last + 1] - edges[first]) * (index - first + 1) / count
        boundaries[index] = replace(boundaries[index], position_m=place)
    return plan.with_boundaries(tuple(boundaries))


def reverse(plan: Plan) -> Plan:
    """Turn the order of the whole lay round, gaps and lengths with it.

    Raises
    ------
    EditRefused
        ``section-locked`` when any section is locked.
    """
    for section in plan.sections:
        if section.locked:
            raise EditRefused("section-locked", section=section.name, section_id=section.id)
    length_m = plan.lay_length_m
    boundaries = tuple(
        replace(boundary, position_m=length_m - boundary.position_m) for boundary in reversed(plan.boundaries)
    )
    return replace(plan, boundaries=boundaries, sections=tuple(reversed(plan.sections)))


def rescaled(plan: Plan, new_length_m: float) -> tuple[float, ...]:
    """Return the places of the boundaries on a lay of `new_length_m`; those of locked sections stay.

    So do all before the last that is locked; behind it, the others keep their proportions.

    Raises
    ------
    EditRefused
        ``length-pinned`` when the last section is locked; ``length-too-short`` when a locked place would fall
        off the lay.
    """
    old_length_m = plan.lay_length_m
    if new_length_m == old_length_m:
        return tuple(boundary.position_m for boundary in plan.boundaries)
    if plan.sections[-1].locked:
        section = plan.sections[-1]
        raise EditRefused("length-pinned", section=section.name, section_id=section.id)
    places = [boundary.position_m for boundary in plan.boundaries]
    pin = max((place for index, place in enumerate(places) if is_locked(plan, index)), default=0.0)
    if pin >= new_length_m - SHORTEST_SECTION_M:
        raise EditRefused("length-too-short", length_m=new_length_m, pinned_m=pin)
    scale = (new_length_m - pin) / (old_length_m - pin)
    return tuple(place if place <= pin else pin + (place - pin) * scale for place in places)


def at_lengths(plan: Plan, lengths_m: Sequence[float]) -> Plan:
    """Give all sections new lengths in the lay's order, scaled together so that they fill the lay.

    Raises
    ------
    EditRefused
        ``boundary-locked`` when that would move the boundary of a locked section; ``lengths-do-not-match``.
    InvalidPlan
        ``section-too-short`` for a length that no section may have.
    """
    if len(lengths_m) != len(plan.sections):
        raise EditRefused("lengths-do-not-match", count=len(lengths_m), sections=len(plan.sections))
    for section, length_m in zip(plan.sections, lengths_m, strict=True):
        if checked("boundary_m", length_m) < SHORTEST_SECTION_M:
            raise too_short(section, length_m)
    scale = plan.lay_length_m / sum(lengths_m)
    places = np.cumsum(lengths_m)[:-1] * scale
    boundaries = []
    for index, (boundary, place) in enumerate(zip(plan.boundaries, places.tolist(), strict=True)):
        if abs(place - boundary.position_m) > 1e-9:
            _refuse_locked(plan, index)
            boundaries.append(replace(boundary, position_m=place))
        else:
            boundaries.append(boundary)
    return plan.with_boundaries(tuple(boundaries))


def _refuse_locked(plan: Plan, index: int) -> None:
    if is_locked(plan, index):
        locked = plan.sections[index if plan.sections[index].locked else index + 1]
        raise EditRefused("boundary-locked", section=locked.name, section_id=locked.id)


def lengths_m(plan: Plan) -> tuple[float, ...]:
    """Return the nominal lengths of the sections, m."""
    return tuple(end - start for start, end in pairwise(plan.edges_m))
