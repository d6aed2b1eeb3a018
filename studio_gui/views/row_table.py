"""The tables of the panes: sections, stocks, liquors.

The rule of this module: figures get the room they need, names get the rest but never too little to be read.
A cell is edited by typing over it.
"""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QEvent
from PySide6.QtGui import QPaintEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QAbstractItemView, QFrame, QHeaderView, QTableView, QWidget

from studio_gui.document.row_model import RowModel
from studio_gui.views.delegates import PlainDelegate
from studio_gui.views.sight import rest_out_of_sight

NAME_AT_LEAST_PX = 80
BESIDE_TEXT_PX = 16
BESIDE_MARK_PX = 30


class RowTable(QTableView):
    """A table of identified rows.

    Parameters
    ----------
    model
        The rows.
    name_column
        The column that takes the room that is left.
    widest
        The widest text that each other column has to hold.
    marked
        The columns with a swatch or mark before the text.
    name_at_least_px
        Least width of the column of names.
    """

    beside_text_px = BESIDE_TEXT_PX

    def __init__(
        self,
        model: RowModel,
        name_column: int,
        widest: Mapping[int, str],
        marked: tuple[int, ...] = (),
        name_at_least_px: int = NAME_AT_LEAST_PX,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._name_column, self._widest, self._marked = name_column, dict(widest), marked
        self._rows_model, self._name_at_least_px = model, name_at_least_px
        for follower in model.followers:
            rest_out_of_sight(follower, self)
        self.setModel(model)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setEditTriggers(
            QAbstractItemView.EditTrigger.DoubleClicked
            | QAbstractItemView.EditTrigger.EditKeyPressed
            | QAbstractItemView.EditTrigger.AnyKeyPressed
        )
        self.setShowGrid(False)
        self.setAlternatingRowColors(True)
        self.setWordWrap(False)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setTabKeyNavigation(False)
        self.setItemDelegate(PlainDelegate(self))
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.horizontalHeader().setHighlightSections(False)
        self.horizontalHeader().setMinimumSectionSize(24)
        self.fit_columns()

    def fit_columns(self) -> None:
        """Give every column the width of its widest text or heading, in the font that is used."""
        metrics, header = self.fontMetrics(), self.horizontalHeader()
        self.verticalHeader().setDefaultSectionSize(max(24, metrics.height() + 8))
        for column, widest in self._widest.items():
            beside = BESIDE_MARK_PX if column in self._marked else self.beside_text_px
            text = metrics.horizontalAdvance(widest) + beside
            self.setColumnWidth(column, max(text, header.sectionSizeHint(column)))
        self.fit_names()

    def fit_names(self) -> None:
        """Give the names the room that is left."""
        header = self.horizontalHeader()
        others = header.length() - header.sectionSize(self._name_column)
        header.resizeSection(self._name_column, max(self._name_at_least_px, self.viewport().width() - others))

    def hide_column(self, column: int, hidden: bool) -> None:
        """Hide a column, or show it again."""
        if hidden != self.isColumnHidden(column):
            self.setColumnHidden(column, hidden)
            self.fit_columns()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.fit_names()

    def showEvent(self, event: QShowEvent) -> None:
        self._catch_up()
        super().showEvent(event)
        self.fit_columns()

    def paintEvent(self, event: QPaintEvent) -> None:
        self._catch_up()
        super().paintEvent(event)

    def _catch_up(self) -> None:
        for follower in self._rows_model.followers:
            follower.catch_up()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self.fit_columns()
        elif event.type() == QEvent.Type.LanguageChange:
            self._rows_model.retranslate()
            self.fit_columns()
