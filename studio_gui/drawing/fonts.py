"""Fonts of the pictures: shares of the painter's own with the widths of words in them, and the bundled one.

The rule of this module: sizes follow the font of the screen or of the file; nothing has a size of its own.
What is known of a font is kept until fonts change, for every frame asks for the same again.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import lru_cache

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QFontDatabase, QFontMetricsF, QPaintDevice, QPainter

from studio_gui.paths import font_path

#: Of a font no more widths than so many are kept.
MOST_WIDTHS = 4096


class Lettering:
    """A font with the widths of words in it, each measured once. The font is shared, so not to be changed."""

    def __init__(self, font: QFont) -> None:
        self.font = font
        self._metrics = QFontMetricsF(font)
        self.height = self._metrics.height()
        self.cap_height = self._metrics.capHeight()
        self._widths: dict[str, float] = {}

    def width(self, words: str) -> float:
        """Return the width of `words`, px."""
        width = self._widths.get(words)
        if width is None:
            if len(self._widths) >= MOST_WIDTHS:
                self._widths.clear()
            width = self._widths[words] = self._metrics.horizontalAdvance(words)
        return width

    def elided(self, words: str, room: float) -> str:
        """Return `words`, shortened at their end where they are wider than `room`, px."""
        if self.width(words) <= room:
            return words
        return self._metrics.elidedText(words, Qt.TextElideMode.ElideRight, room)


def lettering(painter: QPainter, factor: float, *, bold: bool = False) -> Lettering:
    """Return the painter's font at `factor` of its size."""
    return lettering_on(painter.device(), painter.font(), factor, bold=bold)


def lettering_on(device: QPaintDevice, font: QFont, factor: float, *, bold: bool = False) -> Lettering:
    """Return at `factor` of its size a `font` of what is painted on."""
    return _lettering(font, device.logicalDpiY(), factor, bold=bold)


def sized(painter: QPainter, factor: float, *, bold: bool = False) -> QFont:
    """Return the painter's font at `factor` of its size; it is shared, so not to be changed."""
    return lettering(painter, factor, bold=bold).font


def forget_fonts() -> None:
    """Measure anew from now on: fonts have come, gone or changed."""
    _lettering.cache_clear()


@lru_cache(maxsize=128)
def _lettering(base: QFont, dpi: int, factor: float, *, bold: bool) -> Lettering:
    del dpi  # of the key alone: fonts of several devices are equal but measure otherwise
    font = QFont(base)
    if font.pointSizeF() > 0.0:
        font.setPointSizeF(font.pointSizeF() * factor)
    else:
        font.setPixelSize(max(round(font.pixelSize() * factor), 1))
    font.setBold(bold)
    return Lettering(font)


def bundled_font() -> QFont:
    """Return the bundled font as designed, not as the machine's settings would bend it to the pixels."""
    font = QFont("Noto Sans")
    font.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    return font


@contextmanager
def lent_font() -> Iterator[QFont]:
    """Lend the bundled font: left registered, it could take the place of the font of an open window."""
    numbers = [QFontDatabase.addApplicationFont(str(font_path(bold=bold))) for bold in (False, True)]
    forget_fonts()
    try:
        yield bundled_font()
    finally:
        for number in numbers:
            QFontDatabase.removeApplicationFont(number)
        forget_fonts()
