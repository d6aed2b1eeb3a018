"""How wide and how high words are on a sheet, mm, and where they are broken.

The rule of this module: type is measured in the bundled font without a device, so that a page is laid out
alike on every machine. The font has to be lent (`lent_font`) while pages are laid out and painted.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from functools import lru_cache
from itertools import accumulate

from PySide6.QtCore import Qt, QTextBoundaryFinder
from PySide6.QtGui import QFont, QFontMetricsF

from studio_gui.drawing.fonts import bundled_font
from studio_gui.drawing.sheets.page import MM_PER_PT

#: From one line to the next, and where the first line's foot stands, as shares of the size of the type.
LINE = 1.2
BASELINE = 0.93

# Every space but those that hold two words together.
_SPACES = re.compile(r"[^\S\u00a0\u2007\u202f]+")
# Measured this large, px of an em: whole pixels no longer matter.
_MEASURED_PX = 1000


def line_mm(size_pt: float) -> float:
    """Return the height that one line of text takes, mm."""
    return LINE * size_pt * MM_PER_PT


def width_mm(words: str, size_pt: float, *, bold: bool = False) -> float:
    """Return how wide `words` are on one line, mm."""
    return _metrics(bold).horizontalAdvance(words) / _MEASURED_PX * size_pt * MM_PER_PT


def shortened(words: str, most_mm: float, size_pt: float, *, bold: bool = False) -> str:
    """Return the words, cut with an ellipsis where they are wider than `most_mm`."""
    most = most_mm / MM_PER_PT / size_pt * _MEASURED_PX
    short = _metrics(bold).elidedText(words, Qt.TextElideMode.ElideRight, most)
    if width_mm(short, size_pt, bold=bold) <= most_mm:
        return short
    # a single letter with so many marks that Qt will not take any away
    room = most_mm - width_mm("…", size_pt, bold=bold)
    return words[: _most_letters(words, room, size_pt, bold=bold)] + "…"


def wrapped(words: str, most_mm: float, size_pt: float, *, bold: bool = False) -> tuple[str, ...]:
    """Return the words in lines no wider than `most_mm`: broken between words, within one only if it must.

    No character is lost but the spaces at the breaks; no words give no line.
    """
    lines: list[str] = []
    line = ""
    for word in _words(words):
        longer = f"{line} {word}" if line else word
        if width_mm(longer, size_pt, bold=bold) <= most_mm:
            line = longer
            continue
        if line:
            lines.append(line)
        line = word
        while width_mm(line, size_pt, bold=bold) > most_mm:
            cut = _most_letters(line, most_mm, size_pt, bold=bold)
            if cut == len(line):
                break
            lines.append(line[:cut])
            line = line[cut:]
    return (*lines, line) if line else tuple(lines)


def _most_letters(word: str, most_mm: float, size_pt: float, *, bold: bool) -> int:
    """Return where a word is cut so that its first part fits, after at least one letter with its marks."""
    cuts = _cuts(word)
    if width_mm(word[: cuts[0]], size_pt, bold=bold) > most_mm:
        cuts = list(range(1, len(word) + 1))  # one letter with too many marks
    low, high = 0, len(cuts) - 1
    while low < high:
        middle = (low + high + 1) // 2
        if width_mm(word[: cuts[middle]], size_pt, bold=bold) <= most_mm:
            low = middle
        else:
            high = middle - 1
    return cuts[low]


def _words(words: str) -> list[str]:
    """Return what stands between spaces, those apart that hold two words together."""
    return [word for word in _SPACES.split(words) if word]


def _cuts(word: str) -> list[int]:
    """Return after which characters a word may be cut: no letter loses its marks, no emoji its parts."""
    finder = QTextBoundaryFinder(QTextBoundaryFinder.BoundaryType.Grapheme, word)
    units: list[int] = []  # Qt counts in UTF-16
    while (place := finder.toNextBoundary()) != -1:
        units.append(place)
    places = list(accumulate(1 + (ord(character) > 0xFFFF) for character in word))
    return [bisect_left(places, unit) + 1 for unit in units] or [len(word)]


def type_font(size_px: int, *, bold: bool) -> QFont:
    """Return the font of sheets, `size_px` units of the painter high."""
    font = bundled_font()
    font.setPixelSize(size_px)
    font.setBold(bold)
    return font


@lru_cache(maxsize=2)
def _metrics(bold: bool) -> QFontMetricsF:
    return QFontMetricsF(type_font(_MEASURED_PX, bold=bold))
