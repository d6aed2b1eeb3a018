"""The knitted swatch of the yarn, and what it is knitted with: width, yarn of a row, flat or in the round.

The rule of this module: it edits the knitting alone, each number as one step that can be undone.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QSignalBlocker
from PySide6.QtWidgets import QHBoxLayout, QLabel, QScrollBar, QVBoxLayout, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.stripes import set_knitting
from studio_gui.domain.spinning.swatch import STITCHES_PER_M
from studio_gui.views.fields import QuantityField, edit_and_say, edit_at
from studio_gui.views.flow import FlowLayout
from studio_gui.views.knitted_swatch import ARROW_ROWS, KnittedSwatch
from studio_gui.views.labels import MessageLabel, call, explain
from studio_gui.views.live import LiveWidget
from studio_gui.views.tick_box import TickBox
from studio_gui.wording.fields import field_name
from studio_gui.wording.numbers import shown_number
from studio_gui.wording.quantities import LAY_LENGTH, shown_briefly

FIELD_WIDTH = "999.99 m"
NUMBERS = ("knitted_width_m", "row_m")


class SwatchView(LiveWidget):
    """The swatch, with its fields above it."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.fields = {
            "knitted_width_m": QuantityField("knitted_width_m"),
            "row_m": QuantityField("row_m", may_be_unknown=True),
        }
        self._labels = {name: QLabel() for name in NUMBERS}
        self.in_the_round = TickBox()
        self.message = MessageLabel()
        self.swatch = KnittedSwatch(document)
        self.bar = QScrollBar()
        self._lay_out()
        self._keep_up(document, self._show, turn=2)
        self.fields["knitted_width_m"].entered.connect(partial(self._enter, "knitted_width_m", "width_m"))
        self.fields["row_m"].entered.connect(partial(self._enter, "row_m", "row_m"))
        self.fields["row_m"].made_unknown.connect(partial(self._enter, "row_m", "row_m", None))
        self.in_the_round.toggled.connect(self._turn)
        self.bar.valueChanged.connect(self.swatch.show_from)
        self.swatch.moved.connect(self._follow_rows)
        self._set_fonts()
        self._retranslate()

    def _lay_out(self) -> None:
        self.bar.setInvertedAppearance(True)  # row 1 is at the bottom
        self.bar.setInvertedControls(False)
        flow = FlowLayout(spacing=12)
        for name in NUMBERS:
            pair = QWidget()
            row = QHBoxLayout(pair)
            row.setContentsMargins(0, 0, 0, 0)
            row.setSpacing(6)
            row.addWidget(self._labels[name])
            row.addWidget(self.fields[name])
            self._labels[name].setBuddy(self.fields[name])
            flow.addWidget(pair)
        flow.addWidget(self.in_the_round)
        picture = QHBoxLayout()
        picture.setSpacing(0)
        picture.addWidget(self.swatch, 1)
        picture.addWidget(self.bar)
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 4, 8, 4)
        column.setSpacing(4)
        column.addLayout(flow)
        for label in (*(field.message for field in self.fields.values()), self.message):
            column.addWidget(label)
        column.addLayout(picture, 1)

    def _set_fonts(self) -> None:
        width = self.fontMetrics().horizontalAdvance(FIELD_WIDTH) + 16
        for field in self.fields.values():
            field.setFixedWidth(width)

    def _retranslate(self) -> None:
        for name, label in self._labels.items():
            label.setText(field_name(name))
        explain(
            self.fields["knitted_width_m"],
            self.tr(
                "Width of a row, or all round; {0} stitches to {1}: common practice, without a source."
            ).format(shown_number(STITCHES_PER_M / 10.0, 0), shown_briefly(LAY_LENGTH, 0.1)),
        )
        explain(
            self.fields["row_m"],
            self.tr(
                "Plied yarn of one row. Empty: three times the width, common practice, without a source; knit"
                " a row and measure."
            ),
        )
        self.in_the_round.setText(self.tr("In the round"))
        explain(self.in_the_round, self.tr("Every row runs the same way; knitted flat, every other one back"))
        call(self.bar, self.tr("Rows seen"))
        self._show()

    # -- showing -------------------------------------------------------------------------------------------

    def _show(self) -> None:
        knitting = self._document.sheet.plan.yarn.knitting
        self.fields["knitted_width_m"].set_value(knitting.width_m)
        self.fields["row_m"].set_value(knitting.metres_a_row)
        with QSignalBlocker(self.in_the_round):
            self.in_the_round.setChecked(knitting.in_the_round)
        self._follow_rows()

    def _follow_rows(self) -> None:
        layout = self.swatch.laid_out
        hidden = 0 if layout is None else layout.total - layout.place.rows
        with QSignalBlocker(self.bar):
            self.bar.setRange(0, hidden)
            if layout is not None:
                self.bar.setSingleStep(ARROW_ROWS)
                self.bar.setPageStep(layout.place.rows)
                self.bar.setValue(layout.first_row)
        self.bar.setVisible(hidden > 0)

    # -- editing -------------------------------------------------------------------------------------------

    def _enter(self, name: str, attribute: str, value: float | None) -> None:
        edit_at(
            self.fields[name],
            self._document,
            field_name(name),
            lambda plan: set_knitting(plan, **{attribute: value}),
        )

    def _turn(self, on: bool) -> None:
        edit = partial(set_knitting, in_the_round=on)
        edit_and_say(self._document, self.in_the_round.text(), edit, self.message.say)
