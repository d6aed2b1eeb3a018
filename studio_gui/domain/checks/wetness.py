"""Checks of wetness: too little liquor leaves white cores, too much runs free.

The rule of this module: over and under are judged by `SectionFigures`; here they get their numbers and the
ways out, each with its cost.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.checks.check import Check, Mend
from studio_gui.domain.errors import Param
from studio_gui.domain.figures import SectionFigures
from studio_gui.domain.liquid import above, wiped_share
from studio_gui.domain.ranges import exceeds
from studio_gui.domain.sections import Section

#: ml/g that a spun-out soak still holds; common practice, no source.
SPUN_OUT_SOAK_ML_PER_G = 0.5


@dataclass(frozen=True, slots=True)
class _Row:
    """What this module needs of one section, as plain numbers: arrays are slow to read one by one.

    `first_ml` is painted before the first heating; `lost_share` is the dye that goes with a wipe of all that
    is free.
    """

    index: int
    section: Section
    fibre_g: float
    liquid_ml: float
    first_ml: float
    wanted_ml: float
    held_ml_per_g: float
    free_ml: float
    depth_pct_owf: float
    dye_ml: float
    lost_share: float


def _rows(figures: SectionFigures, which: NDArray[np.bool_]) -> Iterator[_Row]:
    plan = figures.plan
    soak = plan.liquid.soak_ml_per_g
    is_dye = np.array([stock.is_dye for stock in plan.stocks], dtype=bool)
    columns = (
        figures.fibre_g,
        figures.liquid_ml,
        (figures.held_before_wiping_ml_per_g - soak) * figures.fibre_g,
        figures.wanted_ml,
        figures.held_before_wiping_ml_per_g,
        figures.free_ml,
        figures.depth_pct_owf.sum(axis=1),
        figures.amounts_ml[:, is_dye].sum(axis=1),
        wiped_share(figures.wiped_ml + figures.free_ml, soak * figures.fibre_g, figures.liquid_ml),
    )
    chosen = np.flatnonzero(which)
    numbers = np.column_stack(columns)[chosen].tolist()
    for index, row in zip(chosen.tolist(), numbers, strict=True):
        yield _Row(index, plan.sections[index], *row)


def under(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``under`` for each section whose liquor does not reach the core."""
    liquid = figures.plan.liquid
    core = liquid.penetration_ml_per_g
    # with no room between a dry core and free liquid, only the limits can give
    mendable = not exceeds(liquid.soak_ml_per_g + core, liquid.limit_ml_per_g)
    for row in _rows(figures, figures.under & figures.judged):
        params: dict[str, Param] = {
            "liquid_ml": row.liquid_ml,
            "applied_ml_per_g": row.liquid_ml / row.fibre_g,
            "penetration_ml_per_g": core,
        }
        mends = tuple(_under_mends(row, core)) if mendable else ()
        yield Check("under", "warning", (row.section.id,), params, mends)


def _under_mends(row: _Row, core: float) -> Iterator[Mend]:
    """Yield the ways to wet the core: by uptake where the liquid follows the fibre, and by ml."""
    wetter_ml = core * row.fibre_g
    cost: dict[str, Param] = {
        "depth_pct_owf": row.depth_pct_owf,
        "depth_after_pct_owf": _depth_at(row, wetter_ml),
    }
    if row.section.fixed_ml is None:
        yield Mend("raise-uptake", {"uptake_ml_per_g": core, **cost})
    yield Mend("raise-liquid", {"section_id": row.section.id, "liquid_ml": wetter_ml, **cost})


def _depth_at(row: _Row, liquid_ml: float) -> float:
    """Return the depth (% owf) with other liquid: it goes with it, but never past a depth that is wanted."""
    if row.wanted_ml > 0.0:
        return row.depth_pct_owf * min(liquid_ml, row.wanted_ml) / min(row.liquid_ml, row.wanted_ml)
    return row.depth_pct_owf * liquid_ml / row.liquid_ml


def over(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``over`` for each section with free liquid; a note where a planned wipe takes it all."""
    soak, limit = figures.plan.liquid.soak_ml_per_g, figures.plan.liquid.limit_ml_per_g
    fibre_g: list[float] = figures.fibre_g.tolist()
    for row in _rows(figures, above(figures.held_before_wiping_ml_per_g, limit) & figures.paintable):
        params: dict[str, Param] = {
            "held_ml_per_g": row.held_ml_per_g,
            "limit_ml_per_g": limit,
            "free_ml": row.free_ml,
            "free_before_wiping_ml": (row.held_ml_per_g - limit) * row.fibre_g,
            "wiped_ml": row.section.wiped_ml,
        }
        if figures.over[row.index]:
            params |= _creep(row, soak, fibre_g)
            yield Check("over", "warning", (row.section.id,), params, tuple(_over_mends(row, soak)))
        else:
            yield Check("over", "note", (row.section.id,), params)


def _creep(row: _Row, soak: float, fibre_g: list[float]) -> dict[str, Param]:
    """Return what half the free liquid brings to each neighbour: % owf of this section's dye."""
    dye_g = row.depth_pct_owf * row.fibre_g / 100.0
    free_dye_g = dye_g * row.free_ml / (soak * row.fibre_g + row.liquid_ml)
    creep: dict[str, Param] = {"free_dye_g": free_dye_g}
    if row.index > 0:
        creep["creep_before_pct_owf"] = 50.0 * free_dye_g / fibre_g[row.index - 1]
    if row.index + 1 < len(fibre_g):
        creep["creep_after_pct_owf"] = 50.0 * free_dye_g / fibre_g[row.index + 1]
    return creep


def _over_mends(row: _Row, soak: float) -> Iterator[Mend]:
    """Yield the four ways out of free liquid: spin out, less but stronger, two passes, wipe."""
    section_id = row.section.id
    drier = soak - row.free_ml / row.fibre_g
    if not exceeds(SPUN_OUT_SOAK_ML_PER_G, drier):
        yield Mend("spin-out", {"soak_ml_per_g": drier})
    # what is painted at first can be less, or wait for the second pass; a soak that is over by itself cannot
    first_ml = row.first_ml - row.free_ml
    if exceeds(row.first_ml, row.free_ml):
        yield _less_but_stronger(row)
        later_ml = row.liquid_ml - first_ml
        passes = {"first_ml": first_ml, "press_out_ml": later_ml, "second_pass_ml": later_ml}
        yield Mend("two-passes", {"section_id": section_id, **passes})
    cost = {
        "dye_lost_share": row.lost_share,
        "depth_pct_owf": row.depth_pct_owf,
        "depth_after_pct_owf": row.depth_pct_owf * (1.0 - row.lost_share),
    }
    wiped_ml = row.section.wiped_ml + row.free_ml
    yield Mend("wipe", {"section_id": section_id, "wiped_ml": wiped_ml, **cost})


def _less_but_stronger(row: _Row) -> Mend:
    """Return the mend that keeps the depth with less liquor; advice only where the stocks are too weak."""
    less_ml = row.liquid_ml - row.free_ml
    params: dict[str, Param] = {
        "section_id": row.section.id,
        "liquid_ml": less_ml,
        "jar_pct": row.depth_pct_owf * row.fibre_g / less_ml,
        "dye_ml": row.dye_ml,
        "let_down_ml": max(less_ml - row.dye_ml, 0.0),
    }
    if exceeds(row.dye_ml, less_ml):
        return Mend("less-but-stronger", params | {"stock_factor": row.dye_ml / less_ml}, one_click=False)
    return Mend("less-but-stronger", params)
