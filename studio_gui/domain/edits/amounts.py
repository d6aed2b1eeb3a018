"""How the stocks of a liquor share its liquid.

The rule of this module: what one stock gains the others give, in their ratio; the section's liquid and the
sum of the parts stay.
"""

from __future__ import annotations

from dataclasses import replace

from studio_gui.domain.edits.liquors import replace_liquor
from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.figures import section_figures
from studio_gui.domain.liquors import Liquor, Part
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import RANGES, checked, exceeds


def shift_amount(plan: Plan, section_id: str, stock_id: str, amount_ml: float) -> Plan:
    """Give one stock of a section's liquor on parts `amount_ml` of the section's liquid (whole set).

    The other stocks share the rest in their ratio, equally where none has anything yet. Every section that
    shares the liquor gets the new parts; no section's volume changes. Amounts are those before any acid line.

    Raises
    ------
    EditRefused
        ``only-stock`` when there is no other to give or take; ``liquor-not-painted`` without any liquid.
    InvalidPlan
        ``unknown-stock`` for one that is not among the parts; ``out-of-range`` outside 0 to the liquid.
    """
    section = plan.section(section_id)
    liquor = plan.liquor(section.liquor_id)
    if liquor.basis != "parts" or stock_id not in liquor.stock_ids:
        raise InvalidPlan("unknown-stock", value=stock_id)
    if len(liquor.parts) == 1:
        raise EditRefused(
            "only-stock", stock=plan.stock(stock_id).name, stock_id=stock_id, liquor=liquor.letter
        )
    liquid_ml = float(section_figures(plan).liquid_ml[plan.section_index(section_id)])
    if not liquid_ml > 0.0:
        raise EditRefused("liquor-not-painted", liquor=liquor.letter)
    if checked("fixed_ml", amount_ml) and exceeds(amount_ml, liquid_ml):
        raise InvalidPlan("out-of-range", field="fixed_ml", value=amount_ml, low=0.0, high=liquid_ml)
    return replace_liquor(plan, _shared(liquor, stock_id, min(amount_ml / liquid_ml, 1.0)))


def _shared(liquor: Liquor, stock_id: str, share: float) -> Liquor:
    """Return a liquor in which one stock has `share` (0 to 1) of the parts."""
    total = min(liquor.total_parts, RANGES["parts"].high)  # one part may come to hold all of it
    others = sum(part.parts for part in liquor.parts if part.stock_id != stock_id)
    rest = (1.0 - share) * total

    def parts_of(part: Part) -> float:
        if part.stock_id == stock_id:
            return share * total
        return rest * (part.parts / others) if others > 0.0 else rest / (len(liquor.parts) - 1)

    return replace(liquor, parts=tuple(replace(part, parts=parts_of(part)) for part in liquor.parts))
