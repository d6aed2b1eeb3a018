"""Marks of the wanted stripes on the tape.

The rule of this module: a small wedge hangs from the tape's upper edge wherever a wanted stripe starts or
ends, so that boundaries can be held against the knitting. Where boundaries lie does not matter to it.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter, QPolygonF

from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.look import Look

WIDTH, HEIGHT = 7.0, 6.0
#: Wedges nearer to the one before than this, px, are left out: they would run into a bar.
LEAST_APART = 4.0


def paint_stripe_marks(painter: QPainter, layout: LayLayout, look: Look) -> None:
    """Paint the wedges of all wanted stripes."""
    if not layout.sheet.plan.yarn.stripes:  # the usual plan has none, and need not wait for what they reckon
        return
    marks_m = layout.sheet.stripes.marks_m
    painter.save()
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.handle)
    top, last = layout.tape_start.top(), float("-inf")
    for place_m in marks_m:
        x = round(layout.x(place_m)) + 0.5
        if x - last < LEAST_APART:
            continue
        last = x
        painter.drawPolygon(
            QPolygonF(
                [QPointF(x - WIDTH / 2.0, top), QPointF(x + WIDTH / 2.0, top), QPointF(x, top + HEIGHT)]
            )
        )
    painter.restore()
