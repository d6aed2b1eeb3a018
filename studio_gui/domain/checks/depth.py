"""Checks of depth: shades that no jar reaches, and dye that the wool will not take.

The rule of this module: a shade that cannot be reached says which of stock strength, liquid or depth to
change, each with its number.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from studio_gui.domain.checks.check import Check, Mend
from studio_gui.domain.errors import Param
from studio_gui.domain.figures import SectionFigures
from studio_gui.domain.liquid import above
from studio_gui.domain.ranges import RANGES
from studio_gui.domain.stocks import Stock


def out_of_reach(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``depth-out-of-reach`` for each section whose wanted depths need more stock than liquid."""
    short = above(figures.wanted_ml, figures.liquid_ml) & figures.paintable
    for index in np.flatnonzero(short).tolist():
        section = figures.plan.sections[index]
        needed, liquid_ml = float(figures.wanted_ml[index]), float(figures.liquid_ml[index])
        stock, strength = stronger_stock(figures, index)
        params: dict[str, Param] = {
            "needed_ml": needed,
            "liquid_ml": liquid_ml,
            "reach_share": liquid_ml / needed,
            "applied_ml_per_g": float(figures.applied_ml_per_g[index]),
            "stock_id": stock.id,
            "strength_g_per_l": stock.strength_g_per_l,
        }
        mends = [
            Mend("raise-liquid", {"section_id": section.id, "liquid_ml": needed}),
            Mend("lower-depth", {"section_id": section.id, "factor": liquid_ml / needed}),
        ]
        if strength is not None:
            advice: dict[str, Param] = {"stock_id": stock.id, "strength_g_per_l": strength}
            mends.append(Mend("stronger-stock", advice, one_click=False))
        yield Check("depth-out-of-reach", "error", (section.id,), params, tuple(mends))


def stronger_stock(figures: SectionFigures, index: int) -> tuple[Stock, float | None]:
    """Return the stock that takes most room, and the strength (g/L) that makes the jar just neat.

    None where no strength of that stock alone makes the room.
    """
    plan = figures.plan
    liquor = plan.liquors[figures.liquor_index[index]]
    per_gram = {d.stock_id: d.depth_pct_owf / plan.stock(d.stock_id).strength_pct for d in liquor.depths}
    most = max(per_gram, key=lambda stock_id: per_gram[stock_id])
    grams = float(figures.fibre_g[index])
    room_ml = float(figures.liquid_ml[index]) - (sum(per_gram.values()) - per_gram[most]) * grams
    stock = plan.stock(most)
    needed = stock.strength_g_per_l * per_gram[most] * grams
    # multiplied, not divided, because the room may be next to nothing
    return stock, needed / room_ml if needed <= room_ml * RANGES["strength_g_per_l"].high else None


def no_room(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``no-room-for-let-down`` where wanted depths leave less than 1 % of the jar for let-down."""
    short = above(figures.wanted_ml, figures.liquid_ml)
    neat = above(figures.wanted_ml, 0.99 * figures.liquid_ml) & ~short
    for index in np.flatnonzero(neat & figures.paintable).tolist():
        params: dict[str, Param] = {
            "liquid_ml": float(figures.liquid_ml[index]),
            "needed_ml": float(figures.wanted_ml[index]),
        }
        yield Check("no-room-for-let-down", "warning", (figures.plan.sections[index].id,), params)


def over_take_up(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``depth-over-take-up`` per dye; muted while the stock's strength is only nominal."""
    for column, stock in enumerate(figures.plan.dyes):
        if stock.strength_known == "nominal":
            continue
        depths = figures.left_pct_owf[:, column]
        deep = np.flatnonzero(above(depths, stock.take_up_pct_owf) & figures.paintable).tolist()
        if deep:
            params: dict[str, Param] = {
                "stock_id": stock.id,
                "depth_pct_owf": float(depths[deep].max()),
                "take_up_pct_owf": stock.take_up_pct_owf,
            }
            ids = tuple(figures.plan.sections[index].id for index in deep)
            yield Check("depth-over-take-up", "note", ids, params)
