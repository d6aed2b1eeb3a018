"""Edits of the plan's inputs: fibre, lay, liquid, bench, timetable, title.

The rule of this module: a new length or new folds carry the boundaries along in proportion, and those of
locked sections stay or the edit is refused.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from studio_gui.domain.edits.boundaries import rescaled
from studio_gui.domain.fibre import Fibre, Lay, Roving, even_folds, mean_mass_g
from studio_gui.domain.geometry import equal_mass_folds, lay_length_m
from studio_gui.domain.plan import Plan


def set_fibre(plan: Plan, **changes: Any) -> Plan:  # noqa: ANN401  (fields of Fibre)
    """Change fields of the fibre; a new length scales folds and boundaries.

    Rovings that were weighed one by one keep their proportions under a new mean weight; further ones weigh
    the mean, and marks for the whole set put an end to them.

    Raises
    ------
    EditRefused
        ``length-pinned`` or ``length-too-short`` when a locked section is in the way.
    InvalidPlan
        When a value is out of range.
    """
    fibre = _with_rovings(plan.fibre, changes)
    scale = fibre.length_m / plan.fibre.length_m
    folds = plan.lay.fold_positions_m
    if scale != 1.0:
        even = even_folds(plan.fibre.length_m, plan.lay.passes)
        is_even = all(abs(a - b) < 1e-9 for a, b in zip(folds, even, strict=True))
        folds = (
            even_folds(fibre.length_m, plan.lay.passes) if is_even else tuple(fold * scale for fold in folds)
        )
    return _relaid(plan, fibre, replace(plan.lay, fold_positions_m=folds))


def _with_rovings(fibre: Fibre, changes: dict[str, Any]) -> Fibre:
    """Return the fibre with changes, its rovings that were weighed one by one changed along."""
    if not fibre.measured or "measured" in changes or "mass_marks" in changes:
        return replace(fibre, **{"measured": ()} | changes)
    count, mean_g = changes.get("rovings", fibre.rovings), changes.get("mass_g", fibre.mass_g)
    scale = mean_g / fibre.mass_g
    more = (Roving(fibre.mass_g, fibre.weight_marks),) * max(count - fibre.rovings, 0)
    measured = tuple(
        replace(one, mass_g=one.mass_g * scale) for one in (*fibre.measured, *more)[: max(count, 1)]
    )
    return replace(fibre, **changes | {"measured": measured, "mass_g": mean_mass_g(measured)})


def set_lay(plan: Plan, **changes: Any) -> Plan:  # noqa: ANN401  (fields of Lay)
    """Change folds, matching or extra film; boundaries keep their share of the new lay length."""
    return _relaid(plan, plan.fibre, replace(plan.lay, **changes))


def set_passes(plan: Plan, passes: int) -> Plan:
    """Fold every roving into `passes` equal legs (1: straight)."""
    return set_lay(plan, fold_positions_m=even_folds(plan.fibre.length_m, passes), matching="by length")


def fold_by_weight(plan: Plan) -> Plan:
    """Fold where every leg weighs the same, and ease the legs so that equal weights lie together."""
    return set_lay(plan, fold_positions_m=equal_mass_folds(plan.fibre, plan.lay.passes), matching="by weight")


def set_liquid(plan: Plan, **changes: Any) -> Plan:  # noqa: ANN401  (fields of Liquid)
    """Change uptake, soak, limits or the soak water's acid."""
    return replace(plan, liquid=replace(plan.liquid, **changes))


def set_bench(plan: Plan, **changes: Any) -> Plan:  # noqa: ANN401  (fields of Bench)
    """Change spare share, dead volume, graduation or syringe."""
    return replace(plan, bench=replace(plan.bench, **changes))


def set_timetable(plan: Plan, **changes: Any) -> Plan:  # noqa: ANN401  (fields of Timetable)
    """Change how long steps take, or when the first one starts (`start_min` None: open)."""
    return replace(plan, timetable=replace(plan.timetable, **changes))


def _relaid(plan: Plan, fibre: Fibre, lay: Lay) -> Plan:
    # a fold past the end has no lay length; leave it to the plan to refuse
    folds = lay.fold_positions_m
    if folds and folds[-1] >= fibre.length_m:
        return replace(plan, fibre=fibre, lay=lay)
    places = rescaled(plan, lay_length_m(fibre, lay))
    boundaries = tuple(
        replace(boundary, position_m=place) for boundary, place in zip(plan.boundaries, places, strict=True)
    )
    return replace(plan, fibre=fibre, lay=lay, boundaries=boundaries)
