"""Patterns that fill areas: waves, flecks, hatches. They speak where a hue cannot.

The rule of this module: a pattern is a small tile drawn once for its colours and the device's pixels, and is
laid from an origin that moves along with the film, so that a part repainted fits to what stands beside it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import Literal

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QImage, QPaintEngine, QPainter, QPainterPath, QPen

#: Waves of soak; flecks of bare fibre; hatch of what is missing; cross-hatch of what was taken out; rings of
#: what comes later; dashes of a mark, for boxes no higher than a line.
PatternName = Literal["waves", "flecks", "hatch", "cross", "rings", "dashes"]

FLECKS = 52
VECTOR_RATIO = 3.0  # tile pixels to one unit of a vector picture, whose viewers enlarge it

_VECTOR_ENGINES = frozenset((QPaintEngine.Type.SVG, QPaintEngine.Type.Pdf, QPaintEngine.Type.Picture))
_SIZES: dict[PatternName, tuple[float, float]] = {
    "waves": (20.0, 8.0),
    "flecks": (240.0, 72.0),
    "hatch": (8.0, 8.0),
    "cross": (6.0, 6.0),
    "rings": (12.0, 12.0),
    "dashes": (8.0, 2.0),
}


def pixel_ratio(painter: QPainter) -> float:
    """Return the pixels to one unit of what `painter` paints on; for vector pictures those of their tiles."""
    return VECTOR_RATIO if is_vector(painter) else painter.device().devicePixelRatio()


def is_vector(painter: QPainter) -> bool:
    """Return whether `painter` writes down lines and areas rather than pixels."""
    return painter.paintEngine().type() in _VECTOR_ENGINES


def fill_tiled(
    painter: QPainter, pattern: PatternName, colour: QColor, origin: QPointF, rects: Sequence[QRectF]
) -> None:
    """Fill `rects` with the lines of a pattern in `colour`; what is between the lines stays as it is.

    The painter is scaled to the tile's own pixels instead of the brush, which SVG does not scale.
    """
    if not rects:
        return
    ratio = pixel_ratio(painter)
    painter.save()
    painter.translate(round(origin.x() * ratio) / ratio, round(origin.y() * ratio) / ratio)
    painter.scale(1.0 / ratio, 1.0 / ratio)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QBrush(_tile(pattern, colour.rgba(), ratio)))
    left, top = origin.x(), origin.y()
    painter.drawRects(
        [
            QRectF((r.x() - left) * ratio, (r.y() - top) * ratio, r.width() * ratio, r.height() * ratio)
            for r in rects
        ]
    )
    painter.restore()


@lru_cache(maxsize=64)
def _tile(pattern: PatternName, rgba: int, ratio: float) -> QImage:
    width, height = _SIZES[pattern]
    pixels = math.ceil(width * ratio), math.ceil(height * ratio)
    image = QImage(*pixels, QImage.Format.Format_ARGB32_Premultiplied)
    image.fill(Qt.GlobalColor.transparent)
    painter = QPainter(image)
    try:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.scale(pixels[0] / width, pixels[1] / height)
        _DRAWN[pattern](painter, QColor.fromRgba(rgba))
    finally:
        painter.end()
    return image


def _pen(colour: QColor, width: float) -> QPen:
    pen = QPen(colour, width)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    return pen


def _draw_waves(painter: QPainter, colour: QColor) -> None:
    path = QPainterPath(QPointF(-10.0, 4.0))
    for start in (-10.0, 0.0, 10.0, 20.0):
        rise = -2.6 if start % 20.0 == 0.0 else 2.6
        path.quadTo(start + 5.0, 4.0 + rise, start + 10.0, 4.0)
    painter.strokePath(path, _pen(colour, 1.1))


def _draw_flecks(painter: QPainter, colour: QColor) -> None:
    """Draw short bent fibres, spread evenly and turned unevenly; none is cut by the tile's edge."""
    painter.setPen(_pen(colour, 0.8))
    for number in range(FLECKS):
        # steps by the golden section never bunch
        x = 2.0 + (number * 0.618034 % 1.0) * 208.0
        y = 3.0 + number * (66.0 / FLECKS)
        long = 10.0 + (number * 0.3819 % 1.0) * 16.0
        bend = ((number * 0.7236 % 1.0) - 0.5) * 7.0
        path = QPainterPath(QPointF(x, y))
        path.cubicTo(x + long * 0.35, y - bend, x + long * 0.7, y + bend, x + long, y - bend * 0.4)
        painter.drawPath(path)


def _draw_hatch(painter: QPainter, colour: QColor) -> None:
    painter.setPen(QPen(colour, 1.5))
    for shift in (-8.0, 0.0, 8.0):
        painter.drawLine(QPointF(shift - 2.0, 10.0), QPointF(shift + 10.0, -2.0))


def _draw_cross(painter: QPainter, colour: QColor) -> None:
    painter.setPen(QPen(colour, 0.9))
    for shift in (-6.0, 0.0, 6.0):
        painter.drawLine(QPointF(shift - 1.0, 7.0), QPointF(shift + 7.0, -1.0))
        painter.drawLine(QPointF(shift - 1.0, -1.0), QPointF(shift + 7.0, 7.0))


def _draw_rings(painter: QPainter, colour: QColor) -> None:
    painter.setPen(QPen(colour, 1.0))
    for centre in (QPointF(3.0, 3.0), QPointF(9.0, 9.0)):
        painter.drawEllipse(centre, 1.5, 1.5)


def _draw_dashes(painter: QPainter, colour: QColor) -> None:
    painter.fillRect(QRectF(0.0, 0.0, 5.0, 2.0), colour)


_DRAWN: dict[PatternName, Callable[[QPainter, QColor], None]] = {
    "waves": _draw_waves,
    "flecks": _draw_flecks,
    "hatch": _draw_hatch,
    "cross": _draw_cross,
    "rings": _draw_rings,
    "dashes": _draw_dashes,
}
