"""The order of stocks on the shelf and of liquors in their list.

The rule of this module: order is for the eye. Letters, and the order of stocks inside a liquor ("12 + 38"),
stay; only which let-down comes first counts, because that one fills jars when nobody says with what.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeVar

from studio_gui.domain.plan import Plan

Item = TypeVar("Item")


def move_stock(plan: Plan, stock_id: str, by: int) -> Plan:
    """Move a stock by so many places, down the shelf for a number above 0, at most to its end."""
    place = plan.stocks.index(plan.stock(stock_id))
    return replace(plan, stocks=moved(plan.stocks, place, by))


def move_liquor(plan: Plan, liquor_id: str, by: int) -> Plan:
    """Move a liquor by so many places in the list, down for a number above 0, at most to its end."""
    place = plan.liquors.index(plan.liquor(liquor_id))
    return replace(plan, liquors=moved(plan.liquors, place, by))


def moved(items: Sequence[Item], place: int, by: int) -> tuple[Item, ...]:
    """Return `items` with the one at `place` moved by so many places, at most to either end.

    >>> moved("abcd", 1, 2), moved("abcd", 1, -5)
    (('a', 'c', 'd', 'b'), ('b', 'a', 'c', 'd'))
    """
    others = [*items[:place], *items[place + 1 :]]
    others.insert(max(place + by, 0), items[place])
    return tuple(others)
