"""The rows and columns of the table of sections.

The rule of this module: figures come from the worksheet; cells are compared all at once, as arrays, for a
dragged boundary asks at every move.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

from studio_gui.document.row_model import Row
from studio_gui.domain.figures import Saturation
from studio_gui.domain.liquors import Liquor
from studio_gui.domain.plan import Plan
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


#: The columns of figures, and what kind of quantity each shows.
FIGURES: dict[int, Kind] = {
    Column.FROM: LAY_LENGTH,
    Column.TO: LAY_LENGTH,
    Column.LENGTH: LAY_LENGTH,
    Column.FIBRE: MASS,
    Column.LIQUID: VOLUME,
    Column.PER_ROVING: VOLUME,
    Column.APPLIED: WETNESS,
    Column.DEPTH: DEPTH,
    Column.ACID: DEPTH,
    Column.WIPED: VOLUME,
    Column.GAP: LAY_LENGTH,
}

#: Figures that agree to so many decimals of the plan's unit are the same but for the dust of reckoning.
_DECIMALS = 9

FloatArray = NDArray[np.float64]
Columns = dict[int, FloatArray]


@dataclass(frozen=True, slots=True)
class SectionRow(Row):
    """A section of a worksheet."""

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


@dataclass(frozen=True, eq=False)
class Cells:
    """What is shown of every section, to be compared with what is shown of another worksheet.

    Attributes
    ----------
    sections, liquors
        Where the words come from: names, letters, locks, and whether liquid is fixed.
    numbers
        (n, columns) a number for each cell, the same where two cells show the same; 0 for words.
    """

    sections: tuple[Section, ...]
    liquors: tuple[Liquor, ...]
    numbers: FloatArray

    def has_words_of(self, plan: Plan) -> bool:
        """Tell whether `plan` shows the same words, because it has the very same sections and liquors."""
        return self.sections is plan.sections and self.liquors is plan.liquors

    def words(self) -> list[tuple[object, ...]]:
        """Return all that is shown of each section besides numbers."""
        liquors = {liquor.id: liquor for liquor in self.liquors}
        rows = [(liquors[section.liquor_id], section) for section in self.sections]
        return [
            (liquor.letter, liquor.name, section.name, section.locked, section.fixed_ml is None)
            for liquor, section in rows
        ]


def rows_of(sheet: Worksheet) -> list[SectionRow]:
    """Return the rows of all sections."""
    columns = columns_of(sheet)
    return [
        SectionRow(section.id, index, sheet, columns) for index, section in enumerate(sheet.plan.sections)
    ]


def cells_of(sheet: Worksheet) -> Cells:
    """Return what is shown of every section; nan, which equals nothing, is -1."""
    figures = sheet.figures
    numbers = np.zeros((len(figures), len(Column)))
    for column, values in columns_of(sheet).items():
        numbers[:, column] = values
    colours = np.rint(np.clip(sheet.colours.srgb, 0.0, 1.0) * 255.0)
    numbers[:, Column.LETTER] = colours @ np.array([65536.0, 256.0, 1.0])
    numbers[:, Column.STATE] = np.where(figures.over, 1.0 + figures.free_ml, -1.0 * figures.under)
    numbers[np.isnan(numbers)] = -1.0
    return Cells(sheet.plan.sections, sheet.plan.liquors, numbers.round(_DECIMALS))


def columns_of(sheet: Worksheet) -> Columns:
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
