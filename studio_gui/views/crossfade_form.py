"""A crossfade from one liquor to another.

The rule of this module: both liquors are on the plan's list; the steps between are made of their stocks.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFormLayout, QHBoxLayout, QLabel, QSpinBox, QVBoxLayout, QWidget

from studio_gui.document.open_plan import Edit
from studio_gui.domain.edits.ladders import Crossfade, crossfade_share, lay_crossfade
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import RANGES
from studio_gui.views.fields import QuantityField
from studio_gui.views.finding_field import FindingField
from studio_gui.views.labels import TonedLabel, call
from studio_gui.views.live import LiveWidget
from studio_gui.wording.naming import one_line
from studio_gui.wording.numbers import shown_number_briefly

NUMBER_WIDTH = 90


class CrossfadeForm(LiveWidget):
    """From, to, steps, and how strong one is against the other.

    Signals
    -------
    changed
        Another crossfade stands in the form.
    """

    changed = Signal()

    def __init__(self, plan: Plan, first: int, last: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._plan = plan
        self._from_id, self._to_id = _likely_ends(plan, first, last)
        self._strength = 1.0
        self.start, self.end = FindingField(), FindingField()
        self.steps = QSpinBox()
        self.steps.setRange(round(RANGES["fade_steps"].low), round(RANGES["fade_steps"].high))
        self.steps.setValue(5)
        self.strength = QuantityField("fade_strength")
        self.middle = TonedLabel("secondary")
        for field in (self.steps, self.strength):
            field.setFixedWidth(NUMBER_WIDTH)
        self.names = [QLabel() for _ in range(4)]
        self._lay_out()
        self.start.chosen.connect(self._choose_start)
        self.end.chosen.connect(self._choose_end)
        self.steps.valueChanged.connect(self.changed)
        self.strength.entered.connect(self._weigh)
        self._retranslate()

    @property
    def is_blank(self) -> bool:
        """Whether there is nothing to show yet; there always is."""
        return False

    def edit(self, first: int, last: int, name: str) -> Edit:
        """Return the edit that lays the crossfade."""
        fade = Crossfade(self._from_id, self._to_id, self.steps.value(), self._strength)
        return partial(lay_crossfade, first=first, last=last, fade=fade, name=name)

    def step_name(self) -> str:
        """Return the name of the undo step."""
        letters = (self._plan.liquor(one).letter for one in (self._from_id, self._to_id))
        return self.tr("Crossfade {0} to {1}").format(*letters)

    def _lay_out(self) -> None:
        form = QFormLayout(self)
        form.setContentsMargins(8, 10, 8, 8)
        form.setHorizontalSpacing(12)
        form.setVerticalSpacing(8)
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        strength = QHBoxLayout()
        strength.setSpacing(8)
        strength.addWidget(self.strength)
        strength.addWidget(self.middle, 1)
        weighed = QVBoxLayout()
        weighed.setSpacing(2)
        weighed.addLayout(strength)
        weighed.addWidget(self.strength.message)
        form.addRow(self.names[0], self.start)
        form.addRow(self.names[1], self.end)
        form.addRow(self.names[2], self.steps)
        form.addRow(self.names[3], weighed)
        for name, field in zip(self.names, (self.start, self.end, self.steps, self.strength), strict=True):
            name.setBuddy(field)

    def _retranslate(self) -> None:
        words = (self.tr("&From"), self.tr("T&o"), self.tr("S&teps"), self.tr("&Strength"))
        for name, text in zip(self.names, words, strict=True):
            name.setText(text)
        call(self.start, self.tr("Liquor that the fade begins with"))
        call(self.end, self.tr("Liquor that the fade ends with"))
        call(self.steps, self.tr("Steps of the fade, both ends counted"))
        self.steps.setToolTip(self.steps.accessibleName())
        call(self.strength, self.tr("How many times as strong the second liquor is"))
        self.strength.setToolTip(
            self.tr(
                "How many times as strong the second liquor is as the first, as your eye judges it. With 4,"
                " the middle step takes 80 : 20 instead of 50 : 50."
            )
        )
        self._show()

    def _show(self) -> None:
        liquors = [(f"{one.letter}  {one_line(one.name)}", one.id) for one in self._plan.liquors]
        self.start.set_choices(liquors, self._from_id)
        self.end.set_choices(liquors, self._to_id)
        self.strength.set_value(self._strength)
        second = 100.0 * crossfade_share(0.5, self._strength)
        self.middle.show_text(
            self.tr("times as strong as the first; the middle is mixed {0} : {1}").format(
                shown_number_briefly(100.0 - second, 1), shown_number_briefly(second, 1)
            )
        )

    def _choose_start(self, liquor_id: str) -> None:
        self._from_id = liquor_id
        self.changed.emit()

    def _choose_end(self, liquor_id: str) -> None:
        self._to_id = liquor_id
        self.changed.emit()

    def _weigh(self, strength: float) -> None:
        self._strength = strength
        self._show()
        self.changed.emit()


def _likely_ends(plan: Plan, first: int, last: int) -> tuple[str, str]:
    """Return the liquors of the run's two ends; of a run of one liquor, the next section's for the second."""
    start = plan.sections[first].liquor_id
    later = [section.liquor_id for section in plan.sections[last:]]
    others = [*later, *(liquor.id for liquor in plan.liquors)]
    return start, next((one for one in others if one != start), start)
