"""The build-up of a dye as a picture: lightness against depth, in the dye's own colours, with its swatches.

The rule of this module: the ground under the curve has the predicted colour of its depth, so that curve and
colour cannot tell different things; a swatch is a dot of its own colour, ringed by how far the curve is off.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QLinearGradient, QPainter, QPainterPath, QPen

from studio_gui.domain.colour.build_up import BuildUp
from studio_gui.domain.colour.fit import DyeCurve
from studio_gui.domain.colour.spaces import lab_from_hex
from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.colour.verdict import DOUBTFUL_LIMIT, MISSED_LIMIT, verdicts
from studio_gui.domain.ranges import exceeds
from studio_gui.drawing.fonts import lettering
from studio_gui.drawing.look import Look
from studio_gui.wording.quantities import DEPTH, shown_briefly

_LEFT, _BOTTOM, _TOP, _RIGHT = 34.0, 20.0, 8.0, 10.0
_DOT = 5.0
_MOST_TICKS = 5
_LIGHTNESS_TICKS = (0, 50, 100)


def paint_build_up(
    painter: QPainter,
    box: QRectF,
    curve: DyeCurve,
    swatches: Sequence[Swatch],
    rising: BuildUp,
    look: Look,
) -> None:
    """Paint the build-up into `box`, with its swatches."""
    plot = box.adjusted(_LEFT, _TOP, -_RIGHT, -_BOTTOM)
    deepest = float(rising.depths_pct_owf[-1])
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    _paint_axes(painter, plot, deepest, look)
    _paint_curve(painter, plot, rising, look)
    judged = verdicts(curve.misses, curve.odd_one)
    for swatch, miss, verdict in zip(swatches, curve.misses, judged, strict=True):
        at = _at(plot, swatch.depth_pct_owf / deepest, float(lab_from_hex(swatch.srgb)[0]))
        _paint_swatch(painter, at, swatch, 0.0 if verdict == "led astray" else miss, look)
    painter.restore()


def ring_of(miss: float, look: Look) -> QColor:
    """Return the colour of a swatch's ring: red over 3, amber over 1.5."""
    if exceeds(miss, MISSED_LIMIT):
        return look.over
    return look.under if exceeds(miss, DOUBTFUL_LIMIT) else look.text


def round_step(least: float) -> float:
    """Return the smallest of 1, 2 or 5 times a power of ten that is not below `least`.

    >>> round_step(0.3), round_step(2.0)
    (0.5, 2.0)
    """
    power = 10.0 ** math.floor(math.log10(least))
    return next(times * power for times in (1.0, 2.0, 5.0, 10.0) if times * power >= least * (1.0 - 1e-9))


def _at(plot: QRectF, share: float, lightness: float) -> QPointF:
    return QPointF(plot.left() + share * plot.width(), plot.bottom() - lightness / 100.0 * plot.height())


def _paint_axes(painter: QPainter, plot: QRectF, deepest: float, look: Look) -> None:
    letters = lettering(painter, 0.85)
    painter.setFont(letters.font)
    for lightness in _LIGHTNESS_TICKS:
        y = _at(plot, 0.0, lightness).y()
        painter.setPen(QPen(look.film_edge, 1.0, Qt.PenStyle.DotLine))
        painter.drawLine(QPointF(plot.left(), y), QPointF(plot.right(), y))
        painter.setPen(look.secondary)
        room = QRectF(plot.left() - _LEFT, y - 8.0, _LEFT - 5.0, 16.0)
        painter.drawText(room, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, f"L {lightness}")
    step = round_step(deepest / _MOST_TICKS)
    for tick in range(int(deepest / step + 1e-9) + 1):
        x = plot.left() + tick * step / deepest * plot.width()
        painter.setPen(look.film_edge)
        painter.drawLine(QPointF(x, plot.bottom()), QPointF(x, plot.bottom() + 3.0))
        painter.setPen(look.secondary)
        # the last one stays in the box
        left = min(x, plot.right() + _RIGHT - 25.0) - 50.0
        room = QRectF(left, plot.bottom() + 3.0, 100.0, _BOTTOM - 4.0)
        painter.drawText(room, Qt.AlignmentFlag.AlignHCenter, shown_briefly(DEPTH, tick * step))


def _paint_curve(painter: QPainter, plot: QRectF, rising: BuildUp, look: Look) -> None:
    shares = (rising.depths_pct_owf / rising.depths_pct_owf[-1]).tolist()
    points = [
        _at(plot, share, lightness)
        for share, lightness in zip(shares, rising.lightness.tolist(), strict=True)
    ]
    ground = QLinearGradient(plot.topLeft(), plot.topRight())
    for share, rgb in zip(shares, rising.srgb.tolist(), strict=True):
        ground.setColorAt(share, QColor.fromRgbF(*rgb))
    area = QPainterPath(plot.bottomLeft())
    for point in points:
        area.lineTo(point)
    area.lineTo(plot.bottomRight())
    painter.fillPath(area, ground)
    painter.setPen(QPen(look.text, 1.5))
    painter.drawPolyline(points)


def _paint_swatch(painter: QPainter, at: QPointF, swatch: Swatch, miss: float, look: Look) -> None:
    painter.setPen(QPen(look.paper, 1.0))
    painter.setBrush(ring_of(miss, look))
    painter.drawEllipse(at, _DOT + 2.5, _DOT + 2.5)
    painter.setPen(QPen(look.paper, 1.0))
    painter.setBrush(QColor(swatch.srgb))
    painter.drawEllipse(at, _DOT, _DOT)
