"""The table of all sections.

The rule of this module: rows selected here are the sections selected everywhere, and the other way round.
What a cell does not take is said under the table, and the cell keeps what it had.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QItemSelection, QItemSelectionModel, QModelIndex
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QVBoxLayout, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.section_model import Column, SectionModel
from studio_gui.domain.errors import RovingLayError
from studio_gui.views.delegates import ChoiceDelegate, PlainDelegate, SaturationDelegate
from studio_gui.views.labels import MessageLabel
from studio_gui.wording.sentences import refusal

#: Widest text that a column has to hold, by column; the name takes what is left.
_WIDEST = {
    Column.LETTER: "AA",
    Column.FROM: "999.9",
    Column.LENGTH: "999.9",
    Column.FIBRE: "999.9",
    Column.LIQUID: "9999.9",
    Column.PER_ROVING: "999.9",
    Column.APPLIED: "99.99",
    Column.DEPTH: "99.99",
    Column.ACID: "99.99",
    Column.STATE: "99.9 ml over",
}
NAME_AT_LEAST_PX = 100


class _View(QTableView):
    """A table whose names take the room that figures leave, but never too little to be read."""

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.fit_names()

    def fit_names(self) -> None:
        """Give the names the room that is left."""
        header = self.horizontalHeader()
        others = header.length() - header.sectionSize(Column.NAME)
        header.resizeSection(Column.NAME, max(NAME_AT_LEAST_PX, self.viewport().width() - others))


class SectionTable(QWidget):
    """All sections as rows."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._following = False
        self.model = SectionModel(document, self)
        self.view = _View()
        self.message = MessageLabel()
        self.message.setContentsMargins(8, 4, 8, 4)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.view, 1)
        column.addWidget(self.message)
        self._set_up_view()
        self.setFocusProxy(self.view)
        self.view.selectionModel().selectionChanged.connect(self._select_in_document)
        document.selected.connect(self._follow_document)
        document.shown.connect(self._hide_what_repeats)
        self.model.layoutChanged.connect(self._follow_document)
        self.model.refused.connect(self._say)
        self.model.accepted.connect(self._clear)
        self._retranslate()
        self._hide_what_repeats()
        self._follow_document()

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self.model.retranslate()
            self._retranslate()
        elif event.type() == QEvent.Type.FontChange:
            self._fit_columns()
        super().changeEvent(event)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._fit_columns()

    def _set_up_view(self) -> None:
        view = self.view
        view.setModel(self.model)
        view.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        view.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        view.setEditTriggers(
            QAbstractItemView.EditTrigger.DoubleClicked
            | QAbstractItemView.EditTrigger.EditKeyPressed
            | QAbstractItemView.EditTrigger.AnyKeyPressed
        )
        view.setShowGrid(False)
        view.setAlternatingRowColors(True)
        view.setWordWrap(False)
        view.setFrameShape(QTableView.Shape.NoFrame)
        view.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        view.setItemDelegate(PlainDelegate(view))
        view.setItemDelegateForColumn(Column.LETTER, ChoiceDelegate(self.model.liquor_choices, view))
        view.setItemDelegateForColumn(Column.STATE, SaturationDelegate(view))
        view.verticalHeader().hide()
        view.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        header = view.horizontalHeader()
        header.setHighlightSections(False)
        header.setMinimumSectionSize(24)
        header.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)

    def _fit_columns(self) -> None:
        metrics, header = self.view.fontMetrics(), self.view.horizontalHeader()
        self.view.verticalHeader().setDefaultSectionSize(max(24, metrics.height() + 8))
        for column, widest in _WIDEST.items():
            extra = 30 if column in (Column.LETTER, Column.STATE) else 16
            self.view.setColumnWidth(
                column, max(metrics.horizontalAdvance(widest) + extra, header.sectionSizeHint(column))
            )
        self.view.setColumnWidth(Column.LOCKED, header.sectionSizeHint(Column.LOCKED))
        self.view.fit_names()

    def _hide_what_repeats(self) -> None:
        alone = self._document.sheet.plan.fibre.rovings == 1
        if alone != self.view.isColumnHidden(Column.PER_ROVING):
            self.view.setColumnHidden(Column.PER_ROVING, alone)
            self.view.fit_names()

    def _retranslate(self) -> None:
        self.view.setAccessibleName(self.tr("Sections"))
        self._fit_columns()

    # -- selection -----------------------------------------------------------------------------------------

    def _select_in_document(self, selected: QItemSelection, deselected: QItemSelection) -> None:
        if not self._following:
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
        chosen.setCurrentIndex(there, QItemSelectionModel.SelectionFlag.NoUpdate)
        self.view.scrollTo(there)

    # -- what was not taken --------------------------------------------------------------------------------

    def _say(self, error: RovingLayError) -> None:
        sentence = refusal(error, self._document.plan)
        self.message.say(sentence)
        self.view.setAccessibleDescription(sentence)

    def _clear(self) -> None:
        self.message.say("")
        self.view.setAccessibleDescription("")
