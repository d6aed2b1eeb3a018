"""Rows of one number each: strips of a ply, plies of a split, what is wound off each ply.

The rule of this module: rows come and go with their count and are never made anew, so that what is being
typed stays.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from studio_gui.views.choices import ChoiceField
from studio_gui.views.fields import QuantityField
from studio_gui.views.labels import MessageLabel, ShortenedLabel, TonedLabel, call, explain, scaled_font
from studio_gui.views.live import LiveWidget
from studio_gui.views.tick_box import TickBox

FIELD_WIDTH = "99999.99"


class NumberedRows(LiveWidget):
    """A heading with how many there are, and a row for each: its number, its field, a tick, a note.

    Parameters
    ----------
    field
        Name of the plan's field that every row holds.
    ticked
        Whether every row has a tick.

    Signals
    -------
    counted
        Another count is chosen.
    entered
        A number was typed; carries the row, from 0, and the value.
    ticked
        A tick was set or taken away; carries the row, from 0.
    """

    counted = Signal(int)
    entered = Signal(int, float)
    ticked = Signal(int, bool)

    def __init__(self, field: str, *, ticked: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._field, self._has_ticks = field, ticked
        self.heading = TonedLabel("text")
        self.heading.setWordWrap(True)
        self.count = ChoiceField()
        self.message = MessageLabel()
        self.fields: list[QuantityField] = []
        self.ticks: list[TickBox] = []
        self.names: list[TonedLabel] = []
        self.notes: list[ShortenedLabel] = []
        self._words = ("", "", "")
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(8)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnStretch(3, 1)
        top = QHBoxLayout()
        top.addWidget(self.heading, 1)
        top.addWidget(self.count)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addLayout(top)
        column.addWidget(self.message)
        column.addLayout(self._grid)
        self.count.chosen.connect(self.counted.emit)
        self._set_fonts()

    def name(self, heading: str, row: str, meaning: str, tick: str = "") -> None:
        """Say what the rows are: `row` has a place for their number, `meaning` explains the field."""
        self._words = (row, meaning, tick)
        self.heading.show_text(heading)
        call(self.count, heading)
        for place in range(len(self.fields)):
            self._name_row(place)

    def offer_counts(self, low: int, high: int, count: int) -> None:
        """Let the count be chosen from `low` to `high`; `count` is the one that stands."""
        self.count.set_choices([(str(one), one) for one in range(low, high + 1)], count)

    def show_rows(
        self, values: Sequence[float], notes: Sequence[str], ticks: Sequence[bool] | None = None
    ) -> None:
        """Show one row a value."""
        while len(self.fields) < len(values):
            self._add_row()
        for place, field in enumerate(self.fields):
            is_there = place < len(values)
            for widget in (field, self.names[place], self.notes[place], self.ticks[place]):
                widget.setVisible(is_there and (self._has_ticks or widget is not self.ticks[place]))
            if not is_there:
                field.drop()
                continue
            field.set_value(values[place])
            self.notes[place].show_text(notes[place])
            with QSignalBlocker(self.ticks[place]):
                self.ticks[place].setChecked(bool(ticks and ticks[place]))

    def _add_row(self) -> None:
        place = len(self.fields)
        field, tick = QuantityField(self._field), TickBox()
        name, note = TonedLabel("text"), ShortenedLabel("secondary")
        name.setBuddy(field)
        for made, into in ((field, self.fields), (tick, self.ticks), (name, self.names), (note, self.notes)):
            into.append(made)  # type: ignore[arg-type]  # each list takes its own kind
        for column, widget in enumerate((name, field, tick, note)):
            self._grid.addWidget(widget, 2 * place, column)
        self._grid.addWidget(field.message, 2 * place + 1, 0, 1, 4)
        field.entered.connect(partial(self.entered.emit, place))
        tick.toggled.connect(partial(self.ticked.emit, place))
        self._set_fonts()
        self._name_row(place)

    def _name_row(self, place: int) -> None:
        row, meaning, tick = self._words
        name = row.format(place + 1)
        self.names[place].show_text(name)
        call(self.fields[place], name)
        explain(self.fields[place], meaning)
        self.ticks[place].setText(tick)
        call(self.ticks[place], f"{name}: {tick}")

    def _set_fonts(self) -> None:
        self.heading.setFont(scaled_font(self.font(), 1.0, bold=True))
        width = self.fontMetrics().horizontalAdvance(FIELD_WIDTH) + 16
        for field in self.fields:
            field.setFixedWidth(width)
