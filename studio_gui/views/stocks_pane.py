"""Stocks and liquors: the bottles on the shelf, and what is mixed from them.

The rule of this module: both lists are in sight together; what there is to say of one stock opens between
them.
"""

from __future__ import annotations

from PySide6.QtCore import QModelIndex
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from studio_gui.document.liquor_model import LiquorModel
from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.stock_model import StockModel
from studio_gui.views.labels import rule
from studio_gui.views.liquor_list import LiquorList
from studio_gui.views.stock_form import StockForm
from studio_gui.views.stock_shelf import StockShelf

#: Height of the room for the pane from which the form is open at first: both lists are in sight all the same.
OPEN_FROM_PX = 640


class StocksPane(QWidget):
    """Stocks with the fields of the selected one, and liquors."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._was_shown = False
        self.stocks = StockModel(document, self)
        self.liquors = LiquorModel(document, self)
        self.shelf = StockShelf(document, self.stocks)
        self.form = StockForm(document, self.stocks)
        self.list = LiquorList(document, self.liquors)
        self._column = column = QVBoxLayout(self)
        column.setContentsMargins(8, 8, 8, 12)
        column.setSpacing(8)
        for widget in (self.shelf, self.form, rule(), self.list):
            column.addWidget(widget)
        column.addStretch(1)
        QWidget.setTabOrder(self.shelf.more, self.shelf.table)
        QWidget.setTabOrder(self.list.more, self.list.table)
        self.shelf.table.selectionModel().currentRowChanged.connect(self._show_stock)
        self.stocks.rearranged.connect(self._show_stock)
        for button in (self.shelf.add_dye, self.shelf.add_let_down):
            button.clicked.connect(self._open_form)
        self._show_stock()

    def heightForWidth(self, width: int) -> int:
        """Return the least height: what is beyond the room is scrolled in the lists before in the pane."""
        return self._column.minimumHeightForWidth(width)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if not self._was_shown:
            self._was_shown = True
            room = self.parentWidget() or self
            self.form.open_fields(room.height() >= OPEN_FROM_PX)

    def _open_form(self) -> None:
        self.form.open_fields(True)

    def _show_stock(self, *_: QModelIndex) -> None:
        self.form.show_stock(self.shelf.current_id)
