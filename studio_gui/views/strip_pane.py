"""Strip and yarn with what belongs to them: how unevenly the yarn is spun, and the way back to all of it.

The rule of this module: it only puts them together.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QHBoxLayout, QToolButton, QVBoxLayout, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.drawing.lay_layout import TARGET
from studio_gui.views.labels import explain
from studio_gui.views.yarn_strip import YarnStrip


class StripPane(QWidget):
    """Strip and yarn, and beneath them how unevenly the yarn is spun, and the way back to the whole of it."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.strip = YarnStrip(document)
        self.whole = QToolButton()
        self.whole.setMinimumHeight(round(TARGET))
        self.whole.clicked.connect(self.strip.look_at_all)
        self.strip.looked.connect(self._show_way_back)
        beneath = QHBoxLayout()
        beneath.setContentsMargins(0, 0, 12, 0)
        beneath.addWidget(self.strip.uneven, 1)
        beneath.addWidget(self.whole)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.strip, 1)
        column.addLayout(beneath)
        self._retranslate()

    def _show_way_back(self) -> None:
        self.whole.setEnabled(not self.strip.view.is_fitted)

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self._retranslate()
        super().changeEvent(event)

    def _retranslate(self) -> None:
        self.whole.setText(self.tr("Whole yarn"))
        explain(
            self.whole, self.tr("Look at all of the yarn again: double-click it, or press 0 or Esc there")
        )
        self._show_way_back()
