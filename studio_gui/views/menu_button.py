"""A tool button that opens a menu, without Qt's small arrow.

The rule of this module: no style sheet, for what one draws stays as it was when the palette changes.
"""

from __future__ import annotations

from PySide6.QtGui import QPaintEvent
from PySide6.QtWidgets import QStyle, QStyleOptionToolButton, QStylePainter, QToolButton


class MenuButton(QToolButton):
    """A button whose own words or colour say that more is behind it."""

    def paintEvent(self, event: QPaintEvent) -> None:
        option = QStyleOptionToolButton()
        self.initStyleOption(option)
        option.features &= ~QStyleOptionToolButton.ToolButtonFeature.HasMenu
        painter = QStylePainter(self)
        try:
            painter.drawComplexControl(QStyle.ComplexControl.CC_ToolButton, option)
        finally:
            painter.end()
