"""Edits of the yarn: its structure and the numbers that go with it.

The rule of this module: another structure keeps what was typed for the ones before it, so that it is there
when they are chosen again. A ply is not split into more strips than it has grams: nobody can.

Strips are those of the fractal's second ply, or with `ply` given (from 1) those of a free ply.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any, TypeVar

from studio_gui.domain.errors import EditRefused
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import exceeds
from studio_gui.domain.spinning.plies import plies_of
from studio_gui.domain.yarn import Ply, Strip, thickness_taken

#: What is left of a roving is a ply of its own from this share of the thickness on.
LEAST_THICKNESS = 0.001

_Item = TypeVar("_Item")


def set_yarn(plan: Plan, **changes: Any) -> Plan:  # noqa: ANN401  (fields of Yarn)
    """Change fields of the yarn; free plies that were never typed begin as those of the structure before.

    Raises
    ------
    InvalidPlan
        When a value is out of range, or the plan cannot hold the yarn.
    EditRefused
        ``more-strips-than-grams`` with the ply, its grams and strips.
    """
    if changes.get("structure") == "free" and not plan.yarn.plies:
        changes.setdefault("plies", plies_of(plan))
    new = replace(plan, yarn=replace(plan.yarn, **changes))
    plies = plies_of(new)
    if plies != plies_of(plan):
        for number, ply in enumerate(plies, start=1):
            grams = ply_g(new, ply)
            if len(ply.strips) > 1 and exceeds(len(ply.strips), grams):
                raise EditRefused("more-strips-than-grams", ply=number, ply_g=grams, strips=len(ply.strips))
    return new


def ply_g(plan: Plan, ply: Ply) -> float:
    """Return what a ply weighs, g.

    >>> from studio_gui.domain.new_plan import new_plan
    >>> ply_g(new_plan(), Ply(to_share=0.5, cross_section=0.5)) == new_plan().fibre.mass_g / 4.0
    True
    """
    mass_g = plan.fibre.roving(ply.roving - 1).mass_g
    return mass_g * abs(ply.to_share - ply.from_share) * ply.cross_section


# -- strips ------------------------------------------------------------------------------------------------


def set_strip_count(plan: Plan, count: int, ply: int | None = None) -> Plan:
    """Split a ply into `count` strips; those that stay keep weight and flip, new ones weigh as the others do.

    Raises
    ------
    InvalidPlan
        ``too-few``, ``too-many``.
    EditRefused
        As `set_yarn`.
    """
    return _set_strips(plan, ply, lambda strips: _at_count(strips, count, _usual_strip))


def set_strip_weight(plan: Plan, strip: int, weight: float, ply: int | None = None) -> Plan:
    """Give strip number `strip` (from 0) its weight beside the others, such as grams."""
    return _set_strips(plan, ply, lambda strips: _with(strips, strip, replace(strips[strip], weight=weight)))


def flip_strip(plan: Plan, strip: int, flipped: bool, ply: int | None = None) -> Plan:
    """Spin strip number `strip` (from 0) from its other end, or from its own."""
    return _set_strips(
        plan, ply, lambda strips: _with(strips, strip, replace(strips[strip], flipped=flipped))
    )


def _set_strips(
    plan: Plan, ply: int | None, change: Callable[[tuple[Strip, ...]], tuple[Strip, ...]]
) -> Plan:
    if ply is None:
        return set_yarn(plan, strips=change(plan.yarn.strips))
    return set_ply(plan, ply, strips=change(plan.yarn.plies[ply - 1].strips))


def _usual_strip(strips: tuple[Strip, ...]) -> Strip:
    return Strip(sum(strip.weight for strip in strips) / len(strips))


# -- plies of a split, plies from rovings ------------------------------------------------------------------


def set_split_count(plan: Plan, count: int) -> Plan:
    """Split the roving lengthwise into `count` plies; new ones weigh as the others do."""
    splits = plan.yarn.splits
    return set_yarn(plan, splits=_at_count(splits, count, lambda weights: sum(weights) / len(weights)))


def set_split_weight(plan: Plan, number: int, weight: float) -> Plan:
    """Give ply number `number` (from 0) of a split its weight beside the others, such as grams."""
    return set_yarn(plan, splits=_with(plan.yarn.splits, number, weight))


def set_roving_count(plan: Plan, count: int) -> Plan:
    """Ply `count` rovings of the set with one another; of a new one nothing is wound off.

    Raises
    ------
    InvalidPlan
        ``too-few``, ``too-many``.
    EditRefused
        ``too-few-rovings`` when the set has not so many.
    """
    if count > plan.fibre.rovings:
        raise EditRefused("too-few-rovings", count=count, rovings=plan.fibre.rovings)
    offsets_m = plan.yarn.offsets_m[: plan.fibre.rovings]
    return set_yarn(plan, offsets_m=_at_count(offsets_m, count, lambda _: 0.0))


def set_offset(plan: Plan, number: int, offset_m: float) -> Plan:
    """Wind `offset_m` of singles off roving number `number` (from 0) before plying."""
    return set_yarn(plan, offsets_m=_with(plan.yarn.offsets_m, number, offset_m))


# -- free plies --------------------------------------------------------------------------------------------


def set_ply(plan: Plan, number: int, **changes: Any) -> Plan:  # noqa: ANN401  (fields of Ply)
    """Change fields of free ply number `number` (from 1); refused as `set_yarn` says."""
    plies = plan.yarn.plies
    return set_yarn(plan, plies=_with(plies, number - 1, replace(plies[number - 1], **changes)))


def add_ply(plan: Plan, beside: int) -> Plan:
    """Add a free ply after number `beside` (from 1), of the same stretch of the same roving.

    It takes the thickness that no ply has there yet; where none is left, the two have half each.
    """
    plies = plan.yarn.plies
    old = plies[beside - 1]
    low, high = sorted((old.from_share, old.to_share))
    taken = thickness_taken(plies, old.roving)
    left = 1.0 - max(share for start, end, share in taken if low <= start and end <= high)
    if left > LEAST_THICKNESS:
        new = replace(old, cross_section=left, strips=(Strip(),), offset_m=0.0)
    else:
        old = replace(old, cross_section=old.cross_section / 2.0)
        new = replace(old, strips=(Strip(),), offset_m=0.0)
    return set_yarn(plan, plies=(*plies[: beside - 1], old, new, *plies[beside:]))


def remove_ply(plan: Plan, number: int) -> Plan:
    """Take free ply number `number` (from 1) away; `InvalidPlan` ``too-few`` when it is the only one."""
    plies = plan.yarn.plies
    return set_yarn(plan, plies=plies[: number - 1] + plies[number:])


def _with(items: tuple[_Item, ...], place: int, item: _Item) -> tuple[_Item, ...]:
    return (*items[:place], item, *items[place + 1 :])


def _at_count(
    items: tuple[_Item, ...], count: int, usual: Callable[[tuple[_Item, ...]], _Item]
) -> tuple[_Item, ...]:
    return items[:count] + (usual(items),) * (count - len(items))
