"""What differs between two states of a plan, part by part.

The rule of this module: parts are those that a person knows by name; a part is listed once, with how many of
its kind differ where it has several.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields
from typing import Protocol

from studio_gui.domain.plan import Plan


class _Identified(Protocol):
    @property
    def id(self) -> str:
        """What other parts of the plan call it by."""


@dataclass(frozen=True, slots=True)
class Difference:
    """A part of a plan that differs, by its field's name; `count` of them, and `added` more than before."""

    part: str
    count: int = 1
    added: int = 0


def differences(before: Plan, after: Plan) -> tuple[Difference, ...]:
    """Return what differs in `after`, in the order of a plan's parts; nothing for equal plans.

    >>> from dataclasses import replace
    >>> from studio_gui.domain.new_plan import new_plan
    >>> differences(new_plan(), replace(new_plan(), title="Two Shores"))
    (Difference(part='title', count=1, added=0),)
    """
    found = []
    for one in fields(Plan):
        old, new = getattr(before, one.name), getattr(after, one.name)
        if old == new:
            continue
        if one.name in ("stocks", "liquors", "sections"):
            found.append(Difference(one.name, _changed(old, new), len(new) - len(old)))
        elif one.name == "boundaries":
            count = max(len(set(new) - set(old)), len(set(old) - set(new)))
            found.append(Difference(one.name, count))
        else:
            found.append(Difference(one.name))
    return tuple(found)


def _changed(before: Sequence[_Identified], after: Sequence[_Identified]) -> int:
    """Return how many were added, taken out or changed; at least 1, for an order that differs."""
    old, new = {one.id: one for one in before}, {one.id: one for one in after}
    return max(1, sum(old.get(key) != new.get(key) for key in old.keys() | new.keys()))
