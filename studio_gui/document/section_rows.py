"""The rows and columns of the table of sections.

The rule of this module: figures come from the worksheet; a row is compared as it is shown, rounded.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

from studio_gui.document.row_model import Row
from studio_gui.domain.colour.spaces import hex_from_srgb
from studio_gui.domain.figures import Saturation
from studio_gui.domain.liquors import Liquor
from studio_gui.domain.sections import Section
from studio_gui.domain.worksheet import Worksheet
from studio_gui.wording.quantities import DEPTH, LAY_LENGTH, MASS, VOLUME, WETNESS, Kind


class Column(IntEnum):
    """The columns of the table."""

    LETTER = 0
    NAME = 1
    FROM = 2
    TO = 3
    LENGTH = 4
    FIBRE = 5
    LIQUID = 6
    PER_ROVING = 7
    APPLIED = 8
    DEPTH = 9
    ACID = 10
    STATE = 11
    WIPED = 12
    GAP = 13
    LOCKED = 14


@dataclass(frozen=True, slots=True)
class Figure:
    """How a column of figures is shown, and to how many decimals of the plan's unit it is told apart.

    These are no coarser than the last place shown in any system of units.
    """

    kind: Kind
    decimals: int


FIGURES: dict[int, Figure] = {
    Column.FROM: Figure(LAY_LENGTH, 4),
    Column.TO: Figure(LAY_LENGTH, 4),
    Column.LENGTH: Figure(LAY_LENGTH, 4),
    Column.FIBRE: Figure(MASS, 1),
    Column.LIQUID: Figure(VOLUME, 1),
    Column.PER_ROVING: Figure(VOLUME, 1),
    Column.APPLIED: Figure(WETNESS, 3),
    Column.DEPTH: Figure(DEPTH, 2),
    Column.ACID: Figure(DEPTH, 2),
    Column.WIPED: Figure(VOLUME, 1),
    Column.GAP: Figure(LAY_LENGTH, 4),
}

Columns = dict[int, NDArray[np.float64]]


@dataclass(frozen=True, slots=True)
class SectionRow(Row):
    """A section of a worksheet; `shown` is all that the table shows of it, rounded as it is shown."""

    shown: tuple[object, ...]
    index: int = field(compare=False)
    sheet: Worksheet = field(compare=False)
    columns: Columns = field(compare=False)

    @property
    def section(self) -> Section:
        """The section itself."""
        return self.sheet.plan.sections[self.index]

    @property
    def liquor(self) -> Liquor:
        """The liquor that it is painted with."""
        return self.sheet.plan.liquor(self.section.liquor_id)

    @property
    def saturation(self) -> Saturation:
        """How wet it is."""
        return self.sheet.figures.saturation(self.index)

    @property
    def is_first(self) -> bool:
        """Whether it lies at the start of the lay."""
        return self.index == 0

    @property
    def is_last(self) -> bool:
        """Whether it lies at the end of the lay."""
        return self.index == len(self.sheet.plan.sections) - 1

    def figure(self, column: int) -> float:
        """Return the figure of a column, in the plan's unit."""
        return float(self.columns[column][self.index])


def rows_of(sheet: Worksheet) -> list[SectionRow]:
    """Return the rows of all sections; nan, which equals nothing, is compared as -1."""
    columns = _columns_of(sheet)
    rounded = [np.round(columns[column], figure.decimals) for column, figure in FIGURES.items()]
    free_ml = np.round(sheet.figures.free_ml, 1)
    numbers = np.nan_to_num(np.column_stack([*rounded, free_ml]), nan=-1.0).tolist()
    letters = [liquor.letter for liquor in sheet.plan.liquors]
    liquors = sheet.figures.liquor_index.tolist()
    rows = []
    for index, section in enumerate(sheet.plan.sections):
        shown = (
            section.name,
            section.locked,
            section.fixed_ml is None,
            letters[liquors[index]],
            hex_from_srgb(sheet.colours.srgb[index]),
            sheet.figures.saturation(index),
            *numbers[index],
        )
        rows.append(SectionRow(section.id, shown, index, sheet, columns))
    return rows


def _columns_of(sheet: Worksheet) -> Columns:
    """Return the figures of every column of figures, (n,) in the plan's units."""
    figures = sheet.figures
    return {
        Column.FROM: figures.edges_m[:-1],
        Column.TO: figures.edges_m[1:],
        Column.LENGTH: np.diff(figures.edges_m),
        Column.FIBRE: figures.fibre_g,
        Column.LIQUID: figures.liquid_ml,
        Column.PER_ROVING: figures.liquid_ml_per_roving,
        Column.APPLIED: figures.applied_ml_per_g,
        Column.DEPTH: figures.depth_in_all_pct_owf,
        Column.ACID: figures.acid_pct_owf,
        Column.WIPED: figures.wiped_ml,
        Column.GAP: np.array([*(boundary.gap_m for boundary in sheet.plan.boundaries), 0.0]),
    }
