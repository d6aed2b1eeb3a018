"""A check box whose empty box can be seen in a dark palette too.

The rule of this module: the style draws the box; only the colour that its edge is made from is ours. The
usual style of Linux desktops takes a darker shade of the window, which on a dark window is next to nothing.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QCheckBox, QWidget

from studio_gui.drawing.look import look_for

#: By how much the style darkens the window's colour for the edge, in percent.
STYLE_DARKENS_PCT = 140


class TickBox(QCheckBox):
    """A check box with an edge of 3 to 1 against the window."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._colour_edge()

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.PaletteChange:
            self._colour_edge()
        super().changeEvent(event)

    def _colour_edge(self) -> None:
        around = self.parentWidget()
        look = look_for(self.palette() if around is None else around.palette())
        palette = QPalette()  # an empty one: every other colour still comes from the parent
        palette.setColor(QPalette.ColorRole.Window, look.film_edge.lighter(STYLE_DARKENS_PCT))
        if self.palette().color(QPalette.ColorRole.Window) != palette.color(QPalette.ColorRole.Window):
            self.setPalette(palette)
