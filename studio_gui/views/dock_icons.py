"""The icons on the title bars of panes, in the colour of the words beside them.

The rule of this module: Qt's own icons are drawn for light ground and stay so in the dark; these follow the
palette, as all else does.
"""

from __future__ import annotations

from functools import lru_cache

from PySide6.QtCore import QEvent, QObject, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPalette, QPen, QPixmap
from PySide6.QtWidgets import QAbstractButton, QDockWidget

SIDE_PX = 16
#: Qt's names of the two buttons.
CLOSE, FLOAT = "qt_dockwidget_closebutton", "qt_dockwidget_floatbutton"
#: Of a new look, and of a dock that comes back into its place.
_ICONS_MAY_BE_QTS = (QEvent.Type.PaletteChange, QEvent.Type.StyleChange, QEvent.Type.Show)


class DockIcons(QObject):
    """Keeps the icons of one dock in the colour of its words."""

    def __init__(self, dock: QDockWidget) -> None:
        super().__init__(dock)
        self._dock = dock
        dock.installEventFilter(self)
        dock.topLevelChanged.connect(self._paint)  # Qt puts its own there whenever a pane floats or lands
        self._paint()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in _ICONS_MAY_BE_QTS:
            self._paint()
        return False

    def _paint(self) -> None:
        ink = self._dock.palette().color(QPalette.ColorRole.WindowText).name()
        ratio = self._dock.devicePixelRatioF()
        for name in (CLOSE, FLOAT):
            button = self._dock.findChild(QAbstractButton, name)
            if button is not None:
                button.setIcon(_icon(name, ink, ratio))


@lru_cache(maxsize=8)
def _icon(name: str, ink: str, ratio: float) -> QIcon:
    picture = QPixmap(round(SIDE_PX * ratio), round(SIDE_PX * ratio))
    picture.setDevicePixelRatio(ratio)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    try:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor(ink), 1.4))
        if name == CLOSE:
            painter.drawLine(QPointF(4.5, 4.5), QPointF(11.5, 11.5))
            painter.drawLine(QPointF(11.5, 4.5), QPointF(4.5, 11.5))
        else:
            painter.drawRect(QRectF(3.5, 6.5, 6.0, 6.0))
            painter.drawPolyline(
                [
                    QPointF(6.5, 6.5),
                    QPointF(6.5, 3.5),
                    QPointF(12.5, 3.5),
                    QPointF(12.5, 9.5),
                    QPointF(9.5, 9.5),
                ]
            )
    finally:
        painter.end()
    return QIcon(picture)
