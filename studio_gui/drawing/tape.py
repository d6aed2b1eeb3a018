"""The measuring tapes along the film.

The rule of this module: a drawing is a measurement. A tape's ticks stand on whole steps of its unit, counted
from the start of the lay or from its other end.
"""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QPainter, QPen

from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.look import Look
from studio_gui.drawing.ruler import ruler_steps, ruler_unit_m


def paint_tape(painter: QPainter, layout: LayLayout, look: Look, box: QRectF, *, from_end: bool) -> None:
    """Paint one tape in `box`; `from_end` counts from the far end of the lay and hangs ticks from the top."""
    painter.save()
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.tape)
    painter.drawRoundedRect(box, 2.0, 2.0)
    length_m = layout.sheet.plan.lay_length_m
    unit_m = ruler_unit_m()
    figure_m, tick_m = ruler_steps(layout.px_per_m, unit_m)
    painter.setPen(QPen(look.tape_figures, 1.0))
    small = QFont(painter.font())
    small.setPointSizeF(small.pointSizeF() * 0.85)
    painter.setFont(small)
    for number in range(math.floor(length_m / tick_m + 1e-9) + 1):
        place_m = number * tick_m
        x = round(layout.x(length_m - place_m if from_end else place_m)) + 0.5
        is_figure = abs(place_m / figure_m - round(place_m / figure_m)) < 1e-6
        tall = is_figure or abs(place_m / figure_m * 2 - round(place_m / figure_m * 2)) < 1e-6
        tick = 9.0 if is_figure else 7.0 if tall else 4.0
        edge = box.top() if from_end else box.bottom()
        painter.drawLine(QPointF(x, edge), QPointF(x, edge + tick if from_end else edge - tick))
        if is_figure and number:
            figure = f"{place_m / unit_m:g}"
            room = QRectF(x - 22.0, box.top() + (9.0 if from_end else 0.0), 44.0, 18.0)
            painter.drawText(room, Qt.AlignmentFlag.AlignCenter, figure)
    painter.restore()
