"""A sentence over the whole window, for as long as something is going on.

The rule of this module: it never takes the mouse or the keyboard from what lies under it.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QRectF, Qt, QTimer
from PySide6.QtGui import QPainter, QPaintEvent, QPalette, QPen
from PySide6.QtWidgets import QWidget

from studio_gui.views.labels import scaled_font

PADDING_PX = 24.0
EDGE_PX = 4.0


class Banner(QWidget):
    """Words in the middle of a window; when framed, with a line all around it: something may be dropped."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self.words = ""
        self._is_framed = False
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self.end)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.hide()

    def say(self, words: str, *, framed: bool = False, for_ms: int = 0) -> None:
        """Show a sentence until `end`, or for a time."""
        self.words, self._is_framed = words, framed
        self.setAccessibleName(words)
        self._window.installEventFilter(self)
        self.setGeometry(self._window.rect())
        self.show()
        self.raise_()
        self.update()
        if for_ms:
            self._timer.start(for_ms)
        else:
            self._timer.stop()

    def end(self) -> None:
        """Take the sentence away."""
        self._timer.stop()
        self._window.removeEventFilter(self)
        self.hide()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize:
            self.setGeometry(self._window.rect())
        return False

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setFont(scaled_font(self.font(), 1.3, bold=True))
            self._paint(painter)
        finally:
            painter.end()

    def _paint(self, painter: QPainter) -> None:
        palette, whole = self.palette(), QRectF(self.rect())
        ground, ink = QPalette.ColorRole.Highlight, QPalette.ColorRole.HighlightedText
        if self._is_framed:
            painter.setPen(QPen(palette.color(ground), EDGE_PX))
            painter.drawRect(whole.adjusted(EDGE_PX / 2.0, EDGE_PX / 2.0, -EDGE_PX / 2.0, -EDGE_PX / 2.0))
        flags = int(Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap)
        room = QRectF(0.0, 0.0, whole.width() * 0.7, whole.height() * 0.7)
        text = painter.boundingRect(room, flags, self.words)
        box = text.adjusted(-PADDING_PX, -PADDING_PX, PADDING_PX, PADDING_PX)
        box.moveCenter(whole.center())
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(palette.color(ground))
        painter.drawRoundedRect(box, 7.0, 7.0)
        painter.setPen(palette.color(ink))
        painter.drawText(box, flags, self.words)
