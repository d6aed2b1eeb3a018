"""Every section's figures, as arrays: one row a section, in the lay's order.

The rule of this module: all trade numbers of sections are computed here, once, from the plan; checks, jars,
colours and views only read them. Amounts are for the WHOLE SET of rovings.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain import acid, dye, liquid
from studio_gui.domain.geometry import lay_mass_to
from studio_gui.domain.plan import Plan
from studio_gui.domain.recipes import Recipes, recipes

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]
Saturation = Literal["under", "in range", "over"]

#: Less liquor than this on a gram of fibre is nothing: it can be neither measured nor divided by.
LEAST_APPLIED_ML_PER_G = 1e-6

#: A shorter section, m along the lay, cannot be painted by hand, and what is said of each of its grams means
#: nothing; common practice, no source.
LEAST_PAINTABLE_M = 0.01


@dataclass(frozen=True, eq=False)
class SectionFigures:
    """Figures of the n sections of `plan`; stocks and dyes are columns in the plan's order.

    Attributes
    ----------
    recipes
        What is painted on each section and what is in it.
    edges_m
        (n + 1,) where sections start and end, m along the lay.
    edges_g
        (n + 1,) weight of the set before each edge, g.
    fibre_g, liquid_ml, wiped_ml
        (n,) dry fibre, liquor applied in all, liquid wiped out cold.
    applied_ml_per_g, held_before_wiping_ml_per_g, held_ml_per_g, free_ml
        (n,) as in `studio_gui.domain.liquid`; held at the fullest moment.
    under, over
        (n,) whether the core may stay white; whether free liquid is left after any wipe.
    liquor_index
        (n,) column of the section's liquor in ``plan.liquors``.
    amounts_ml
        (n, stocks) ml of each stock; rows sum to `liquid_ml`.
    wanted_ml
        (n,) ml of dye stocks that the wanted depths need; 0 on basis parts.
    depth_pct_owf
        (n, dyes) depth of shade before wiping.
    left_pct_owf
        (n, dyes) depth after wiping, not yet capped by what the dye takes up.
    acid_pct_owf
        (n,) acid on the fibre, nan where unknown.
    """

    plan: Plan
    recipes: Recipes
    edges_m: FloatArray
    edges_g: FloatArray
    fibre_g: FloatArray
    liquid_ml: FloatArray
    wiped_ml: FloatArray
    applied_ml_per_g: FloatArray
    held_before_wiping_ml_per_g: FloatArray
    held_ml_per_g: FloatArray
    free_ml: FloatArray
    under: BoolArray
    over: BoolArray
    liquor_index: NDArray[np.intp]
    amounts_ml: FloatArray
    wanted_ml: FloatArray
    depth_pct_owf: FloatArray
    left_pct_owf: FloatArray
    acid_pct_owf: FloatArray

    def __len__(self) -> int:
        return len(self.fibre_g)

    def length_m(self, index: int) -> float:
        """Return the nominal length of a section, m along the lay."""
        return self.run_length_m(index, index)

    def run_length_m(self, first: int, last: int) -> float:
        """Return the length of the sections from `first` to `last`, both counted, m along the lay."""
        return float(self.edges_m[last + 1] - self.edges_m[first])

    def run_fibre_g(self, first: int, last: int) -> float:
        """Return the fibre of the sections from `first` to `last`, both counted, g of the whole set."""
        return float(self.fibre_g[first : last + 1].sum())

    @cached_property
    def painted(self) -> BoolArray:
        """(n,) whether a section gets any liquor at all."""
        return self.applied_ml_per_g > LEAST_APPLIED_ML_PER_G

    @cached_property
    def paintable(self) -> BoolArray:
        """(n,) whether a section is long enough to be painted by hand."""
        return ~liquid.above(LEAST_PAINTABLE_M, np.diff(self.edges_m))

    @cached_property
    def judged(self) -> BoolArray:
        """(n,) whether a section's wetness, depth and acid are worth judging: painted, and paintable."""
        return self.painted & self.paintable

    @property
    def liquid_ml_per_roving(self) -> FloatArray:
        """(n,) liquor for one roving of the set, ml."""
        return self.liquid_ml / self.plan.fibre.rovings

    @cached_property
    def depth_in_all_pct_owf(self) -> FloatArray:
        """(n,) depth of all dyes together before wiping, % owf."""
        total: FloatArray = self.depth_pct_owf.sum(axis=1)
        return total

    @property
    def used_stocks(self) -> list[bool]:
        """Whether any section takes anything of each stock, in stock order."""
        used: list[bool] = np.any(self.amounts_ml > 0.0, axis=0).tolist()
        return used

    def saturation(self, index: int) -> Saturation:
        """Return ``over`` when free liquid is left, else ``under`` when the core stays white."""
        if self.over[index]:
            return "over"
        return "under" if self.under[index] else "in range"


def section_figures(plan: Plan, before: SectionFigures | None = None) -> SectionFigures:
    """Compute the figures of every section of `plan`; cost is linear in sections times stocks.

    `before` are figures of the plan that this one was made from: what still holds is taken over from there.
    They make no difference but of time.
    """
    edges_m = np.array(plan.edges_m)
    edges_g = lay_mass_to(plan.fibre, plan.lay, edges_m)
    fibre_g = np.diff(edges_g)
    mix = before.recipes if before is not None and before.recipes.are_of(plan) else recipes(plan)
    liquid_ml = np.where(np.isnan(mix.fixed_ml), plan.liquid.uptake_ml_per_g * fibre_g, mix.fixed_ml)
    liquid_ml = np.where(mix.empty, 0.0, liquid_ml)
    first_ml = liquid_ml - np.minimum(mix.second_pass_ml, liquid_ml)
    soak = plan.liquid.soak_ml_per_g
    applied = liquid_ml / fibre_g
    held = liquid.held_ml_per_g(soak, first_ml, mix.wiped_ml, fibre_g)
    amounts_ml, wanted_ml = _amounts(plan, mix, liquid_ml, fibre_g)
    depth = dye.depth_pct_owf(amounts_ml[:, mix.is_dye], mix.strengths_pct, fibre_g[:, np.newaxis])
    kept = 1.0 - liquid.wiped_share(mix.wiped_ml, soak * fibre_g, liquid_ml)
    soak_acid = plan.liquid.soak_acid_g_per_l
    acid_pct = acid.acid_pct_owf(
        applied,
        acid.jar_acid_g_per_l(amounts_ml, mix.acid_g_per_l),
        soak,
        np.nan if soak_acid is None else soak_acid,
    )
    return SectionFigures(
        plan=plan,
        recipes=mix,
        edges_m=edges_m,
        edges_g=edges_g,
        fibre_g=fibre_g,
        liquid_ml=liquid_ml,
        wiped_ml=mix.wiped_ml,
        applied_ml_per_g=applied,
        held_before_wiping_ml_per_g=liquid.held_ml_per_g(soak, first_ml, 0.0, fibre_g),
        held_ml_per_g=held,
        free_ml=liquid.free_ml(held, plan.liquid.limit_ml_per_g, fibre_g),
        under=liquid.above(plan.liquid.penetration_ml_per_g, applied),
        over=liquid.above(held, plan.liquid.limit_ml_per_g),
        liquor_index=mix.liquor_index,
        amounts_ml=amounts_ml,
        wanted_ml=wanted_ml,
        depth_pct_owf=depth,
        left_pct_owf=depth * kept[:, np.newaxis],
        acid_pct_owf=acid_pct,
    )


def _amounts(
    plan: Plan, mix: Recipes, liquid_ml: FloatArray, fibre_g: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return (n, stocks) ml of each stock and (n,) ml of dye stock that wanted depths need.

    Where the wanted depths need more stock than there is liquid, the stocks are cut to the liquid in
    proportion: the jar is neat and the depth falls short, which the checks report.
    """
    wanted = mix.wanted_ml_per_g * fibre_g[:, np.newaxis]
    needed = wanted.sum(axis=1)
    cut = np.divide(liquid_ml, needed, out=np.ones_like(needed), where=needed > liquid_ml)
    stocks = wanted * cut[:, np.newaxis]
    rest = liquid_ml - stocks.sum(axis=1)
    rest = np.where(rest > 1e-12 * liquid_ml, rest, 0.0)  # a neat jar has no trace of let-down from rounding
    amounts = stocks + rest[:, np.newaxis] * mix.shares
    if plan.acid_line is not None:
        line = [stock.id for stock in plan.stocks].index(plan.acid_line.stock_id)
        amounts = acid.with_acid_line(
            amounts, mix.acid_g_per_l, ~mix.is_dye, line, plan.acid_line.jar_g_per_l
        )
    return amounts, needed
