"""What a liquor is made of, in short: "12 + 38" by parts, "0.5 + 0.3 %" by depth.

The rule of this module: the short form is figures in the order of the liquor’s stocks; the long one names
them.
"""

from __future__ import annotations

from studio_gui.domain.liquors import Liquor
from studio_gui.domain.plan import Plan
from studio_gui.wording.amounts import shown_amounts
from studio_gui.wording.naming import stock_name
from studio_gui.wording.numbers import shown_number_briefly
from studio_gui.wording.quantities import DEPTH, shown_briefly
from studio_gui.wording.translation import TRANSLATED, Tongue


def shown_recipe(liquor: Liquor, tongue: Tongue = TRANSLATED) -> str:
    """Return the parts of a liquor, or its depths (% owf); "empty" where there is none of either.

    >>> from studio_gui.domain.liquors import DyeDepth, Part
    >>> from studio_gui.wording.translation import ENGLISH
    >>> shown_recipe(Liquor("q1", "A", "Kelp", parts=(Part("k1", 12.0), Part("k2", 38.0))), ENGLISH)
    '12 + 38'
    >>> depths = (DyeDepth("k1", 0.5), DyeDepth("k3", 0.25))
    >>> shown_recipe(Liquor("q1", "A", "Kelp", "depth", (Part("k2", 1.0),), depths), ENGLISH)
    '0.5 + 0.25 %'
    """
    if liquor.basis == "depth" and liquor.depths:
        return _depths(liquor, tongue)
    if liquor.basis == "depth" or liquor.parts:
        return shown_amounts((part.parts for part in liquor.parts), tongue)
    return tongue.translate("Recipes", "empty")


def named_recipe(plan: Plan, liquor: Liquor, tongue: Tongue = TRANSLATED) -> str:
    """Return what a liquor is made of with the names of the stocks: "12 Sea blue + 38 Acid water".

    >>> from studio_gui.domain.new_plan import new_plan
    >>> from studio_gui.wording.translation import ENGLISH
    >>> named_recipe(new_plan(), new_plan().liquors[1], ENGLISH)
    '12 Blue + 38 Acid water'
    """
    terms = [
        f"{shown_briefly(DEPTH, depth.depth_pct_owf, tongue)} {stock_name(plan, depth.stock_id)}"
        for depth in liquor.depths
    ]
    fills = liquor.basis == "depth" and len(liquor.parts) == 1
    for part in liquor.parts:
        name = stock_name(plan, part.stock_id)
        terms.append(name if fills else f"{shown_number_briefly(part.parts, 2, tongue)} {name}")
    return " + ".join(terms) or tongue.translate("Recipes", "empty")


def _depths(liquor: Liquor, tongue: Tongue) -> str:
    figures = [shown_number_briefly(depth.depth_pct_owf, 2, tongue) for depth in liquor.depths]
    return " + ".join(figures) + f" {DEPTH.metric}"
