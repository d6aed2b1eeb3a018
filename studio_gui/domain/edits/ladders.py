"""Ladders and crossfades: a run of sections made anew in steps.

The rule of this module: the outer edges of the run stay where they are, and the steps tile what is between.
Each step is a section with a new, ordinary liquor of its own. All of it is made, or nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate
from typing import Literal

from studio_gui.domain.edits.liquors import add_liquors, refuse_unreachable, to_parts_basis
from studio_gui.domain.edits.sections import new_id, unlocked
from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.liquors import DyeDepth, Liquor, Part
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import checked
from studio_gui.domain.sections import Boundary, LiquidMode, Section

Lengths = Literal["equal", "by amount"]
LENGTHS: tuple[Lengths, ...] = ("equal", "by amount")
MOST_STEPS = 60


@dataclass(frozen=True, slots=True)
class Ladder:
    """A ladder as it is typed: in each step, ml of each stock for the whole set.

    `lengths` tells whether the steps are equally long, or as long as their ml. With liquid ``fixed`` each
    section gets its ml; where it ``follows fibre``, only the ratio of the stocks counts.
    """

    stock_ids: tuple[str, ...]
    steps_ml: tuple[tuple[float, ...], ...]
    lengths: Lengths = "equal"
    liquid: LiquidMode = "fixed"


@dataclass(frozen=True, slots=True)
class Crossfade:
    """A fade from one liquor to another in `steps`, both ends counted.

    `strength` tells how many times as strong the second is as the first, as an eye judges them.
    """

    from_id: str
    to_id: str
    steps: int = 5
    strength: float = 1.0


@dataclass(frozen=True, slots=True)
class _Step:
    """What one step is painted with; lengths are in the ratio of `weight`."""

    parts: tuple[Part, ...]
    depths: tuple[DyeDepth, ...] = ()
    fixed_ml: float | None = None
    weight: float = 1.0


def lay_ladder(plan: Plan, first: int, last: int, ladder: Ladder, name: str = "") -> Plan:
    """Make sections `first` to `last` anew as the steps of a ladder, called "`name` 1", "`name` 2", ...

    Gaps, wipes and second passes planned inside the run go with its old sections; the liquors stay on the
    list.

    Raises
    ------
    EditRefused
        ``section-locked``; ``no-steps``; ``amounts-do-not-match`` and ``step-empty`` with the step;
        ``stock-chosen-twice``.
    InvalidPlan
        ``too-many`` steps; as `Plan`, such as ``section-too-short``.
    """
    for stock_id in ladder.stock_ids:
        if ladder.stock_ids.count(stock_id) > 1:
            raise EditRefused("stock-chosen-twice", stock=plan.stock(stock_id).name, stock_id=stock_id)
    return _relaid(plan, (first, last), [_rung(ladder, number) for number in _numbers(ladder)], name)


def lay_crossfade(plan: Plan, first: int, last: int, fade: Crossfade, name: str = "") -> Plan:
    """Make sections `first` to `last` anew as equally long steps of a crossfade; liquid follows the fibre.

    Liquors by parts give shares of their stocks, two by depth give depths. Where only one stands on depth, it
    gives the parts that its first section's jar has. Of what is inside the run the same goes as for a ladder.

    Raises
    ------
    EditRefused
        ``section-locked``; ``fade-to-itself``; ``liquor-empty``; ``liquor-not-painted`` for one by depth that
        has no jar to go by; ``depth-unreachable``.
    InvalidPlan
        ``out-of-range`` for steps or strength; as `Plan`.
    """
    checked("fade_steps", fade.steps)
    checked("fade_strength", fade.strength)
    start, end = _ends(plan, fade)
    shares = (crossfade_share(number / (fade.steps - 1), fade.strength) for number in range(fade.steps))
    return _relaid(plan, (first, last), [_mixed(plan, start, end, share) for share in shares], name)


def crossfade_share(strength_share: float, strength: float) -> float:
    """Return the share (0 to 1) of the second liquor's volume in a mix.

    `strength_share` (0 to 1) is how much of the mix's strength comes of the second liquor, which is
    `strength` (above 0) times as strong as the first: ``k v / (k v + 1 - v) = s``, solved for v.
    Source: the definition of a ratio by volume of two liquors that are unequally strong.

    >>> crossfade_share(0.5, 4.0), crossfade_share(0.25, 1.0)
    (0.2, 0.25)
    """
    return strength_share / (strength_share + strength * (1.0 - strength_share))


def _numbers(ladder: Ladder) -> range:
    """Return the places of the ladder's steps."""
    count = len(ladder.steps_ml)
    if not count:
        raise EditRefused("no-steps")
    if count > MOST_STEPS:
        raise InvalidPlan("too-many", field="ladder_steps", count=count, most=MOST_STEPS)
    return range(count)


def _rung(ladder: Ladder, number: int) -> _Step:
    amounts = ladder.steps_ml[number]
    if len(amounts) != len(ladder.stock_ids):
        raise EditRefused(
            "amounts-do-not-match", step=number + 1, count=len(amounts), stocks=len(ladder.stock_ids)
        )
    total_ml = sum(amounts)
    if not total_ml > 0.0:
        raise EditRefused("step-empty", step=number + 1)
    return _Step(
        parts=tuple(Part(*part) for part in zip(ladder.stock_ids, amounts, strict=True)),
        fixed_ml=total_ml if ladder.liquid == "fixed" else None,
        weight=total_ml if ladder.lengths == "by amount" else 1.0,
    )


def _ends(plan: Plan, fade: Crossfade) -> tuple[Liquor, Liquor]:
    """Return the two liquors of a crossfade, both on the same basis."""
    start, end = plan.liquor(fade.from_id), plan.liquor(fade.to_id)
    if start.id == end.id:
        raise EditRefused("fade-to-itself", liquor=start.letter, liquor_id=start.id)
    for liquor in (start, end):
        if liquor.is_empty:
            raise EditRefused("liquor-empty", liquor=liquor.letter, liquor_id=liquor.id)
    if start.basis == end.basis:
        return start, end
    return _on_parts(plan, start), _on_parts(plan, end)


def _on_parts(plan: Plan, liquor: Liquor) -> Liquor:
    return liquor if liquor.basis == "parts" else to_parts_basis(plan, liquor.id).liquor(liquor.id)


def _mixed(plan: Plan, start: Liquor, end: Liquor, share: float) -> _Step:
    """Return the step that has `share` (0 to 1) of the liquor `end`; parts are in per cent, dyes first."""
    parts: dict[str, float] = {}
    depths: dict[str, float] = {}
    for liquor, weight in ((start, 1.0 - share), (end, share)):
        for part in liquor.parts:
            parts[part.stock_id] = parts.get(part.stock_id, 0.0) + weight * part.parts / liquor.total_parts
        for depth in liquor.depths:
            depths[depth.stock_id] = depths.get(depth.stock_id, 0.0) + weight * depth.depth_pct_owf
    order = sorted(parts, key=lambda stock_id: not plan.stock(stock_id).is_dye)
    return _Step(
        parts=tuple(
            Part(stock_id, min(100.0 * parts[stock_id], 100.0)) for stock_id in order if parts[stock_id]
        ),
        depths=tuple(DyeDepth(stock_id, depth) for stock_id, depth in depths.items() if depth),
    )


def _relaid(plan: Plan, run: tuple[int, int], steps: Sequence[_Step], name: str) -> Plan:
    first, last = run
    old = [unlocked(plan, index) for index in range(first, last + 1)]
    names = [f"{name} {number}" if name.strip() else "" for number in range(1, len(steps) + 1)]
    recipes = [(called, step.parts, step.depths) for called, step in zip(names, steps, strict=True)]
    wider, liquor_ids = add_liquors(plan, recipes)
    ids = step_ids(plan, [section.id for section in old], len(steps))
    rows = zip(ids, names, liquor_ids, steps, strict=True)
    sections = [Section(one, called, liquor, step.fixed_ml) for one, called, liquor, step in rows]
    inner = [Boundary(place) for place in _places(plan.edges_m[first], plan.edges_m[last + 1], steps)]
    relaid = replace(
        wider,
        sections=(*plan.sections[:first], *sections, *plan.sections[last + 1 :]),
        boundaries=(*plan.boundaries[:first], *inner, *plan.boundaries[last:]),
    )
    refuse_unreachable(relaid, liquor_ids)
    return relaid


def _places(start_m: float, end_m: float, steps: Sequence[_Step]) -> Iterator[float]:
    """Return where steps meet between the edges of the run."""
    sums = list(accumulate(step.weight for step in steps))
    return (start_m + (end_m - start_m) * before / sums[-1] for before in sums[:-1])


def step_ids(plan: Plan, old: Sequence[str], count: int) -> list[str]:
    """Return ids for `count` steps: those of the run's old sections as far as they go, so that picks stay."""
    ids = list(old[:count])
    taken = [section.id for section in plan.sections]
    while len(ids) < count:
        ids.append(new_id("s", taken))
        taken.append(ids[-1])
    return ids
