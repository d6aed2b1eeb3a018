"""Edits of the dyed samples that a dye's colour is predicted from.

The rule of this module: a new sample starts as what the dye is already taken to give, so that no shade moves
before its real colour is entered. One with a measured spectrum comes with its depth, or not at all.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from studio_gui.domain.colour.mixing import predicted_srgb
from studio_gui.domain.colour.spaces import hex_from_srgb
from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.edits.stocks import change_stock
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import RANGES

#: What a new dye shows until its real colour is entered.
STAND_IN_SRGB = "#7a5c8e"
STAND_IN_DEPTH_PCT_OWF = 1.0


def stand_in(fibre_srgb: str) -> Swatch:
    """Return the sample that a new dye has, on the fibre, until a real one is entered."""
    return Swatch(STAND_IN_DEPTH_PCT_OWF, STAND_IN_SRGB, fibre_srgb)


def add_swatch(plan: Plan, stock_id: str) -> Plan:
    """Give a dye one more sample: twice as deep as its deepest, on that one's fibre, as predicted.

    Raises
    ------
    InvalidPlan
        ``too-many``; ``no-swatches`` for a let-down.
    """
    stock = plan.stock(stock_id)
    swatches, curve = stock.swatches, stock.curve
    deepest = max(swatches, key=lambda swatch: swatch.depth_pct_owf)
    depth = min(2.0 * deepest.depth_pct_owf, RANGES["depth_pct_owf"].high)
    colour = predicted_srgb(np.array([[depth]]), (curve,), deepest.fibre_srgb).srgb[0]
    swatch = Swatch(depth, hex_from_srgb(colour), deepest.fibre_srgb)
    return change_stock(plan, stock_id, swatches=(*swatches, swatch))


def add_measured_swatch(
    plan: Plan, stock_id: str, reflectance: tuple[float, ...], depth_pct_owf: float
) -> Plan:
    """Give a dye a sample with a measured spectrum that was dyed at `depth_pct_owf`, on the plan's fibre.

    The one that a new dye has only stands in for it, and goes.

    Raises
    ------
    InvalidPlan
        ``too-many``; as `Swatch`.
    """
    swatches = plan.stock(stock_id).swatches
    if swatches and swatches == (stand_in(swatches[0].fibre_srgb),):
        swatches = ()
    swatch = Swatch(depth_pct_owf, plan.fibre.undyed_srgb, plan.fibre.undyed_srgb, reflectance)
    return change_stock(plan, stock_id, swatches=(*swatches, swatch))


def change_swatch(plan: Plan, stock_id: str, place: int, **changes: Any) -> Plan:  # noqa: ANN401  (fields of Swatch)
    """Replace fields of one sample of a dye, counted from 0: depth_pct_owf, srgb, fibre_srgb, reflectance.

    A colour that is entered takes the place of a spectrum that was measured.
    """
    swatches = list(plan.stock(stock_id).swatches)
    swatches[place] = swatches[place].changed(**changes)
    return change_stock(plan, stock_id, swatches=tuple(swatches))


def remove_swatch(plan: Plan, stock_id: str, place: int) -> Plan:
    """Take one sample of a dye away, counted from 0; `InvalidPlan` ``dye-without-swatch`` for the last."""
    swatches = plan.stock(stock_id).swatches
    return change_stock(plan, stock_id, swatches=(*swatches[:place], *swatches[place + 1 :]))
