"""What is painted on each section and what is in it: all of a plan's figures that no boundary moves.

The rule of this module: it depends on stocks, liquors and sections alone, so that the figures of a plan whose
boundaries moved take it over from the plan before.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.liquors import Liquor
from studio_gui.domain.plan import Plan
from studio_gui.domain.sections import Section
from studio_gui.domain.stocks import Stock

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Recipes:
    """Recipes of n sections; stocks and dyes are columns in the plan's order.

    Attributes
    ----------
    stocks, liquors, sections
        What they were made from.
    liquor_index
        (n,) column of the section's liquor in `liquors`.
    empty
        (n,) whether that liquor holds nothing at all.
    fixed_ml
        (n,) liquor that does not follow the fibre, nan where it does.
    wiped_ml, second_pass_ml
        (n,) as in `Section`.
    shares
        (n, stocks) share of each stock in what the wanted depths leave of the liquid.
    wanted_ml_per_g
        (n, stocks) ml of dye stock on a gram of fibre that the wanted depths need.
    strengths_pct
        (dyes,) strength of each dye, % w/v.
    is_dye
        (stocks,) whether a stock is a dye.
    acid_g_per_l
        (stocks,) acid of each stock, nan where unknown.
    """

    stocks: tuple[Stock, ...]
    liquors: tuple[Liquor, ...]
    sections: tuple[Section, ...]
    liquor_index: NDArray[np.intp]
    empty: BoolArray
    fixed_ml: FloatArray
    wiped_ml: FloatArray
    second_pass_ml: FloatArray
    shares: FloatArray
    wanted_ml_per_g: FloatArray
    strengths_pct: FloatArray
    is_dye: BoolArray
    acid_g_per_l: FloatArray

    def are_of(self, plan: Plan) -> bool:
        """Tell whether `plan` has the very stocks, liquors and sections that these were made from."""
        return plan.sections is self.sections and plan.liquors is self.liquors and plan.stocks is self.stocks


def recipes(plan: Plan) -> Recipes:
    """Return the recipes of every section of `plan`."""
    sections, stocks = plan.sections, plan.stocks
    column = {liquor.id: index for index, liquor in enumerate(plan.liquors)}
    index = np.array([column[section.liquor_id] for section in sections], dtype=np.intp)
    shares, wanted = _contents(plan)
    return Recipes(
        stocks=stocks,
        liquors=plan.liquors,
        sections=sections,
        liquor_index=index,
        empty=np.array([liquor.is_empty for liquor in plan.liquors], dtype=bool)[index],
        fixed_ml=np.array([np.nan if one.fixed_ml is None else one.fixed_ml for one in sections]),
        wiped_ml=np.array([section.wiped_ml for section in sections]),
        second_pass_ml=np.array([section.second_pass_ml for section in sections]),
        shares=shares[index],
        wanted_ml_per_g=wanted[index],
        strengths_pct=np.array([stock.strength_pct for stock in plan.dyes]),
        is_dye=np.array([stock.is_dye for stock in stocks], dtype=bool),
        acid_g_per_l=np.array([np.nan if one.acid_g_per_l is None else one.acid_g_per_l for one in stocks]),
    )


def _contents(plan: Plan) -> tuple[FloatArray, FloatArray]:
    """Return (liquors, stocks) share of each stock, and ml of dye stock on a gram of fibre."""
    column = {stock.id: index for index, stock in enumerate(plan.stocks)}
    shares = np.zeros((len(plan.liquors), len(plan.stocks)))
    wanted_ml_per_g = np.zeros_like(shares)
    for row, liquor in enumerate(plan.liquors):
        total = liquor.total_parts
        for part in liquor.parts:
            shares[row, column[part.stock_id]] = part.parts / total if total > 0.0 else 0.0
        for depth in liquor.depths:
            stock = plan.stocks[column[depth.stock_id]]
            wanted_ml_per_g[row, column[depth.stock_id]] = depth.depth_pct_owf / stock.strength_pct
    return shares, wanted_ml_per_g
