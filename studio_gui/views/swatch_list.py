"""The dyed samples of a dye, one row each.

The rule of this module: rows come and go at the end, so that what is being typed in one stays where it is;
every entry is one undo step.
"""

from __future__ import annotations

from functools import partial
from itertools import pairwise
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QToolButton, QVBoxLayout, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.swatches import add_swatch, change_swatch, remove_swatch
from studio_gui.domain.stocks import Stock
from studio_gui.views.fields import EntryField, edit_and_say, edit_at
from studio_gui.views.labels import MessageLabel, TonedLabel, call
from studio_gui.views.live import LiveWidget
from studio_gui.views.swatch_row import SwatchRow
from studio_gui.wording.numbers import shown_number


class SwatchList(LiveWidget):
    """The swatches of the stock that is shown."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._stock: Stock | None = None
        self._undyed_srgb = ""
        self.rows: list[SwatchRow] = []
        self.heading = TonedLabel("text")
        self.heading.setWordWrap(True)
        self.build_up = TonedLabel("secondary")
        self.build_up.setWordWrap(True)
        self.message = MessageLabel()
        self.add = QToolButton()
        self.add.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.add.setMinimumHeight(24)
        self.add.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.add.clicked.connect(self._add)
        head = QHBoxLayout()
        head.addWidget(self.heading, 1)
        head.addWidget(self.add)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(4)
        self._column.addLayout(head)
        self._column.addWidget(self.build_up)
        self._column.addWidget(self.message)
        self._retranslate()

    def show_stock(self, stock: Stock, undyed_srgb: str) -> None:
        """Show the swatches of a dye; `undyed_srgb` is the plan's own fibre."""
        if self._stock is not None and stock.id != self._stock.id:
            for row in self.rows:
                row.drop()
            self.message.say("")
        if stock is not self._stock or undyed_srgb != self._undyed_srgb:
            self._stock, self._undyed_srgb = stock, undyed_srgb
            self._show(stock)

    def _show(self, stock: Stock) -> None:
        count = len(stock.swatches)
        while len(self.rows) > count:
            row = self.rows.pop()
            self._column.removeWidget(row)
            row.hide()
            row.deleteLater()
        while len(self.rows) < count:
            self._append_row()
        curve = stock.curve
        for row, swatch, miss in zip(self.rows, stock.swatches, curve.misses, strict=True):
            row.show_swatch(swatch, stock.strength_pct, self._undyed_srgb, miss, count)
        several = len({swatch.depth_pct_owf for swatch in stock.swatches}) > 1
        self.build_up.setVisible(several)
        self.build_up.show_text(
            self.tr("Builds up as depth to the power {0}").format(shown_number(curve.exponent, 2))
        )

    def _append_row(self) -> None:
        place = len(self.rows)
        row = SwatchRow(place)
        row.colour.entered.connect(lambda srgb: self._change(place, row.colour.edit, srgb=srgb))
        row.depth_field.entered.connect(
            lambda depth: self._change(place, row.depth_field, depth_pct_owf=depth)
        )
        row.fibre_chosen.connect(lambda srgb: self._change(place, row.colour.edit, fibre_srgb=srgb))
        row.removed.connect(lambda: self._remove(place))
        self.rows.append(row)
        self._column.insertWidget(1 + place, row)
        before = self.rows[place - 1].remove if place else self.add
        for one, after in pairwise((before, *row.stops)):
            QWidget.setTabOrder(one, after)

    def _retranslate(self) -> None:
        self.heading.show_text(self.tr("Swatches: colour, depth, fibre"))
        self.add.setText(self.tr("+ Swatch"))
        meaning = self.tr("Add a dyed sample of another depth")
        call(self.add, meaning)
        self.add.setToolTip(meaning)
        if self._stock is not None:
            self._show(self._stock)

    # -- editing -------------------------------------------------------------------------------------------

    def _change(self, place: int, field: EntryField, **changes: Any) -> None:  # noqa: ANN401  (fields of Swatch)
        if self._stock is not None:
            edit = partial(change_swatch, stock_id=self._stock.id, place=place, **changes)
            edit_at(field, self._document, self.tr("Change swatch"), edit)

    def _add(self) -> None:
        if self._stock is None:
            return
        edit = partial(add_swatch, stock_id=self._stock.id)
        if edit_and_say(self._document, self.tr("Add swatch"), edit, self.message.say):
            self.rows[-1].colour.edit.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _remove(self, place: int) -> None:
        if self._stock is not None:
            edit = partial(remove_swatch, stock_id=self._stock.id, place=place)
            edit_and_say(self._document, self.tr("Remove swatch"), edit, self.message.say)
