"""What a fade is asked for: its two ends, a colour between, and its sections.

The rule of this module: it starts from the colours of the run as they are, so that a fade is one look away.
"""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFormLayout, QHBoxLayout, QLabel, QSpinBox, QWidget

from studio_gui.domain.at_hand import at_hand
from studio_gui.domain.edits.fades import FadeWish, WeakStock, stop_of_section
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import RANGES
from studio_gui.views.choices import ChoiceField
from studio_gui.views.labels import call
from studio_gui.views.live import LiveWidget
from studio_gui.views.stop_field import StopField

#: How many sections are made where the run is a single one.
USUAL_SECTIONS = 8
NUMBER_WIDTH = 70


class FadeForm(LiveWidget):
    """Ends, a colour between, and sections of a fade over a run of a plan's sections.

    Signals
    -------
    changed
        Another fade stands in the form.
    """

    changed = Signal()

    def __init__(self, plan: Plan, first: int, last: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._run = last - first + 1
        hand = at_hand(plan)
        self.start = StopField(hand, stop_of_section(plan, first))
        self.middle = StopField(hand, None, optional=True)
        # of a single section the fade leads to its neighbour
        other = last if last > first else min(last + 1, len(plan.sections) - 1)
        self.end = StopField(hand, stop_of_section(plan, other))
        self._keeps = self._run > 2
        self.keep = ChoiceField()
        self.keep.setSizeAdjustPolicy(ChoiceField.SizeAdjustPolicy.AdjustToContents)
        self.count = QSpinBox()
        self.count.setRange(round(RANGES["fade_steps"].low), round(RANGES["fade_steps"].high))
        self.count.setValue(USUAL_SECTIONS)
        self.count.setFixedWidth(NUMBER_WIDTH)
        self.weak: tuple[WeakStock, ...] = ()
        self.names = [QLabel() for _ in range(4)]
        self._lay_out()
        for stop in (self.start, self.middle, self.end):
            stop.changed.connect(self._take)
        self.keep.chosen.connect(self._choose)
        self.count.valueChanged.connect(self._take)
        self._retranslate()

    @property
    def wish(self) -> FadeWish:
        """The fade that stands in the form."""
        stops = (self.start.value, self.middle.value, self.end.value)
        return FadeWish(
            tuple(stop for stop in stops if stop is not None),
            None if self._keeps else self.count.value(),
            self.weak,
        )

    def _lay_out(self) -> None:
        sections = QHBoxLayout()
        sections.setSpacing(8)
        sections.addWidget(self.keep)
        sections.addWidget(self.count)
        sections.addStretch(1)
        form = QFormLayout(self)
        form.setContentsMargins(0, 0, 0, 0)
        form.setHorizontalSpacing(12)
        form.setVerticalSpacing(6)
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        for name, field in zip(self.names, (self.start, self.middle, self.end), strict=False):
            form.addRow(name, field)
        form.addRow(self.names[-1], sections)
        buddies = (self.start.dyes[0], self.middle.dyes[0], self.end.dyes[0], self.keep)
        for name, buddy in zip(self.names, buddies, strict=True):
            name.setBuddy(buddy)

    def _retranslate(self) -> None:
        words = (self.tr("&From"), self.tr("&Through"), self.tr("T&o"), self.tr("&Sections"))
        for name, text in zip(self.names, words, strict=True):
            name.setText(text)
        widest = max(name.sizeHint().width() for name in self.names)
        for name in self.names:  # a letter that is underlined is drawn apart, and may need more than its hint
            name.setMinimumWidth(widest)
        self.start.set_name(self.tr("From"))
        self.middle.set_name(self.tr("Through"))
        self.end.set_name(self.tr("To"))
        call(self.keep, self.tr("Which sections the fade is painted on"))
        call(self.count, self.tr("Number of new sections"))
        self.count.setToolTip(self.count.accessibleName())
        self._show()

    def _show(self) -> None:
        choices: list[tuple[str, object]] = [(self.tr("new ones, equally long:"), False)]
        if self._run > 1:
            choices.insert(0, (self.tr("as they are ({0})").format(self._run), True))
        self.keep.set_choices(choices, self._keeps)
        self.count.setEnabled(not self._keeps)

    def _choose(self, keeps: object) -> None:
        self._keeps = bool(keeps)
        self._show()
        self._take()

    def _take(self) -> None:
        for stop in (self.start, self.middle, self.end):
            stop.forget_refusals()
        self.changed.emit()
