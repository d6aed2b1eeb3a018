"""Stocks to make: how much of each, and what goes into it.

The rule of this module: strength is weight in volume, so powder goes into so much finished stock; what is
needed is what the cards take. An acid that is not known is said to be so, never taken for none.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from studio_gui.domain.cards import Card, need_as_measured_ml
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import exceeds
from studio_gui.domain.stocks import Stock

#: What clings to bottles, syringes and measures, as a share of what is needed; common practice, no source.
RESERVE_SHARE = 0.03
#: What is suggested is a multiple of this, ml, and has no more than two figures that are not 0; our choice.
LEAST_STEP_ML = 5.0


@dataclass(frozen=True, slots=True)
class Bottle:
    """One stock to make: what the cards take of it, what is made, and what goes in.

    `dye_g` is 0 for a let-down, `acid_g` None where the acid is not known.
    """

    stock_id: str
    need_ml: float
    made_ml: float
    is_suggested: bool
    dye_g: float
    acid_g: float | None

    @property
    def short_ml(self) -> float:
        """What the cards take beyond what is made, ml; 0 where there is enough."""
        return self.need_ml - self.made_ml if exceeds(self.need_ml, self.made_ml) else 0.0


def suggested_ml(need_ml: float) -> float:
    """Return a handy volume, ml, that leaves `RESERVE_SHARE` of what is needed for what clings.

    >>> [suggested_ml(need) for need in (0.0, 31.0, 128.0, 130.0, 1284.0)]
    [0.0, 35.0, 140.0, 140.0, 1400.0]
    """
    if need_ml <= 0.0:
        return 0.0
    wanted_ml = need_ml * (1.0 + RESERVE_SHARE)
    step = max(10.0 ** (math.floor(math.log10(wanted_ml)) - 1), LEAST_STEP_ML)
    return math.ceil(wanted_ml / step - 1e-9) * step


def powder_g(made_ml: float, strength_g_per_l: float) -> float:
    """Return what is weighed in for so much finished stock, g: ``ml * g/L / 1000``.

    Source: the definition of % w/v.

    >>> powder_g(130.0, 10.0)
    1.3
    """
    return made_ml * strength_g_per_l / 1000.0


def bottles(plan: Plan, made_up: Sequence[Card]) -> tuple[Bottle, ...]:
    """Return the stocks to make, in the order of work; one that nobody needs or typed is left out.

    Acid first, the strongest before the rest, then dyes likewise, then water: what is weaker can be mixed
    from what is stronger, and is (common practice, no source).
    """
    need_ml = need_as_measured_ml(plan, made_up)
    wanted = [
        (stock, need)
        for stock, need in zip(plan.stocks, need_ml, strict=True)
        if need > 0.0 or stock.made_ml is not None
    ]
    return tuple(_bottle(stock, need) for stock, need in sorted(wanted, key=lambda one: _turn(one[0])))


def _bottle(stock: Stock, need_ml: float) -> Bottle:
    made_ml = suggested_ml(need_ml) if stock.made_ml is None else stock.made_ml
    acid = stock.acid_g_per_l
    return Bottle(
        stock.id,
        need_ml,
        made_ml,
        stock.made_ml is None,
        powder_g(made_ml, stock.strength_g_per_l),
        None if acid is None else powder_g(made_ml, acid),
    )


def _turn(stock: Stock) -> tuple[int, float]:
    """Return a key that sorts stocks into the order of work."""
    if stock.is_dye:
        return 1, -stock.strength_g_per_l
    if stock.acid_g_per_l == 0.0:
        return 2, 0.0
    return 0, -(stock.acid_g_per_l or 0.0)
