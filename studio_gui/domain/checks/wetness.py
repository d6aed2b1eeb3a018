"""Checks of wetness: too little liquor leaves white cores, too much runs free.

The rule of this module: over and under are judged by `SectionFigures`; here they get their numbers and the
ways out, each with its cost.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from studio_gui.domain.checks.check import Check, Mend
from studio_gui.domain.errors import Param
from studio_gui.domain.figures import SectionFigures
from studio_gui.domain.liquid import above, wiped_share
from studio_gui.domain.ranges import exceeds

#: ml/g that a spun-out soak still holds; common practice, no source.
SPUN_OUT_SOAK_ML_PER_G = 0.5


def under(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``under`` for each section whose liquor does not reach the core."""
    liquid = figures.plan.liquid
    core = liquid.penetration_ml_per_g
    for index in np.flatnonzero(figures.under & (figures.liquid_ml > 0.0)).tolist():
        section = figures.plan.sections[index]
        grams = float(figures.fibre_g[index])
        depth = float(figures.depth_pct_owf[index].sum())
        by_depth = figures.plan.liquors[figures.liquor_index[index]].basis == "depth"
        factor = 1.0 if by_depth else core / float(figures.applied_ml_per_g[index])
        raised: dict[str, Param] = {"depth_pct_owf": depth, "depth_after_pct_owf": depth * factor}
        mends = []
        if section.fixed_ml is None:
            mends.append(Mend("raise-uptake", {"uptake_ml_per_g": core, **raised}))
        mends.append(Mend("raise-liquid", {"section_id": section.id, "liquid_ml": core * grams, **raised}))
        params: dict[str, Param] = {
            "liquid_ml": float(figures.liquid_ml[index]),
            "applied_ml_per_g": float(figures.applied_ml_per_g[index]),
            "penetration_ml_per_g": core,
        }
        if exceeds(liquid.soak_ml_per_g + core, liquid.limit_ml_per_g):
            mends = []  # the limits leave no room between dry core and free liquid: only the limits can give
        yield Check("under", "warning", (section.id,), params, tuple(mends))


def over(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``over`` for each section with free liquid; a note where a planned wipe takes it all."""
    limit = figures.plan.liquid.limit_ml_per_g
    brimming = above(figures.held_before_wiping_ml_per_g, limit)
    for index in np.flatnonzero(brimming).tolist():
        section = figures.plan.sections[index]
        grams = float(figures.fibre_g[index])
        before = (float(figures.held_before_wiping_ml_per_g[index]) - limit) * grams
        params: dict[str, Param] = {
            "held_ml_per_g": float(figures.held_before_wiping_ml_per_g[index]),
            "limit_ml_per_g": limit,
            "free_ml": float(figures.free_ml[index]),
            "free_before_wiping_ml": before,
            "wiped_ml": float(figures.wiped_ml[index]),
        }
        if not figures.over[index]:
            yield Check("over", "note", (section.id,), params)
            continue
        params |= _creep(figures, index)
        yield Check("over", "warning", (section.id,), params, tuple(_over_mends(figures, index)))


def _creep(figures: SectionFigures, index: int) -> dict[str, Param]:
    """Return what half the free liquid brings to each neighbour: % owf of this section's dye."""
    present_ml = figures.plan.liquid.soak_ml_per_g * figures.fibre_g[index] + figures.liquid_ml[index]
    dye_g = float(figures.depth_pct_owf[index].sum()) * figures.fibre_g[index] / 100.0
    free_dye_g = float(figures.free_ml[index] * dye_g / present_ml)
    creep: dict[str, Param] = {"free_dye_g": free_dye_g}
    if index > 0:
        creep["creep_before_pct_owf"] = float(50.0 * free_dye_g / figures.fibre_g[index - 1])
    if index + 1 < len(figures):
        creep["creep_after_pct_owf"] = float(50.0 * free_dye_g / figures.fibre_g[index + 1])
    return creep


def _over_mends(figures: SectionFigures, index: int) -> Iterator[Mend]:
    """Yield the four ways out of free liquid: spin out, less but stronger, two passes, wipe."""
    plan, section = figures.plan, figures.plan.sections[index]
    soak, limit = plan.liquid.soak_ml_per_g, plan.liquid.limit_ml_per_g
    grams, liquid_ml = float(figures.fibre_g[index]), float(figures.liquid_ml[index])
    free = float(figures.free_ml[index])
    drier = soak - free / grams
    if not exceeds(SPUN_OUT_SOAK_ML_PER_G, drier):
        yield Mend("spin-out", {"soak_ml_per_g": drier})
    less_ml = liquid_ml - free
    if less_ml > 0.0:
        yield _less_but_stronger(figures, index, less_ml)
        yield Mend(
            "two-passes",
            {
                "section_id": section.id,
                "first_ml": less_ml - section.second_pass_ml,
                "press_out_ml": free + section.second_pass_ml,
                "second_pass_ml": free + section.second_pass_ml,
            },
        )
    wiped = section.wiped_ml + free
    share = float(wiped_share(wiped, soak * grams, liquid_ml))
    depth = float(figures.depth_pct_owf[index].sum())
    yield Mend(
        "wipe",
        {
            "section_id": section.id,
            "wiped_ml": wiped,
            "dye_lost_share": share,
            "depth_pct_owf": depth,
            "depth_after_pct_owf": depth * (1.0 - share),
        },
    )


def _less_but_stronger(figures: SectionFigures, index: int, less_ml: float) -> Mend:
    """Return the mend that keeps the depth with less liquor; advice only where the stocks are too weak."""
    section = figures.plan.sections[index]
    is_dye = np.array([stock.is_dye for stock in figures.plan.stocks], dtype=bool)
    dye_ml = float(figures.amounts_ml[index, is_dye].sum())
    depth = float(figures.depth_pct_owf[index].sum())
    params: dict[str, Param] = {
        "section_id": section.id,
        "liquid_ml": less_ml,
        "jar_pct": depth * float(figures.fibre_g[index]) / less_ml,
        "dye_ml": dye_ml,
        "let_down_ml": max(less_ml - dye_ml, 0.0),
    }
    if exceeds(dye_ml, less_ml):
        return Mend("less-but-stronger", params | {"stock_factor": dye_ml / less_ml}, one_click=False)
    return Mend("less-but-stronger", params)
