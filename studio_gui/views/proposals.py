"""Measured figures that may go into the plan: each with what it would take the place of, and a tick.

The rule of this module: nothing measured goes into the plan unseen. What is ticked goes in as one undo step.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.inputs import set_liquid
from studio_gui.views.fields import edit_and_say
from studio_gui.views.labels import MessageLabel
from studio_gui.views.live import LiveWidget
from studio_gui.wording.measured import proposal


class Proposals(LiveWidget):
    """Ticks for some fields of the plan's liquid, and a button that puts the ticked figures in.

    Signals
    -------
    taken
        Figures went into the plan: field to figure.
    """

    taken = Signal(dict)

    def __init__(self, document: OpenPlan, fields: Sequence[str], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._figures: dict[str, float] = {}
        self.ticks = {field: QCheckBox() for field in fields}
        self.use = QPushButton()
        self.use.setAutoDefault(False)
        self.use.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self.use.clicked.connect(self._take)
        self.message = MessageLabel()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        for tick in self.ticks.values():
            tick.toggled.connect(self._enable)
            column.addWidget(tick)
        column.addWidget(self.use)
        column.addWidget(self.message)
        document.settled.connect(self._show)
        self._retranslate()

    def propose(self, figures: Mapping[str, float], ticked: Sequence[str]) -> None:
        """Offer figures, in the plan's units; those of `ticked` are ticked where they are new."""
        for field, tick in self.ticks.items():
            if field in figures and figures[field] != self._figures.get(field):
                tick.setChecked(field in ticked)
        self._figures = dict(figures)
        self.message.say("")
        self._show()

    def _retranslate(self) -> None:
        self.use.setText(self.tr("&Use what is ticked"))
        self._show()

    def _show(self) -> None:
        liquid = self._document.sheet.plan.liquid
        for field, tick in self.ticks.items():
            tick.setVisible(field in self._figures)
            if field in self._figures:
                tick.setText(proposal(field, getattr(liquid, field), self._figures[field]))
        self.use.setVisible(bool(self._figures))
        self._enable()

    def _chosen(self) -> dict[str, float]:
        return {field: figure for field, figure in self._figures.items() if self.ticks[field].isChecked()}

    def _enable(self) -> None:
        self.use.setEnabled(bool(self._chosen()))

    def _take(self) -> None:
        chosen = self._chosen()
        name = self.tr("Use measured figures")
        edit_and_say(self._document, name, lambda plan: set_liquid(plan, **chosen), self.message.say)
        if not self.message.text():
            self.taken.emit(chosen)
