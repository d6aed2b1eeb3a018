"""How a dye deepens: its colour from no dye to beyond its deepest swatch.

The rule of this module: it only asks `predicted_srgb`, so that the curve that is drawn is the one that every
section is coloured by.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from studio_gui.domain.colour.fit import DyeCurve
from studio_gui.domain.colour.mixing import predicted_lab, predicted_srgb
from studio_gui.domain.colour.spaces import Array
from studio_gui.domain.colour.swatches import Swatch

#: How far beyond the deepest swatch the curve is shown; it is extrapolation there.
BEYOND = 1.25
_STEPS = 121


@dataclass(frozen=True, slots=True, eq=False)
class BuildUp:
    """A dye at rising depths: `depths_pct_owf` (n,), `lightness` L* (n,), `srgb` (n, 3), on one fibre."""

    depths_pct_owf: Array
    lightness: Array
    srgb: Array
    undyed_srgb: str


def build_up(curve: DyeCurve, swatches: Sequence[Swatch]) -> BuildUp:
    """Return the build-up on the fibre that most of the swatches were dyed on.

    >>> from studio_gui.domain.colour.fit import dye_curve
    >>> one = (Swatch(2.0, "#3a6ea5", "#f2ebdc"),)
    >>> float(build_up(dye_curve(one), one).depths_pct_owf[-1])
    2.5
    """
    undyed_srgb = Counter(swatch.fibre_srgb for swatch in swatches).most_common(1)[0][0]
    deepest = max(swatch.depth_pct_owf for swatch in swatches)
    depths = np.linspace(0.0, BEYOND * deepest, _STEPS)
    doses = depths[:, np.newaxis]
    return BuildUp(
        depths,
        predicted_lab(doses, (curve,), undyed_srgb)[:, 0],
        predicted_srgb(doses, (curve,), undyed_srgb).srgb,
        undyed_srgb,
    )
