"""The dyed samples of a dye, one row each.

The rule of this module: rows come and go at the end, so that what is being typed in one stays where it is;
every entry is one undo step. A spectrum waits, with its dye, until its depth is typed.
"""

from __future__ import annotations

from functools import partial
from itertools import pairwise
from pathlib import Path
from typing import Any

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import (
    QFileDialog,
    QHBoxLayout,
    QPushButton,
    QSizePolicy,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.colour.measured import Spectrum
from studio_gui.domain.edits.stocks import change_stock
from studio_gui.domain.edits.swatches import add_measured_swatch, add_swatch, change_swatch, remove_swatch
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.stocks import Stock
from studio_gui.storage.spectra_csv import read_spectrum
from studio_gui.views.fields import EntryField, edit_and_say, edit_at
from studio_gui.views.labels import MessageLabel, TonedLabel, call, explain
from studio_gui.views.live import LiveWidget
from studio_gui.views.swatch_row import SwatchRow
from studio_gui.views.tick_box import TickBox
from studio_gui.views.waiting_spectrum import WaitingSpectrum
from studio_gui.wording.naming import one_line
from studio_gui.wording.numbers import shown_number
from studio_gui.wording.sentences import refusal

#: Of a file's name this much is told.
LONGEST_NAME = 40


class SwatchList(LiveWidget):
    """The swatches of the stock that is shown.

    Signals
    -------
    window_wanted
        Photo and curve are to be shown beside them; offered where the list `has_window`.
    """

    window_wanted = Signal()

    def __init__(
        self, document: OpenPlan, parent: QWidget | None = None, *, has_window: bool = False
    ) -> None:
        super().__init__(parent)
        self._document, self._has_window = document, has_window
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
        self.spectrum, self.window_button = QPushButton(self), QPushButton(self)
        self.spectrum.clicked.connect(self._ask_for_spectrum)
        self.window_button.clicked.connect(self.window_wanted)
        self.window_button.setHidden(not has_window)
        self._waiting: dict[str, tuple[Spectrum, str]] = {}
        self.waiting = WaitingSpectrum()
        self.waiting.taken.connect(self._take_spectrum)
        self.waiting.sent_away.connect(self._send_spectrum_away)
        document.replaced.connect(self._forget)
        self.fluorescent = TickBox()
        self.fluorescent.toggled.connect(self._set_fluorescent)
        head = QHBoxLayout()
        head.addWidget(self.heading, 1)
        head.addWidget(self.add)
        more = QHBoxLayout()
        more.addWidget(self.window_button)
        more.addWidget(self.spectrum)
        more.addStretch(1)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(4)
        self._column.addLayout(head)
        self._column.addWidget(self.build_up)
        self._column.addLayout(more)
        self._column.addWidget(self.waiting)
        self._column.addWidget(self.fluorescent)
        waits = (self.waiting.depth_field, self.waiting.close_button)
        for one, after in pairwise((self.add, self.window_button, self.spectrum, *waits, self.fluorescent)):
            QWidget.setTabOrder(one, after)
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
        for row in self.rows:
            row.show_swatch(stock, self._undyed_srgb)
        self._show_waiting(stock)
        several = len({swatch.depth_pct_owf for swatch in stock.swatches}) > 1
        self.build_up.setVisible(several and self._has_window)
        exponent = shown_number(stock.curve.exponent, 2)
        self.build_up.show_text(self.tr("Builds up as depth to the power {0}").format(exponent))
        with QSignalBlocker(self.fluorescent):
            self.fluorescent.setChecked(stock.is_fluorescent)

    def _show_waiting(self, stock: Stock) -> None:
        spectrum, name = self._waiting.get(stock.id, (None, ""))
        self.waiting.show_spectrum(spectrum, name, stock.strength_pct)

    def _append_row(self) -> None:
        place = len(self.rows)
        row = SwatchRow(place, tells_all=not self._has_window)
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
        self.window_button.setText(self.tr("Photo and curve…"))
        explain(self.window_button, self.tr("Take colours off a photo, and see how the dye builds up"))
        self.spectrum.setText(self.tr("Spectrum…"))
        explain(self.spectrum, self.tr("Add a measured sample: a CSV file of wavelengths and reflectances"))
        self.fluorescent.setText(self.tr("Fluorescent"))
        explain(
            self.fluorescent,
            self.tr("Its swatches are met exactly, whatever the curve says; its mixes are guesses"),
        )
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

    def add_spectrum(self, path: Path) -> None:
        """Read the spectrum in a file and let it wait for its depth; say what was read, or why it was not."""
        if self._stock is None:
            return
        try:
            spectrum = read_spectrum(path)
        except RovingLayError as problem:
            self.message.say(refusal(problem))
            return
        self.message.say("")
        self._waiting[self._stock.id] = (spectrum, one_line(path.name, LONGEST_NAME))
        self._show_waiting(self._stock)
        self.waiting.depth_field.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _take_spectrum(self, depth_pct_owf: float) -> None:
        if self._stock is None or self._stock.id not in self._waiting:
            return
        stock_id = self._stock.id
        kept = self._waiting.pop(stock_id)
        edit = partial(
            add_measured_swatch,
            stock_id=stock_id,
            reflectance=kept[0].reflectance,
            depth_pct_owf=depth_pct_owf,
        )
        if not edit_at(self.waiting.depth_field, self._document, self.tr("Add spectrum"), edit):
            self._waiting[stock_id] = kept
        self._show_waiting(self._stock)

    def _send_spectrum_away(self) -> None:
        if self._stock is not None:
            self._waiting.pop(self._stock.id, None)
            self._show_waiting(self._stock)

    def _forget(self) -> None:
        self._waiting.clear()
        if self._stock is not None:
            self._show_waiting(self._stock)

    def _ask_for_spectrum(self) -> None:
        name, _ = QFileDialog.getOpenFileName(
            self, self.tr("Open spectrum"), "", self.tr("Spectra (*.csv *.txt *.tsv);;All files (*)")
        )
        if name:
            self.add_spectrum(Path(name))

    def _set_fluorescent(self, is_fluorescent: bool) -> None:
        if self._stock is not None:
            edit = partial(change_stock, stock_id=self._stock.id, is_fluorescent=is_fluorescent)
            edit_and_say(self._document, self.tr("Fluorescent dye"), edit, self.message.say)
