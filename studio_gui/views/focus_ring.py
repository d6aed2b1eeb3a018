"""The ring round the widget that keys go to.

The rule of this module: wherever the focus is in the window it is seen, in every style and palette, as a ring
that keeps 3 to 1 against what it lies on (WCAG 2.2, 2.4.7 and 1.4.11), and in a pane that is in front. What
draws a ring of its own inside, such as the lay, gets none.
"""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, QRectF
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import (
    QApplication,
    QDockWidget,
    QFocusFrame,
    QProxyStyle,
    QStyle,
    QStyleHintReturn,
    QStyleOption,
    QWidget,
)

from studio_gui.drawing.look import look_for

RING_PX = 2.0
RADIUS = 3.0


class _Whole(QProxyStyle):
    """A style whose focus frame lies over the widget and is not cut to what lies around it."""

    def styleHint(
        self,
        hint: QStyle.StyleHint,
        option: QStyleOption | None = None,
        widget: QWidget | None = None,
        returnData: QStyleHintReturn | None = None,  # noqa: N803  (Qt's name)
    ) -> int:
        if hint == QStyle.StyleHint.SH_FocusFrame_Mask:
            return 0
        if hint == QStyle.StyleHint.SH_FocusFrame_AboveWidget:
            return 1
        return super().styleHint(hint, option, widget, returnData)


class FocusRing(QFocusFrame):
    """Follows the focus in `window`; Qt's frame does the moving, as widgets move, scroll and go."""

    def __init__(self, window: QWidget, *without: QWidget) -> None:
        super().__init__(window)
        self._window, self._without = window, without
        self._whole = _Whole(self.style().name())
        self._whole.setParent(self)
        self.setStyle(self._whole)
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.focusChanged.connect(self._follow)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(look_for(self.palette()).handle, RING_PX))
            half = RING_PX / 2.0
            painter.drawRoundedRect(self._room().adjusted(half, half, -half, -half), RADIUS, RADIUS)
        finally:
            painter.end()

    def _room(self) -> QRectF:
        """Return the frame as far as its parent shows it, so that the ring is whole beside an edge."""
        around = self.parentWidget() or self
        return QRectF(self.rect() & QRect(self.mapFromParent(QPoint(0, 0)), around.size()))

    def _follow(self, _before: QWidget | None, now: QWidget | None) -> None:
        if now is not None:
            _bring_forward(now)
        mine = now is not None and now.window() is self._window and now not in self._without
        self.setWidget(now if mine else None)  # type: ignore[arg-type]  # Qt's null means no widget
        if mine:
            self.show()  # also for what has yet to be scrolled into sight
            self.raise_()


def _bring_forward(widget: QWidget) -> None:
    """Raise the pane that a widget is in: Tab goes into panes behind others too."""
    around: QWidget | None = widget
    while around is not None and not isinstance(around, QDockWidget):
        around = around.parentWidget()
    if around is not None and around.visibleRegion().isEmpty():
        around.raise_()
