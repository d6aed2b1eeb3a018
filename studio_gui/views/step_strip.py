"""The steps of a ladder before they are laid: their predicted colours, and what goes into each.

The rule of this module: it shows a worksheet's sections and computes nothing.
"""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QScrollArea, QSizePolicy, QWidget

from studio_gui.domain.figures import Saturation
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.look import look_for
from studio_gui.drawing.marks import paint_saturation
from studio_gui.views.labels import call, scaled_font
from studio_gui.wording.amounts import shown_amounts
from studio_gui.wording.quantities import DEPTH, LAY_LENGTH, VOLUME, shown, shown_briefly

COLOUR_HEIGHT = 44
MARGIN = 6


@dataclass(frozen=True, slots=True)
class StepShown:
    """One step: colour, lines of text under it, and how wet it is."""

    colour: QColor
    lines: tuple[str, ...]
    saturation: Saturation


class StepStrip(QScrollArea):
    """A row of steps; a long one scrolls sideways, by keys too."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.row = _StepRow()
        self.setWidget(self.row)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        bar = self.horizontalScrollBar().sizeHint().height()
        return QSize(400, self.row.sizeHint().height() + bar + 2)

    def minimumSizeHint(self) -> QSize:
        return QSize(200, self.sizeHint().height())

    def show_steps(self, sheet: Worksheet, first: int, last: int) -> None:
        """Show sections `first` to `last` of `sheet`."""
        self.row.show_steps([_shown(sheet, index) for index in range(first, last + 1)], "")

    def clear(self, hint: str = "") -> None:
        """Show no steps, but a few words in their place."""
        self.row.show_steps([], hint)


class _StepRow(QWidget):
    """The steps side by side, all equally wide."""

    def __init__(self) -> None:
        super().__init__()
        self.steps: list[StepShown] = []
        self._hint = ""

    def show_steps(self, steps: list[StepShown], hint: str) -> None:
        if (steps, hint) != (self.steps, self._hint):
            self.steps, self._hint = steps, hint
            told = (f"{number}: {', '.join(step.lines)}" for number, step in enumerate(steps, start=1))
            call(self, "; ".join(told) or hint)
            self.setMinimumWidth(round(self._step_width() * len(steps)))
            self.updateGeometry()
            self.update()

    def sizeHint(self) -> QSize:
        height = COLOUR_HEIGHT + self._line_height() * 4 + MARGIN
        return QSize(max(self.minimumWidth(), 100), round(height))

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        try:
            if self.steps:
                self._paint_steps(painter)
            else:
                painter.setPen(look_for(self.palette()).secondary)
                painter.drawText(
                    self.rect(), Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, self._hint
                )
        finally:
            painter.end()

    def _paint_steps(self, painter: QPainter) -> None:
        look = look_for(self.palette())
        width = self.width() / len(self.steps)
        height = self._line_height()
        for number, step in enumerate(self.steps):
            colour = QRectF(number * width, 0.5, width, COLOUR_HEIGHT)
            painter.fillRect(colour, step.colour)
            line = QRectF(colour.left(), colour.bottom() + MARGIN / 2.0, width, height)
            for place, text in enumerate(step.lines):
                painter.setFont(scaled_font(self.font(), 1.0, bold=place == 0))
                painter.setPen(look.text if place == 0 else look.secondary)
                painter.drawText(line, Qt.AlignmentFlag.AlignCenter, text)
                line.translate(0.0, height)
            if step.saturation != "in range":
                mark = QRectF(colour.right() - 20.0, colour.top() + 4.0, 16.0, 16.0)
                painter.setPen(QPen(look.film_edge, 1.0))
                painter.setBrush(look.table)
                painter.drawRoundedRect(mark, 3.0, 3.0)
                paint_saturation(painter, mark.adjusted(3.0, 3.0, -3.0, -3.0), step.saturation, look)
        painter.setPen(QPen(look.film_edge, 1.0))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(QRectF(0.5, 0.5, width * len(self.steps) - 1.0, COLOUR_HEIGHT))

    def _line_height(self) -> float:
        return QFontMetricsF(self.font()).height() + 1.0

    def _step_width(self) -> float:
        metrics = QFontMetricsF(scaled_font(self.font(), 1.0, bold=True))
        widest = (metrics.horizontalAdvance(line) for step in self.steps for line in step.lines)
        return max(widest, default=0.0) + 2.0 * MARGIN


def _shown(sheet: Worksheet, index: int) -> StepShown:
    plan, figures = sheet.plan, sheet.figures
    columns = {stock.id: column for column, stock in enumerate(plan.stocks)}
    used = plan.liquor(plan.sections[index].liquor_id).stock_ids
    amounts = [float(figures.amounts_ml[index, columns[stock_id]]) for stock_id in used]
    lines = (
        shown_amounts(amounts, most_decimals=1),
        shown_briefly(VOLUME, float(figures.liquid_ml[index])),
        shown(DEPTH, float(figures.depth_in_all_pct_owf[index])),
        shown_briefly(LAY_LENGTH, figures.length_m(index)),
    )
    colour = QColor.fromRgbF(*sheet.colours.srgb[index].tolist())
    return StepShown(colour, lines, figures.saturation(index))
