"""A little lighter, deeper, redder: a section's liquor changed by a graduation or a few.

The rule of this module: towards a hue one graduation of the liquor's jar is put in, taken out, or put in
another's place, whichever goes most straight there; a few, where one would change nothing that can be told.
Lighter and deeper keep the hue as well as graduations allow, and may take a few for it. Every section that
shares the liquor changes with it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.at_hand import at_hand, let_down_of
from studio_gui.domain.bench import jar_numbers, jar_volume_ml
from studio_gui.domain.colour.shifts import AXES, Direction, Shift, hue_change, shift
from studio_gui.domain.colour.spaces import Array
from studio_gui.domain.edits.liquors import refuse_unreachable, replace_liquor
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.figures import SectionFigures, section_figures
from studio_gui.domain.liquors import DyeDepth, Liquor, Part
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import RELATIVE_TOLERANCE

DIRECTIONS: tuple[Direction, ...] = tuple(AXES)

#: A change goes towards what is asked for when this much of it, in Lab, lies that way; our choice.
_STRAIGHT_ENOUGH = 0.3
_LEAST_CHANGE = 1e-3
#: What is asked for has to change by this much of Lab: what is told to a tenth is not told as nothing.
_LEAST_GAIN = 0.1
#: By which, for each unit of Lab, the smaller of two changes that go as straight is the better one.
_OF_TWO_THE_SMALLER = 1e-3
#: A nudge takes this many graduations of a dye at most: to keep the hue, or to change it at all.
MOST_GRADUATIONS = 3
#: How much of a change counts as much as leaving the hue by that; our choice.
_LITTLE = 0.25


@dataclass(frozen=True, slots=True)
class Nudge:
    """A plan after a nudge, and how the section's colour shifts."""

    plan: Plan
    shift: Shift


@dataclass(frozen=True, slots=True)
class _Step:
    """Graduations, whole numbers, put in (or below 0 taken out) of bottles of dye, by stock id."""

    changes: tuple[tuple[str, float], ...]


def nudge(plan: Plan, section_id: str, direction: Direction) -> Plan:
    """Return the plan with a section's liquor changed as `nudged` says."""
    return nudged(plan, section_id, direction).plan


def nudged(plan: Plan, section_id: str, direction: Direction) -> Nudge:
    """Change a section's liquor by one graduation of its jar, or by up to `MOST_GRADUATIONS`.

    Lighter and deeper change the dyes that are in it; towards a hue, any bottle at hand may come in.

    Raises
    ------
    EditRefused
        ``nothing-lighter``, ``nothing-deeper`` where no graduation can be moved; ``no-depth-at-hand``,
        ``no-hue-at-hand`` with the direction, where none goes that way; ``liquor-not-painted``;
        ``no-let-down``; ``depth-unreachable``.
    """
    index = plan.section_index(section_id)
    liquor = plan.liquor(plan.sections[index].liquor_id)
    figures = section_figures(replace(plan, acid_line=None))
    if not figures.painted[index]:
        raise EditRefused("liquor-not-painted", liquor=liquor.letter)
    jar_ml = _jar_ml(figures, index)
    amounts = _amounts_ml(figures, index, jar_ml)
    towards_hue = AXES[direction][0] != 0
    steps: list[_Step] = []
    best = None
    for possible in _ways(plan, liquor, amounts, direction):
        steps = [step for step in possible if _fits(plan, step, amounts, plan.bench.graduation_ml)]
        if not (steps or towards_hue):
            code = "nothing-lighter" if direction == "lighter" else "nothing-deeper"
            raise EditRefused(code, liquor=liquor.letter)
        labs = _labs(figures, index, steps, jar_ml)
        best = (_straightest if towards_hue else _truest)(labs[0], labs[1:], direction)
        if best is not None:
            break
    if best is None:
        code = "no-hue-at-hand" if towards_hue else "no-depth-at-hand"
        raise EditRefused(code, liquor=liquor.letter, direction=direction)
    if liquor.basis == "depth":
        changed = _deepened(plan, liquor, steps[best], _depths_of_one(figures, index, jar_ml))
    else:
        changed = _repoured(plan, index, liquor, steps[best], amounts)
    return Nudge(changed, shift(labs[0], labs[1 + best], direction))


def _jar_ml(figures: SectionFigures, index: int) -> float:
    """Return the volume of the jar that a section is painted from, with all that share it."""
    jars = jar_numbers(figures)
    return float(jar_volume_ml(figures.liquid_ml[jars == jars[index]].sum(), figures.plan.bench))


def _amounts_ml(figures: SectionFigures, index: int, jar_ml: float) -> dict[str, float]:
    """Return ml of each stock in the jar that a section is painted from."""
    amounts = figures.amounts_ml[index] * (jar_ml / figures.liquid_ml[index])
    return dict(zip((stock.id for stock in figures.plan.stocks), amounts.tolist(), strict=True))


def _ways(
    plan: Plan, liquor: Liquor, amounts_ml: dict[str, float], direction: Direction
) -> Iterator[Iterator[_Step]]:
    """Yield the steps that may be taken, better ways first: towards a hue, few graduations before many."""
    if AXES[direction][0] == 0:
        yield _depth_steps(plan, liquor, amounts_ml, direction)
        return
    for count in range(1, MOST_GRADUATIONS + 1):
        yield _hue_steps(plan, liquor, float(count))


def _hue_steps(plan: Plan, liquor: Liquor, count: float) -> Iterator[_Step]:
    """Yield what so many graduations can be: in, out, or in another's place."""
    inside = [stock.id for stock in plan.dyes if stock.id in liquor.stock_ids]
    coming = [stock.id for stock in plan.dyes]
    for stock_id in coming:
        yield _Step(((stock_id, count),))
    for stock_id in inside:
        yield _Step(((stock_id, -count),))
        yield from (_Step(((stock_id, -count), (other, count))) for other in coming if other != stock_id)


def _depth_steps(
    plan: Plan, liquor: Liquor, amounts_ml: dict[str, float], direction: Direction
) -> Iterator[_Step]:
    """Yield one graduation of each dye, and a few of all of them in about the shares that they have."""
    sense = 1.0 if direction == "deeper" else -1.0
    inside = [stock.id for stock in plan.dyes if stock.id in liquor.stock_ids]
    for stock_id in inside:
        yield _Step(((stock_id, sense),))
    most_ml = max((amounts_ml[stock_id] for stock_id in inside), default=0.0)
    if most_ml <= 0.0:
        return
    for count in range(1, MOST_GRADUATIONS + 1):
        shares = ((stock_id, float(round(count * amounts_ml[stock_id] / most_ml))) for stock_id in inside)
        yield _Step(tuple((stock_id, sense * whole) for stock_id, whole in shares if whole > 0.0))


def _fits(plan: Plan, step: _Step, amounts_ml: dict[str, float], graduation_ml: float) -> bool:
    """Tell whether the jar has what is taken out, and let-down to give way to what comes in."""
    least = graduation_ml * (1.0 - RELATIVE_TOLERANCE)
    if any(amounts_ml[stock_id] < -change * least for stock_id, change in step.changes):
        return False
    let_down_ml = sum(amounts_ml[stock.id] for stock in plan.let_downs)
    return let_down_ml >= least * sum(change for _, change in step.changes)


def _depths_of_one(figures: SectionFigures, index: int, jar_ml: float) -> dict[str, float]:
    """Return the depth, % owf, that one graduation of each dye's stock in the jar gives on a section."""
    applied = float(figures.applied_ml_per_g[index])
    share = figures.plan.bench.graduation_ml / jar_ml
    return {stock.id: share * applied * stock.strength_pct for stock in figures.plan.dyes}


def _labs(figures: SectionFigures, index: int, steps: list[_Step], jar_ml: float) -> Array:
    """Return the Lab of a section as it is, and after each step, shape (1 + steps, 3)."""
    hand = at_hand(figures.plan)
    of_one = _depths_of_one(figures, index, jar_ml)
    places = {stock.id: dye for stock, dye in zip(hand.bottles, hand.dye_of, strict=True)}
    total = float(figures.depth_in_all_pct_owf[index])
    kept = float(figures.left_pct_owf[index].sum()) / total if total > 0.0 else 1.0
    doses = np.tile(hand.doses_left(figures)[index], (1 + len(steps), 1))
    for row, step in enumerate(steps, start=1):
        for stock_id, change in step.changes:
            doses[row, places[stock_id]] += change * of_one[stock_id] * kept
    return hand.palette.lab(np.maximum(doses, 0.0))


def _straightest(now: Array, labs: Array, direction: Direction) -> int | None:
    """Return which colour, (n, 3), lies most straight along an axis of Lab from now, None where none does."""
    axis, sense = AXES[direction]
    moves = labs - now
    far = np.linalg.norm(moves, axis=1)
    straight = np.where(far > _LEAST_CHANGE, sense * moves[:, axis] / np.maximum(far, _LEAST_CHANGE), -1.0)
    scores = straight - _OF_TWO_THE_SMALLER * far
    has_gain = sense * moves[:, axis] >= _LEAST_GAIN
    return _best(scores, has_gain & (straight >= _STRAIGHT_ENOUGH))


def _truest(now: Array, labs: Array, direction: Direction) -> int | None:
    """Return which colour, (n, 3), is lighter or deeper, by little and truest to the hue, or None."""
    _, sense = AXES[direction]
    gain, aside = sense * (labs[:, 0] - now[0]), hue_change(now, labs)
    far = np.linalg.norm(labs - now, axis=1)
    return _best(
        -(aside**2 + (_LITTLE * far) ** 2),
        (gain >= _LEAST_GAIN) & (gain >= _STRAIGHT_ENOUGH * np.hypot(gain, aside)),
    )


def _best(scores: Array, may_be: NDArray[np.bool_]) -> int | None:
    """Return the place of the highest score among those that may be."""
    places = np.flatnonzero(may_be)
    return int(places[scores[places].argmax()]) if places.size else None


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
