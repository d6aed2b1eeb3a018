"""Edits of the sections themselves: split, merge, duplicate, and what is painted.

The rule of this module: liquid is conserved. What a split shares out, or a merge puts together, is the same
millilitres as before.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from studio_gui.domain.edits.boundaries import lengths_m, refuse_outside
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.figures import section_figures
from studio_gui.domain.geometry import lay_mass_to
from studio_gui.domain.plan import SHORTEST_SECTION_M, Plan
from studio_gui.domain.ranges import checked
from studio_gui.domain.sections import Boundary, Section


def new_id(prefix: str, taken: Iterable[str]) -> str:
    """Return the first of ``prefix1``, ``prefix2``, ... that is not taken.

    >>> new_id("s", ["s1", "s3"])
    's2'
    """
    used = set(taken)
    return next(name for number in range(1, len(used) + 2) if (name := f"{prefix}{number}") not in used)


def change_section(plan: Plan, section_id: str, **changes: Any) -> Plan:  # noqa: ANN401  (fields of Section)
    """Return the plan with fields of one section replaced: name, liquor_id, fixed_ml, wiped_ml, ..."""
    sections = tuple(
        replace(section, **changes) if section.id == section_id else section for section in plan.sections
    )
    plan.section(section_id)
    return replace(plan, sections=sections)


def follow_fibre(plan: Plan, section_ids: Iterable[str]) -> Plan:
    """Let the liquid of the named sections follow the fibre; `InvalidPlan` ``unknown-section``."""
    for section_id in section_ids:
        plan = change_section(plan, section_id, fixed_ml=None)
    return plan


def paint_per_gram(plan: Plan, section_id: str, applied_ml_per_g: float) -> Plan:
    """Fix a section's liquid at so many ml for each gram of its dry fibre.

    Raises
    ------
    InvalidPlan
        ``out-of-range`` for more than can be painted; ``unknown-section``.
    """
    grams = float(section_figures(plan).fibre_g[plan.section_index(section_id)])
    fixed_ml = checked("applied_ml_per_g", applied_ml_per_g) * grams
    return change_section(plan, section_id, fixed_ml=fixed_ml)


def split(plan: Plan, index: int, position_m: float) -> Plan:
    """Cut section `index` in two at `position_m` (m along the lay); both paint with the same liquor.

    Fixed liquid, wiped and second-pass ml are shared by weight.

    Raises
    ------
    EditRefused
        ``section-locked``; ``boundary-out-of-range`` when the cut leaves nearly nothing on one side.
    """
    section = unlocked(plan, index)
    start_m, end_m = plan.edges_m[index : index + 2]
    gap_before_m, gap_after_m = plan.half_gaps_m[index : index + 2]
    low_m, high_m = start_m + gap_before_m + SHORTEST_SECTION_M, end_m - gap_after_m - SHORTEST_SECTION_M
    refuse_outside(position_m, low_m, high_m)
    before, here, after = lay_mass_to(plan.fibre, plan.lay, (start_m, position_m, end_m)).tolist()
    share = (here - before) / (after - before)
    second = replace(_scaled(section, 1.0 - share), id=new_id("s", (one.id for one in plan.sections)))
    sections = (*plan.sections[:index], _scaled(section, share), second, *plan.sections[index + 1 :])
    boundaries = (*plan.boundaries[:index], Boundary(position_m), *plan.boundaries[index:])
    return replace(plan, sections=sections, boundaries=boundaries)


def merge(plan: Plan, first: int, last: int, keep: int | None = None) -> Plan:
    """Join sections `first` to `last`; name and liquor are those of section `keep` (the first by default).

    Where all follow the fibre, so does the merged one; else its liquid is fixed at their sum.

    Raises
    ------
    EditRefused
        ``section-locked``; ``nothing-to-merge`` when there is no run of two.
    """
    if not 0 <= first < last < len(plan.sections):
        raise EditRefused("nothing-to-merge")
    run = [unlocked(plan, index) for index in range(first, last + 1)]
    fixed: float | None = None
    if any(section.fixed_ml is not None for section in run):
        fixed = float(section_figures(plan).liquid_ml[first : last + 1].sum())
    merged = replace(
        plan.sections[first if keep is None else keep],
        fixed_ml=fixed,
        wiped_ml=sum(section.wiped_ml for section in run),
        second_pass_ml=sum(section.second_pass_ml for section in run),
    )
    return replace(
        plan,
        sections=(*plan.sections[:first], merged, *plan.sections[last + 1 :]),
        boundaries=(*plan.boundaries[:first], *plan.boundaries[last:]),
    )


def duplicate(plan: Plan, index: int) -> Plan:
    """Put a copy of section `index` after it; all sections shrink together to make room on the lay.

    Raises
    ------
    EditRefused
        ``section-locked`` when any section is locked, because all have to move.
    """
    for other in range(len(plan.sections)):
        unlocked(plan, other)
    section = plan.sections[index]
    copy = replace(section, id=new_id("s", (one.id for one in plan.sections)))
    lengths = list(lengths_m(plan))
    lengths.insert(index + 1, lengths[index])
    gaps = [boundary.gap_m for boundary in plan.boundaries]
    gaps.insert(index, 0.0)
    scale = plan.lay_length_m / sum(lengths)
    place, boundaries = 0.0, []
    for length, gap in zip(lengths[:-1], gaps, strict=True):
        place += length * scale
        boundaries.append(Boundary(place, gap))
    sections = (*plan.sections[: index + 1], copy, *plan.sections[index + 1 :])
    return replace(plan, sections=sections, boundaries=tuple(boundaries))


def set_locked(plan: Plan, section_ids: Iterable[str], locked: bool) -> Plan:
    """Lock or unlock the named sections in their places; `InvalidPlan` ``unknown-section`` for a wrong id."""
    chosen = set(section_ids)
    for section_id in chosen:
        plan.section_index(section_id)
    sections = tuple(
        replace(section, locked=locked) if section.id in chosen else section for section in plan.sections
    )
    return replace(plan, sections=sections)


def unlocked(plan: Plan, index: int) -> Section:
    """Return section `index`; `EditRefused` ``section-locked`` when it is locked."""
    section = plan.sections[index]
    if section.locked:
        raise EditRefused("section-locked", section=section.name, section_id=section.id)
    return section


def _scaled(section: Section, share: float) -> Section:
    return replace(
        section,
        fixed_ml=None if section.fixed_ml is None else section.fixed_ml * share,
        wiped_ml=section.wiped_ml * share,
        second_pass_ml=section.second_pass_ml * share,
    )
