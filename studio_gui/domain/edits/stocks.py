"""Edits of the bottles.

The rule of this module: a change of strength either keeps the parts (the shade moves) or keeps the depth
(the parts move); which, is said by the caller, never guessed.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from typing import Any

from studio_gui.domain.checks.acid import acid_water
from studio_gui.domain.edits.sections import new_id
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.liquors import Liquor, Part
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import RELATIVE_TOLERANCE, checked
from studio_gui.domain.stocks import Stock


def add_stock(plan: Plan, stock: Stock) -> Plan:
    """Put a stock at the end of the shelf; `InvalidPlan` ``id-twice`` when its id is taken."""
    return replace(plan, stocks=(*plan.stocks, stock))


def copy_stock(plan: Plan, stock_id: str, name: str) -> Plan:
    """Put a copy of a stock, under another name, behind it on the shelf."""
    place = plan.stocks.index(plan.stock(stock_id)) + 1
    copy = replace(plan.stocks[place - 1], id=free_stock_id(plan), name=name)
    return replace(plan, stocks=(*plan.stocks[:place], copy, *plan.stocks[place:]))


def free_stock_id(plan: Plan) -> str:
    """Return an id that no stock of the plan has."""
    return new_id("k", (stock.id for stock in plan.stocks))


def change_stock(plan: Plan, stock_id: str, **changes: Any) -> Plan:  # noqa: ANN401  (fields of Stock)
    """Replace fields of one stock; a new strength keeps every liquor's parts and so moves its depth."""
    plan.stock(stock_id)
    stocks = tuple(replace(s, **changes) if s.id == stock_id else s for s in plan.stocks)
    return replace(plan, stocks=stocks)


def change_strength_keeping_depth(plan: Plan, stock_id: str, strength_g_per_l: float) -> Plan:
    """Give a dye stock a new strength and re-reckon the parts of every liquor so that no depth moves.

    Stock goes as old over new strength; the let-downs of the liquor take up the difference in their ratio. A
    neat liquor whose stock grows stronger is filled up with the plan's first let-down.

    Raises
    ------
    EditRefused
        ``let-down-runs-out`` when a liquor has too little let-down to give way to a weaker stock;
        ``no-let-down`` when the plan has none to fill up with.
    """
    factor = plan.stock(stock_id).strength_g_per_l / checked("strength_g_per_l", strength_g_per_l)
    liquors = tuple(
        _restrengthened(plan, liquor, stock_id, factor)
        if liquor.basis == "parts" and stock_id in liquor.stock_ids
        else liquor
        for liquor in plan.liquors
    )
    return change_stock(replace(plan, liquors=liquors), stock_id, strength_g_per_l=strength_g_per_l)


def remove_stock(plan: Plan, stock_id: str) -> Plan:
    """Take a stock that no liquor uses off the shelf.

    Raises
    ------
    EditRefused
        ``stock-in-use`` with the letters of the liquors.
    """
    stock = plan.stock(stock_id)
    users = ", ".join(liquor.letter for liquor in plan.liquors_with(stock_id))
    if users:
        raise EditRefused("stock-in-use", stock=stock.name, liquors=users)
    if plan.acid_line is not None and plan.acid_line.stock_id == stock_id:
        raise EditRefused("stock-is-acid-line", stock=stock.name)
    return replace(plan, stocks=tuple(one for one in plan.stocks if one.id != stock_id))


def set_acid_everywhere(plan: Plan, acid_g_per_l: float, only_ids: Collection[str] | None = None) -> Plan:
    """Give every stock (or those named) the same known acid, g/L: acid in every bottle."""
    stocks = tuple(
        replace(stock, acid_g_per_l=acid_g_per_l) if only_ids is None or stock.id in only_ids else stock
        for stock in plan.stocks
    )
    return replace(plan, stocks=stocks)


def take_acid_of_water(plan: Plan, stock_id: str) -> Plan:
    """Give one stock the acid of the plan's acid water: the quick answer to an acid that is not known.

    Raises
    ------
    EditRefused
        ``no-acid-water`` when no let-down is known to carry acid.
    """
    water = acid_water(plan)
    if water is None:
        raise EditRefused("no-acid-water", stock=plan.stock(stock_id).name)
    return change_stock(plan, stock_id, acid_g_per_l=water.acid_g_per_l)


def _restrengthened(plan: Plan, liquor: Liquor, stock_id: str, factor: float) -> Liquor:
    old = next(part.parts for part in liquor.parts if part.stock_id == stock_id)
    let_down = sum(part.parts for part in liquor.parts if not plan.stock(part.stock_id).is_dye)
    more = old * (factor - 1.0)
    if more - let_down > RELATIVE_TOLERANCE * liquor.total_parts:
        raise EditRefused(
            "let-down-runs-out", liquor=liquor.letter, let_down_parts=let_down, needed_parts=more
        )
    rest = max(let_down - more, 0.0)

    def moved(part: Part) -> Part:
        if part.stock_id == stock_id:
            return replace(part, parts=part.parts * factor)
        if plan.stock(part.stock_id).is_dye or let_down <= 0.0:
            return part
        return replace(part, parts=part.parts * rest / let_down)

    parts = tuple(moved(part) for part in liquor.parts)
    return replace(liquor, parts=parts if let_down > 0.0 else _filled(plan, liquor, parts, rest))


def _filled(plan: Plan, liquor: Liquor, parts: tuple[Part, ...], rest: float) -> tuple[Part, ...]:
    """Return `parts` with `rest` parts of the plan's first let-down, which none of them has anything of."""
    if rest <= 0.0:
        return parts
    if not plan.let_downs:
        raise EditRefused("no-let-down", liquor=liquor.letter)
    water = plan.let_downs[0].id
    return (*(part for part in parts if part.stock_id != water), Part(water, rest))
