"""Checks of the halves of a roving that are plied with one another.

The rule of this module: one finding says all of it. What one half leaves over on its bobbin is told with the
halves that differ, and not again as a leftover.
"""

from __future__ import annotations

from collections.abc import Iterator

from studio_gui.domain.checks.check import Check, Mend
from studio_gui.domain.checks.yarn import leftover_severity
from studio_gui.domain.edits.halves import equal_halves, fold_halves_by_weight
from studio_gui.domain.errors import Param, RovingLayError
from studio_gui.domain.figures import SectionFigures
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import RELATIVE_TOLERANCE, exceeds
from studio_gui.domain.spinning.halves import Halves, halves, most_uneven_roving
from studio_gui.domain.yarn import Structure

#: The structures in which one half of a roving is plied with the other.
HALF_WITH_HALF: tuple[Structure, ...] = ("both ends", "broken at the fold")


def halves_differ(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``halves-differ`` where colours of the two halves will not meet, or one half outlasts the other.

    Halves that are meant to differ, with other colours from their outer ends, are judged by weight alone.
    """
    plan = figures.plan
    if plan.yarn.structure not in HALF_WITH_HALF:
        return
    roving = most_uneven_roving(plan)
    found = halves(plan, roving)
    severity = leftover_severity(found.apart_share, plan.yarn.note_share, plan.yarn.warn_share)
    if severity is not None:
        yield Check("halves-differ", severity, (), _params(found), tuple(_mends(plan, found)))


def _params(found: Halves) -> dict[str, Param]:
    plan, (first_g, second_g) = found.plan, found.weights_g
    params: dict[str, Param] = {
        "first_g": first_g,
        "second_g": second_g,
        "difference_g": abs(found.difference_g),
        "difference_share": found.difference_share,
        "slide_singles_m": found.widest_slide_m,
        "folded": plan.lay.passes > 1,
    }
    if exceeds(found.apart_share, found.difference_share) and found.widest is not None:
        params["liquor_id"] = plan.liquors[found.widest.liquor].id
    if plan.yarn.structure == "broken at the fold" and exceeds(found.difference_share, RELATIVE_TOLERANCE):
        params["left_singles_m"] = abs(found.difference_g) * plan.yarn.singles_m_per_g
    if plan.fibre.measured:
        params["roving"] = found.roving + 1
    return params


def _mends(plan: Plan, found: Halves) -> Iterator[Mend]:
    """Yield the one-click mend, where nothing is in its way and it brings the halves nearer."""
    is_folded = plan.lay.passes > 1
    try:
        mended = fold_halves_by_weight(plan) if is_folded else equal_halves(plan)
    except RovingLayError:
        return
    if exceeds(found.apart_share, halves(mended, found.roving).apart_share):
        yield Mend("fold-by-weight") if is_folded else Mend("equal-halves")
