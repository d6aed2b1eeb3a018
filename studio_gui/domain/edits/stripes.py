"""Edits of the wanted stripes, and from stripes to sections and back.

The rule of this module: sections are made from stripes as a whole or not at all. What a section was besides
its place (name, fixed liquid, wipe, lock) stays where its liquor still comes at the same turn; what is locked
stays where it lies, or nothing is done.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from difflib import SequenceMatcher
from itertools import pairwise
from typing import Any

from studio_gui.domain.edits.sections import new_id
from studio_gui.domain.edits.shelf_order import moved
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import RANGES
from studio_gui.domain.sections import Boundary, Section
from studio_gui.domain.spinning.stripes import StripePlan, pattern_of_sections, stripe_edges
from studio_gui.domain.yarn import Stripe, StripeMeasure

#: Edges that lie no further apart than this, m, are one.
SAME_PLACE_M = 1e-6


def set_stripes(plan: Plan, stripes: Sequence[Stripe]) -> Plan:
    """Want these stripes, in the yarn's order; `InvalidPlan` ``too-many``, ``unknown-liquor``."""
    return replace(plan, yarn=replace(plan.yarn, stripes=tuple(stripes)))


def add_stripe(plan: Plan, at: int, stripe: Stripe) -> Plan:
    """Want one more stripe, before the one that is at place `at` now."""
    stripes = plan.yarn.stripes
    return set_stripes(plan, (*stripes[:at], stripe, *stripes[at:]))


def change_stripe(plan: Plan, index: int, **changes: Any) -> Plan:  # noqa: ANN401  (fields of Stripe)
    """Change liquor, amount or measure of one stripe; `InvalidPlan` where a value is out of range."""
    stripes = list(plan.yarn.stripes)
    stripes[index] = replace(stripes[index], **changes)
    return set_stripes(plan, stripes)


def measure_stripe(plan: Plan, index: int, measure: StripeMeasure) -> Plan:
    """Count a stripe in rows or in metres; it stays as long as it is."""
    stripe, row_m = plan.yarn.stripes[index], plan.yarn.knitting.metres_a_row
    if stripe.measure == measure:
        return plan
    amount = stripe.amount * row_m if measure == "metres" else stripe.amount / row_m
    return change_stripe(plan, index, amount=amount, measure=measure)


def remove_stripe(plan: Plan, index: int) -> Plan:
    """Take one stripe out."""
    stripes = plan.yarn.stripes
    return set_stripes(plan, (*stripes[:index], *stripes[index + 1 :]))


def move_stripe(plan: Plan, index: int, by: int) -> Plan:
    """Move a stripe by so many places, later for a number above 0, at most to either end."""
    return set_stripes(plan, moved(plan.yarn.stripes, index, by))


def set_knitting(plan: Plan, **changes: Any) -> Plan:  # noqa: ANN401  (fields of Knitting)
    """Change the knitting: its width, or the yarn of a row; stripes in rows follow."""
    return replace(plan, yarn=replace(plan.yarn, knitting=replace(plan.yarn.knitting, **changes)))


def set_stripes_from_sections(plan: Plan, measure: StripeMeasure = "rows") -> Plan:
    """Want the stripes that the sections give: of a mirrored lay, those of its first half.

    Raises
    ------
    EditRefused
        ``no-yarn-to-stripe`` when no section comes to be in the yarn.
    InvalidPlan
        ``too-many`` for more sections than stripes can be planned; ``out-of-range`` for a huge stripe.
    """
    found = []
    for rows in pattern_of_sections(plan):
        amount = rows.rows if measure == "rows" else rows.yarn_m
        if amount >= RANGES["stripe_amount"].low:
            found.append(Stripe(plan.sections[rows.section_index].liquor_id, amount, measure))
    if not found:
        raise EditRefused("no-yarn-to-stripe")
    return set_stripes(plan, found)


def set_sections_from_stripes(plan: Plan) -> Plan:
    """Make the lay's sections anew from the wanted stripes; the last stripe takes what is left of the roving.

    Raises
    ------
    EditRefused
        ``no-stripes``; ``no-yarn-to-stripe``; ``stripes-too-long`` with what is missing, when the roving is
        not enough by more than rounding; ``section-locked`` when a locked section would not stay as it is.
    InvalidPlan
        ``section-too-short``.
    """
    laid = stripe_edges(plan)
    _refuse_misfit(laid)
    liquor_ids = [plan.yarn.stripes[index].liquor_id for index in laid.order]
    pins = _pins(plan, liquor_ids, laid.edges_m)
    kept = _kept(plan, liquor_ids, pins)
    edges = list(laid.edges_m)
    for here, was in pins.items():
        edges[here : here + 2] = plan.edges_m[was : was + 2]
    sections, taken = [], [section.id for section in plan.sections]
    for here, liquor_id in enumerate(liquor_ids):
        if here in kept:
            sections.append(plan.sections[kept[here]])
            continue
        taken.append(new_id("s", taken))
        sections.append(Section(taken[-1], _usual_name(plan, liquor_id), liquor_id))
    boundaries = tuple(
        Boundary(place_m, _gap_m(plan, kept, here)) for here, place_m in enumerate(edges[1:-1])
    )
    return replace(plan, sections=tuple(sections), boundaries=boundaries)


def _refuse_misfit(laid: StripePlan) -> None:
    if not laid.yarn_m:
        raise EditRefused("no-stripes")
    if not laid.available_m > 0.0:
        raise EditRefused("no-yarn-to-stripe")
    if not laid.fits:
        raise EditRefused(
            "stripes-too-long",
            needed_g=laid.needed_g,
            available_g=laid.available_g,
            over_g=-laid.left_g,
            over_plied_m=-laid.left_m,
            over_rows=-laid.left_rows,
        )


def _pins(plan: Plan, liquor_ids: Sequence[str], edges_m: Sequence[float]) -> dict[int, int]:
    """Return which new section each locked one is; it has to lie where it lay, with the liquor it had."""
    places = list(zip(liquor_ids, pairwise(edges_m), strict=True))
    pins: dict[int, int] = {}
    for index, (section, ends) in enumerate(zip(plan.sections, pairwise(plan.edges_m), strict=True)):
        if not section.locked:
            continue
        here = next(
            (
                place
                for place, (liquor_id, (start, end)) in enumerate(places)
                if liquor_id == section.liquor_id
                and max(abs(start - ends[0]), abs(end - ends[1])) <= SAME_PLACE_M
            ),
            None,
        )
        if here is None:
            raise EditRefused("section-locked", section=section.name, section_id=section.id)
        pins[here] = index
    return pins


def _kept(plan: Plan, liquor_ids: Sequence[str], pins: dict[int, int]) -> dict[int, int]:
    """Return which old section each new one is: between what is pinned, where the row of liquors agrees."""
    old_ids = [section.liquor_id for section in plan.sections]
    kept = dict(pins)
    stops = [(-1, -1), *sorted(pins.items()), (len(liquor_ids), len(old_ids))]
    for (new_low, old_low), (new_high, old_high) in pairwise(stops):
        matcher = SequenceMatcher(
            None, old_ids[old_low + 1 : old_high], liquor_ids[new_low + 1 : new_high], autojunk=False
        )
        for block in matcher.get_matching_blocks():
            for step in range(block.size):
                kept[new_low + 1 + block.b + step] = old_low + 1 + block.a + step
    return kept


def _gap_m(plan: Plan, kept: dict[int, int], here: int) -> float:
    """Return the gap after new section `here`: the one that lay between the two sections before."""
    before, after = kept.get(here), kept.get(here + 1)
    return plan.boundaries[before].gap_m if before is not None and after == before + 1 else 0.0


def _usual_name(plan: Plan, liquor_id: str) -> str:
    """Return what a section is called: as the first that is painted with its liquor, else as that."""
    return next((one.name for one in plan.sections_with(liquor_id)), plan.liquor(liquor_id).name)
