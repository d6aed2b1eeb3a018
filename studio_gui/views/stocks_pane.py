"""Stocks and liquors: the bottles on the shelf, and what is mixed from them.

The rule of this module: what is still used cannot be removed; the sentence that says so names the users.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QModelIndex, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHBoxLayout, QToolButton, QVBoxLayout, QWidget

from studio_gui.document import liquor_model, stock_model
from studio_gui.document.liquor_model import LiquorModel
from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.document.row_model import RowModel
from studio_gui.document.stock_model import StockModel, new_dye
from studio_gui.domain.edits.liquors import add_liquor, remove_liquor
from studio_gui.domain.edits.stocks import add_stock, free_stock_id, remove_stock
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.plan import Plan
from studio_gui.domain.stocks import Stock
from studio_gui.views.delegates import ChoiceDelegate, SwatchDelegate
from studio_gui.views.fields import edit_and_say
from studio_gui.views.labels import MessageLabel, TonedLabel, rule, scaled_font
from studio_gui.views.live import LiveWidget
from studio_gui.views.row_table import RowTable
from studio_gui.views.stock_form import StockForm
from studio_gui.wording.sentences import refusal

StockColumn = stock_model.Column
LiquorColumn = liquor_model.Column

_STOCKS_WIDEST: dict[int, str] = {
    StockColumn.STRENGTH: "99.99 %",
    StockColumn.ACID: "unknown",
    StockColumn.NEED: "9999.9",
    StockColumn.ROLE: "let-down",
    StockColumn.KNOWN: "as labelled",
    StockColumn.TAKE_UP: "99.99",
    StockColumn.SWATCH: "#dddddd",
    StockColumn.SWATCH_DEPTH: "99.99",
}
#: Columns that a narrow pane leaves to the form.
_STOCKS_IN_FORM = (
    StockColumn.ACID,
    StockColumn.ROLE,
    StockColumn.KNOWN,
    StockColumn.TAKE_UP,
    StockColumn.SWATCH,
    StockColumn.SWATCH_DEPTH,
)
WIDE_PX = 640
ROWS_SHOWN = (3, 8)


class Shelf(QWidget):
    """A heading with buttons, a table, and what was not taken."""

    def __init__(self, document: OpenPlan, model: RowModel, table: RowTable) -> None:
        super().__init__()
        self.document, self.model, self.table = document, model, table
        self.heading = TonedLabel("text")
        self.message = MessageLabel()
        self._buttons = QHBoxLayout()
        self._buttons.setSpacing(4)
        self._buttons.addWidget(self.heading, 1)
        table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addLayout(self._buttons)
        column.addWidget(table)
        column.addWidget(self.message)
        model.refused.connect(self._say)
        model.accepted.connect(lambda: self.message.say(""))
        model.rearranged.connect(self._fit_height)
        self._fit_height()
        table.selectRow(0)

    @property
    def current_id(self) -> str:
        """Id of the selected row, "" where there is none."""
        row = self.table.currentIndex().row()
        return self.model.row_id(row) if 0 <= row < self.model.rowCount() else ""

    def add_button(self, slot: Callable[[], None]) -> QToolButton:
        """Put one more button beside the heading."""
        button = QToolButton()
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        button.clicked.connect(slot)
        self._buttons.addWidget(button)
        return button

    def edit(self, name: str, edit: Edit) -> bool:
        """Apply an edit; where it is refused, say why under the table."""
        return edit_and_say(self.document, name, edit, self.message.say)

    def edit_last(self, column: int) -> None:
        """Select the last row, which has just been added, and type over one of its cells."""
        index = self.model.index(self.model.rowCount() - 1, column)
        self.table.setCurrentIndex(index)
        self.table.setFocus()
        self.table.edit(index)

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.FontChange:
            self._fit_height()
        super().changeEvent(event)

    def _fit_height(self) -> None:
        least, most = ROWS_SHOWN
        rows = min(max(self.model.rowCount(), least), most)
        self.heading.setFont(scaled_font(self.font(), 1.0, bold=True))
        self.table.setFixedHeight(
            self.table.horizontalHeader().sizeHint().height()
            + rows * self.table.verticalHeader().defaultSectionSize()
            + 2
        )

    def _say(self, error: RovingLayError) -> None:
        self.message.say(refusal(error, self.document.plan))


class StocksPane(LiveWidget):
    """Stocks with the fields of the selected one, and liquors."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.stocks = StockModel(document, self)
        self.liquors = LiquorModel(document, self)
        stock_table = RowTable(self.stocks, StockColumn.NAME, _STOCKS_WIDEST)
        stock_table.setItemDelegateForColumn(StockColumn.NAME, SwatchDelegate(stock_table))
        known = ChoiceDelegate(self.stocks.known_choices, stock_table)
        stock_table.setItemDelegateForColumn(StockColumn.KNOWN, known)
        widest: dict[int, str] = {LiquorColumn.LETTER: "AA", LiquorColumn.JAR: "9999.9"}
        liquor_table = RowTable(self.liquors, LiquorColumn.NAME, widest, marked=(LiquorColumn.LETTER,))
        liquor_table.setItemDelegateForColumn(LiquorColumn.LETTER, SwatchDelegate(liquor_table))
        self.shelf = Shelf(document, self.stocks, stock_table)
        self.form = StockForm(document, self.stocks)
        self.list = Shelf(document, self.liquors, liquor_table)
        self.add_dye = self.shelf.add_button(self._add_dye)
        self.add_let_down = self.shelf.add_button(self._add_let_down)
        self.remove_stock = self.shelf.add_button(self._remove_stock)
        self.add_liquor = self.list.add_button(self._add_liquor)
        self.duplicate_liquor = self.list.add_button(self._duplicate_liquor)
        self.remove_liquor = self.list.add_button(self._remove_liquor)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 12)
        column.setSpacing(8)
        for widget in (self.shelf, self.form, rule(), self.list):
            column.addWidget(widget)
        column.addStretch(1)
        QWidget.setTabOrder(self.remove_stock, stock_table)
        QWidget.setTabOrder(self.remove_liquor, liquor_table)
        stock_table.selectionModel().currentRowChanged.connect(self._show_stock)
        self.stocks.rearranged.connect(self._show_stock)
        self._hide_columns()
        self._retranslate()
        self._show_stock()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._hide_columns()

    def _retranslate(self) -> None:
        self.shelf.heading.show_text(self.tr("Stocks"))
        self.shelf.table.setAccessibleName(self.tr("Stocks"))
        self.list.heading.show_text(self.tr("Liquors"))
        self.list.table.setAccessibleName(self.tr("Liquors"))
        for button, words, meaning in (
            (self.add_dye, self.tr("+ Dye"), self.tr("Put a dye on the shelf")),
            (self.add_let_down, self.tr("+ Let-down"), self.tr("Put water or acid water on the shelf")),
            (self.remove_stock, self.tr("−"), self.tr("Take the selected stock off the shelf")),
            (self.add_liquor, self.tr("+ Liquor"), self.tr("Add an empty liquor")),
            (self.duplicate_liquor, self.tr("Copy"), self.tr("Add a copy of the selected liquor")),
            (self.remove_liquor, self.tr("−"), self.tr("Remove the selected liquor")),
        ):
            button.setText(words)
            button.setToolTip(meaning)
            button.setAccessibleName(meaning)

    def _hide_columns(self) -> None:
        for column in _STOCKS_IN_FORM:
            self.shelf.table.hide_column(column, hidden=self.width() < WIDE_PX)

    def _show_stock(self, *_: QModelIndex) -> None:
        self.form.show_stock(self.shelf.current_id)

    # -- stocks --------------------------------------------------------------------------------------------

    def _add_dye(self) -> None:
        name = self.tr("New dye")
        self._add_stock(
            self.tr("Add dye"), lambda plan: new_dye(free_stock_id(plan), name, plan.fibre.undyed_srgb)
        )

    def _add_let_down(self) -> None:
        name = self.tr("New let-down")
        self._add_stock(self.tr("Add let-down"), lambda plan: Stock(free_stock_id(plan), name, "let-down"))

    def _add_stock(self, step: str, make: Callable[[Plan], Stock]) -> None:
        if self.shelf.edit(step, lambda plan: add_stock(plan, make(plan))):
            self.shelf.edit_last(StockColumn.NAME)

    def _remove_stock(self) -> None:
        stock_id = self.shelf.current_id
        if stock_id:
            self.shelf.edit(self.tr("Remove stock"), lambda plan: remove_stock(plan, stock_id))

    # -- liquors -------------------------------------------------------------------------------------------

    def _add_liquor(self) -> None:
        name = self.tr("New liquor")
        if self.list.edit(self.tr("Add liquor"), lambda plan: add_liquor(plan, name)[0]):
            self.list.edit_last(LiquorColumn.NAME)

    def _duplicate_liquor(self) -> None:
        liquor_id = self.list.current_id
        if not liquor_id:
            return
        liquor = self._document.plan.liquor(liquor_id)
        name = self.tr("{0} copy").format(liquor.name)
        if self.list.edit(
            self.tr("Copy liquor"), lambda plan: add_liquor(plan, name, liquor.parts, liquor.depths)[0]
        ):
            self.list.edit_last(LiquorColumn.NAME)

    def _remove_liquor(self) -> None:
        liquor_id = self.list.current_id
        if liquor_id:
            self.list.edit(self.tr("Remove liquor"), lambda plan: remove_liquor(plan, liquor_id))
