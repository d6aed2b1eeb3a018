"""Jars: what is measured into each, as it will be printed, and how a syringe is filled.

The rule of this module: it only shows what the worksheet says, and holds the syringe.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from studio_gui.document.bench_models import JarColumn, JarModel
from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.cards import measured_in_all_ml
from studio_gui.domain.edits.inputs import set_bench
from studio_gui.views.delegates import SeverityDelegate, SwatchDelegate
from studio_gui.views.fields import QuantityField, edit_at
from studio_gui.views.figure_list import FigureList
from studio_gui.views.labels import TonedLabel, call, explain
from studio_gui.views.live import LiveWidget
from studio_gui.wording.bench_words import dose_words, measured_ml
from studio_gui.wording.fields import field_name
from studio_gui.wording.quantities import VOLUME, Kind, shown

FIELD_WIDTH = "99999.9 ml"
ROWS_SEEN = 24
#: How many amounts that are amiss, or sections of a syringe, are told one by one; the cards tell all.
MOST_LINES = 40
_SYRINGE = Kind("volume", "ml", 1)


class SyringeField(QuantityField):
    """What a syringe holds; empty where none is used."""

    def __init__(self) -> None:
        super().__init__("syringe_ml", _SYRINGE, may_be_unknown=True)

    def _words(self, value: float | None) -> str:
        return "" if value is None else super()._words(value)


class JarsPanel(LiveWidget):
    """All jars with their amounts."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.syringe = SyringeField()
        self._label = QLabel()
        self._label.setBuddy(self.syringe)
        widest: dict[int, str] = {JarColumn.AMOUNT: "9999.9", JarColumn.OFF: "−99.9"}
        self.model = JarModel(document, self)
        self.jars = FigureList(self.model, JarColumn.NAME, widest, ROWS_SEEN, (JarColumn.NAME, JarColumn.OFF))
        table = self.jars.table
        table.setItemDelegateForColumn(JarColumn.NAME, SwatchDelegate(table))
        table.setItemDelegateForColumn(JarColumn.OFF, SeverityDelegate(table))
        self.amiss, self.fills = TonedLabel("under"), TonedLabel("text")
        for label in (self.amiss, self.fills):
            label.setWordWrap(True)
        self._lay_out()
        self._keep_up(document, self._show, turn=2)
        self.syringe.entered.connect(self._enter)
        self.syringe.made_unknown.connect(partial(self._enter, None))
        self._set_fonts()
        self._retranslate()

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(self._label, 1)
        row.addWidget(self.syringe)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 12)
        column.setSpacing(8)
        column.addLayout(row)
        for part in (self.syringe.message, self.jars, self.amiss, self.fills):
            column.addWidget(part)
        column.addStretch(1)

    def _set_fonts(self) -> None:
        self.syringe.setFixedWidth(self.fontMetrics().horizontalAdvance(FIELD_WIDTH) + 16)

    def _retranslate(self) -> None:
        self.model.refresh()  # its rows hold words and numbers of the language
        self.jars.name(self.tr("Jars"))
        self._label.setText(field_name("syringe_ml"))
        call(self.syringe, field_name("syringe_ml"))
        self.syringe.setPlaceholderText(self.tr("none"))
        explain(
            self.syringe,
            self.tr(
                "What a syringe holds that liquor is painted with; then its fills are told. Empty: none."
            ),
        )
        self._show()

    def _show(self) -> None:
        sheet = self._document.sheet
        plan = sheet.plan
        self.syringe.set_value(plan.bench.syringe_ml)
        words = self.tr("{0} ml in all, as measured") if sheet.cards else self.tr("nothing to mix")
        self.jars.sum.show_text(words.format(measured_ml(measured_in_all_ml(sheet.cards), plan)))
        reckoned = shown(VOLUME, sheet.totals.jars_ml)
        explain(
            self.jars.sum,
            self.tr("Every amount is rounded to what can be measured; reckoned, it is {0}.").format(reckoned)
            if sheet.cards
            else "",
        )
        self._tell(self.amiss, self.model.amiss())
        self._tell(self.fills, [dose_words(plan, dose) for card in sheet.cards for dose in card.doses])

    def _tell(self, label: TonedLabel, lines: list[str]) -> None:
        """Show the first of `lines`, and how many more there are; nothing where there are none."""
        more = len(lines) - MOST_LINES
        if more > 0:
            lines = [*lines[:MOST_LINES], self.tr("{0} more, on the cards").format(more)]
        label.show_text("\n".join(lines))
        label.setVisible(bool(lines))

    def _enter(self, syringe_ml: float | None) -> None:
        edit = partial(set_bench, syringe_ml=syringe_ml)
        edit_at(self.syringe, self._document, field_name("syringe_ml"), edit)
