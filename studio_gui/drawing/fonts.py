"""Fonts of the pictures, as shares of the painter's own.

The rule of this module: sizes follow the font of the screen or of the file; nothing has a size of its own.
"""

from __future__ import annotations

from PySide6.QtGui import QFont, QPainter


def sized(painter: QPainter, factor: float, *, bold: bool = False) -> QFont:
    """Return the painter's font at `factor` of its size."""
    font = QFont(painter.font())
    if font.pointSizeF() > 0.0:
        font.setPointSizeF(font.pointSizeF() * factor)
    else:
        font.setPixelSize(max(round(font.pixelSize() * factor), 1))
    font.setBold(bold)
    return font
