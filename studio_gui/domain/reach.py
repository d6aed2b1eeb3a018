"""How deep a liquor can go.

The rule of this module: a depth is within reach where the stocks alone fit into the liquid of every section
that is painted with the liquor, so the driest of them decides.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.dye import reachable_depth_pct_owf
from studio_gui.domain.figures import SectionFigures
from studio_gui.domain.ranges import RANGES

FloatArray = NDArray[np.float64]


def reach_pct_owf(figures: SectionFigures, liquor_id: str) -> FloatArray:
    """Return (dyes,) how deep each dye can go in a liquor by depth, % owf, the other dyes as they are wanted.

    In the plan's order of dyes, 0 to the largest depth a plan may hold. A liquor that is painted nowhere is
    bound by nothing else.
    """
    plan = figures.plan
    liquor = plan.liquor(liquor_id)
    depths = {depth.stock_id: depth.depth_pct_owf for depth in liquor.depths}
    strengths = np.array([dye.strength_pct for dye in plan.dyes])
    own_ml_per_g = np.array([depths.get(dye.id, 0.0) for dye in plan.dyes]) / strengths
    users = figures.liquor_index == [one.id for one in plan.liquors].index(liquor_id)
    wanted_ml_per_g = (figures.wanted_ml[users] / figures.fibre_g[users])[:, np.newaxis]
    reach = reachable_depth_pct_owf(
        figures.applied_ml_per_g[users, np.newaxis], wanted_ml_per_g - own_ml_per_g, strengths
    )
    deepest: FloatArray = reach.min(axis=0, initial=RANGES["depth_pct_owf"].high)
    return deepest
