"""Checks of the bench: stocks of which too little is to be made.

The rule of this module: a bottle is judged by what the cards take of it, in whole graduations.
"""

from __future__ import annotations

from collections.abc import Iterator

from studio_gui.domain.bench import make_up
from studio_gui.domain.bottles import bottles, suggested_ml
from studio_gui.domain.cards import cards
from studio_gui.domain.checks.check import Check, Mend
from studio_gui.domain.errors import Param
from studio_gui.domain.figures import SectionFigures


def stocks_short(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``stock-short`` for each stock whose volume to make was typed and does not do for the jars."""
    if all(stock.made_ml is None for stock in figures.plan.stocks):
        return
    for bottle in bottles(figures.plan, cards(figures, make_up(figures))):
        if bottle.short_ml:
            enough: dict[str, Param] = {"stock_id": bottle.stock_id, "made_ml": suggested_ml(bottle.need_ml)}
            yield Check(
                "stock-short",
                "warning",
                (),
                {
                    "stock_id": bottle.stock_id,
                    "need_ml": bottle.need_ml,
                    "made_ml": bottle.made_ml,
                    "short_ml": bottle.short_ml,
                },
                (Mend("make-enough", enough),),
            )
