"""The reminder that colours are indicative, and the way to what they are worth.

The rule of this module: the limits open over the window that asks, so that a dialog which holds the others
back does not hold them back too.
"""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from studio_gui.views.labels import TonedLabel
from studio_gui.views.live import LiveWidget
from studio_gui.wording.fade_words import indicative_words


class LimitsLink(LiveWidget):
    """Says that colours are indicative; `button` shows their limits, as its key does if it `has_key`."""

    def __init__(self, parent: QWidget | None = None, *, has_key: bool = True) -> None:
        super().__init__(parent)
        self._has_key = has_key
        self.words, self.button = TonedLabel("secondary"), QPushButton()
        self.words.setWordWrap(True)
        self.button.setAutoDefault(False)
        self.button.clicked.connect(self._show_limits)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(self.words, 1)
        row.addWidget(self.button, 0, Qt.AlignmentFlag.AlignTop)
        self._retranslate()

    def _retranslate(self) -> None:
        self.words.show_text(indicative_words())
        words = self.tr("&Limits of colour…")
        self.button.setText(words if self._has_key else words.replace("&", ""))

    def _show_limits(self) -> None:
        from studio_gui.views.limits_window import LimitsWindow  # noqa: PLC0415  (the start does without it)

        limits = self.window().findChild(LimitsWindow)
        if limits is None:
            limits = LimitsWindow(self.window())
        limits.show()
        limits.raise_()
        limits.activateWindow()
