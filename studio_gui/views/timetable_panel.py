"""The timetable: how long each step takes, and when it is due once the start is typed.

The rule of this module: durations and the start are inputs of the plan; times are the worksheet's.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QGridLayout, QLabel, QVBoxLayout, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.inputs import set_timetable
from studio_gui.domain.timetable import STEPS, Step, Timetable
from studio_gui.views.clock_field import ClockField
from studio_gui.views.fields import EntryField, QuantityField, edit_at
from studio_gui.views.labels import TonedLabel, call, explain
from studio_gui.views.live import LiveWidget
from studio_gui.wording.fields import field_name
from studio_gui.wording.measured import where_from
from studio_gui.wording.times import shown_duration, shown_time
from studio_gui.wording.work_words import step_name, step_words

FIELD_WIDTH = "99999 min"


class TimetablePanel(LiveWidget):
    """Start and durations, with the times that come of them."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.start = ClockField()
        self.fields: dict[Step, QuantityField] = {step: QuantityField(f"{step}_min") for step in STEPS}
        self.times = {step: TonedLabel("text") for step in STEPS}
        self.until = TonedLabel()
        self._labels: dict[str, QLabel] = {name: QLabel() for name in ("start", *STEPS)}
        self._lay_out()
        self._keep_up(document, self._show, turn=2)
        self.start.entered.connect(self._set_start)
        for step, field in self.fields.items():
            field.entered.connect(partial(self._enter, step))
        self._set_fonts()
        self._retranslate()

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(4)
        grid.setColumnStretch(2, 1)
        rows: list[tuple[str, EntryField, QWidget]] = [("start", self.start, self.until)]
        rows += [(step, field, self.times[step]) for step, field in self.fields.items()]
        for row, (name, field, beside) in enumerate(rows):
            self._labels[name].setBuddy(field)
            grid.addWidget(self._labels[name], 2 * row, 0)
            grid.addWidget(field, 2 * row, 1)
            grid.addWidget(beside, 2 * row, 2)
            grid.addWidget(field.message, 2 * row + 1, 0, 1, 3)
        for label in (self.until, *self.times.values()):
            label.setWordWrap(True)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 12)
        column.setSpacing(12)
        column.addLayout(grid)
        column.addStretch(1)

    def _set_fonts(self) -> None:
        width = self.fontMetrics().horizontalAdvance(FIELD_WIDTH) + 16
        for field in (self.start, *self.fields.values()):
            field.setFixedWidth(width)

    def _retranslate(self) -> None:
        self._labels["start"].setText(field_name("start_min"))
        call(self.start, field_name("start_min"))
        explain(self.start, self.tr("Time of day at which soaking starts, like 9:30; empty while it is open"))
        for step in STEPS:
            self._labels[step].setText(step_name(step))
        self._show()

    def _show(self) -> None:
        sheet = self._document.sheet
        timetable = sheet.plan.timetable
        self.start.set_value(timetable.start_min)
        for one in sheet.timed_steps:
            field = self.fields[one.step]
            minutes = timetable.minutes(one.step)
            field.set_value(minutes)
            common = Timetable().minutes(one.step)
            from_where = where_from(f"{one.step}_min", minutes, common, measured=False)
            explain(field, f"{step_words(sheet, one.step)}\n{from_where}")
            words = ""
            if timetable.start_min is not None:
                words = self.tr("{0} to {1}").format(shown_time(one.begins_min), shown_time(one.ends_min))
            self.times[one.step].show_text(words)
        first, last = sheet.timed_steps[0], sheet.timed_steps[-1]
        whole = self.tr("{0} in all").format(shown_duration(last.ends_min - first.begins_min))
        self.until.show_text(whole)

    def _enter(self, step: Step, minutes: float) -> None:
        name = f"{step}_min"
        edit_at(
            self.fields[step],
            self._document,
            field_name(name),
            lambda plan: set_timetable(plan, **{name: minutes}),
        )

    def _set_start(self, minutes: float | None) -> None:
        edit_at(
            self.start, self._document, field_name("start_min"), partial(set_timetable, start_min=minutes)
        )
