"""The picture of colour along the strip: four rows over the strip's colours.

The rule of this module: every row has one scale from its foot to its top, written at its side; lightness runs
0 to 100, hue once round, chroma and steps up to the largest there is. Only the strip is coloured.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from functools import cached_property

from PySide6.QtCore import QLineF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from studio_gui.domain.strip_curve import StripCurve
from studio_gui.drawing.fonts import lettering
from studio_gui.drawing.look import Look

MARGIN_LEFT, MARGIN_RIGHT, MARGIN_TOP = 84.0, 14.0, 6.0
STRIP_HEIGHT, LINE_HEIGHT, GAP = 14.0, 22.0, 5.0
ROWS = 4
#: Of a lower row, px, it is not written what it runs to.
LEAST_FOR_TOP = 38.0
#: The least that chroma and steps run to, so that small ones are not drawn as large ones.
LEAST_CHROMA_TOP, LEAST_STEP_TOP = 20.0, 5.0


@dataclass(frozen=True)
class CurveLayout:
    """Where everything of a curve is in a picture of `size`."""

    curve: StripCurve
    size: QSizeF

    @property
    def _length_m(self) -> float:
        return self.curve.runs[-1].end_m

    @cached_property
    def rows(self) -> tuple[QRectF, ...]:
        """The boxes of lightness, chroma, hue and steps, from top to bottom."""
        width = max(self.size.width() - MARGIN_LEFT - MARGIN_RIGHT, 10.0)
        room = self.size.height() - MARGIN_TOP - STRIP_HEIGHT - LINE_HEIGHT - GAP * ROWS
        height = max(room / ROWS, 8.0)
        return tuple(
            QRectF(MARGIN_LEFT, MARGIN_TOP + place * (height + GAP), width, height) for place in range(ROWS)
        )

    @cached_property
    def strip(self) -> QRectF:
        """The box of the strip's colours."""
        last = self.rows[-1]
        return QRectF(last.left(), last.bottom() + GAP, last.width(), STRIP_HEIGHT)

    def span(self, place: int) -> tuple[float, float]:
        """Return where run `place` begins and ends, px."""
        run, box = self.curve.runs[place], self.strip
        scale = box.width() / self._length_m
        return box.left() + scale * run.start_m, box.left() + scale * run.end_m

    def run_at(self, x: float) -> int:
        """Return the run at a place, px; the nearest beyond either end."""
        at_m = (x - self.strip.left()) / self.strip.width() * self._length_m
        return next(
            (place for place, run in enumerate(self.curve.runs) if at_m < run.end_m),
            len(self.curve.runs) - 1,
        )

    @property
    def tops(self) -> tuple[float, float, float, float]:
        """What each row runs to."""
        steps = max(self.curve.steps.max(initial=0.0), LEAST_STEP_TOP)
        return 100.0, max(float(self.curve.chroma.max()), LEAST_CHROMA_TOP), 360.0, float(steps)


def paint_curve(
    painter: QPainter,
    layout: CurveLayout,
    colours: Sequence[QColor],
    look: Look,
    names: Sequence[str],
    chosen: Collection[int],
) -> None:
    """Paint the curve; `colours` and `chosen` go by run."""
    painter.save()
    _paint_chosen(painter, layout, look, chosen)
    bold, small = lettering(painter, 0.92, bold=True).font, lettering(painter, 0.85).font
    for row, name, top in zip(layout.rows, names, layout.tops, strict=True):
        side = _paint_foot(painter, row, look)
        painter.setFont(bold)
        painter.setPen(look.text)
        painter.drawText(side, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, name)
        if row.height() > LEAST_FOR_TOP:
            painter.setFont(small)
            painter.setPen(look.secondary)
            painter.drawText(side, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop, f"{top:.0f}")
    values = (layout.curve.labs[:, 0], layout.curve.chroma, layout.curve.hue_deg)
    for row, row_values, top in zip(layout.rows, values, layout.tops, strict=False):
        painter.setPen(QPen(look.text, 2.0))
        for place, value in enumerate(row_values.tolist()):
            if not math.isnan(value):  # a grey has no hue
                y = row.bottom() - 1.0 - (row.height() - 2.0) * value / top
                painter.drawLine(QLineF(layout.span(place)[0], y, layout.span(place)[1], y))
    _paint_steps(painter, layout, look)
    for place, colour in enumerate(colours):
        start, end = layout.span(place)
        painter.fillRect(QRectF(start, layout.strip.top(), end - start + 0.5, STRIP_HEIGHT), colour)
    painter.setPen(QPen(look.film_edge, 1.0))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(layout.strip)
    painter.restore()


def _paint_chosen(painter: QPainter, layout: CurveLayout, look: Look, chosen: Collection[int]) -> None:
    ground, top = QColor(look.handle), layout.rows[0].top()
    ground.setAlpha(48)
    for place in chosen:
        start, end = layout.span(place)
        painter.fillRect(QRectF(start, top, end - start, layout.strip.bottom() - top), ground)
        painter.setPen(QPen(look.handle, 2.0))
        below = layout.strip.bottom() + 2.0
        painter.drawLine(QLineF(start + 1.0, below, end - 1.0, below))


def _paint_foot(painter: QPainter, row: QRectF, look: Look) -> QRectF:
    """Draw the foot of a row; return the box at its side for its name and what it runs to."""
    painter.setPen(QPen(look.film_edge, 1.0))
    painter.drawLine(QLineF(row.left(), row.bottom(), row.right(), row.bottom()))
    return QRectF(2.0, row.top() - 4.0, MARGIN_LEFT - 10.0, row.height() + 8.0)


def _paint_steps(painter: QPainter, layout: CurveLayout, look: Look) -> None:
    """Draw a bar for every step, where its two runs meet."""
    row, top = layout.rows[3], layout.tops[3]
    for place, step in enumerate(layout.curve.steps.tolist()):
        height = (row.height() - 2.0) * step / top
        painter.fillRect(
            QRectF(layout.span(place)[1] - 2.5, row.bottom() - height, 5.0, height), look.secondary
        )
