"""Lists of lengths, as they were measured or kept in a spreadsheet, made into places on the lay.

The rule of this module: lengths of a list are proportions. They are scaled together so that they fill what
they are for, and `fill_factor` says by how much.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace
from itertools import accumulate

from studio_gui.domain.edits.boundaries import at_lengths, lengths_m
from studio_gui.domain.edits.sections import new_id
from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.plan import MOST_SECTIONS, SHORTEST_SECTION_M, Plan, too_short
from studio_gui.domain.ranges import checked
from studio_gui.domain.sections import Boundary, Section


def run_for(plan: Plan, chosen: Collection[int], count: int) -> tuple[int, int] | None:
    """Return the first and last section that `count` lengths are meant for; None where they fit nothing.

    They are for the run of sections that are chosen, or else for the whole lay.
    """
    first, last = min(chosen, default=0), max(chosen, default=0)
    if count == len(chosen) == last - first + 1:
        return first, last
    return (0, count - 1) if count == len(plan.sections) else None


def fill_factor(plan: Plan, first: int, last: int, given_m: Sequence[float]) -> float:
    """Return what lengths (m, one or more, above 0) are multiplied by to fill sections `first` to `last`."""
    edges = plan.edges_m
    return (edges[last + 1] - edges[first]) / sum(given_m)


def run_at_lengths(plan: Plan, first: int, last: int, given_m: Sequence[float]) -> Plan:
    """Give sections `first` to `last` new lengths, scaled together so that the run keeps its two ends.

    Raises
    ------
    EditRefused
        ``lengths-do-not-match``; ``boundary-locked`` when a locked section would change.
    InvalidPlan
        ``section-too-short``; ``out-of-range`` for a length that no section may have.
    """
    run = plan.sections[first : last + 1]
    _refuse_no_lengths(run, given_m)
    factor = fill_factor(plan, first, last, given_m)
    lengths = lengths_m(plan)
    wanted = (*lengths[:first], *(length * factor for length in given_m), *lengths[last + 1 :])
    return at_lengths(plan, wanted)


def sections_from_lengths(plan: Plan, given_m: Sequence[float]) -> Plan:
    """Make as many sections as there are lengths (m), scaled together so that they fill the lay.

    The first sections stay what they are. Where there are more lengths, the order of colours begins anew, in
    sections whose liquid follows the fibre; where there are fewer, the last sections go.

    Raises
    ------
    EditRefused
        ``section-locked`` when any section is locked, because all have to move.
    InvalidPlan
        ``too-many``; as `run_at_lengths`.
    """
    for section in plan.sections:
        if section.locked:
            raise EditRefused("section-locked", section=section.name, section_id=section.id)
    if len(given_m) > MOST_SECTIONS:
        raise InvalidPlan("too-many", field="sections", count=len(given_m), most=MOST_SECTIONS)
    sections = list(plan.sections[: len(given_m)])
    taken = [section.id for section in plan.sections]
    for place in range(len(sections), len(given_m)):
        like = plan.sections[place % len(plan.sections)]
        taken.append(new_id("s", taken))
        sections.append(Section(taken[-1], like.name, like.liquor_id))
    _refuse_no_lengths(sections, given_m)
    scale = plan.lay_length_m / sum(given_m)
    gaps = [boundary.gap_m for boundary in plan.boundaries]
    gaps += [0.0] * (len(sections) - 1 - len(gaps))
    ends_m = list(accumulate(length * scale for length in given_m))[:-1]
    boundaries = tuple(Boundary(end_m, gap_m) for end_m, gap_m in zip(ends_m, gaps, strict=False))
    return replace(plan, sections=tuple(sections), boundaries=boundaries)


def _refuse_no_lengths(sections: Sequence[Section], given_m: Sequence[float]) -> None:
    """Raise unless there is one possible length for each section."""
    if not sections or len(sections) != len(given_m):
        raise EditRefused("lengths-do-not-match", count=len(given_m), sections=len(sections))
    for section, length_m in zip(sections, given_m, strict=True):
        if checked("boundary_m", length_m) < SHORTEST_SECTION_M:
            raise too_short(section, length_m)
