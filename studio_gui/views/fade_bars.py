"""Fades beside one another: their colours, and under each its steps as bars.

The rule of this module: all bars have one scale, and a line marks the step of an even fade, so that the eye
compares rows. A step of nothing is marked, and no bar is written over.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QLineF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from studio_gui.drawing.look import look_for
from studio_gui.views.labels import call, scaled_font

COLOUR_HEIGHT, BARS_HEIGHT, GAP = 26.0, 28.0, 8.0
#: A bar is at most so many even steps high.
_MOST_STEPS_HIGH = 3.0


@dataclass(frozen=True, slots=True)
class FadeRow:
    """One fade: its name, how even it is, its colours and its steps (CIEDE2000)."""

    name: str
    evenness: str
    colours: tuple[QColor, ...]
    steps: tuple[float, ...]


class FadeBars(QWidget):
    """Rows of fades."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows: tuple[FadeRow, ...] = ()
        self._even_step = 1.0
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_rows(self, rows: Sequence[FadeRow], even_step: float) -> None:
        """Show fades whose even step would be `even_step`; none clears the picture."""
        self.rows, self._even_step = tuple(rows), max(even_step, 1e-6)
        call(self, "; ".join(f"{row.name}: {row.evenness}" for row in rows))
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        # three rows are held free, so that nothing jumps when a fade cannot be had
        return QSize(480, round(3 * self._row_height()))

    def minimumSizeHint(self) -> QSize:
        return QSize(240, self.sizeHint().height())

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        try:
            top = 0.0
            for row in self.rows:
                top = self._paint_row(painter, row, top) + GAP
        finally:
            painter.end()

    def _line(self) -> float:
        return QFontMetricsF(self.font()).height()

    def _row_height(self) -> float:
        return self._line() + COLOUR_HEIGHT + BARS_HEIGHT + GAP

    def _paint_row(self, painter: QPainter, row: FadeRow, top: float) -> float:
        look = look_for(self.palette())
        line = QRectF(0.0, top, self.width(), self._line())
        painter.setFont(scaled_font(self.font(), 1.0, bold=True))
        painter.setPen(look.text)
        painter.drawText(line, Qt.AlignmentFlag.AlignLeft, row.name)
        line.setLeft(painter.fontMetrics().horizontalAdvance(row.name) + 10.0)
        painter.setFont(self.font())
        painter.setPen(look.secondary)
        words = painter.fontMetrics().elidedText(
            row.evenness, Qt.TextElideMode.ElideRight, round(line.width())
        )
        painter.drawText(line, Qt.AlignmentFlag.AlignLeft, words)
        strip = QRectF(0.0, line.bottom(), self.width(), COLOUR_HEIGHT)
        self._paint_colours(painter, row, strip)
        return self._paint_bars(painter, row, QRectF(0.0, strip.bottom(), self.width(), BARS_HEIGHT))

    def _paint_colours(self, painter: QPainter, row: FadeRow, strip: QRectF) -> None:
        width = strip.width() / len(row.colours)
        for place, colour in enumerate(row.colours):
            painter.fillRect(QRectF(place * width, strip.top(), width + 0.5, strip.height()), colour)
        painter.setPen(QPen(look_for(self.palette()).film_edge, 1.0))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(strip.adjusted(0.5, 0.5, -0.5, -0.5))

    def _paint_bars(self, painter: QPainter, row: FadeRow, box: QRectF) -> float:
        look = look_for(self.palette())
        width = box.width() / (len(row.steps) + 1)
        scale = (box.height() - 2.0) / _MOST_STEPS_HIGH
        for place, step in enumerate(row.steps, start=1):
            high = min(step / self._even_step, _MOST_STEPS_HIGH) * scale
            bar = QRectF(place * width - 4.0, box.bottom() - high, 8.0, high)
            if high < 0.5:  # nothing changes here: a hollow mark, not only a bar that is missing
                painter.setPen(QPen(look.under, 1.4))
                painter.drawEllipse(QRectF(place * width - 3.0, box.bottom() - 7.0, 6.0, 6.0))
            else:
                too_high = step > _MOST_STEPS_HIGH * self._even_step
                painter.fillRect(bar, look.under if too_high else look.secondary)
        painter.setPen(QPen(look.handle, 1.0, Qt.PenStyle.DashLine))
        even = box.bottom() - scale
        painter.drawLine(QLineF(0.0, even, box.width(), even))
        return box.bottom()
