"""Colours along strip and yarn, strand by strand.

The rule of this module: every colour is one of the lay's, made of `profile_at` over a table of even
places fine enough for any wicking that can be seen; strip and yarn only say which place.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.colour.spaces import linear_from_srgb
from studio_gui.domain.geometry import lay_mass_to, lay_position
from studio_gui.domain.profile import colours_of, profile_at
from studio_gui.domain.spinning.figures import YarnFigures
from studio_gui.domain.worksheet import Worksheet

FloatArray = NDArray[np.float64]

#: Places on the lay whose colours are asked for: a millimetre or two apart on a usual lay.
PLACES = 1536


class LayColours:
    """The lay's colours as linear red, green, blue, to be looked up by place.

    `before`, of the worksheet that came before, only spares time: where depths are the same, so is colour.
    """

    linear: FloatArray
    _places_g: FloatArray

    def __init__(self, sheet: Worksheet, before: LayColours | None = None) -> None:
        plan = sheet.plan
        self.sheet = sheet
        self._per_m = PLACES / plan.lay_length_m
        self._wool = (plan.fibre, plan.lay, plan.stocks, sheet.in_grey)
        if before is None or before._wool != self._wool:
            places_m = (np.arange(PLACES) + 0.5) / self._per_m
            self._places_g = lay_mass_to(plan.fibre, plan.lay, places_m)
            self._depths = profile_at(sheet.figures, self._places_g)
            self.linear = np.empty((PLACES, 3))
            changed = np.ones(PLACES, np.bool_)
        else:
            self._places_g = before._places_g
            self._depths = profile_at(sheet.figures, self._places_g)
            self.linear = before.linear.copy()
            changed = (self._depths != before._depths).any(axis=1)
        self.linear[changed] = linear_from_srgb(sheet.seen(colours_of(plan, self._depths[changed])).srgb)

    def at(self, lay_m: FloatArray) -> FloatArray:
        """Return the linear colours, shape (..., 3), at places on the lay, m, shape (...)."""
        columns = np.clip(lay_m * self._per_m, 0.0, PLACES - 1.0).astype(np.intp)
        return np.take(self.linear, columns, axis=0)

    def along_strip(self, columns: int) -> FloatArray:
        """Return (columns, 3) along the whole strip of the first roving, in spinning order."""
        plan = self.sheet.plan
        fibre = plan.fibre.roving(0)
        places_m = (np.arange(columns) + 0.5) * (fibre.length_m / columns)
        return self.at(lay_position(fibre, plan.lay, places_m))

    def along_yarn(self, laid_m: FloatArray, spun: YarnFigures | None = None) -> FloatArray:
        """Return (strands twisted, p, 3) at (p,) places on the yarn or on `spun`, laid m."""
        return self.at((spun or self.sheet.yarn).lay_m(laid_m))
