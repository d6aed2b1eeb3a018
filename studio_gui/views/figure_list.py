"""A list of figures that are only told: heading, what it adds up to, table, and a way to copy it.

The rule of this module: what is copied is what is selected, or with nothing selected all of it.
"""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QItemSelectionModel, Qt
from PySide6.QtGui import QAction, QGuiApplication, QKeySequence
from PySide6.QtWidgets import QAbstractItemView, QHBoxLayout, QToolButton, QVBoxLayout, QWidget

from studio_gui.document.yarn_models import FigureModel
from studio_gui.views.copied_rows import copied_figures
from studio_gui.views.fitted_table import FittedTable
from studio_gui.views.labels import TonedLabel, scaled_font
from studio_gui.views.live import LiveWidget
from studio_gui.views.shelf import BUTTON_PX, name_button


class FigureList(LiveWidget):
    """The rows of a `FigureModel`.

    Parameters
    ----------
    model, name_column, widest, most_rows, marked
        As for `FittedTable`.
    """

    def __init__(
        self,
        model: FigureModel,
        name_column: int,
        widest: Mapping[int, str],
        most_rows: int,
        marked: tuple[int, ...] = (),
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.model = model
        self.heading, self.sum = TonedLabel("text"), TonedLabel("secondary")
        self.copy_button = QToolButton()
        self.copy_button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.copy_button.setMinimumSize(BUTTON_PX, BUTTON_PX)
        self.table = FittedTable(model, name_column, widest, most_rows, marked)
        self.table.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.copy_action = QAction(self)
        self.copy_action.setShortcuts(QKeySequence.StandardKey.Copy)
        self.copy_action.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
        self.copy_action.triggered.connect(self.copy)
        self.copy_button.clicked.connect(self.copy)
        self.table.addAction(self.copy_action)
        self.table.setContextMenuPolicy(Qt.ContextMenuPolicy.ActionsContextMenu)
        top = QHBoxLayout()
        top.addWidget(self.heading)
        top.addWidget(self.sum, 1)
        top.addWidget(self.copy_button)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addLayout(top)
        column.addWidget(self.table)
        self._set_fonts()
        self._retranslate()

    def name(self, heading: str) -> None:
        """Say what the list is of."""
        self.heading.show_text(heading)
        self.table.setAccessibleName(heading)
        name_button(self.copy_button, self.tr("Copy"), self.tr("Copy as text: {0}").format(heading))

    def copy(self) -> None:
        """Copy the selected rows as text; without any, all."""
        chosen: QItemSelectionModel = self.table.selectionModel()
        rows = sorted(index.row() for index in chosen.selectedRows())
        QGuiApplication.clipboard().setText(copied_figures(self.model, rows or range(self.model.rowCount())))

    def _set_fonts(self) -> None:
        self.heading.setFont(scaled_font(self.font(), 1.0, bold=True))

    def _retranslate(self) -> None:
        self.copy_action.setText(self.tr("&Copy rows"))
