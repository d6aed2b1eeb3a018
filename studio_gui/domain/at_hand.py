"""The bottles of dye at hand, and what the bench can measure of them for given sections.

The rule of this module: what is measured out is a section's jar, with its spare share and dead volume, in
whole graduations; what it is painted with has the jar's shares.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.bench import jar_volume_ml
from studio_gui.domain.colour.deliverable import Measuring
from studio_gui.domain.colour.palette import Palette, doses_of_dyes, dyes_of_bottles
from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.figures import LEAST_APPLIED_ML_PER_G, SectionFigures, section_figures
from studio_gui.domain.liquid import wiped_share
from studio_gui.domain.liquors import DyeDepth, Part
from studio_gui.domain.plan import Plan
from studio_gui.domain.profile import dye_curves
from studio_gui.domain.stocks import Stock

FloatArray = NDArray[np.float64]

#: A wipe that leaves less than this share of the dye takes all of it: no colour can be planned then.
LEAST_SHARE_KEPT = 1e-3


@dataclass(frozen=True, slots=True, eq=False)
class AtHand:
    """Bottles of dye, the dyes in them, and the fibre they are for.

    Parameters
    ----------
    bottles
        Stocks with dye, in the plan's order.
    palette
        The dyes in them, each once.
    dye_of
        Which dye is in each bottle.
    """

    bottles: tuple[Stock, ...]
    palette: Palette
    dye_of: tuple[int, ...]

    def doses(self, depths: Sequence[DyeDepth]) -> FloatArray:
        """Return the dose of each dye, (dyes,), of depths that name any bottle of it.

        Raises
        ------
        InvalidPlan
            ``unknown-stock`` for a bottle that is not at hand.
        """
        places = {stock.id: dye for stock, dye in zip(self.bottles, self.dye_of, strict=True)}
        doses = np.zeros(len(self.palette.curves))
        for depth in depths:
            if depth.stock_id not in places:
                raise InvalidPlan("unknown-stock", value=depth.stock_id)
            doses[places[depth.stock_id]] += depth.depth_pct_owf
        return doses

    def doses_left(self, figures: SectionFigures) -> FloatArray:
        """Return what is left of each dye on each section, % owf, (n, dyes); the hand has all bottles."""
        return doses_of_dyes(figures.left_pct_owf, self.dye_of, len(self.palette.curves))

    def guessed(self, counts: FloatArray) -> tuple[Stock, ...]:
        """Return the fluorescent bottles whose mixes are guesses in jars of graduations, (jars, bottles)."""
        dyes = doses_of_dyes(counts, self.dye_of, len(self.palette.curves))
        mixed = counts[(dyes > 0.0).sum(axis=1) > 1]
        used = (mixed > 0.0).any(axis=0)
        return tuple(
            stock
            for stock, is_used in zip(self.bottles, used, strict=True)
            if is_used and stock.is_fluorescent
        )

    def depths(self, doses_pct_owf: Sequence[float]) -> tuple[DyeDepth, ...]:
        """Return doses of the dyes as depths, each by the first bottle of its dye, without those of 0."""
        first = {dye: stock.id for stock, dye in reversed(list(zip(self.bottles, self.dye_of, strict=True)))}
        return tuple(
            DyeDepth(first[dye], float(dose)) for dye, dose in enumerate(doses_pct_owf) if dose > 0.0
        )


def at_hand(plan: Plan, stock_ids: Collection[str] | None = None) -> AtHand:
    """Return the plan's bottles of dye, or those of them that are named."""
    curves = dict(zip((stock.id for stock in plan.dyes), dye_curves(plan), strict=True))
    bottles = tuple(stock for stock in plan.dyes if stock_ids is None or stock.id in stock_ids)
    dye_of = dyes_of_bottles([curves[stock.id] for stock in bottles])
    count = max(dye_of, default=-1) + 1
    first = [dye_of.index(dye) for dye in range(count)]
    take_up = np.array(
        [
            min(stock.take_up_pct_owf for stock, one in zip(bottles, dye_of, strict=True) if one == dye)
            for dye in range(count)
        ]
    )
    palette = Palette(tuple(curves[bottles[place].id] for place in first), take_up, plan.fibre.undyed_srgb)
    return AtHand(bottles, palette, dye_of)


def liquid_to_paint_ml(plan: Plan, indices: Sequence[int]) -> FloatArray:
    """Return the liquor of sections as it is, or will be once their jars have anything in them, ml."""
    grams = section_figures(plan).fibre_g[list(indices)]
    fixed = [plan.sections[index].fixed_ml for index in indices]
    follows = plan.liquid.uptake_ml_per_g * grams
    return np.array([own if ml is None else ml for own, ml in zip(follows, fixed, strict=True)])


def measuring_for(plan: Plan, hand: AtHand, indices: Sequence[int]) -> Measuring:
    """Return what can be measured of the bottles at hand for sections of the plan, each with its own jar.

    Doses are those left after wiping.

    Raises
    ------
    EditRefused
        ``section-without-liquid`` for one that is to get none; ``section-wiped-dry`` for one whose wipe takes
        nearly all dye along.
    """
    figures = section_figures(plan)
    grams = figures.fibre_g[list(indices)]
    liquid_ml = liquid_to_paint_ml(plan, indices)
    for index, dry in zip(indices, liquid_ml <= LEAST_APPLIED_ML_PER_G * grams, strict=True):
        if dry:
            section = plan.sections[index]
            raise EditRefused("section-without-liquid", section=section.name, section_id=section.id)
    graduations = np.ceil(jar_volume_ml(liquid_ml, plan.bench) / plan.bench.graduation_ml - 1e-9)
    kept = 1.0 - wiped_share(figures.wiped_ml[list(indices)], plan.liquid.soak_ml_per_g * grams, liquid_ml)
    strengths_pct = np.array([stock.strength_pct for stock in hand.bottles])
    for index, share in zip(indices, kept.tolist(), strict=True):
        if share < LEAST_SHARE_KEPT:
            section = plan.sections[index]
            raise EditRefused("section-wiped-dry", section=section.name, section_id=section.id)
    of_one = (liquid_ml / graduations / grams * kept)[:, np.newaxis] * strengths_pct
    return Measuring(graduations, of_one, hand.dye_of, len(hand.palette.curves))


def let_down_of(plan: Plan, first: int, last: int) -> Stock:
    """Return the let-down that fills most of the jars of a run of sections, else the plan's first.

    Raises
    ------
    EditRefused
        ``no-let-down`` where the plan has none.
    """
    if not plan.let_downs:
        letter = plan.liquor(plan.sections[first].liquor_id).letter
        raise EditRefused("no-let-down", liquor=letter)
    amounts = section_figures(plan).amounts_ml[first : last + 1].sum(axis=0).tolist()
    filled = dict(zip((stock.id for stock in plan.stocks), amounts, strict=True))
    return max(plan.let_downs, key=lambda stock: filled[stock.id])


def parts_of(
    hand: AtHand, counts: Sequence[float], graduations: float, graduation_ml: float, let_down: Stock
) -> tuple[Part, ...]:
    """Return a liquor's parts, ml in its jar, from graduations of each bottle; dyes first, without any 0."""
    parts = [
        Part(stock.id, round(count * graduation_ml, 9))
        for stock, count in zip(hand.bottles, counts, strict=True)
        if count > 0.0
    ]
    rest = graduations - sum(counts)
    if rest > 0.5:
        parts.append(Part(let_down.id, round(rest * graduation_ml, 9)))
    return tuple(parts)
