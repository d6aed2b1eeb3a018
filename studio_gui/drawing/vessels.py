"""The vessels of the gauges and the surfaces of what stands in them.

The rule of this module: straight lines lie on the device's pixels, so that fifty troughs are as crisp as one;
curves are stamps. Walls stand inside their trough: what is beside it stays free.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen

from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.look import Look
from studio_gui.drawing.patterns import fill_tiled, pixel_ratio
from studio_gui.drawing.stamps import Box, paint_stamps
from studio_gui.drawing.troughs import Trough, core_ml_per_g, level_y

RADIUS = 7
LIP = 3.0
RISE, REACH = 4.0, 7  # of the liquid at the walls, px up and along
VESSEL = 1.4
NOTCH = 5

_FOOT_BOX: Box = (-2.0, -RADIUS - 2.0, RADIUS + 4.0, RADIUS + 4.0)
_FOOT_BOX_RIGHT: Box = (-RADIUS - 2.0, -RADIUS - 2.0, RADIUS + 4.0, RADIUS + 4.0)
_LIP_BOX: Box = (-LIP - 2.0, -2.0, 2.0 * LIP + 4.0, LIP + 5.0)
_SURFACE_BOX: Box = (-1.0, -RISE - 2.0, REACH + 3.0, RISE + 4.0)
_SURFACE_BOX_RIGHT: Box = (-REACH - 2.0, -RISE - 2.0, REACH + 3.0, RISE + 4.0)
_NOTCH_BOX: Box = (-NOTCH - 1.0, -5.0, 2.0 * NOTCH + 2.0, 11.0)


class Scale(NamedTuple):
    """Rows of the gauges on the device's pixels: brim, foot and the mark of the wet core."""

    layout: LayLayout
    ratio: float
    top: float
    bottom: float
    core: float

    def snapped(self, value: float) -> float:
        """Return the edge between two pixels of the device next to `value`."""
        return round(value * self.ratio) / self.ratio

    def y(self, ml_per_g: float) -> float:
        """Return the row of a level, no higher than the brim."""
        return max(self.snapped(level_y(self.layout, ml_per_g)), self.top)

    def line(self, width: float) -> float:
        """Return the width of a line nearest to `width` that fills whole pixels of the device."""
        return max(round(width * self.ratio), 1) / self.ratio

    @property
    def has_core(self) -> bool:
        """Whether the mark of the wet core lies between foot and brim."""
        return self.top <= self.core < self.bottom


class Place(NamedTuple):
    """A trough on the device's pixels: its walls, the rows of its levels, and the colours in it."""

    trough: Trough
    left: float
    right: float
    soak_y: float
    level_y: float
    colour: QColor
    mark: QColor

    def rect(self, top: float, bottom: float) -> QRectF:
        """Return the box between two rows, from wall to wall."""
        return QRectF(self.left, top, self.right - self.left, bottom - top)


def scale_of(painter: QPainter, layout: LayLayout) -> Scale:
    """Return the rows of a layout's gauges on the pixels that `painter` paints."""
    scale = Scale(layout, pixel_ratio(painter), 0.0, 0.0, 0.0)
    return scale._replace(
        top=scale.snapped(layout.gauge.top()),
        bottom=scale.snapped(layout.gauge.bottom()),
        core=scale.snapped(level_y(layout, core_ml_per_g(layout))),
    )


def paint_walls(painter: QPainter, scale: Scale, look: Look, places: Sequence[Place]) -> None:
    """Paint the vessels: round feet, straight walls, lips that turn out."""
    line = scale.line(VESSEL)
    walls: list[QRectF] = []
    feet: defaultdict[int, tuple[list[QPointF], list[QPointF]]] = defaultdict(lambda: ([], []))
    upper = scale.top + LIP + 1.0
    for place in places:
        radius = min(RADIUS, int(place.trough.width / 3.0))
        lower = scale.bottom - radius
        walls.append(QRectF(place.left, upper, line, lower - upper))
        walls.append(QRectF(place.right - line, upper, line, lower - upper))
        foot = place.left + radius
        walls.append(QRectF(foot, scale.bottom - line, place.right - radius - foot, line))
        left_feet, right_feet = feet[radius]
        left_feet.append(QPointF(place.left, scale.bottom))
        right_feet.append(QPointF(place.right, scale.bottom))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.film_edge)
    painter.drawRects(walls)
    table, edge = look.table.rgba(), look.film_edge.rgba()
    lefts, rights = [], []
    for radius, (left_feet, right_feet) in feet.items():
        paint_stamps(painter, _draw_foot, (table, edge, radius, line, 1), _FOOT_BOX, left_feet)
        paint_stamps(painter, _draw_foot, (table, edge, radius, line, -1), _FOOT_BOX_RIGHT, right_feet)
        lefts += [QPointF(foot.x(), scale.top) for foot in left_feet]
        rights += [QPointF(foot.x(), scale.top) for foot in right_feet]
    paint_stamps(painter, _draw_lip, (edge, line, 1), _LIP_BOX, lefts)
    paint_stamps(painter, _draw_lip, (edge, line, -1), _LIP_BOX, rights)


def _draw_foot(painter: QPainter, table: int, edge: int, radius: int, line: float, side: int) -> None:
    """Draw a round foot, its wall at 0: the table outside it, and the wall; `side` -1 is the right one."""
    outside = QPainterPath(QPointF(-side, 0.0))
    outside.lineTo(-side, -radius)
    outside.lineTo(0.0, -radius)
    outside.quadTo(0.0, 0.0, side * radius, 0.0)
    outside.lineTo(side * radius, 1.0)
    outside.lineTo(-side, 1.0)
    painter.fillPath(outside, QColor.fromRgba(table))
    half = line / 2.0
    wall = QPainterPath(QPointF(side * half, -radius))
    wall.quadTo(side * half, -half, side * radius, -half)
    painter.strokePath(wall, QPen(QColor.fromRgba(edge), max(line, VESSEL)))


def _draw_lip(painter: QPainter, edge: int, line: float, side: int) -> None:
    half = line / 2.0
    lip = QPainterPath(QPointF(side * half, LIP + 1.0))
    lip.quadTo(side * half, 0.5, -side * LIP, -0.5)
    painter.strokePath(lip, QPen(QColor.fromRgba(edge), max(line, VESSEL)))


def paint_surfaces(painter: QPainter, scale: Scale, look: Look, places: Sequence[Place]) -> None:
    """Paint the surface of what stands below the brim, a little higher at the walls."""
    line = scale.line(VESSEL)
    flat: list[QRectF] = []
    for place in places:
        trough, y = place.trough, place.level_y
        if trough.over or trough.held <= 0.0:
            continue
        reach = min(REACH, int(trough.width / 3.0))
        flat.append(QRectF(place.left + reach, y, place.right - place.left - 2.0 * reach, line))
        arguments = (place.colour.rgba(), look.surface.rgba(), reach, min(RISE, y - scale.top), line)
        ends = (1, _SURFACE_BOX, place.left), (-1, _SURFACE_BOX_RIGHT, place.right)
        for side, box, x in ends:
            paint_stamps(painter, _draw_surface_end, (*arguments, side), box, (QPointF(x, y),))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.surface)
    painter.drawRects(flat)


def _draw_surface_end(
    painter: QPainter, colour: int, surface: int, reach: int, rise: float, line: float, side: int
) -> None:
    """Draw what rises at a wall that stands at 0, and its surface; `side` -1 is the wall on the right."""
    half = line / 2.0
    curve = QPainterPath(QPointF(0.0, half - rise))
    curve.quadTo(side * 1.0, half, side * reach, half)
    below = QPainterPath(curve)
    below.lineTo(side * reach, line)
    below.lineTo(0.0, line)
    painter.fillPath(below, QColor.fromRgba(colour))
    pen = QPen(QColor.fromRgba(surface), max(line, VESSEL))
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    painter.strokePath(curve, pen)


def paint_core_marks(painter: QPainter, scale: Scale, look: Look, places: Sequence[Place]) -> None:
    """Paint where the core is wet: dashes from wall to wall, and notches in the walls."""
    if not scale.has_core:
        return
    y, line = scale.core, scale.line(VESSEL)
    groups: defaultdict[int, list[Place]] = defaultdict(list)
    for place in places:
        groups[(place.mark if place.level_y < y else look.surface).rgba()].append(place)
    origin = QPointF(scale.layout.film.left(), y)
    for rgba, group in groups.items():
        lines = [place.rect(y, y + line) for place in group]
        fill_tiled(painter, "dashes", QColor.fromRgba(rgba), origin, lines)
        walls = [place for place in group if not place.trough.narrow]
        for side in (1, -1):
            tips = [QPointF(place.left if side > 0 else place.right, y) for place in walls]
            paint_stamps(painter, _draw_notch, (rgba, line, side), _NOTCH_BOX, tips)


def _draw_notch(painter: QPainter, rgba: int, line: float, side: int) -> None:
    notch = QPainterPath(QPointF(0.0, line / 2.0 - 3.5))
    notch.lineTo(side * NOTCH, line / 2.0)
    notch.lineTo(0.0, line / 2.0 + 3.5)
    painter.fillPath(notch, QColor.fromRgba(rgba))
