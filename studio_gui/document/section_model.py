"""The table of all sections, in the lay's order.

The rule of this module: figures come from the worksheet and are rounded only to be shown; what is typed into
a cell is one edit and one undo step.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import IntEnum
from functools import cached_property, partial
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont

from studio_gui.document.row_model import NO_WAY, RIGHT, SATURATION_ROLE, Role, Row, RowModel
from studio_gui.domain.colour.spaces import hex_from_srgb
from studio_gui.domain.edits.boundaries import set_section_length
from studio_gui.domain.edits.sections import change_section, set_locked
from studio_gui.domain.figures import Saturation
from studio_gui.domain.liquors import Liquor
from studio_gui.domain.sections import Section
from studio_gui.domain.worksheet import Worksheet
from studio_gui.wording.quantities import (
    DEPTH,
    LAY_LENGTH,
    MASS,
    VOLUME,
    WETNESS,
    Kind,
    parse,
    shown,
    shown_bare,
)
from studio_gui.wording.translation import TRANSLATED


class Column(IntEnum):
    """The columns of the table."""

    LETTER = 0
    NAME = 1
    FROM = 2
    LENGTH = 3
    FIBRE = 4
    LIQUID = 5
    PER_ROVING = 6
    APPLIED = 7
    DEPTH = 8
    ACID = 9
    STATE = 10
    LOCKED = 11


@dataclass(frozen=True, slots=True)
class _Figure:
    """How a column of figures is shown, and to how many decimals of the plan's unit it is told apart.

    These are no coarser than the last place shown in any system of units.
    """

    kind: Kind
    decimals: int


_FIGURES: dict[int, _Figure] = {
    Column.FROM: _Figure(LAY_LENGTH, 4),
    Column.LENGTH: _Figure(LAY_LENGTH, 4),
    Column.FIBRE: _Figure(MASS, 1),
    Column.LIQUID: _Figure(VOLUME, 1),
    Column.PER_ROVING: _Figure(VOLUME, 1),
    Column.APPLIED: _Figure(WETNESS, 3),
    Column.DEPTH: _Figure(DEPTH, 2),
    Column.ACID: _Figure(DEPTH, 2),
}
_EDITABLE = (Column.LETTER, Column.NAME, Column.LENGTH, Column.LIQUID)
_FOLLOW = ("", "follow", "follows", "follows fibre")


_Columns = dict[int, NDArray[np.float64]]


@dataclass(frozen=True, slots=True)
class SectionRow(Row):
    """A section of a worksheet; `shown` is all that the table shows of it, rounded as it is shown."""

    shown: tuple[object, ...]
    index: int = field(compare=False)
    sheet: Worksheet = field(compare=False)
    columns: _Columns = field(compare=False)

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

    def figure(self, column: int) -> float:
        """Return the figure of a column, in the plan's unit."""
        return float(self.columns[column][self.index])


class SectionModel(RowModel):
    """Sections as rows; see `Column`."""

    def read(self) -> Sequence[SectionRow]:
        return _rows_of(self.document.sheet)

    def headings(self) -> Sequence[str]:
        length, mass, volume, wetness = (
            kind.shown_in(TRANSLATED)[0] for kind in (LAY_LENGTH, MASS, VOLUME, WETNESS)
        )
        return (
            self.tr("Liquor"),
            self.tr("Section"),
            self.tr("from, {0}").format(length),
            length,
            mass,
            volume,
            self.tr("{0}/roving").format(volume),
            wetness,
            self.tr("depth %"),
            self.tr("acid %"),
            self.tr("Wetness"),
            self.tr("Locked"),
        )

    def ways_to_change(self, row: SectionRow, column: int) -> Qt.ItemFlag:
        if column == Column.LOCKED:
            return Qt.ItemFlag.ItemIsUserCheckable
        return Qt.ItemFlag.ItemIsEditable if column in _EDITABLE else NO_WAY

    @cached_property
    def said(self) -> Mapping[int, Callable[[SectionRow, int], object]]:
        return {
            Role.DisplayRole: self._shown,
            Role.EditRole: self._editable,
            Role.TextAlignmentRole: lambda _, column: RIGHT if column in _FIGURES else None,
            Role.DecorationRole: self._colour,
            Role.CheckStateRole: self._ticked,
            SATURATION_ROLE: lambda row, _: row.saturation,
            Role.FontRole: self._font,
            Role.ToolTipRole: self._explained,
            Role.AccessibleTextRole: self._said,
            Role.AccessibleDescriptionRole: self._explained,
        }

    def take(self, row: SectionRow, column: int, value: object, role: int) -> bool:
        if role == Role.CheckStateRole and column == Column.LOCKED:
            return self._lock(row, locked=Qt.CheckState(value) == Qt.CheckState.Checked)
        typed = str(value)
        if role != Role.EditRole or column not in _EDITABLE or typed == self._editable(row, column):
            return False
        section_id = row.id
        if column == Column.LENGTH:
            length_m = parse(LAY_LENGTH, typed, "boundary_m")
            return self.edit(
                self.tr("Set length"), partial(set_section_length, index=row.index, length_m=length_m)
            )
        if column == Column.LIQUID:
            return self._take_liquid(section_id, typed)
        changes: dict[str, Any] = (
            {"name": typed} if column == Column.NAME else {"liquor_id": self._liquor_id(typed)}
        )
        name = self.tr("Rename section") if column == Column.NAME else self.tr("Choose liquor")
        return self.edit(name, partial(change_section, section_id=section_id, **changes))

    def _lock(self, row: SectionRow, *, locked: bool) -> bool:
        name = self.tr("Lock section") if locked else self.tr("Unlock section")
        return self.edit(name, partial(set_locked, section_ids=(row.id,), locked=locked))

    def liquor_choices(self) -> list[tuple[str, str]]:
        """Return letter and name of every liquor, with its id: what a section may be painted with."""
        return [(f"{one.letter} {one.name}", one.id) for one in self.document.sheet.plan.liquors]

    def _take_liquid(self, section_id: str, typed: str) -> bool:
        follow = (*_FOLLOW, self.tr("follow").casefold())
        fixed_ml = None if typed.strip().casefold() in follow else parse(VOLUME, typed, "fixed_ml")
        name = self.tr("Let liquid follow the fibre") if fixed_ml is None else self.tr("Fix liquid")
        return self.edit(name, partial(change_section, section_id=section_id, fixed_ml=fixed_ml))

    def _liquor_id(self, typed: str) -> str:
        """Return the id of the liquor that is meant by its id or its letter; what was typed where none is."""
        by_letter = {one.letter.casefold(): one.id for one in self.document.sheet.plan.liquors}
        return by_letter.get(typed.strip().casefold(), typed)

    def _is_fixed(self, row: SectionRow) -> bool:
        return row.section.fixed_ml is not None

    def _shown(self, row: SectionRow, column: int) -> str:
        if column in _FIGURES:
            return shown_bare(_FIGURES[column].kind, row.figure(column))
        section = row.section
        if column == Column.LETTER:
            return row.liquor.letter
        if column == Column.NAME:
            return section.name
        return self._state_words(row) if column == Column.STATE else ""

    def _colour(self, row: SectionRow, column: int) -> QColor | None:
        if column != Column.LETTER:
            return None
        return QColor.fromRgbF(*row.sheet.colours.srgb[row.index].tolist())

    def _ticked(self, row: SectionRow, column: int) -> Qt.CheckState | None:
        if column != Column.LOCKED:
            return None
        locked = row.section.locked
        return Qt.CheckState.Checked if locked else Qt.CheckState.Unchecked

    def _font(self, row: SectionRow, column: int) -> QFont | None:
        if column != Column.LIQUID or not self._is_fixed(row):
            return None
        font = QFont()
        font.setBold(True)
        return font

    def _editable(self, row: SectionRow, column: int) -> str:
        """Return what an editor starts with."""
        if column in _FIGURES:
            return shown(_FIGURES[column].kind, row.figure(column))
        section = row.section
        return section.liquor_id if column == Column.LETTER else section.name

    def _state_words(self, row: SectionRow) -> str:
        """Return what is wrong with the wetness, in two words; nothing when it is right."""
        saturation = row.saturation
        if saturation == "over":
            return self.tr("{0} over").format(shown(VOLUME, float(row.sheet.figures.free_ml[row.index])))
        return self.tr("dry core") if saturation == "under" else ""

    def _said(self, row: SectionRow, column: int) -> str | None:
        """Return what a screen reader says of a cell that shows less than it means."""
        if column == Column.STATE:
            return self._state_words(row) or self.tr("in range")
        if column == Column.LOCKED:
            return self.tr("locked") if row.section.locked else self.tr("not locked")
        return self._editable(row, column) if column in _FIGURES else None

    def _explained(self, row: SectionRow, column: int) -> str | None:
        if column == Column.LIQUID:
            return (
                self.tr("Fixed. Type “follow” to let it follow the fibre.")
                if self._is_fixed(row)
                else self.tr("Follows the fibre. Type an amount to fix it.")
            )
        if column == Column.LETTER:
            return row.liquor.name
        if column == Column.STATE:
            return self._said(row, column)
        return row.section.name if column == Column.NAME else None

    def is_figure(self, column: int) -> bool:
        return column in _FIGURES

    def heading_explained(self, column: int) -> str | None:
        meanings: dict[int, str] = {
            Column.LETTER: self.tr("Letter of the liquor that is painted"),
            Column.FROM: self.tr("Where the section starts, along the lay"),
            Column.LENGTH: self.tr("Length along the lay"),
            Column.FIBRE: self.tr("Dry fibre of the whole set"),
            Column.LIQUID: self.tr("Liquor for the whole set; bold where it is fixed"),
            Column.PER_ROVING: self.tr("Liquor for each roving"),
            Column.APPLIED: self.tr("Liquor on the dry fibre"),
            Column.DEPTH: self.tr("Depth of shade, all dyes together, before any wiping"),
            Column.ACID: self.tr("Acid on the fibre, soak and liquor together"),
        }
        return meanings.get(column)


def _columns_of(sheet: Worksheet) -> _Columns:
    """Return the figures of every column of figures, (n,) in the plan's units."""
    figures = sheet.figures
    return {
        Column.FROM: figures.edges_m[:-1],
        Column.LENGTH: np.diff(figures.edges_m),
        Column.FIBRE: figures.fibre_g,
        Column.LIQUID: figures.liquid_ml,
        Column.PER_ROVING: figures.liquid_ml_per_roving,
        Column.APPLIED: figures.applied_ml_per_g,
        Column.DEPTH: figures.depth_in_all_pct_owf,
        Column.ACID: figures.acid_pct_owf,
    }


def _rows_of(sheet: Worksheet) -> list[SectionRow]:
    """Return the rows of all sections; nan, which equals nothing, is compared as -1."""
    columns = _columns_of(sheet)
    rounded = [np.round(columns[column], figure.decimals) for column, figure in _FIGURES.items()]
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
