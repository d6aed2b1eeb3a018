"""Checks of acid: unknown, uneven, too low.

The rule of this module: pale and dark sections must get the same acid; unknown acid is said once, with the
quick answer "same as the acid water".
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.acid import acid_pct_owf, jar_acid_g_per_l, with_acid_line
from studio_gui.domain.checks.check import Check, Mend
from studio_gui.domain.errors import Param
from studio_gui.domain.figures import SectionFigures
from studio_gui.domain.liquid import above
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import RANGES, exceeds
from studio_gui.domain.stocks import Stock

FloatArray = NDArray[np.float64]


def acid_water(plan: Plan) -> Stock | None:
    """Return the weakest let-down that is known to carry acid, None where there is none."""
    sour = [stock for stock in plan.let_downs if stock.acid_g_per_l]
    return min(sour, key=lambda stock: stock.acid_g_per_l or 0.0, default=None)


def unknown(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``acid-unknown`` once, naming every stock (and the soak water) whose unknown acid matters."""
    plan = figures.plan
    stocks = [
        s
        for s, is_used in zip(plan.stocks, figures.used_stocks, strict=True)
        if is_used and s.acid_g_per_l is None
    ]
    soak = plan.liquid.soak_acid_g_per_l is None and plan.liquid.soak_ml_per_g > 0.0
    if not stocks and not soak:
        return
    missing = np.flatnonzero(np.isnan(figures.acid_pct_owf)).tolist()
    water = acid_water(plan)
    mends: tuple[Mend, ...] = ()
    if stocks and water is not None and water.acid_g_per_l is not None:
        params: dict[str, Param] = {"stock_id": water.id, "acid_g_per_l": water.acid_g_per_l}
        mends = (Mend("same-as-acid-water", params),)
    yield Check(
        "acid-unknown",
        "note",
        tuple(plan.sections[index].id for index in missing),
        {"stocks": ", ".join(stock.name for stock in stocks), "count": len(stocks), "soak_water": soak},
        mends,
    )


def uneven(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``acid-uneven`` once when known acids of painted sections differ by more than the ratio."""
    plan = figures.plan
    known = _known(figures)
    acid = figures.acid_pct_owf[known]
    if not _differ(acid, plan.acid.ratio):
        return
    lowest, highest = known[np.argmin(acid)], known[np.argmax(acid)]
    params: dict[str, Param] = {
        "lowest_pct_owf": float(acid.min()),
        "highest_pct_owf": float(acid.max()),
        "lowest_id": plan.sections[lowest].id,
        "highest_id": plan.sections[highest].id,
        "ratio_limit": plan.acid.ratio,
    }
    if exceeds(float(acid.min()), 0.0):
        params["ratio"] = float(acid.max() / acid.min())
    ids = _ids(plan, np.sort([lowest, highest]))
    yield Check("acid-uneven", "warning", ids, params, tuple(_even_mends(figures, known)))


def too_low(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``acid-too-low`` once, naming the painted sections whose known acid is below the floor."""
    plan = figures.plan
    floor = plan.acid.floor_pct_owf
    known = _known(figures)
    low = known[above(floor, figures.acid_pct_owf[known])]
    if not len(low):
        return
    soak_pct = plan.liquid.soak_ml_per_g * (plan.liquid.soak_acid_g_per_l or 0.0) / 10.0
    driest = float(figures.applied_ml_per_g[figures.judged].min())
    needed = 10.0 * (floor - soak_pct) / driest
    params: dict[str, Param] = {
        "lowest_pct_owf": float(figures.acid_pct_owf[low].min()),
        "floor_pct_owf": floor,
        "count": len(low),
        "needed_g_per_l": needed,
    }
    mends: tuple[Mend, ...] = ()
    if needed <= RANGES["acid_g_per_l"].high:
        mends = (Mend("acid-in-every-bottle", {"acid_g_per_l": needed}),)
    yield Check("acid-too-low", "warning", _ids(plan, low), params, mends)


def line_short(figures: SectionFigures) -> Iterator[Check]:
    """Yield ``acid-line-short`` where a jar has too little let-down to take the acid line's whole share."""
    line = figures.plan.acid_line
    if line is None:
        return
    jar = jar_acid_g_per_l(figures.amounts_ml, np.nan_to_num(figures.recipes.acid_g_per_l))
    short = np.flatnonzero(above(line.jar_g_per_l, jar) & figures.judged).tolist()
    if short:
        params: dict[str, Param] = {
            "wanted_g_per_l": line.jar_g_per_l,
            "lowest_g_per_l": float(jar[short].min()),
        }
        yield Check("acid-line-short", "warning", tuple(figures.plan.sections[i].id for i in short), params)


def _known(figures: SectionFigures) -> NDArray[np.intp]:
    return np.flatnonzero(figures.judged & ~np.isnan(figures.acid_pct_owf))


def _ids(plan: Plan, indices: NDArray[np.intp]) -> tuple[str, ...]:
    return tuple(plan.sections[index].id for index in indices.tolist())


def _differ(acid: FloatArray, ratio: float) -> bool:
    return len(acid) > 1 and exceeds(float(acid.max()), ratio * float(acid.min()))


def _even_mends(figures: SectionFigures, known: NDArray[np.intp]) -> Iterator[Mend]:
    """Yield acid in every bottle, and acid as a line of its own; each says whether acid will still differ."""
    plan = figures.plan
    acids = figures.recipes.acid_g_per_l
    applied = figures.applied_ml_per_g[figures.judged]
    spread: dict[str, Param] = {"applied_ratio": float(applied.max() / applied.min())}
    jars = jar_acid_g_per_l(figures.amounts_ml[known], acids)
    if not exceeds(float(jars.max()), float(jars.min())):
        # every jar is alike already: only the wetness differs, and bottles cannot mend that
        yield Mend("even-the-liquid", spread, one_click=False)
        return
    water = acid_water(plan)
    if water is None or water.acid_g_per_l is None:
        return

    def still_uneven(jar_g_per_l: FloatArray) -> dict[str, Param]:
        soak = plan.liquid.soak_ml_per_g
        acid = acid_pct_owf(applied, jar_g_per_l, soak, plan.liquid.soak_acid_g_per_l or 0.0)
        return {"still_uneven": _differ(acid[~np.isnan(acid)], plan.acid.ratio)}

    target: dict[str, Param] = {"acid_g_per_l": water.acid_g_per_l, **spread}
    alike = np.full(len(applied), water.acid_g_per_l)
    yield Mend("acid-in-every-bottle", target | still_uneven(alike))
    citric = max(plan.let_downs, key=lambda stock: stock.acid_g_per_l or 0.0)
    if plan.acid_line is None and citric.id != water.id:
        let_down = np.array([not stock.is_dye for stock in plan.stocks], dtype=bool)
        line = plan.stocks.index(citric)
        lined = with_acid_line(figures.amounts_ml[figures.judged], acids, let_down, line, water.acid_g_per_l)
        yield Mend(
            "acid-line", {"stock_id": citric.id} | target | still_uneven(jar_acid_g_per_l(lined, acids))
        )
