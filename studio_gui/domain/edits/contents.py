"""What is in a liquor: putting stocks in and taking them out.

The rule of this module: nothing that is painted moves by putting a stock in; its amount or depth is entered
afterwards.
"""

from __future__ import annotations

from dataclasses import replace

from studio_gui.domain.edits.liquors import replace_liquor
from studio_gui.domain.liquors import DyeDepth, Part
from studio_gui.domain.plan import Plan


def put_in(plan: Plan, liquor_id: str, stock_id: str) -> Plan:
    """Put a stock into a liquor: 0 parts of it, or depth 0 of a dye where the liquor stands on depth.

    Dyes stand before let-downs, as painters name them. Into an empty liquor goes a whole part, so that
    something is painted. On depth, a let-down takes the place
    of all let-downs: it is what fills the jar.
    """
    liquor, stock = plan.liquor(liquor_id), plan.stock(stock_id)
    if liquor.basis == "parts":
        part = Part(stock_id, 1.0 if liquor.is_empty else 0.0)
        is_dye = [plan.stock(one.stock_id).is_dye for one in liquor.parts]
        place = is_dye.index(False) if stock.is_dye and False in is_dye else len(is_dye)
        parts = (*liquor.parts[:place], part, *liquor.parts[place:])
        return replace_liquor(plan, replace(liquor, parts=parts))
    if stock.is_dye:
        return replace_liquor(plan, replace(liquor, depths=(*liquor.depths, DyeDepth(stock_id, 0.0))))
    return replace_liquor(plan, replace(liquor, parts=(Part(stock_id, 1.0),)))


def take_out(plan: Plan, liquor_id: str, stock_id: str) -> Plan:
    """Take a stock out of a liquor; on parts its other stocks share the jar in their ratio.

    Raises
    ------
    InvalidPlan
        ``depth-without-let-down`` for the last let-down of a liquor that stands on depth.
    """
    liquor = plan.liquor(liquor_id)
    parts = tuple(part for part in liquor.parts if part.stock_id != stock_id)
    depths = tuple(depth for depth in liquor.depths if depth.stock_id != stock_id)
    return replace_liquor(plan, replace(liquor, parts=parts, depths=depths))
