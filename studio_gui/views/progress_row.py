"""How far some work is that goes on beside the window, and a button that stops it.

The rule of this module: it is seen while the work goes on, and takes no room before and after. Work of which
nobody knows how far it is shows only once it lasts, so that short work does not flicker.
"""

from __future__ import annotations

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QProgressBar, QPushButton, QWidget

from studio_gui.views.labels import TonedLabel, call
from studio_gui.views.live import LiveWidget

LASTS_FROM_MS = 300


class ProgressRow(LiveWidget):
    """Words, a bar and a button; hidden until there is something to show.

    Signals
    -------
    stopped
        The button was pressed.
    """

    stopped = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.words, self.bar, self.stop = TonedLabel("secondary"), QProgressBar(), QPushButton()
        self.bar.setTextVisible(False)
        self.stop.setAutoDefault(False)
        self.stop.clicked.connect(self.stopped)
        self._soon = QTimer(self, singleShot=True, interval=LASTS_FROM_MS)
        self._soon.timeout.connect(self.show)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(self.words)
        row.addWidget(self.bar, 1)
        row.addWidget(self.stop)
        self._retranslate()
        self.hide()

    def show_progress(self, done: int, count: int, words: str) -> None:
        """Show that `done` of `count` are done; `words` say of what."""
        self._set(done, count, words)
        self.show()

    def show_if_it_lasts(self, words: str) -> None:
        """Show that something goes on, once it has lasted `LASTS_FROM_MS`; `words` say what."""
        self._set(0, 0, words)
        self._soon.start()

    def finish(self) -> None:
        """Take all of it away: the work is done, or nobody wants it any more."""
        self._soon.stop()
        self.hide()
        self.bar.setRange(0, 1)  # else Qt goes on moving it

    def _set(self, done: int, count: int, words: str) -> None:
        self.words.show_text(words)
        self.bar.setRange(0, count)
        self.bar.setValue(done)
        call(self.bar, words)

    def _retranslate(self) -> None:
        self.stop.setText(self.tr("S&top"))
