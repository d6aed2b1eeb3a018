"""Fonts of the pictures, as shares of the painter's own.

The rule of this module: sizes follow the font of the screen or of the file; nothing has a size of its own.
"""

from __future__ import annotations

from PySide6.QtGui import QFont, QFontMetricsF, QPainter


def sized(painter: QPainter, factor: float, *, bold: bool = False) -> QFont:
    """Return the painter's font at `factor` of its size."""
    font = QFont(painter.font())
    if font.pointSizeF() > 0.0:
        font.setPointSizeF(font.pointSizeF() * factor)
    else:
        font.setPixelSize(max(round(font.pixelSize() * factor), 1))
    font.setBold(bold)
    return font


class Advances:
    """Widths of words in one font, each measured once."""

    def __init__(self, font: QFont) -> None:
        self._metrics = QFontMetricsF(font)
        self._widths: dict[str, float] = {}

    def of(self, words: str) -> float:
        """Return the width of `words`, px."""
        width = self._widths.get(words)
        if width is None:
            width = self._widths[words] = self._metrics.horizontalAdvance(words)
        return width
