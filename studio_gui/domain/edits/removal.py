"""Taking sections out of the lay.

The rule of this module: the lay stays covered. What a section leaves goes to the one before it, or to the one
after it where there is none before or that one is locked.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.plan import Plan


def remove_sections(plan: Plan, section_ids: Collection[str]) -> Plan:
    """Take the named sections out, with what was to be painted on them; liquors stay, used or not.

    Raises
    ------
    EditRefused
        ``section-locked`` for one that is locked; ``neighbours-locked`` where nobody may take what it leaves.
    InvalidPlan
        ``no-sections`` when none would be left; ``unknown-section`` for a wrong id.
    """
    going = sorted({plan.section_index(section_id) for section_id in section_ids}, reverse=True)
    if len(going) == len(plan.sections):
        raise InvalidPlan("no-sections", field="sections")
    for index in going:
        section = plan.sections[index]
        if section.locked:
            raise EditRefused("section-locked", section=section.name, section_id=section.id)
    for index in going:
        plan = _without(plan, index)
    return plan


def _without(plan: Plan, index: int) -> Plan:
    """Return the plan without one of its sections; the boundary towards the one that grows goes too."""
    sections = plan.sections
    if index > 0 and not sections[index - 1].locked:
        gone = index - 1
    elif index + 1 < len(sections) and not sections[index + 1].locked:
        gone = index
    else:
        section = sections[index]
        raise EditRefused("neighbours-locked", section=section.name, section_id=section.id)
    return replace(
        plan,
        sections=sections[:index] + sections[index + 1 :],
        boundaries=plan.boundaries[:gone] + plan.boundaries[gone + 1 :],
    )
