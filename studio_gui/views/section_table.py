"""The table of all sections.

The rule of this module: rows selected here are the sections selected everywhere, and the other way round.
What a cell does not take is said under the table, and the cell keeps what it had.
"""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QItemSelection, QItemSelectionModel, QModelIndex, QPoint, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QAbstractItemView, QVBoxLayout, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.section_model import SectionModel
from studio_gui.document.section_rows import Column
from studio_gui.domain.errors import RovingLayError
from studio_gui.views.delegates import ChoiceDelegate, SaturationDelegate
from studio_gui.views.labels import MessageLabel
from studio_gui.views.live import LiveWidget
from studio_gui.views.row_table import RowTable
from studio_gui.views.table_actions import TableActions
from studio_gui.wording.pasted import not_taken
from studio_gui.wording.sentences import refusal

NAMES_AT_LEAST_PX = 120

#: Widest text that a column has to hold, by column; the name takes what is left.
_WIDEST: dict[int, str] = {
    Column.LETTER: "AA",
    Column.FROM: "999.9",
    Column.TO: "999.9",
    Column.LENGTH: "999.9",
    Column.FIBRE: "999.9",
    Column.LIQUID: "9999.9",
    Column.PER_ROVING: "999.9",
    Column.APPLIED: "99.99",
    Column.DEPTH: "99.99",
    Column.ACID: "99.99",
    Column.STATE: "99.9 ml over",
    Column.WIPED: "999.9",
    Column.GAP: "-99.9",
    Column.LOCKED: "",
}


class SectionTable(LiveWidget):
    """All sections as rows."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._following = False
        self.model = SectionModel(document, self)
        marked = (Column.LETTER, Column.STATE)
        self.view = RowTable(self.model, Column.NAME, _WIDEST, marked, NAMES_AT_LEAST_PX)
        self.view.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        choose = ChoiceDelegate(self.model.liquor_choices, self.view)
        self.view.setItemDelegateForColumn(Column.LETTER, choose)
        self.view.setItemDelegateForColumn(Column.STATE, SaturationDelegate(self.view))
        self.actions_here = TableActions(document, self.model, self.view)
        self.view.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self.message = MessageLabel()
        self.note = MessageLabel("secondary")
        for label in (self.message, self.note):
            label.setContentsMargins(8, 4, 8, 4)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.view, 1)
        column.addWidget(self.message)
        column.addWidget(self.note)
        self.setFocusProxy(self.view)
        self.view.selectionModel().selectionChanged.connect(self._select_in_document)
        document.selected.connect(self._follow_document)
        document.settled.connect(self._hide_what_repeats)
        self.model.rearranged.connect(self._follow_document)
        self.model.refused.connect(self._say)
        self.model.accepted.connect(self._clear)
        self.view.customContextMenuRequested.connect(self._open_menu)
        self.actions_here.said.connect(self.note.say)
        self._retranslate()
        self._hide_what_repeats()
        self._follow_document()

    def _hide_what_repeats(self) -> None:
        self.view.hide_column(Column.PER_ROVING, hidden=self._document.sheet.plan.fibre.rovings == 1)

    def _retranslate(self) -> None:
        self.view.setAccessibleName(self.tr("Sections"))
        self.actions_here.retranslate()

    def offer(self, actions: Sequence[QAction], of_the_keys: QAction) -> None:
        """Offer the window's actions on sections in the context menu, and one by its key while here."""
        self.actions_here.offer(actions)
        self.view.addAction(of_the_keys)

    def _open_menu(self, point: QPoint) -> None:
        """Open the context menu at the pointer, or by the keyboard at the current cell."""
        index = self.view.indexAt(point)
        if not index.isValid():
            index = self.view.currentIndex()
            point = self.view.visualRect(index).center()
        self.actions_here.menu(index).popup(self.view.viewport().mapToGlobal(point))

    # -- selection -----------------------------------------------------------------------------------------

    def _select_in_document(self, selected: QItemSelection, deselected: QItemSelection) -> None:
        if not (self._following or self.model.is_rearranging):
            rows = sorted(index.row() for index in self.view.selectionModel().selectedRows())
            self._clear()
            self._document.select(*(self.model.row_id(row) for row in rows))

    def _follow_document(self) -> None:
        """Select the rows of the sections that are selected in the document."""
        rows = [self.model.row_of(section_id) for section_id in self._document.selected_ids]
        selection = QItemSelection()
        for row in rows:
            if row >= 0:
                selection.select(self.model.index(row, 0), self.model.index(row, len(Column) - 1))
        chosen = self.view.selectionModel()
        self._following = True
        try:
            chosen.select(selection, QItemSelectionModel.SelectionFlag.ClearAndSelect)
            self._make_current(rows[0] if rows else -1)
        finally:
            self._following = False

    def _make_current(self, row: int) -> None:
        """Take the keyboard's place along, unless it is in one of the selected rows already."""
        chosen = self.view.selectionModel()
        current = chosen.currentIndex()
        if row < 0 or chosen.isRowSelected(current.row(), QModelIndex()):
            return
        column = current.column() if current.isValid() else int(Column.NAME)
        there = self.model.index(row, column)
        self.view.setAutoScroll(False)  # behind its tab it would scroll its letters away once shown
        chosen.setCurrentIndex(there, QItemSelectionModel.SelectionFlag.NoUpdate)
        self.view.setAutoScroll(True)
        self._bring_into_sight(there)

    def _bring_into_sight(self, there: QModelIndex) -> None:
        """Scroll to the row of a cell; columns stay, so that letters are in sight however narrow it was."""
        bar = self.view.horizontalScrollBar()
        place = bar.value()
        self.view.scrollTo(there)
        bar.setValue(place)

    # -- what was not taken --------------------------------------------------------------------------------

    def _say(self, error: RovingLayError) -> None:
        sentence = not_taken(self.model.typed, refusal(error, self._document.plan))
        self.note.say("")
        self.message.say(sentence)
        self.view.setAccessibleDescription(sentence)

    def _clear(self) -> None:
        self.message.say("")
        self.note.say("")
        self.view.setAccessibleDescription("")
