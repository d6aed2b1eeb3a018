"""Edits of liquors: typed amounts, depths, new and copied ones.

The rule of this module: an edit of a liquor changes every section that uses it; a section that should differ
first gets a liquor of its own.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import count
from string import ascii_uppercase

import numpy as np

from studio_gui.domain.checks.depth import stronger_stock
from studio_gui.domain.edits.sections import change_section, new_id
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.figures import section_figures
from studio_gui.domain.liquid import above
from studio_gui.domain.liquors import Basis, DyeDepth, Liquor, Part
from studio_gui.domain.plan import Plan


def letters() -> Iterator[str]:
    """Return A to Z, then AA, AB, ..., ZZ, AAA, ..., without end.

    >>> from itertools import islice
    >>> list(islice(letters(), 24, 28)), next(islice(letters(), 702, None))
    (['Y', 'Z', 'AA', 'AB'], 'AAA')
    """
    return map(_letter, count())


def _letter(number: int) -> str:
    high, low = divmod(number, 26)
    return (_letter(high - 1) if high else "") + ascii_uppercase[low]


def replace_liquor(plan: Plan, liquor: Liquor) -> Plan:
    """Put `liquor` in the place of the one with the same id."""
    plan.liquor(liquor.id)
    liquors = tuple(liquor if one.id == liquor.id else one for one in plan.liquors)
    return replace(plan, liquors=liquors)


def add_liquor(
    plan: Plan, name: str, parts: Sequence[Part] = (), depths: Sequence[DyeDepth] = ()
) -> tuple[Plan, str]:
    """Add a liquor with the next free letter; return the plan and the new liquor's id."""
    plan, (liquor_id,) = add_liquors(plan, [(name, tuple(parts), tuple(depths))])
    return plan, liquor_id


def add_liquors(
    plan: Plan, recipes: Iterable[tuple[str, tuple[Part, ...], tuple[DyeDepth, ...]]]
) -> tuple[Plan, tuple[str, ...]]:
    """Add liquors, each a name, parts and depths, with the next free letters; return plan and new ids."""
    used = {liquor.letter for liquor in plan.liquors}
    free = (letter for letter in letters() if letter not in used)
    taken = [liquor.id for liquor in plan.liquors]
    liquors = []
    for name, parts, depths in recipes:
        taken.append(new_id("q", taken))
        basis: Basis = "depth" if depths else "parts"
        liquors.append(Liquor(taken[-1], next(free), name, basis, parts, depths))
    return replace(plan, liquors=(*plan.liquors, *liquors)), tuple(liquor.id for liquor in liquors)


def own_liquor(plan: Plan, section_id: str) -> Plan:
    """Give a section a copy of its liquor for itself, with a letter of its own.

    A liquor that only this section uses stays as it is.
    """
    section = plan.section(section_id)
    if sum(one.liquor_id == section.liquor_id for one in plan.sections) == 1:
        return plan
    liquor = plan.liquor(section.liquor_id)
    copy = replace(liquor, id=new_id("q", (one.id for one in plan.liquors)), letter=_free_letter(plan))
    plan = replace(plan, liquors=(*plan.liquors, copy))
    return change_section(plan, section_id, liquor_id=copy.id)


def remove_liquor(plan: Plan, liquor_id: str) -> Plan:
    """Take an unused liquor out of the plan.

    Raises
    ------
    EditRefused
        ``liquor-in-use`` with the number of sections; ``liquor-in-stripes`` with that of wanted stripes.
    """
    liquor = plan.liquor(liquor_id)
    users = sum(section.liquor_id == liquor_id for section in plan.sections)
    if users:
        raise EditRefused("liquor-in-use", liquor=liquor.letter, count=users)
    stripes = sum(stripe.liquor_id == liquor_id for stripe in plan.yarn.stripes)
    if stripes:
        raise EditRefused("liquor-in-stripes", liquor=liquor.letter, count=stripes)
    return replace(plan, liquors=tuple(one for one in plan.liquors if one.id != liquor_id))


def paint_amounts(plan: Plan, section_id: str, amounts_ml: Mapping[str, float]) -> Plan:
    """Set a section's liquor by typed ml for the whole set, "12 + 38": parts 12 to 38, and 50 ml in all.

    Every section that shares the liquor gets the new parts; only this one gets the volume.

    Raises
    ------
    EditRefused
        ``nothing-typed`` when all amounts are 0.
    InvalidPlan
        When an amount is out of range or a stock is unknown.
    """
    total = sum(amounts_ml.values())
    if not total > 0.0:
        raise EditRefused("nothing-typed")
    liquor = plan.liquor(plan.section(section_id).liquor_id)
    parts = tuple(Part(stock_id, amount) for stock_id, amount in amounts_ml.items())
    plan = replace_liquor(plan, replace(liquor, basis="parts", parts=parts, depths=()))
    return change_section(plan, section_id, fixed_ml=total)


def set_parts(plan: Plan, liquor_id: str, parts: Mapping[str, float]) -> Plan:
    """Set a liquor's parts (any unit of volume), leaving every section's volume as it is."""
    liquor = plan.liquor(liquor_id)
    entries = tuple(Part(stock_id, amount) for stock_id, amount in parts.items())
    return replace_liquor(plan, replace(liquor, basis="parts", parts=entries, depths=()))


def set_depths(
    plan: Plan, liquor_id: str, depths: Mapping[str, float], let_down_id: str | None = None
) -> Plan:
    """Set a liquor by depth (% owf of each dye), its jar filled with let-down.

    The let-downs and their ratio stay as they are unless `let_down_id` names the one to use; a liquor that
    has none gets the plan's first.

    Raises
    ------
    EditRefused
        ``no-let-down`` when the plan has none; ``depth-unreachable`` with the numbers and with what to change
        when a section that uses the liquor cannot reach it.
    """
    liquor = plan.liquor(liquor_id)
    keep = tuple(p for p in liquor.parts if p.parts > 0.0 and not plan.stock(p.stock_id).is_dye)
    if let_down_id is not None:
        keep = (Part(let_down_id, 1.0),)
    elif not keep:
        if not plan.let_downs:
            raise EditRefused("no-let-down", liquor=liquor.letter)
        keep = (Part(plan.let_downs[0].id, 1.0),)
    entries = tuple(DyeDepth(stock_id, depth) for stock_id, depth in depths.items())
    changed = replace_liquor(plan, replace(liquor, basis="depth", parts=keep, depths=entries))
    refuse_unreachable(changed, [liquor_id])
    return changed


def to_depth_basis(plan: Plan, liquor_id: str) -> Plan:
    """Let a liquor stand on the depths it gives now, at the mean over the sections that use it."""
    figures = section_figures(plan)
    column = [one.id for one in plan.liquors].index(liquor_id)
    users = np.flatnonzero(figures.liquor_index == column)
    grams = figures.fibre_g[users]
    used = plan.liquor(liquor_id).stock_ids
    depths = {}
    for index, dye in enumerate(plan.dyes):
        if dye.id in used:
            mean = (figures.depth_pct_owf[users, index] * grams).sum() / grams.sum() if len(users) else 0.0
            depths[dye.id] = float(mean)
    return set_depths(plan, liquor_id, depths)


def to_parts_basis(plan: Plan, liquor_id: str) -> Plan:
    """Let a liquor stand on the parts that its first section's jar has now, before any acid line."""
    figures = section_figures(replace(plan, acid_line=None))
    column = [one.id for one in plan.liquors].index(liquor_id)
    users = np.flatnonzero(figures.liquor_index == column)
    if not len(users):
        raise EditRefused("liquor-not-painted", liquor=plan.liquor(liquor_id).letter)
    amounts = figures.amounts_ml[users[0]]
    used = plan.liquor(liquor_id).stock_ids
    parts = {s.id: float(a) for s, a in zip(plan.stocks, amounts, strict=True) if a > 0.0 or s.id in used}
    return set_parts(plan, liquor_id, parts)


def _free_letter(plan: Plan) -> str:
    used = {liquor.letter for liquor in plan.liquors}
    return next(letter for letter in letters() if letter not in used)


def refuse_unreachable(plan: Plan, liquor_ids: Collection[str]) -> None:
    """Raise `EditRefused` ``depth-unreachable`` for the first section that is too deep."""
    figures = section_figures(plan)
    columns = [column for column, one in enumerate(plan.liquors) if one.id in liquor_ids]
    short = above(figures.wanted_ml, figures.liquid_ml) & np.isin(figures.liquor_index, columns)
    for index in np.flatnonzero(short).tolist():
        stock, strength = stronger_stock(figures, index)
        reach = float(figures.liquid_ml[index] / figures.wanted_ml[index])
        liquor = plan.liquors[figures.liquor_index[index]]
        wanted = sum(depth.depth_pct_owf for depth in liquor.depths)
        raise EditRefused(
            "depth-unreachable",
            section=plan.sections[index].name,
            section_id=plan.sections[index].id,
            wanted_pct_owf=wanted,
            reach_pct_owf=wanted * reach,
            needed_ml=float(figures.wanted_ml[index]),
            liquid_ml=float(figures.liquid_ml[index]),
            applied_ml_per_g=float(figures.applied_ml_per_g[index]),
            needed_ml_per_g=float(figures.wanted_ml[index] / figures.fibre_g[index]),
            stock=stock.name,
            strength_g_per_l=stock.strength_g_per_l,
            needed_strength_g_per_l=strength,
        )
