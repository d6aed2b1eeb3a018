"""What each strand of a section takes: the liquor of one roving, pass by pass.

The rule of this module: a section is painted evenly by weight, so a strand takes its share of the weight.
"""

from __future__ import annotations

import numpy as np

from studio_gui.domain.figures import SectionFigures
from studio_gui.domain.geometry import mass_to, strip_position


def strand_ml(figures: SectionFigures, index: int) -> tuple[float, ...]:
    """Return the liquor (ml) that section `index` takes on each pass of ONE roving, in spinning order.

    They add up to the section's liquor over the rovings. A pass that does not reach the section takes 0.

    >>> from studio_gui.domain.figures import section_figures
    >>> from studio_gui.domain.new_plan import new_plan
    >>> strand_ml(section_figures(new_plan()), 0)
    (125.0,)
    """
    fibre, lay = figures.plan.fibre, figures.plan.lay
    ends_m = figures.edges_m[index : index + 2]
    strands_g = np.array(
        [
            abs(float(np.diff(mass_to(fibre, strip_position(fibre, lay, number, ends_m)))[0]))
            for number in range(lay.passes)
        ]
    )
    ml: list[float] = (figures.applied_ml_per_g[index] * strands_g).tolist()
    return tuple(ml)
