"""Check boxes and radio buttons whose empty box can be seen in a dark palette too.

The rule of this module: the style draws the box; only the colour that its edge is made from is ours. The
usual style of Linux desktops takes a darker shade of the window, which on a dark window is next to nothing.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QAbstractButton, QCheckBox, QRadioButton, QWidget

from studio_gui.drawing.lay_layout import TARGET
from studio_gui.drawing.look import look_for

#: By how much the style darkens the window's colour for the edge, in percent.
STYLE_DARKENS_PCT = 140


class TickBox(QCheckBox):
    """A check box with an edge of 3 to 1 against the window."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setMinimumHeight(round(TARGET))
        _colour_edge(self)

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.PaletteChange:
            _colour_edge(self)
        super().changeEvent(event)


class RadioButton(QRadioButton):
    """A radio button with an edge of 3 to 1 against the window."""

    def __init__(self, words: str, parent: QWidget | None = None) -> None:
        super().__init__(words, parent)
        _colour_edge(self)

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.PaletteChange:
            _colour_edge(self)
        super().changeEvent(event)


def _colour_edge(button: QAbstractButton) -> None:
    around = button.parentWidget()
    look = look_for(button.palette() if around is None else around.palette())
    palette = QPalette()  # an empty one: every other colour still comes from the parent
    palette.setColor(QPalette.ColorRole.Window, look.film_edge.lighter(STYLE_DARKENS_PCT))
    if button.palette().color(QPalette.ColorRole.Window) != palette.color(QPalette.ColorRole.Window):
        button.setPalette(palette)
