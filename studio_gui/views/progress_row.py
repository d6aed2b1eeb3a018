"""How far some work is that goes on beside the window, and a button that stops it.

The rule of this module: it is seen while the work goes on, and takes no room before and after.
"""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QProgressBar, QPushButton, QWidget

from studio_gui.views.labels import call
from studio_gui.views.live import LiveWidget


class ProgressRow(LiveWidget):
    """A bar and a button; hidden until `show_progress`.

    Signals
    -------
    stopped
        The button was pressed.
    """

    stopped = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bar, self.stop = QProgressBar(), QPushButton()
        self.stop.setAutoDefault(False)
        self.stop.clicked.connect(self.stopped)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(self.bar, 1)
        row.addWidget(self.stop)
        self._retranslate()
        self.hide()

    def show_progress(self, done: int, count: int, words: str) -> None:
        """Show that `done` of `count` are done, 0 of 0 where nobody knows; `words` say of what."""
        self.bar.setRange(0, count)
        self.bar.setValue(done)
        self.bar.setFormat(words)
        call(self.bar, words)
        self.show()

    def _retranslate(self) -> None:
        self.stop.setText(self.tr("S&top"))
