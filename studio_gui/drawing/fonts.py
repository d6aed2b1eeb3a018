"""Fonts of the pictures: shares of the painter's own, and the bundled one of files and sheets.

The rule of this module: sizes follow the font of the screen or of the file; nothing has a size of its own.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtGui import QFont, QFontDatabase, QFontMetricsF, QPainter

from studio_gui.paths import font_path


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


def bundled_font() -> QFont:
    """Return the bundled font as designed, not as the machine's settings would bend it to the pixels."""
    font = QFont("Noto Sans")
    font.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    return font


@contextmanager
def lent_font() -> Iterator[QFont]:
    """Lend the bundled font: left registered, it could take the place of the font of an open window."""
    numbers = [QFontDatabase.addApplicationFont(str(font_path(bold=bold))) for bold in (False, True)]
    try:
        yield bundled_font()
    finally:
        for number in numbers:
            QFontDatabase.removeApplicationFont(number)
