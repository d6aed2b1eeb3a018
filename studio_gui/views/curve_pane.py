"""The fade curve with the way to what its colours are worth.

The rule of this module: it only puts them together.
"""

from __future__ import annotations

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.views.curve_view import LEAST, CurveView
from studio_gui.views.limits_link import LimitsLink


class CurvePane(QWidget):
    """The fade curve, and beneath it that colours are indicative."""

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.curve = CurveView(document)
        self.indicative = LimitsLink(has_key=False)  # keys of the window are those of its menus
        self.setFocusProxy(self.curve)
        beneath = QHBoxLayout()
        beneath.setContentsMargins(12, 0, 12, 0)
        beneath.addWidget(self.indicative)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.curve, 1)
        column.addLayout(beneath)

    def minimumSizeHint(self) -> QSize:
        return LEAST  # where a screen is low, the curve makes room for the words
