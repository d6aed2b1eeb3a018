"""Fades and matches worked out and painted in one go, which the program does in two."""

from __future__ import annotations

from collections.abc import Sequence

from studio_gui.domain.colour.spaces import Array
from studio_gui.domain.edits.fades import FadeWish, paint_fade, plan_fade
from studio_gui.domain.edits.matching import Matched, match_section, paint_matches, sections_for
from studio_gui.domain.plan import Plan


def faded(plan: Plan, first: int, last: int, wish: FadeWish, name: str = "") -> Plan:
    """Paint sections with an even fade; new ones are called as its liquors."""
    return paint_fade(plan_fade(plan, first, last, wish), name, renamed=wish.sections is not None)


def matched_run(plan: Plan, first: int, last: int, wanted: Sequence[Array]) -> tuple[Matched, ...]:
    """Find the best liquors for wanted colours, each CIE Lab (3,), on sections `first` to `last`."""
    plan, ids = sections_for(plan, first, last, len(wanted))
    return tuple(match_section(plan, section_id, lab) for section_id, lab in zip(ids, wanted, strict=True))


def match_run(plan: Plan, first: int, last: int, wanted: Sequence[Array], names: Sequence[str] = ()) -> Plan:
    """Paint sections with the best liquors for wanted colours."""
    return paint_matches(matched_run(plan, first, last, wanted), names)
