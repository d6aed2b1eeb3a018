"""Everything about the selected stock.

The rule of this module: what a let-down does not have is not shown for it.
"""

from __future__ import annotations

from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QFormLayout, QLabel, QVBoxLayout, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.stock_model import StockModel, role_words, with_first_swatch
from studio_gui.domain.edits.stocks import change_stock
from studio_gui.domain.stocks import Stock
from studio_gui.views.choices import ChoiceField, ColourField
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

_FIRST_DYE_ROW = 2
_DYE_ROWS = (_FIRST_DYE_ROW, 3, 5, 6, 7)
WIDEST_PX = 420


class StockForm(LiveWidget):
    """Fields of one stock."""

    def __init__(self, document: OpenPlan, stocks: StockModel, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._stocks = document, stocks
        self._stock_id = ""
        self.role = ShortenedLabel("secondary")
        self.name = TextField()
        self.strength = QuantityField("strength_g_per_l")
        self.keep = QCheckBox()
        self.known = ChoiceField()
        self.acid = QuantityField("acid_g_per_l", may_be_unknown=True)
        self.take_up = QuantityField("take_up_pct_owf")
        self.colour = ColourField("srgb")
        self.swatch_depth = QuantityField("depth_pct_owf")
        self.message = MessageLabel()
        self._labels = [QLabel() for _ in range(7)]
        self._lay_out()
        self._connect()
        self._retranslate()

    def show_stock(self, stock_id: str) -> None:
        """Show another stock; what was being typed for the last one is forgotten."""
        if stock_id != self._stock_id:
            self._stock_id = stock_id
            for field in (
                self.name,
                self.strength,
                self.acid,
                self.take_up,
                self.colour.edit,
                self.swatch_depth,
            ):
                field.drop()
            self.message.say("")
        self.refresh()

    def refresh(self) -> None:
        """Show the stock as the worksheet has it."""
        stocks = {stock.id: stock for stock in self._document.sheet.plan.stocks}
        self.setVisible(self._stock_id in stocks)
        if self._stock_id in stocks:
            self._show(stocks[self._stock_id])

    def _lay_out(self) -> None:
        self.setMaximumWidth(WIDEST_PX)
        self._form = QFormLayout(self)
        self._form.setContentsMargins(0, 0, 0, 0)
        self._form.setHorizontalSpacing(12)
        self._form.setVerticalSpacing(4)
        self._form.setLabelAlignment(Qt.AlignmentFlag.AlignLeft)
        self._form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        strength = with_message(self.strength)
        strength.addWidget(self.keep)
        rows: list[tuple[QWidget, QVBoxLayout | QWidget]] = [
            (self.name, with_message(self.name)),
            (self.strength, strength),
            (self.known, self.known),
            (self.acid, with_message(self.acid)),
            (self.take_up, with_message(self.take_up)),
            (self.colour, with_message(self.colour.edit, self.colour)),
            (self.swatch_depth, with_message(self.swatch_depth)),
        ]
        self._form.addRow(self.role)
        for label, (field, row) in zip(self._labels, rows, strict=True):
            label.setBuddy(field.edit if isinstance(field, ColourField) else field)
            if isinstance(row, QWidget):
                self._form.addRow(label, row)
            else:
                self._form.addRow(label, row)
        self._form.addRow(self.message)

    def _connect(self) -> None:
        self._document.shown.connect(self.refresh)
        self.name.entered.connect(self._rename)
        self.strength.entered.connect(self._change_strength)
        self.keep.toggled.connect(self._keep_depths)
        self.known.chosen.connect(self._choose_known)
        self.acid.entered.connect(self._change_acid)
        self.acid.made_unknown.connect(lambda: self._change_acid(None))
        self.take_up.entered.connect(self._change_take_up)
        self.colour.entered.connect(self._change_colour)
        self.swatch_depth.entered.connect(self._change_depth)

    def _retranslate(self) -> None:
        words = (
            self.tr("Name"),
            self.tr("Strength"),
            self.tr("Known by"),
            self.tr("Acid"),
            self.tr("Takes up"),
            self.tr("Swatch"),
            self.tr("at depth"),
        )
        for label, text in zip(self._labels, words, strict=True):
            label.setText(text)
        call(self.name, self.tr("Name of the stock"))
        call(self.known, self.tr("How the strength is known"))
        self.keep.setText(self.tr("Keep depths"))
        self.keep.setToolTip(
            self.tr("A new strength re-reckons the parts of every liquor, so that no shade moves")
        )
        self.strength.setToolTip(self.tr("Weight of dye in the volume of the stock: 1 % is 10 g/L"))
        self.acid.setToolTip(self.tr("Type ? while it is not known, 0 where there is none"))
        self.take_up.setToolTip(
            self.tr("Most dye that the wool takes up; 6 % is common practice, without a source")
        )
        self.colour.edit.setToolTip(self.tr("Colour of a dyed sample"))
        self.swatch_depth.setToolTip(self.tr("Depth at which the sample was dyed"))
        self.refresh()

    def _show(self, stock: Stock) -> None:
        self.role.show_text(role_words(stock.role))
        self.name.set_value(stock.name)
        self.acid.set_value(stock.acid_g_per_l)
        self._show_dye_rows(stock.is_dye)
        if stock.is_dye:
            self.strength.set_value(stock.strength_g_per_l)
            self.known.set_choices(self._stocks.known_choices(), stock.strength_known)
            self.take_up.set_value(stock.take_up_pct_owf)
            self.colour.set_value(stock.swatches[0].srgb)
            self.swatch_depth.set_value(stock.swatches[0].depth_pct_owf)

    def _show_dye_rows(self, visible: bool) -> None:
        if visible == self._form.isRowVisible(_FIRST_DYE_ROW):
            return
        for row in _DYE_ROWS:
            self._form.setRowVisible(row, visible)
        for field in (self.strength, self.take_up, self.colour.edit, self.swatch_depth):
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

    def _change_take_up(self, take_up_pct_owf: float) -> None:
        self._edit(self.take_up, self.tr("Change take-up"), {"take_up_pct_owf": take_up_pct_owf})

    def _change_colour(self, srgb: str) -> None:
        self._change_swatch(self.colour.edit, {"srgb": srgb})

    def _change_depth(self, depth_pct_owf: float) -> None:
        self._change_swatch(self.swatch_depth, {"depth_pct_owf": depth_pct_owf})

    def _change_swatch(self, field: EntryField, changes: dict[str, Any]) -> None:
        stock_id = self._stock_id
        edit_at(
            field,
            self._document,
            self.tr("Change swatch"),
            lambda plan: change_stock(
                plan, stock_id, swatches=with_first_swatch(plan.stock(stock_id), **changes)
            ),
        )
