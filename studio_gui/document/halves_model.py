"""The table of the halves, a colour a row.

The rule of this module: a colour that only one half has leaves the cells of the other empty, and has no
slide.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from studio_gui.document.yarn_models import DECIMALS, FigureModel, FigureRow
from studio_gui.domain.spinning.halves import HalfColour
from studio_gui.wording.naming import liquor_name
from studio_gui.wording.quantities import MASS, YARN_LENGTH, shown_bare

NAME, SLIDE = 0, 5
#: One object for all, because rows that hold it are compared.
_NONE = math.nan


class HalvesModel(FigureModel):
    """Colours from the outer ends on: g and m of singles in each half, and the slide at the end of each."""

    kinds = (None, MASS, YARN_LENGTH, MASS, YARN_LENGTH, YARN_LENGTH)

    def names(self) -> Sequence[str]:
        return (self.tr("Colour"), "1", "1", "2", "2", self.tr("slide"))

    def heading_explained(self, column: int) -> str | None:
        return {
            1: self.tr("Weight of the colour in half 1"),
            2: self.tr("Singles of the colour in half 1"),
            3: self.tr("Weight of the colour in half 2"),
            4: self.tr("Singles of the colour in half 2"),
            SLIDE: self.tr("How much later half 1 comes to the end of the colour, in singles"),
        }.get(column)

    def read(self) -> Sequence[FigureRow]:
        found = self.document.sheet.halves
        rows = []
        for number, pair in enumerate(found.pairs):
            name = liquor_name(found.plan, found.plan.liquors[pair.liquor].id)
            slide = _NONE if pair.slide_m is None else round(pair.slide_m, DECIMALS)
            rows.append(FigureRow(str(number), (name, *_figures(pair.first), *_figures(pair.second), slide)))
        return rows

    def _shown(self, row: FigureRow, column: int) -> str:
        words = super()._shown(row, column)
        if column != SLIDE or not float(row.cells[SLIDE]) > 0.0:
            return words
        return f"+{words}" if words != shown_bare(YARN_LENGTH, 0.0) else words


def _figures(one: HalfColour | None) -> tuple[float, float]:
    return (_NONE, _NONE) if one is None else (round(one.weight_g, DECIMALS), round(one.length_m, DECIMALS))
