"""The line "12 + 38", as painters say what goes into a liquor.

The rule of this module: no digit is out of sight. The line is large, and smaller where it would not fit; the
field is as high as ever, and what lies under it stays where it is.
"""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtGui import QFont, QFontMetricsF, QResizeEvent
from PySide6.QtWidgets import QWidget

from studio_gui.drawing.lay_layout import TARGET
from studio_gui.views.fields import EntryField
from studio_gui.views.labels import scaled_font
from studio_gui.wording.amounts import parse_amounts, shown_amounts
from studio_gui.wording.naming import in_a_row, one_line

#: Sizes of the line, as shares of the pane's font, the first that fits is used.
SIZES = (1.55, 1.3, 1.1, 0.95, 0.8)
#: What the field's frame and margins take of its width, px.
FRAME_PX = 14


class AmountsField(EntryField):
    """One amount for each stock of the liquor."""

    entered = Signal(tuple)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._names: tuple[str, ...] = ()
        self._usual_font = self.font()
        self.textChanged.connect(self._fit)

    def set_amounts(self, amounts_ml: Sequence[float], names: Sequence[str]) -> None:
        """Show ml for the whole set; `names` are those of the stocks they belong to."""
        self._names = tuple(names)
        self.show_text(shown_amounts(amounts_ml))

    def set_usual_font(self, font: QFont) -> None:
        """Write in sizes of this font, in a field as high as the largest needs."""
        self._usual_font = font
        self.setFont(scaled_font(font, SIZES[0], bold=True))
        self.setFixedHeight(max(self.sizeHint().height(), round(TARGET)))
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        room = self.width() - FRAME_PX
        fonts = [scaled_font(self._usual_font, size, bold=True) for size in SIZES]
        fitting = (font for font in fonts if QFontMetricsF(font).horizontalAdvance(self.text()) <= room)
        self.setFont(next(fitting, fonts[-1]))

    def _take(self, text: str) -> None:
        amounts = parse_amounts(text)
        if len(amounts) == len(self._names):
            self.entered.emit(amounts)
            return
        names = in_a_row([one_line(name) for name in self._names])
        self.say(
            self.tr("Amounts typed: {0}; stocks in this liquor: {1}. Type one for each: {2}.").format(
                len(amounts), len(self._names), names
            )
        )
