"""The troughs under the lay: how wet each section is, as liquid in a vessel.

The rule of this module: trouble changes the outline first. What runs over stands above the brim and down the
walls, what is missing is hatched up to the mark, what was wiped is cross-hatched under a broken line; colour
only says which liquor it is. Sections show on their own: what is painted of one rests on nothing beside it
but the levels of its neighbours.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import compress
from typing import NamedTuple

import numpy as np
from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen

from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.look import Look
from studio_gui.drawing.marks import paint_wipe
from studio_gui.drawing.patterns import fill_tiled, pixel_ratio
from studio_gui.drawing.troughs import (
    Trough,
    bulge,
    core_ml_per_g,
    level_y,
    overhang,
    showing,
    troughs,
)

RADIUS = 7.0
LIP = 3.0
RISE, REACH = 4.0, 7.0  # of the liquid at the walls, px up and along
VESSEL = 1.4
HALF_CONTRAST_LUMINANCE = 0.179  # black and white stand out alike from it: sqrt(1.05 * 0.05) - 0.05


class _Place(NamedTuple):
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


class _Scale(NamedTuple):
    """Rows of the gauges on the device's pixels."""

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


def paint_gauges(painter: QPainter, layout: LayLayout, look: Look, within: tuple[float, float]) -> None:
    """Paint the troughs of the sections that show between two pixel columns."""
    which = showing(layout, within)
    if not which:
        return
    scale = _scale(painter, layout)
    places = _places(scale, look, troughs(layout, which))
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    _paint_insides(painter, scale, look, places)
    wide = [place for place in places if not place.trough.narrow]
    if len(wide) < len(places):
        _paint_outline(painter, scale, look, places)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    if wide:
        _paint_walls(painter, scale, look, wide)
        _paint_surfaces(painter, scale, look, wide)
    _paint_core_marks(painter, scale, look, places)
    for place in places:
        if place.trough.over:
            _paint_over(painter, scale, look, place)
        if place.trough.before > place.trough.held:
            _paint_wiped(painter, scale, look, place)
    painter.restore()


def _scale(painter: QPainter, layout: LayLayout) -> _Scale:
    ratio = pixel_ratio(painter)
    scale = _Scale(layout, ratio, 0.0, 0.0, 0.0)
    bottom, top = scale.snapped(layout.gauge.bottom()), scale.snapped(layout.gauge.top())
    return scale._replace(top=top, bottom=bottom, core=scale.snapped(level_y(layout, core_ml_per_g(layout))))


def _places(scale: _Scale, look: Look, row: Sequence[Trough]) -> list[_Place]:
    srgb = scale.layout.sheet.colours.srgb[row[0].section : row[-1].section + 1]
    linear = np.where(srgb <= 0.04045, srgb / 12.92, ((srgb + 0.055) / 1.055) ** 2.4)
    is_pale: list[bool] = (linear @ (0.2126, 0.7152, 0.0722) > HALF_CONTRAST_LUMINANCE).tolist()
    dark, light = QColor(0, 0, 0), QColor(255, 255, 255)
    found = []
    for trough, rgb, pale in zip(row, np.rint(srgb * 255.0).astype(int).tolist(), is_pale, strict=True):
        colour = QColor(*rgb) if trough.painted else look.soak
        mark = (dark if pale else light) if trough.held * 1.001 > trough.soak else look.surface
        found.append(
            _Place(
                trough,
                scale.snapped(trough.left),
                scale.snapped(trough.right),
                scale.y(trough.soak),
                scale.y(trough.held),
                colour,
                mark,
            )
        )
    return found


# -- what is in the troughs --------------------------------------------------------------------------------


def _paint_insides(painter: QPainter, scale: _Scale, look: Look, places: Sequence[_Place]) -> None:
    """Fill the troughs with bare fibre, soak, liquor, what came later and what is missing, in this order."""
    origin = QPointF(scale.layout.film.left(), scale.bottom)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.fibre)
    empty = [place.rect(scale.top, place.level_y) for place in places if place.level_y > scale.top]
    painter.drawRects(empty)
    fill_tiled(painter, "flecks", look.fleck, origin, empty)
    soaked = [place.rect(place.soak_y, scale.bottom) for place in places if place.trough.soak > 0.0]
    painter.setBrush(look.soak)
    painter.drawRects(soaked)
    fill_tiled(painter, "waves", look.waves, origin, soaked)
    for place in places:
        if place.level_y < place.soak_y:
            painter.fillRect(place.rect(place.level_y, place.soak_y), place.colour)
    _paint_second(painter, scale, origin, places)
    missing = [
        place.rect(max(scale.core, scale.top), place.level_y)
        for place in places
        if place.trough.under and not place.trough.over
    ]
    fill_tiled(painter, "hatch", look.under, origin, missing)


def _paint_second(painter: QPainter, scale: _Scale, origin: QPointF, places: Sequence[_Place]) -> None:
    """Mark the part of the level that is painted later: rings in it, and a line beneath."""
    for place in places:
        if place.trough.second < place.trough.held:
            start = scale.y(place.trough.second)
            fill_tiled(painter, "rings", place.mark, origin, [place.rect(place.level_y, start)])
            painter.setPen(QPen(place.mark, 1.0))
            y = start - 0.5 / scale.ratio
            painter.drawLine(QLineF(place.left, y, place.right, y))
            painter.setPen(Qt.PenStyle.NoPen)


# -- vessels -----------------------------------------------------------------------------------------------


def _paint_walls(painter: QPainter, scale: _Scale, look: Look, places: Iterable[_Place]) -> None:
    """Paint the vessels: round feet, straight walls, lips that turn out."""
    corners, walls = QPainterPath(), QPainterPath()
    kept: dict[float, tuple[QPainterPath, QPainterPath, QPainterPath, QPainterPath]] = {}
    for place in places:
        radius = min(RADIUS, round(place.trough.width / 3.0), scale.bottom - scale.top)
        if radius not in kept:
            kept[radius] = (*_corners(scale, radius), *_half_vessels(scale, radius))
        left_corner, right_corner, left_half, right_half = kept[radius]
        corners.addPath(left_corner.translated(place.left, 0.0))
        corners.addPath(right_corner.translated(place.right, 0.0))
        walls.addPath(left_half.translated(place.left, 0.0))
        walls.connectPath(right_half.translated(place.right, 0.0))
    painter.fillPath(corners, look.table)
    painter.strokePath(walls, QPen(look.film_edge, VESSEL))


def _corners(scale: _Scale, radius: float) -> tuple[QPainterPath, QPainterPath]:
    """Return what lies outside the round foot of a vessel whose wall is at 0, left and right."""
    found = []
    for side in (1.0, -1.0):
        path = QPainterPath(QPointF(-side, scale.bottom + 1.0))
        path.lineTo(-side, scale.bottom - radius)
        path.lineTo(0.0, scale.bottom - radius)
        path.quadTo(0.0, scale.bottom, side * radius, scale.bottom)
        path.lineTo(side * radius, scale.bottom + 1.0)
        path.closeSubpath()
        found.append(path)
    return found[0], found[1]


def _half_vessels(scale: _Scale, radius: float) -> tuple[QPainterPath, QPainterPath]:
    """Return the left half of a vessel whose wall is at 0, and the right half, from the foot upwards."""
    left = QPainterPath(QPointF(-LIP, scale.top - 0.5))
    left.quadTo(0.0, scale.top + 0.5, 0.0, scale.top + LIP + 1.0)
    left.lineTo(0.0, scale.bottom - radius)
    left.quadTo(0.0, scale.bottom, radius, scale.bottom)
    right = QPainterPath(QPointF(-radius, scale.bottom))
    right.quadTo(0.0, scale.bottom, 0.0, scale.bottom - radius)
    right.lineTo(0.0, scale.top + LIP + 1.0)
    right.quadTo(0.0, scale.top + 0.5, LIP, scale.top - 0.5)
    return left, right


def _paint_surfaces(painter: QPainter, scale: _Scale, look: Look, places: Iterable[_Place]) -> None:
    """Paint the surface of what stands below the brim, a little higher at the walls."""
    surfaces = QPainterPath()
    for place in places:
        trough, y = place.trough, place.level_y
        if trough.over or trough.held <= 0.0:
            continue
        rise = min(RISE, y - scale.top)
        reach = min(REACH, trough.width / 3.0)
        line = QPainterPath(QPointF(place.left, y - rise))
        line.quadTo(place.left + 1.0, y, place.left + reach, y)
        line.lineTo(place.right - reach, y)
        line.quadTo(place.right - 1.0, y, place.right, y - rise)
        surfaces.addPath(line)
        line.lineTo(place.right, y)
        line.lineTo(place.left, y)
        painter.fillPath(line, place.colour)
    painter.strokePath(surfaces, QPen(look.surface, VESSEL))


def _paint_core_marks(painter: QPainter, scale: _Scale, look: Look, places: Sequence[_Place]) -> None:
    """Paint where the core is wet: dashes from wall to wall, and notches in the walls."""
    if not scale.top <= scale.core < scale.bottom:
        return
    y = scale.core + 0.5 / scale.ratio
    covered = [place.level_y < scale.core for place in places]
    marks = {place.mark.rgb(): place.mark for place in compress(places, covered)}
    groups = [
        (mark, [p for p, under in zip(places, covered, strict=True) if under and p.mark.rgb() == rgb])
        for rgb, mark in marks.items()
    ]
    groups.append((look.surface, [p for p, under in zip(places, covered, strict=True) if not under]))
    for colour, group in groups:
        notches = QPainterPath()
        for place in group:
            if not place.trough.narrow:
                reach = min(5.0, place.trough.width / 5.0)
                for x, tip in ((place.left, place.left + reach), (place.right, place.right - reach)):
                    notches.moveTo(x, y - 3.5)
                    notches.lineTo(tip, y)
                    notches.lineTo(x, y + 3.5)
        painter.fillPath(notches, colour)
        pen = QPen(colour, 1.2)
        pen.setDashPattern([4.0, 2.5])
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        painter.setPen(pen)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        painter.drawLines([QLineF(place.left, y, place.right, y) for place in group])
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)


# -- what is wrong, and what was taken out -----------------------------------------------------------------


def _paint_over(painter: QPainter, scale: _Scale, look: Look, place: _Place) -> None:
    """Paint what the fibre cannot hold: a bulge over the brim, with runs down both walls."""
    height, cut = bulge(scale.layout, place.trough)
    height = max(height, 3.0)
    top = scale.top - height
    out = overhang(place.trough)
    shape = _cap(place, scale, top) if place.trough.narrow else _bulge(place, scale, top, out)
    painter.setBrush(place.colour)
    painter.setPen(QPen(look.surface, 1.0 if place.trough.narrow else 1.6))
    painter.drawPath(shape)
    if place.trough.narrow:
        return
    painter.setPen(QPen(place.mark, 1.0))
    y = scale.top + 1.5
    painter.drawPolyline(
        [
            QPointF(place.left + 2.5, y + 8.0),
            QPointF(place.left + 2.5, y),
            QPointF(place.right - 2.5, y),
            QPointF(place.right - 2.5, y + 8.0),
        ]
    )
    if cut:
        _paint_cut(painter, look, QPointF((place.left + place.right) / 2.0, top))


def _cap(place: _Place, scale: _Scale, top: float) -> QPainterPath:
    cap = QPainterPath()
    cap.addRect(place.rect(top, scale.top))
    return cap


def _bulge(place: _Place, scale: _Scale, top: float, out: float) -> QPainterPath:
    """Return the outline of a bulge over a trough: round shoulders, two runs that end in drops."""
    deep = scale.bottom - scale.top
    left, right, drop = place.left - out, place.right + out, max(out / 2.0, 1.5)
    left_end, right_end = scale.top + 0.84 * deep, scale.top + 0.60 * deep
    shoulder = min(6.0, (right - left) / 3.0)
    path = QPainterPath(QPointF(place.left + 0.7, scale.top + 1.0))
    path.lineTo(place.left - 0.7, left_end - 2.0 * drop)
    path.cubicTo(
        place.left + 1.0, left_end + drop, left - 1.2, left_end + drop, left + 0.6, left_end - 2.0 * drop
    )
    path.lineTo(left, top + shoulder)
    path.quadTo(left, top, left + shoulder, top)
    path.lineTo(right - shoulder, top)
    path.quadTo(right, top, right, top + shoulder)
    path.lineTo(right - 0.6, right_end - 2.0 * drop)
    path.cubicTo(
        right + 1.2,
        right_end + drop,
        place.right - 1.0,
        right_end + drop,
        place.right + 0.7,
        right_end - 2.0 * drop,
    )
    path.lineTo(place.right - 0.7, scale.top + 1.0)
    path.closeSubpath()
    return path


def _paint_cut(painter: QPainter, look: Look, where: QPointF) -> None:
    """Mark that a bulge goes on: its outline is broken by two slanting strokes with an arrowhead above."""
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.table)
    slant = QPainterPath(where + QPointF(-4.0, 4.0))
    for corner in (QPointF(0.0, -3.0), QPointF(5.0, -3.0), QPointF(1.0, 4.0)):
        slant.lineTo(where + corner)
    painter.drawPath(slant)
    painter.setPen(QPen(look.surface, 1.2))
    painter.drawLine(where + QPointF(-4.0, 4.0), where + QPointF(0.0, -3.0))
    painter.drawLine(where + QPointF(1.0, 4.0), where + QPointF(5.0, -3.0))


def _paint_wiped(painter: QPainter, scale: _Scale, look: Look, place: _Place) -> None:
    """Paint what was wiped out: cross-hatched between the level and a broken line where it stood before."""
    before = scale.snapped(level_y(scale.layout, place.trough.before))
    top = max(before, scale.top)
    bottom = place.level_y
    origin = QPointF(scale.layout.film.left(), scale.bottom)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    fill_tiled(painter, "cross", look.secondary, origin, [place.rect(top, bottom)] if bottom > top else [])
    pen = QPen(look.surface, VESSEL)
    pen.setDashPattern([2.0, 2.0])
    painter.setPen(pen)
    y = max(before, scale.top - 6.0) + 0.5 / scale.ratio
    painter.drawLine(QLineF(place.left, y, place.right, y))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    if place.trough.width >= 24.0:
        side = 11.0
        middle = (place.left + place.right) / 2.0
        paint_wipe(painter, QRectF(middle - side / 2.0, y - side - 1.0, side, side), look)


# -- many sections -----------------------------------------------------------------------------------------


def _paint_outline(painter: QPainter, scale: _Scale, look: Look, places: Sequence[_Place]) -> None:
    """Paint narrow sections as steps of one line of levels, between a foot and a brim."""
    half = 0.5 / scale.ratio
    steps: list[QLineF] = []
    frame: list[QLineF] = []
    before = places[0].trough.section - 1
    after = places[-1].trough.section + 1
    rows = {place.trough.section: place.level_y for place in places if place.trough.narrow}
    for index in (before, after):
        if 0 <= index < len(scale.layout.sheet.figures):
            beside = troughs(scale.layout, range(index, index + 1))[0]
            if beside.narrow:
                rows[index] = scale.y(beside.held)
    for place in places:
        if not place.trough.narrow:
            continue
        y = place.level_y + half
        steps.append(QLineF(place.left, y, place.right, y))
        for x, index in ((place.left, place.trough.section - 1), (place.right, place.trough.section + 1)):
            if index in rows:
                steps.append(QLineF(x + half, y, x + half, rows[index] + half))
            else:
                frame.append(QLineF(x + half, scale.top, x + half, scale.bottom))
        frame.append(QLineF(place.left, scale.bottom, place.right, scale.bottom))
        frame.append(QLineF(place.left, scale.top + half, place.right, scale.top + half))
    painter.setPen(QPen(look.film_edge, 1.0))
    painter.drawLines(frame)
    painter.setPen(QPen(look.surface, 1.0))
    painter.drawLines(steps)
