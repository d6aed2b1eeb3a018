"""Everything about the selected stock, opened and closed by a button that says what it is and who uses it.

The rule of this module: what a let-down does not have is not shown for it.
"""

from __future__ import annotations

from functools import cached_property, partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSizePolicy,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.stock_model import StockModel, role_words
from studio_gui.domain.checks.acid import acid_water
from studio_gui.domain.edits.stocks import change_stock, take_acid_of_water
from studio_gui.domain.stocks import Stock
from studio_gui.views.choices import ChoiceField
from studio_gui.views.fields import (
    EntryField,
    QuantityField,
    TextField,
    edit_and_say,
    edit_at,
    with_message,
)
from studio_gui.views.labels import MessageLabel, ShortenedLabel, call
from studio_gui.views.live import LiveWidget
from studio_gui.views.swatch_list import SwatchList
from studio_gui.views.tick_box import TickBox
from studio_gui.wording.naming import one_line
from studio_gui.wording.quantities import ACID, shown

if TYPE_CHECKING:
    from studio_gui.views.dye_window import DyeWindow

#: Rows of the form that only dyes have: strength, how it is known, take-up.
_DYE_ROWS = (1, 2, 4)
WIDEST_PX = 420


class StockForm(LiveWidget):
    """Fields of one stock."""

    def __init__(self, document: OpenPlan, stocks: StockModel, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._stocks = document, stocks
        self._stock_id = ""
        self.toggle = QToolButton()
        self.role = ShortenedLabel("secondary")
        self.fields = QWidget()
        self.name = TextField()
        self.strength = QuantityField("strength_g_per_l")
        self.keep = TickBox()
        self.known = ChoiceField()
        self.acid = QuantityField("acid_g_per_l", may_be_unknown=True)
        self.same_acid = QPushButton()
        self.take_up = QuantityField("take_up_pct_owf")
        self.swatches = SwatchList(document, has_window=True)
        self.message = MessageLabel()
        self._labels = [QLabel() for _ in range(5)]
        self._lay_out()
        self._connect()
        self._retranslate()
        self.open_fields(False)

    def open_fields(self, is_open: bool) -> None:
        """Show the fields, or only what the stock is and who uses it."""
        self.toggle.setChecked(is_open)
        self.fields.setVisible(is_open)
        self.toggle.setArrowType(Qt.ArrowType.DownArrow if is_open else Qt.ArrowType.RightArrow)

    def show_stock(self, stock_id: str) -> None:
        """Show another stock; what was being typed for the last one is forgotten."""
        if stock_id != self._stock_id:
            self._stock_id = stock_id
            for field in (self.name, self.strength, self.acid, self.take_up):
                field.drop()
            self.message.say("")
            if "dye_window" in self.__dict__ and self._is_dye(stock_id):
                self.dye_window.panel.show_stock(stock_id)
        self.refresh()

    @cached_property
    def dye_window(self) -> DyeWindow:
        """The window of photo and curve, made when it is first wanted."""
        from studio_gui.views.dye_window import DyeWindow  # noqa: PLC0415  (few need it at once)

        return DyeWindow(self._document, self.window())

    def _is_dye(self, stock_id: str) -> bool:
        return any(stock.id == stock_id for stock in self._document.sheet.plan.dyes)

    def refresh(self) -> None:
        """Show the stock as the worksheet has it."""
        stocks = {stock.id: stock for stock in self._document.sheet.plan.stocks}
        self.setVisible(self._stock_id in stocks)
        if self._stock_id in stocks:
            self._show(stocks[self._stock_id])

    def _lay_out(self) -> None:
        self.setMaximumWidth(WIDEST_PX)
        self.toggle.setCheckable(True)
        self.toggle.setAutoRaise(True)
        self.toggle.setMinimumHeight(24)
        self.toggle.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.toggle.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        head = QHBoxLayout()
        head.setSpacing(8)
        head.addWidget(self.toggle)
        head.addWidget(self.role, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addLayout(head)
        column.addWidget(self.fields)
        self._form = QFormLayout()
        self._form.setContentsMargins(0, 0, 0, 0)
        self._form.setHorizontalSpacing(12)
        self._form.setVerticalSpacing(4)
        self._form.setLabelAlignment(Qt.AlignmentFlag.AlignLeft)
        self._form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        strength, acid = with_message(self.strength), with_message(self.acid)
        strength.addWidget(self.keep)
        self.same_acid.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        acid.addWidget(self.same_acid)
        known = QVBoxLayout()
        known.addWidget(self.known)
        rows = (with_message(self.name), strength, known, acid, with_message(self.take_up))
        fields = (self.name, self.strength, self.known, self.acid, self.take_up)
        for label, field, row in zip(self._labels, fields, rows, strict=True):
            label.setBuddy(field)
            self._form.addRow(label, row)
        inside = QVBoxLayout(self.fields)
        inside.setContentsMargins(0, 0, 0, 0)
        inside.setSpacing(4)
        inside.addLayout(self._form)
        inside.addWidget(self.swatches)
        inside.addWidget(self.message)

    def _connect(self) -> None:
        self._keep_up(self._document, self.refresh, turn=2)
        self.toggle.toggled.connect(self.open_fields)
        self.name.entered.connect(self._rename)
        self.strength.entered.connect(self._change_strength)
        self.keep.toggled.connect(self._keep_depths)
        self.known.chosen.connect(self._choose_known)
        self.acid.entered.connect(self._change_acid)
        self.acid.made_unknown.connect(lambda: self._change_acid(None))
        self.same_acid.clicked.connect(self._take_acid_of_water)
        self.take_up.entered.connect(self._change_take_up)
        self.swatches.window_wanted.connect(lambda: self.dye_window.open_for(self._stock_id))

    def _retranslate(self) -> None:
        words = (
            self.tr("Name"),
            self.tr("Strength"),
            self.tr("Known by"),
            self.tr("Acid"),
            self.tr("Takes up"),
        )
        for label, text in zip(self._labels, words, strict=True):
            label.setText(text)
        self.toggle.setText(self.tr("Details"))
        call(self.toggle, self.tr("Details of the selected stock"))
        call(self.name, self.tr("Name of the stock"))
        call(self.known, self.tr("How the strength is known"))
        self.keep.setText(self.tr("Keep depths"))
        self.keep.setToolTip(
            self.tr("A new strength re-reckons the parts of every liquor, so that no shade moves")
        )
        self.acid.setToolTip(self.tr("% or g/L. Type ? while it is not known, 0 where there is none"))
        self.take_up.setToolTip(
            self.tr("Most dye that the wool takes up; 6 % is common practice, without a source")
        )
        self.refresh()

    def _show(self, stock: Stock) -> None:
        self.role.show_text(f"{role_words(stock.role)} · {self._stocks.used_in(stock.id)}")
        self.name.set_value(stock.name)
        self.acid.set_value(stock.acid_g_per_l)
        self._offer_acid(stock)
        self._show_dye_rows(stock.is_dye)
        if stock.is_dye:
            grams = shown(ACID, stock.strength_g_per_l)
            self.strength.set_value(stock.strength_g_per_l)
            self.strength.setToolTip(
                self.tr("Weight of dye in the volume of the stock, as % or g/L. Now: {0}").format(grams)
            )
            self.known.set_choices(self._stocks.known_choices(), stock.strength_known)
            self.take_up.set_value(stock.take_up_pct_owf)
            self.swatches.show_stock(stock, self._document.sheet.plan.fibre.undyed_srgb)

    def _offer_acid(self, stock: Stock) -> None:
        """Offer the acid of the acid water while that of the stock is not known."""
        water = acid_water(self._document.sheet.plan) if stock.acid_g_per_l is None else None
        self.same_acid.setVisible(water is not None)
        if water is not None and water.acid_g_per_l is not None:
            self.same_acid.setText(self.tr("Same as acid water"))
            name, acid = one_line(water.name), shown(ACID, water.acid_g_per_l)
            self.same_acid.setToolTip(self.tr("{0}, as {1}").format(acid, name))
            self.same_acid.setAccessibleDescription(self.same_acid.toolTip())

    def _show_dye_rows(self, visible: bool) -> None:
        self.swatches.setVisible(visible)
        if visible == self._form.isRowVisible(_DYE_ROWS[0]):
            return
        for row in _DYE_ROWS:
            self._form.setRowVisible(row, visible)
        for field in (self.strength, self.take_up):
            field.message.say("")  # the form shows all of a row, messages too

    # -- editing -------------------------------------------------------------------------------------------

    def _edit(self, field: EntryField, name: str, changes: dict[str, Any]) -> None:
        edit_at(field, self._document, name, partial(change_stock, stock_id=self._stock_id, **changes))

    def _rename(self, name: str) -> None:
        self._edit(self.name, self.tr("Rename stock"), {"name": name})

    def _change_strength(self, strength_g_per_l: float) -> None:
        edit = self._stocks.strength_edit(self._stock_id, strength_g_per_l)
        edit_at(self.strength, self._document, self.tr("Change strength"), edit)

    def _keep_depths(self, keeps: bool) -> None:
        self._stocks.keeps_depths = keeps

    def _choose_known(self, known: object) -> None:
        name = self.tr("Say how strength is known")
        edit = partial(change_stock, stock_id=self._stock_id, strength_known=known)
        edit_and_say(self._document, name, edit, self.message.say)

    def _change_acid(self, acid_g_per_l: float | None) -> None:
        self._edit(self.acid, self.tr("Change acid"), {"acid_g_per_l": acid_g_per_l})

    def _take_acid_of_water(self) -> None:
        edit = partial(take_acid_of_water, stock_id=self._stock_id)
        if edit_at(self.acid, self._document, self.tr("Same acid as acid water"), edit):
            self.acid.setFocus()  # the button goes with its question

    def _change_take_up(self, take_up_pct_owf: float) -> None:
        self._edit(self.take_up, self.tr("Change take-up"), {"take_up_pct_owf": take_up_pct_owf})
