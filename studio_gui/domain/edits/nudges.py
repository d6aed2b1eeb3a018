"""A little lighter, deeper, redder: a section's liquor changed by one graduation.

The rule of this module: one graduation of the liquor's jar is put in, taken out, or put in another's place,
whichever goes most straight towards what is asked for. Every section that shares the liquor changes with it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from studio_gui.domain.at_hand import at_hand, let_down_of
from studio_gui.domain.edits.liquors import refuse_unreachable, replace_liquor
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.figures import SectionFigures, section_figures
from studio_gui.domain.liquors import DyeDepth, Liquor, Part
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import RELATIVE_TOLERANCE

Direction = Literal["lighter", "deeper", "redder", "greener", "yellower", "bluer"]
DIRECTIONS: tuple[Direction, ...] = ("lighter", "deeper", "redder", "greener", "yellower", "bluer")

_AXES: dict[Direction, tuple[int, float]] = {
    "lighter": (0, 1.0),
    "deeper": (0, -1.0),
    "redder": (1, 1.0),
    "greener": (1, -1.0),
    "yellower": (2, 1.0),
    "bluer": (2, -1.0),
}
#: A change goes towards what is asked for when this much of it, in Lab, lies that way; our choice.
_STRAIGHT_ENOUGH = 0.3
_LEAST_CHANGE = 1e-3
#: By which, for each unit of Lab, the smaller of two changes that go as straight is the better one.
_OF_TWO_THE_SMALLER = 1e-3


@dataclass(frozen=True, slots=True)
class _Step:
    """Graduations (1 or -1) of bottles of dye, by stock id."""

    changes: tuple[tuple[str, float], ...]


def nudge(plan: Plan, section_id: str, direction: Direction) -> Plan:
    """Return the plan with a section's liquor changed by one graduation of its jar.

    Lighter and deeper change the dyes that are in it; towards a hue, any bottle at hand may come in.

    Raises
    ------
    EditRefused
        ``nothing-lighter``, ``nothing-deeper``, ``no-hue-at-hand`` with the direction, where no graduation
        goes that way; ``liquor-not-painted``; ``no-let-down``; ``depth-unreachable``.
    """
    index = plan.section_index(section_id)
    liquor = plan.liquor(plan.sections[index].liquor_id)
    figures = section_figures(replace(plan, acid_line=None))
    if not figures.painted[index]:
        raise EditRefused("liquor-not-painted", liquor=liquor.letter)
    jar_ml = _jar_ml(figures, index)
    amounts = _amounts_ml(figures, index, jar_ml)
    axis, sense = _AXES[direction]
    steps = [
        step
        for step in _steps(plan, liquor, towards_hue=axis != 0)
        if _fits(plan, step, amounts, plan.bench.graduation_ml)
    ]
    best = _straightest(figures, index, steps, jar_ml, axis, sense)
    if best is None:
        if direction == "lighter":
            raise EditRefused("nothing-lighter", liquor=liquor.letter)
        if direction == "deeper":
            raise EditRefused("nothing-deeper", liquor=liquor.letter)
        raise EditRefused("no-hue-at-hand", liquor=liquor.letter, direction=direction)
    if liquor.basis == "depth":
        return _deepened(plan, liquor, best, _depths_of_one(figures, index, jar_ml))
    return _repoured(plan, index, liquor, best, amounts)


def _jar_ml(figures: SectionFigures, index: int) -> float:
    """Return the volume of the jar of a section's liquor, over all sections that share it."""
    users = figures.liquor_index == figures.liquor_index[index]
    bench = figures.plan.bench
    return float(figures.liquid_ml[users].sum()) * (1.0 + bench.spare_share) + bench.dead_ml


def _amounts_ml(figures: SectionFigures, index: int, jar_ml: float) -> dict[str, float]:
    """Return ml of each stock in the jar that a section is painted from."""
    amounts = figures.amounts_ml[index] * (jar_ml / figures.liquid_ml[index])
    return dict(zip((stock.id for stock in figures.plan.stocks), amounts.tolist(), strict=True))


def _steps(plan: Plan, liquor: Liquor, *, towards_hue: bool) -> Iterator[_Step]:
    """Yield what one graduation can be: in or out, and towards a hue also in another's place."""
    inside = [stock.id for stock in plan.dyes if stock.id in liquor.stock_ids]
    coming = [stock.id for stock in plan.dyes] if towards_hue else inside
    for stock_id in coming:
        yield _Step(((stock_id, 1.0),))
    for stock_id in inside:
        yield _Step(((stock_id, -1.0),))
        if towards_hue:
            yield from (_Step(((stock_id, -1.0), (other, 1.0))) for other in coming if other != stock_id)


def _fits(plan: Plan, step: _Step, amounts_ml: dict[str, float], graduation_ml: float) -> bool:
    """Tell whether the jar has what is taken out, and let-down to give way to what comes in."""
    least = graduation_ml * (1.0 - RELATIVE_TOLERANCE)
    if any(change < 0.0 and amounts_ml[stock_id] < least for stock_id, change in step.changes):
        return False
    let_down_ml = sum(amounts_ml[stock.id] for stock in plan.let_downs)
    return sum(change for _, change in step.changes) <= 0.0 or let_down_ml >= least


def _depths_of_one(figures: SectionFigures, index: int, jar_ml: float) -> dict[str, float]:
    """Return the depth, % owf, that one graduation of each dye's stock in the jar gives on a section."""
    applied = float(figures.applied_ml_per_g[index])
    share = figures.plan.bench.graduation_ml / jar_ml
    return {stock.id: share * applied * stock.strength_pct for stock in figures.plan.dyes}


def _straightest(
    figures: SectionFigures, index: int, steps: list[_Step], jar_ml: float, axis: int, sense: float
) -> _Step | None:
    """Return the step that goes most straight along an axis of Lab, None where none does."""
    if not steps:
        return None
    plan = figures.plan
    hand = at_hand(plan)
    of_one = _depths_of_one(figures, index, jar_ml)
    places = {stock.id: dye for stock, dye in zip(hand.bottles, hand.dye_of, strict=True)}
    total = float(figures.depth_in_all_pct_owf[index])
    kept = float(figures.left_pct_owf[index].sum()) / total if total > 0.0 else 1.0
    now = np.zeros(len(hand.palette.curves))
    for stock, dose in zip(hand.bottles, figures.left_pct_owf[index].tolist(), strict=True):
        now[places[stock.id]] += dose
    doses = np.tile(now, (len(steps) + 1, 1))
    for row, step in enumerate(steps):
        for stock_id, change in step.changes:
            doses[row, places[stock_id]] += change * of_one[stock_id] * kept
    labs = hand.palette.lab(np.maximum(doses, 0.0))
    moves = labs[:-1] - labs[-1]
    far = np.sqrt((moves**2).sum(axis=1))
    straight = np.where(far > _LEAST_CHANGE, sense * moves[:, axis] / np.maximum(far, _LEAST_CHANGE), -1.0)
    best = int((straight - _OF_TWO_THE_SMALLER * far).argmax())
    return steps[best] if straight[best] >= _STRAIGHT_ENOUGH else None


def _deepened(plan: Plan, liquor: Liquor, step: _Step, of_one: dict[str, float]) -> Plan:
    """Return the plan with a liquor by depth deepened by graduations."""
    depths = {depth.stock_id: depth.depth_pct_owf for depth in liquor.depths}
    for stock_id, change in step.changes:
        depths[stock_id] = max(depths.get(stock_id, 0.0) + change * of_one[stock_id], 0.0)
    wanted = tuple(DyeDepth(*depth) for depth in depths.items())
    changed = replace_liquor(plan, replace(liquor, depths=wanted))
    refuse_unreachable(changed, [liquor.id])
    return changed


def _repoured(plan: Plan, index: int, liquor: Liquor, step: _Step, amounts_ml: dict[str, float]) -> Plan:
    """Return the plan with a liquor by parts made of what is in its jar after the step, ml."""
    graduation_ml = plan.bench.graduation_ml
    ids = list(liquor.stock_ids)
    poured = {stock_id: amounts_ml[stock_id] for stock_id in ids}
    missing_ml = -graduation_ml * sum(change for _, change in step.changes)
    for stock_id, change in step.changes:
        poured[stock_id] = max(poured.get(stock_id, 0.0) + change * graduation_ml, 0.0)
    let_downs = {stock.id for stock in plan.let_downs}
    room = {stock_id: amount for stock_id, amount in poured.items() if stock_id in let_downs and amount > 0.0}
    if missing_ml and not room:
        room = {let_down_of(plan, index, index).id: 1.0}
    whole = sum(room.values())
    for stock_id, amount in room.items():
        poured[stock_id] = max(poured.get(stock_id, 0.0) + missing_ml * amount / whole, 0.0)
    order = sorted(poured, key=lambda stock_id: stock_id in let_downs)
    parts = tuple(Part(stock_id, round(poured[stock_id], 9)) for stock_id in order)
    return replace_liquor(plan, replace(liquor, parts=parts))
