"""What was done to the plan, step by step, to go back to any of it.

The rule of this module: it is Qt's own view of the undo stack; going to a step is undoing or redoing to it.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QFrame, QUndoView

from studio_gui.document.open_plan import OpenPlan


class StepsView(QUndoView):
    """All undo steps, under the plan as it was opened."""

    def __init__(self, document: OpenPlan) -> None:
        super().__init__(document.undo_stack)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setAlternatingRowColors(True)
        self.setSpacing(2)
        self._retranslate()

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self._retranslate()
        super().changeEvent(event)

    def _retranslate(self) -> None:
        self.setEmptyLabel(self.tr("Opened plan"))
        self.setAccessibleName(self.tr("Undo list"))
