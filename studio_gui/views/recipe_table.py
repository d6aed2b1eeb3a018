"""The recipes of a fade: one row for each section, with its colour, its amounts and their stocks.

The rule of this module: it tells and edits nothing; what has no room in a cell is whole in its tooltip and in
what is copied.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QAction, QColor, QGuiApplication, QIcon, QKeySequence, QPixmap
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem, QWidget

from studio_gui.views.copied_rows import copied_texts

_ROWS_IN_SIGHT = 4
_SIDE = 14


@dataclass(frozen=True, slots=True)
class Recipe:
    """What one section is painted with: its predicted colour, amounts in ml, stocks, and depth in all."""

    colour: QColor
    amounts: str
    stocks: str
    depth: str


class RecipeTable(QTableWidget):
    """Recipes, section by section; Ctrl+C copies the rows that are chosen, or all."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(0, 4, parent)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setIconSize(QSize(_SIDE, _SIDE))
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(self.fontMetrics().height() + 6)
        header = self.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(2, QHeaderView.ResizeMode.Stretch)
        header.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        self.copy_action = QAction(self)
        self.copy_action.setShortcuts(QKeySequence.StandardKey.Copy)
        self.copy_action.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
        self.copy_action.triggered.connect(self.copy)
        self.addAction(self.copy_action)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.ActionsContextMenu)

    def show_recipes(self, recipes: Sequence[Recipe]) -> None:
        """Show recipes in the language of the program; none empties the table."""
        self.setAccessibleName(self.tr("Recipes of the fade"))
        self.copy_action.setText(self.tr("Copy as text"))
        self.setHorizontalHeaderLabels(self._headings())
        self.setRowCount(len(recipes))
        for row, recipe in enumerate(recipes):
            cells = (str(row + 1), recipe.amounts, recipe.stocks, recipe.depth)
            for column, words in enumerate(cells):
                item = QTableWidgetItem(words)
                item.setToolTip(f"{row + 1}: {recipe.amounts} ml\n{recipe.stocks}\n{recipe.depth} owf")
                if column == 0:
                    item.setIcon(_square(recipe.colour))
                self.setItem(row, column, item)

    def copy(self) -> None:
        """Copy the chosen rows as text, all where none is chosen, with the headings."""
        chosen = sorted(index.row() for index in self.selectionModel().selectedRows())
        cell = self.model().index
        rows = (
            [str(cell(row, column).data()) for column in range(self.columnCount())]
            for row in chosen or range(self.rowCount())
        )
        QGuiApplication.clipboard().setText(copied_texts(self._headings(), rows))

    def _headings(self) -> list[str]:
        return [self.tr("Section"), self.tr("Jar, ml"), self.tr("Stocks"), self.tr("Depth")]

    def minimumSizeHint(self) -> QSize:
        high = self.horizontalHeader().sizeHint().height()
        high += _ROWS_IN_SIGHT * self.verticalHeader().defaultSectionSize() + 2 * self.frameWidth()
        return QSize(240, high)

    def sizeHint(self) -> QSize:
        return QSize(480, 170)


def _square(colour: QColor) -> QIcon:
    square = QPixmap(_SIDE, _SIDE)
    square.fill(colour)
    return QIcon(square)
