"""A section put between two others, so that their colours do not meet.

The rule of this module: what the new section takes it takes from both, half from each, and their boundary
makes way.
"""

from __future__ import annotations

from dataclasses import replace

from studio_gui.domain.edits.boundaries import gap_range
from studio_gui.domain.edits.liquors import add_liquor, refuse_unreachable
from studio_gui.domain.edits.sections import new_id, unlocked
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.liquors import DyeDepth, Part
from studio_gui.domain.plan import Plan
from studio_gui.domain.sections import Boundary, Section


def insert_bridge(plan: Plan, index: int, liquor_id: str, length_m: float) -> Plan:
    """Put a section of `length_m`, painted with a liquor, between sections `index` and the next.

    Raises
    ------
    EditRefused
        ``section-locked`` where either is locked.
    InvalidPlan
        ``section-too-short`` where either would be; ``unknown-liquor``.
    """
    for neighbour in (index, index + 1):
        unlocked(plan, neighbour)
    place_m, gap_m = plan.boundaries[index].position_m, plan.boundaries[index].gap_m
    name = plan.liquor(liquor_id).name
    bridge = Section(new_id("s", (section.id for section in plan.sections)), name, liquor_id)
    edges = (Boundary(place_m - length_m / 2.0, gap_m), Boundary(place_m + length_m / 2.0, gap_m))
    return replace(
        plan,
        sections=(*plan.sections[: index + 1], bridge, *plan.sections[index + 1 :]),
        boundaries=(*plan.boundaries[:index], *edges, *plan.boundaries[index + 1 :]),
    )


def insert_bridge_of_dye(
    plan: Plan, index: int, stock_id: str, depth_pct_owf: float, length_m: float
) -> Plan:
    """Put a section of one dye alone, in a new liquor by depth called as the dye, as `insert_bridge`.

    Raises
    ------
    EditRefused
        ``depth-unreachable``; ``no-let-down``; as `insert_bridge`.
    """
    if not plan.let_downs:
        raise EditRefused("no-let-down", liquor=plan.liquor(plan.sections[index].liquor_id).letter)
    filler = Part(plan.let_downs[0].id, 1.0)
    wider, liquor_id = add_liquor(
        plan, plan.stock(stock_id).name, (filler,), (DyeDepth(stock_id, depth_pct_owf),)
    )
    bridged = insert_bridge(wider, index, liquor_id, length_m)
    refuse_unreachable(bridged, [liquor_id])
    return bridged


def widest_gap_m(plan: Plan, index: int) -> float:
    """Return the widest gap that fits on boundary `index`, m; 0 where none does."""
    return max(gap_range(plan, index)[1], 0.0)
