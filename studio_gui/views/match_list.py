"""Liquors found for wanted colours, a row each: wanted colour beside reached one, and what it takes.

The rule of this module: of a single colour every liquor is a row, of several the first of each.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPixmap
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QWidget

from studio_gui.domain.colour.spaces import hex_from_lab
from studio_gui.domain.edits.matching import Matched
from studio_gui.views.labels import paint_swatch
from studio_gui.wording.fade_words import match_depth_words, match_difference_words, match_words

_SWATCH = QSize(56, 34)


class MatchList(QListWidget):
    """Shows what was found; `show_found` tells nobody that the current row changed."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setIconSize(_SWATCH)
        self.setWordWrap(True)

    def show_found(self, found: Sequence[Matched], wanted: Sequence[str]) -> None:
        """Show liquors for wanted colours, each ``#rrggbb``, and choose the first row."""
        was_blocked = self.blockSignals(True)
        self.clear()
        for matched, srgb in zip(found, wanted, strict=True):
            shown = matched if len(found) == 1 else replace(matched, found=matched.found[:1])
            for place in range(len(shown.found)):
                self.addItem(self._item(shown, place, srgb))
        self.setCurrentRow(0)
        self.blockSignals(was_blocked)

    def _item(self, matched: Matched, place: int, wanted: str) -> QListWidgetItem:
        reached, is_clipped = hex_from_lab(matched.found[place].lab)
        about = [match_depth_words(matched, place), match_difference_words(matched, place)]
        if is_clipped:
            about.append(self.tr("outside what a screen shows"))
        words = f"{match_words(matched, place)}\n{' · '.join(about)}"
        picture, icon = self._swatches(wanted, reached), QIcon()
        for mode in (QIcon.Mode.Normal, QIcon.Mode.Selected):  # else Qt tints what is selected
            icon.addPixmap(picture, mode)
        return QListWidgetItem(icon, words)

    def _swatches(self, wanted: str, reached: str) -> QPixmap:
        """Return the wanted colour beside the reached one."""
        ratio = self.devicePixelRatioF()
        picture = QPixmap(_SWATCH * ratio)
        picture.setDevicePixelRatio(ratio)
        picture.fill(Qt.GlobalColor.transparent)
        painter = QPainter(picture)
        try:
            half = _SWATCH.width() / 2.0
            for left, colour in ((0.0, wanted), (half, reached)):
                box = QRectF(left, 0.0, half, _SWATCH.height())
                paint_swatch(painter, box, QColor(colour), self.palette())
        finally:
            painter.end()
        return picture
