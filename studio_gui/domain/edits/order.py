"""Edits of the order in which sections lie, and of what several of them share.

The rule of this module: a section takes its length along; a gap stays between the two sections that it is
between, and where it can not, it goes to one of the new neighbourhoods; none is lost.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import accumulate, pairwise

from studio_gui.domain.edits.boundaries import lengths_m
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.plan import Plan
from studio_gui.domain.sections import Boundary


def move_sections(plan: Plan, first: int, last: int, before: int) -> Plan:
    """Move the run of sections `first` to `last` so that it lies before what is section `before` now.

    `before` runs from 0 to the number of sections, which is the far end; inside the run nothing moves.

    Raises
    ------
    EditRefused
        ``section-locked`` when a locked section would change its place.
    """
    count = len(plan.sections)
    if first <= before <= last + 1:
        return plan
    run = list(range(first, last + 1))
    rest = [index for index in range(count) if not first <= index <= last]
    at = before if before < first else before - len(run)
    return _in_order(plan, [*rest[:at], *run, *rest[at:]])


def paint_with(plan: Plan, section_ids: Iterable[str], liquor_id: str) -> Plan:
    """Paint the named sections with one liquor; `InvalidPlan` for an id that is not there."""
    plan.liquor(liquor_id)
    chosen = set(section_ids)
    for section_id in chosen:
        plan.section(section_id)
    return replace(
        plan,
        sections=tuple(
            replace(section, liquor_id=liquor_id) if section.id in chosen else section
            for section in plan.sections
        ),
    )


def run_of(plan: Plan, section_ids: Iterable[str]) -> tuple[int, int]:
    """Return first and last index of the named sections, of the first section where none is named.

    Raises
    ------
    EditRefused
        ``not-neighbours`` when another section lies between them.
    """
    chosen = sorted(plan.section_index(section_id) for section_id in section_ids) or [0]
    if chosen[-1] - chosen[0] + 1 != len(chosen):
        raise EditRefused("not-neighbours")
    return chosen[0], chosen[-1]


def _in_order(plan: Plan, order: Sequence[int]) -> Plan:
    """Return the plan with its sections in a new order, given as indexes into the present one."""
    lengths = lengths_m(plan)
    gaps = {(index, index + 1): boundary.gap_m for index, boundary in enumerate(plan.boundaries)}
    pairs = list(pairwise(order))
    homeless = iter([gap for pair, gap in gaps.items() if pair not in pairs])
    ends_m = list(accumulate(lengths[index] for index in order))
    boundaries = tuple(
        Boundary(end_m, gaps[pair] if pair in gaps else next(homeless))
        for end_m, pair in zip(ends_m[:-1], pairs, strict=True)
    )
    starts_m = (0.0, *ends_m)
    for place, index in enumerate(order):
        section = plan.sections[index]
        if section.locked and abs(starts_m[place] - plan.edges_m[index]) > 1e-9:
            raise EditRefused("section-locked", section=section.name, section_id=section.id)
    return replace(plan, sections=tuple(plan.sections[index] for index in order), boundaries=boundaries)
