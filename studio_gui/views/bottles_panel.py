"""Stocks to make: what is needed, how much is made, and what is weighed in for it.

The rule of this module: how much is made is typed over in the table; what is amiss with a bottle stands
beneath it in words.
"""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from studio_gui.document.bench_models import BottleColumn, BottleModel
from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.errors import RovingLayError
from studio_gui.views.delegates import SwatchDelegate
from studio_gui.views.fitted_table import FittedTable
from studio_gui.views.labels import MessageLabel, TonedLabel, scaled_font
from studio_gui.views.live import LiveWidget
from studio_gui.wording.sentences import refusal
from studio_gui.wording.work_words import safety_words, stock_work

ROWS_SEEN = 12


class BottlesPanel(LiveWidget):
    """The stocks to make, and the order of work."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.model = BottleModel(document, self)
        widest: dict[int, str] = {
            BottleColumn.NEED: "99999",
            BottleColumn.MADE: "99999",
            BottleColumn.DYE: "99.99",
            BottleColumn.ACID: "99.99",
        }
        self.table = FittedTable(self.model, BottleColumn.NAME, widest, ROWS_SEEN, (BottleColumn.NAME,))
        self.table.setItemDelegateForColumn(BottleColumn.NAME, SwatchDelegate(self.table))
        self.heading = TonedLabel("text")
        self.hint = TonedLabel()
        self.message = MessageLabel()
        self.amiss = TonedLabel("under")
        self.work = TonedLabel()
        for label in (self.hint, self.amiss, self.work):
            label.setWordWrap(True)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 12)
        column.setSpacing(8)
        for part in (self.heading, self.table, self.message, self.amiss, self.hint, self.work):
            column.addWidget(part)
        column.addStretch(1)
        self.model.refused.connect(self._refused)
        self.model.accepted.connect(lambda: self.message.say(""))
        self._keep_up(document, self._show, turn=2)
        self._set_fonts()
        self._retranslate()

    def _set_fonts(self) -> None:
        self.heading.setFont(scaled_font(self.font(), 1.0, bold=True))

    def _retranslate(self) -> None:
        self.heading.show_text(self.tr("Stocks to make"))
        self.table.setAccessibleName(self.tr("Stocks to make"))
        self.hint.show_text(
            self.tr("Volumes in italics are suggested; type over them. All ml are of the finished stock.")
        )
        self.model.refresh()  # its rows hold words and numbers of the language
        self._show()

    def _show(self) -> None:
        lines = self.model.amiss()
        self.amiss.show_text("\n".join(lines))
        self.amiss.setVisible(bool(lines))
        pieces = [f"{piece.name}: {piece.words}" for piece in stock_work(self._document.sheet)]
        self.work.show_text("\n".join([*pieces, safety_words()]))

    def _refused(self, problem: RovingLayError) -> None:
        self.message.say(refusal(problem, self._document.plan))
