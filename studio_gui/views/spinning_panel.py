"""How the yarn is spun: its structure, and the numbers that this structure needs.

The rule of this module: what a structure does without is not shown, and keeps its value for the next one.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QGridLayout, QLabel, QVBoxLayout, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.yarn import STRUCTURES
from studio_gui.views.choices import ChoiceField
from studio_gui.views.fields import QuantityField, edit_and_say, edit_at
from studio_gui.views.labels import MessageLabel, TonedLabel, call
from studio_gui.views.live import LiveWidget
from studio_gui.wording.fields import field_name
from studio_gui.wording.spinning import structure_explained, structure_name

NUMBERS = ("singles_m_per_g", "take_up", "staple_m")
FIELD_WIDTH = "99999.99 ml/g"


class SpinningPanel(LiveWidget):
    """Structure and numbers of the yarn."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.structure = ChoiceField()
        self.explained = TonedLabel()
        self.message = MessageLabel()
        self.fields = {name: QuantityField(name) for name in NUMBERS}
        self._labels = {name: QLabel() for name in ("structure", *NUMBERS)}
        self._lay_out()
        self._keep_up(document, self._show, turn=2)
        self.structure.chosen.connect(self._set_structure)
        for name, field in self.fields.items():
            field.entered.connect(partial(self._enter, name))
        self._set_fonts()
        self._retranslate()

    def _lay_out(self) -> None:
        self.explained.setWordWrap(True)
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(4)
        grid.setColumnStretch(0, 1)
        grid.addWidget(self._labels["structure"], 0, 0, 1, 2)
        grid.addWidget(self.structure, 1, 0, 1, 2)
        grid.addWidget(self.explained, 2, 0, 1, 2)
        grid.addWidget(self.message, 3, 0, 1, 2)
        for row, (name, field) in enumerate(self.fields.items(), start=2):
            grid.addWidget(self._labels[name], 2 * row, 0)
            grid.addWidget(field, 2 * row, 1)
            grid.addWidget(field.message, 2 * row + 1, 0, 1, 2)
            self._labels[name].setBuddy(field)
        self._labels["structure"].setBuddy(self.structure)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 12)
        column.addLayout(grid)
        column.addStretch(1)

    def _set_fonts(self) -> None:
        width = self.fontMetrics().horizontalAdvance(FIELD_WIDTH) + 16
        for field in self.fields.values():
            field.setFixedWidth(width)

    def _retranslate(self) -> None:
        for name, label in self._labels.items():
            label.setText(field_name(name))
        call(self.structure, field_name("structure"))
        self._show()

    def _show(self) -> None:
        yarn = self._document.sheet.plan.yarn
        self.structure.set_choices([(structure_name(one), one) for one in STRUCTURES], yarn.structure)
        self.explained.show_text(structure_explained(yarn.structure))
        for name, field in self.fields.items():
            field.set_value(getattr(yarn, name))

    def _enter(self, name: str, value: float) -> None:
        edit_at(
            self.fields[name], self._document, field_name(name), lambda plan: set_yarn(plan, **{name: value})
        )

    def _set_structure(self, structure: str) -> None:
        edit_and_say(
            self._document, field_name("structure"), partial(set_yarn, structure=structure), self.message.say
        )
        self._show()  # a choice that was refused goes back to what stands
