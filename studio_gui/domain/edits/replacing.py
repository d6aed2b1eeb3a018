"""Taking away what is still used, together with what its users do without it.

The rule of this module: one edit leaves no user behind. A stock is taken out of its liquors, or another of
its kind takes its place in them; the sections of a liquor are painted with another. On parts the ml stay, on
depth the depths.
"""

from __future__ import annotations

from dataclasses import replace

from studio_gui.domain.edits.contents import take_out
from studio_gui.domain.edits.liquors import remove_liquor
from studio_gui.domain.edits.order import paint_with
from studio_gui.domain.edits.stocks import remove_stock
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.liquors import DyeDepth, Liquor, Part
from studio_gui.domain.plan import Plan


def remove_from_liquors(plan: Plan, stock_id: str) -> Plan:
    """Take a stock off the shelf and out of every liquor; an acid line of it ends.

    The other stocks of a liquor on parts share the jar in their ratio.

    Raises
    ------
    InvalidPlan
        ``depth-without-let-down`` where it is all that fills the jar of a liquor that stands on depth.
    """
    for liquor in plan.liquors_with(stock_id):
        plan = take_out(plan, liquor.id, stock_id)
    if plan.acid_line is not None and plan.acid_line.stock_id == stock_id:
        plan = replace(plan, acid_line=None)
    return remove_stock(plan, stock_id)


def replace_stock(plan: Plan, stock_id: str, by_id: str) -> Plan:
    """Put another stock of the same role in the place of one, everywhere, and take that one off the shelf.

    Where a liquor has both, their amounts are put together. Amounts and depths stay as they are, whatever the
    strengths: a stronger stock makes liquors on parts darker.

    Raises
    ------
    EditRefused
        ``other-role`` when one is a dye and the other a let-down.
    InvalidPlan
        ``acid-line-without-acid`` when the acid line would lose its acid.
    """
    stock, other = plan.stock(stock_id), plan.stock(by_id)
    if stock.role != other.role:
        raise EditRefused("other-role", stock=stock.name, other=other.name)
    liquors = tuple(_with_other(liquor, stock_id, by_id) for liquor in plan.liquors)
    line = plan.acid_line
    if line is not None and line.stock_id == stock_id:
        line = replace(line, stock_id=by_id)
    return remove_stock(replace(plan, liquors=liquors, acid_line=line), stock_id)


def repaint(plan: Plan, liquor_id: str, with_id: str) -> Plan:
    """Paint every section of a liquor with another one, want its stripes so, and take it out of the plan."""
    section_ids = [section.id for section in plan.sections_with(liquor_id)]
    painted = paint_with(plan, section_ids, with_id)
    stripes = tuple(
        replace(stripe, liquor_id=with_id) if stripe.liquor_id == liquor_id else stripe
        for stripe in plan.yarn.stripes
    )
    return remove_liquor(replace(painted, yarn=replace(plan.yarn, stripes=stripes)), liquor_id)


def _with_other(liquor: Liquor, stock_id: str, by_id: str) -> Liquor:
    if stock_id not in liquor.stock_ids:
        return liquor
    parts: dict[str, float] = {}
    for part in liquor.parts:
        key = by_id if part.stock_id == stock_id else part.stock_id
        parts[key] = parts.get(key, 0.0) + part.parts
    depths: dict[str, float] = {}
    for depth in liquor.depths:
        key = by_id if depth.stock_id == stock_id else depth.stock_id
        depths[key] = depths.get(key, 0.0) + depth.depth_pct_owf
    return replace(
        liquor,
        parts=tuple(Part(*one) for one in parts.items()),
        depths=tuple(DyeDepth(*one) for one in depths.items()),
    )
