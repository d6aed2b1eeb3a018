"""The table of all sections, in the lay's order.

The rule of this module: figures come from the worksheet and are rounded only to be shown; what is typed into
a cell is one edit and one undo step. While a boundary is dragged, the sections beside it follow at once and
all others late.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import cached_property, partial

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QColor, QFont

from studio_gui.document.follower import Follower
from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.row_model import NO_WAY, RIGHT, SATURATION_ROLE, Role, RowModel
from studio_gui.document.section_rows import FIGURES, Column, SectionRow, cells_of, columns_of, rows_of
from studio_gui.document.section_typed import can_be_typed, typed_edit
from studio_gui.domain.edits.sections import set_locked
from studio_gui.wording.quantities import LAY_LENGTH, MASS, VOLUME, WETNESS, shown, shown_bare
from studio_gui.wording.translation import TRANSLATED

#: How many sections lie beside a boundary.
BESIDE = 2

#: Columns that are empty where there is nothing of it, so that what there is stands out.
_SHOWN_WHERE_SOME = (Column.WIPED, Column.GAP)


class SectionModel(RowModel):
    """Sections as rows; see `Column`.

    `typed` is what was last typed into a cell, so that it can be quoted where it is not taken.
    """

    typed = ""
    turn = 2

    def __init__(self, document: OpenPlan, parent: QObject | None = None) -> None:
        self._cells = cells_of(document.sheet)
        super().__init__(document, parent)
        self.followers.append(Follower(document, self._follow_drag, self))

    def read(self) -> Sequence[SectionRow]:
        return rows_of(self.document.sheet)

    def changed_columns(
        self, before: Sequence[SectionRow], after: Sequence[SectionRow]
    ) -> Sequence[tuple[int, int] | None]:
        old, self._cells = self._cells, cells_of(self.document.sheet)
        came = np.array([row.sheet is self.document.sheet for row in before])
        places = np.where(came, 0, [row.index for row in before])
        differs = (self._cells.numbers != old.numbers[places]) & ~came[:, np.newaxis]
        if not old.has_words_of(self.document.sheet.plan):
            words = old.words()
            for row, (place, said) in enumerate(zip(places.tolist(), self._cells.words(), strict=True)):
                if words[place] != said and not came[row]:
                    differs[row] = True
        return _spans(differs)

    def _follow_drag(self) -> None:
        """Show at once the first sections that a preview changes, which are those beside the boundary."""
        sheet = self.document.sheet
        if not (self.document.is_previewing and self._cells.has_words_of(sheet.plan)):
            return
        numbers = cells_of(sheet).numbers
        differs = numbers != self._cells.numbers
        columns = columns_of(sheet)
        for row in np.flatnonzero(differs.any(axis=1))[:BESIDE].tolist():
            self._cells.numbers[row] = numbers[row]
            self._rows[row] = SectionRow(self._rows[row].id, row, sheet, columns)
            first, last = np.flatnonzero(differs[row])[[0, -1]].tolist()
            self.dataChanged.emit(self.index(row, first), self.index(row, last))

    def headings(self) -> Sequence[str]:
        length, mass, volume, wetness = (
            kind.shown_in(TRANSLATED)[0] for kind in (LAY_LENGTH, MASS, VOLUME, WETNESS)
        )
        return (
            self.tr("Liquor"),
            self.tr("Section"),
            self.tr("from, {0}").format(length),
            self.tr("to, {0}").format(length),
            length,
            mass,
            volume,
            self.tr("{0}/roving").format(volume),
            wetness,
            self.tr("depth %"),
            self.tr("acid %"),
            self.tr("Wetness"),
            self.tr("wiped, {0}").format(volume),
            self.tr("gap after, {0}").format(length),
            self.tr("Locked"),
        )

    def ways_to_change(self, row: SectionRow, column: int) -> Qt.ItemFlag:
        if column == Column.LOCKED:
            return Qt.ItemFlag.ItemIsUserCheckable
        return Qt.ItemFlag.ItemIsEditable if can_be_typed(row, column) else NO_WAY

    @cached_property
    def said(self) -> Mapping[int, Callable[[SectionRow, int], object]]:
        return {
            Role.DisplayRole: self._shown,
            Role.EditRole: self._editable,
            Role.TextAlignmentRole: lambda _, column: RIGHT if column in FIGURES else None,
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
        if role != Role.EditRole or not can_be_typed(row, column) or typed == self._editable(row, column):
            return False
        self.typed = typed
        return self.edit(*typed_edit(row, column, typed))

    def _lock(self, row: SectionRow, *, locked: bool) -> bool:
        name = self.tr("Lock section") if locked else self.tr("Unlock section")
        return self.edit(name, partial(set_locked, section_ids=(row.id,), locked=locked))

    def liquor_choices(self) -> list[tuple[str, str]]:
        """Return letter and name of every liquor, with its id: what a section may be painted with."""
        return [(f"{one.letter} {one.name}", one.id) for one in self.document.sheet.plan.liquors]

    def _is_fixed(self, row: SectionRow) -> bool:
        return row.section.fixed_ml is not None

    def _shown(self, row: SectionRow, column: int) -> str:
        if column in FIGURES:
            if column in _SHOWN_WHERE_SOME and not row.figure(column):
                return ""
            return shown_bare(FIGURES[column], row.figure(column))
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
        if column in FIGURES:
            return shown(FIGURES[column], row.figure(column))
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
        return self._editable(row, column) if column in FIGURES else None

    def _explained(self, row: SectionRow, column: int) -> str | None:
        if column in (Column.LIQUID, Column.PER_ROVING, Column.APPLIED):
            return (
                self.tr("Fixed. Type “follow” to let it follow the fibre.")
                if self._is_fixed(row)
                else self.tr("Follows the fibre. Type an amount to fix it.")
            )
        if column == Column.LETTER:
            return row.liquor.name
        if column == Column.STATE:
            return self._said(row, column)
        if column == Column.NAME:
            return row.section.name
        return self.tr("The lay ends here.") if column == Column.TO and row.is_last else None

    def section_rows(self, places: Sequence[int]) -> list[SectionRow]:
        """Return the rows at some places of the table."""
        rows = self.read()
        return [rows[place] for place in places]

    def is_figure(self, column: int) -> bool:
        return column in FIGURES

    def heading_explained(self, column: int) -> str | None:
        meanings: dict[int, str] = {
            Column.LETTER: self.tr("Letter of the liquor that is painted"),
            Column.FROM: self.tr("Where the section starts, along the lay"),
            Column.TO: self.tr("Where the section ends, along the lay"),
            Column.LENGTH: self.tr("Length along the lay; what one section gains its neighbour gives"),
            Column.FIBRE: self.tr("Dry fibre of the whole set"),
            Column.LIQUID: self.tr("Liquor for the whole set; bold where it is fixed"),
            Column.PER_ROVING: self.tr("Liquor for each roving"),
            Column.APPLIED: self.tr("Liquor on the dry fibre"),
            Column.DEPTH: self.tr("Depth of shade, all dyes together, before any wiping"),
            Column.WIPED: self.tr("Liquid to wipe or press out cold, which takes dye along"),
            Column.GAP: self.tr("Width left bare before the next section; below 0 both colours overlap"),
            Column.ACID: self.tr("Acid on the fibre, soak and liquor together"),
        }
        return meanings.get(column)


def _spans(differs: NDArray[np.bool_]) -> list[tuple[int, int] | None]:
    """Return first and last column of each row that differ, None where none does.

    >>> _spans(np.array([[False, True, True], [False, False, False]]))
    [(1, 2), None]
    """
    spans: list[tuple[int, int] | None] = [None] * len(differs)
    first = differs.argmax(axis=1)
    last = differs.shape[1] - 1 - differs[:, ::-1].argmax(axis=1)
    for row in np.flatnonzero(differs.any(axis=1)).tolist():
        spans[row] = (int(first[row]), int(last[row]))
    return spans
