"""The numbers that a plan is given: how each is read, set, and where a new plan has it from.

The rule of this module: one entry a number; the pane of inputs makes a field of each.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from studio_gui.domain.edits.inputs import set_bench, set_fibre, set_lay, set_liquid
from studio_gui.domain.fibre import Lay
from studio_gui.domain.plan import WICKING_MM, AcidLimits, Liquid, Plan
from studio_gui.wording.fields import FIELD_KINDS
from studio_gui.wording.quantities import Kind


@dataclass(frozen=True)
class Input:
    """A number of the plan: how it is read, and the edit that sets it."""

    field: str
    read: Callable[[Plan], float | None]
    write: Callable[[Plan, Any], Plan]
    may_be_unknown: bool = False
    kind: Kind | None = None


#: Syringes are graduated in quarters of a millilitre, which one decimal would not show.
_FINE_VOLUME = replace(FIELD_KINDS["graduation_ml"], decimals=2)

FIBRE = (
    Input("mass_g", lambda p: p.fibre.mass_g, lambda p, v: set_fibre(p, mass_g=v)),
    Input("length_m", lambda p: p.fibre.length_m, lambda p, v: set_fibre(p, length_m=v)),
    Input("rovings", lambda p: p.fibre.rovings, lambda p, v: set_fibre(p, rovings=int(v))),
)
LAY = (Input("overhang_m", lambda p: p.lay.overhang_m, lambda p, v: set_lay(p, overhang_m=v)),)
LIQUID = (
    Input(
        "uptake_ml_per_g", lambda p: p.liquid.uptake_ml_per_g, lambda p, v: set_liquid(p, uptake_ml_per_g=v)
    ),
    Input("soak_ml_per_g", lambda p: p.liquid.soak_ml_per_g, lambda p, v: set_liquid(p, soak_ml_per_g=v)),
    Input("limit_ml_per_g", lambda p: p.liquid.limit_ml_per_g, lambda p, v: set_liquid(p, limit_ml_per_g=v)),
    Input(
        "penetration_ml_per_g",
        lambda p: p.liquid.penetration_ml_per_g,
        lambda p, v: set_liquid(p, penetration_ml_per_g=v),
    ),
    Input(
        "soak_acid_g_per_l",
        lambda p: p.liquid.soak_acid_g_per_l,
        lambda p, v: set_liquid(p, soak_acid_g_per_l=v),
        may_be_unknown=True,
    ),
    Input("wicking_mm", lambda p: p.wicking_mm, lambda p, v: replace(p, wicking_mm=v)),
)
BENCH = (
    Input("spare_share", lambda p: p.bench.spare_share, lambda p, v: set_bench(p, spare_share=v)),
    Input("dead_ml", lambda p: p.bench.dead_ml, lambda p, v: set_bench(p, dead_ml=v)),
    Input(
        "graduation_ml",
        lambda p: p.bench.graduation_ml,
        lambda p, v: set_bench(p, graduation_ml=v),
        kind=_FINE_VOLUME,
    ),
)
ACID = (
    Input("acid_ratio_limit", lambda p: p.acid.ratio, lambda p, v: replace(p, acid=replace(p.acid, ratio=v))),
    Input(
        "acid_floor_pct_owf",
        lambda p: p.acid.floor_pct_owf,
        lambda p, v: replace(p, acid=replace(p.acid, floor_pct_owf=v)),
    ),
)

#: What a new plan starts with, where that is common practice without a source.
COMMON_PRACTICE: dict[str, float] = {
    "uptake_ml_per_g": Liquid().uptake_ml_per_g,
    "soak_ml_per_g": Liquid().soak_ml_per_g,
    "limit_ml_per_g": Liquid().limit_ml_per_g,
    "penetration_ml_per_g": Liquid().penetration_ml_per_g,
    "wicking_mm": WICKING_MM,
    "overhang_m": Lay().overhang_m,
    "acid_ratio_limit": AcidLimits().ratio,
    "acid_floor_pct_owf": AcidLimits().floor_pct_owf,
}
#: Figures that can be measured by weighing a tuft, and by lots that were painted.
WEIGHED = ("soak_ml_per_g", "limit_ml_per_g")
FROM_LOTS = ("uptake_ml_per_g", "penetration_ml_per_g")
