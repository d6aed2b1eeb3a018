"""Edits of the yarn: its structure and the numbers that go with it.

The rule of this module: another structure keeps what was typed for the ones before it, so that it is there
when they are chosen again.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.plies import plies_of


def set_yarn(plan: Plan, **changes: Any) -> Plan:  # noqa: ANN401  (fields of Yarn)
    """Change fields of the yarn; free plies that were never typed begin as those of the structure before.

    Raises
    ------
    InvalidPlan
        When a value is out of range, or the plan cannot hold the yarn.
    """
    if changes.get("structure") == "free" and not plan.yarn.plies:
        changes.setdefault("plies", plies_of(plan))
    return replace(plan, yarn=replace(plan.yarn, **changes))
