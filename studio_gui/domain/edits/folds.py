"""Edits of where the rovings are folded.

The rule of this module: one fold moves on the film. The roving's start, the other folds and every boundary
stay where they lie on the film; the last leg gives or takes what the fold needs.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from studio_gui.domain.errors import EditRefused
from studio_gui.domain.geometry import legs
from studio_gui.domain.plan import Plan, too_short

SHORTEST_LEG_M = 0.01


def fold_place_m(plan: Plan, index: int) -> float:
    """Return where fold `index` lies, m along the lay."""
    leg = legs(plan.fibre, plan.lay)[index]
    return leg.lay_high_m if leg.forward else leg.lay_low_m


def fold_range(plan: Plan, index: int) -> tuple[float, float]:
    """Return the lowest and highest place on the lay (m) that fold `index` may be moved to.

    The legs beside it, and the last one, keep at least `SHORTEST_LEG_M`.
    """
    lengths = np.diff((0.0, *plan.lay.fold_positions_m, plan.fibre.length_m))
    last = index + 1 == len(plan.lay.fold_positions_m)
    shrink_m = float(lengths[index] if last else min(lengths[index], lengths[index + 1])) - SHORTEST_LEG_M
    grow_m = float(lengths[-1] - SHORTEST_LEG_M) / (1.0 if last else 2.0)
    here = fold_place_m(plan, index)
    outwards = 1.0 if legs(plan.fibre, plan.lay)[index].forward else -1.0
    low, high = sorted((here - outwards * shrink_m, here + outwards * grow_m))
    return min(low, here), max(high, here)


def move_fold(plan: Plan, index: int, place_m: float) -> Plan:
    """Move fold `index` to `place_m` (m along the lay as it is now); the legs then lie by length.

    Raises
    ------
    EditRefused
        ``fold-out-of-range`` with low and high.
    InvalidPlan
        ``section-too-short`` when the lay would end before the last boundary.
    """
    low, high = fold_range(plan, index)
    if not low - 1e-12 <= place_m <= high + 1e-12:
        raise EditRefused("fold-out-of-range", position_m=place_m, low_m=low, high_m=high)
    leg = legs(plan.fibre, plan.lay)[index]
    longer_m = (place_m - fold_place_m(plan, index)) * (1.0 if leg.forward else -1.0)
    folds = tuple(
        fold if number < index else fold + longer_m * (1.0 if number == index else 2.0)
        for number, fold in enumerate(plan.lay.fold_positions_m)
    )
    lay = replace(plan.lay, fold_positions_m=folds, matching="by length")
    shift_m = legs(plan.fibre, lay)[0].lay_low_m - start_m(plan)
    if plan.boundaries and plan.boundaries[0].position_m + shift_m <= 0.0:
        raise too_short(plan.sections[0], plan.boundaries[0].position_m + shift_m)
    boundaries = tuple(
        replace(boundary, position_m=boundary.position_m + shift_m) for boundary in plan.boundaries
    )
    return replace(plan, lay=lay, boundaries=boundaries)


def start_m(plan: Plan) -> float:
    """Return where the rovings start on the lay, m: above 0 where a later leg reaches out beyond them."""
    return legs(plan.fibre, plan.lay)[0].lay_low_m
