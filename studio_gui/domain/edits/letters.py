"""The letters that liquors go by on slips, jars and sheets.

The rule of this module: no two liquors have the same letter; who asks for one that is taken is told by whom,
and which is free.
"""

from __future__ import annotations

from dataclasses import replace

from studio_gui.domain.edits.liquors import letters, replace_liquor
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.plan import Plan


def set_letter(plan: Plan, liquor_id: str, letter: str) -> Plan:
    """Give a liquor another letter; spaces around it do not count.

    Raises
    ------
    EditRefused
        ``letter-taken`` with the liquor that has it and the first letter that is free.
    InvalidPlan
        ``text-empty``, ``text-too-long`` or ``text-unprintable``.
    """
    wanted = letter.strip()
    others = [one for one in plan.liquors if one.id != liquor_id]
    for other in others:
        if other.letter == wanted:
            taken = {one.letter for one in plan.liquors}
            free = next(one for one in letters() if one not in taken)
            raise EditRefused("letter-taken", value=wanted, liquor=other.name, liquor_id=other.id, free=free)
    return replace_liquor(plan, replace(plan.liquor(liquor_id), letter=wanted))
