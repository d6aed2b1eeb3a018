"""The troughs under the lay: how wet each section is, as liquid in a vessel.

The rule of this module: trouble changes the outline first. What runs over stands above the brim and down the
walls, what is missing is hatched up to the mark, what was wiped is cross-hatched under a broken line; colour
only says which liquor it is. Sections show on their own: what is painted of one rests on nothing beside it
but the levels of its neighbours.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import NamedTuple

import numpy as np
from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen

from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.lay_rows import GAUGE_GAP
from studio_gui.drawing.look import Look
from studio_gui.drawing.marks import paint_wipe
from studio_gui.drawing.patterns import fill_tiled
from studio_gui.drawing.stamps import paint_stamps
from studio_gui.drawing.troughs import Trough, bulge, level_y, overhang, showing, troughs
from studio_gui.drawing.vessels import (
    Place,
    Scale,
    paint_core_marks,
    paint_surfaces,
    paint_walls,
    scale_of,
)

WIPE_SIDE = 11.0
HIGHEST_WIPED = 8.0  # px above the brim that what was wiped out is shown
EDGE = 1.6  # px, of what runs over
LEAST_BULGE = 3.0
NARROWEST_RUN = 4.0
SHOULDER = 6
LEFT_RUN, RIGHT_RUN = 0.84, 0.60  # how far down the walls it runs, share of their height
HALF_CONTRAST_LUMINANCE = 0.179  # black and white stand out alike from it: sqrt(1.05 * 0.05) - 0.05


def paint_gauges(painter: QPainter, layout: LayLayout, look: Look, within: tuple[float, float]) -> None:
    """Paint the troughs of the sections that show between two pixel columns."""
    which = showing(layout, within)
    if not which:
        return
    scale = scale_of(painter, layout)
    places = _places(scale, look, troughs(layout, which))
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    _paint_insides(painter, scale, look, places)
    wide = [place for place in places if not place.trough.narrow]
    if len(wide) < len(places):
        _paint_outline(painter, scale, look, places)
    if wide:
        paint_walls(painter, scale, look, wide)
        paint_surfaces(painter, scale, look, wide)
    paint_core_marks(painter, scale, look, places)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    for place in places:
        if place.trough.over:
            _paint_over(painter, scale, look, place)
    wiped = [place for place in places if place.trough.before > place.trough.held]
    _paint_wiped(painter, scale, look, wiped)
    painter.restore()


def _places(scale: Scale, look: Look, row: Sequence[Trough]) -> list[Place]:
    srgb = scale.layout.sheet.colours.srgb[row[0].section : row[-1].section + 1]
    linear = np.where(srgb <= 0.04045, srgb / 12.92, ((srgb + 0.055) / 1.055) ** 2.4)
    is_pale: list[bool] = (linear @ (0.2126, 0.7152, 0.0722) > HALF_CONTRAST_LUMINANCE).tolist()
    dark, light = QColor(0, 0, 0), QColor(255, 255, 255)
    found = []
    for trough, rgb, pale in zip(row, np.rint(srgb * 255.0).astype(int).tolist(), is_pale, strict=True):
        colour = QColor(*rgb) if trough.painted else look.soak
        mark = (dark if pale else light) if trough.held * 1.001 > trough.soak else look.surface
        found.append(
            Place(
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


def _paint_insides(painter: QPainter, scale: Scale, look: Look, places: Sequence[Place]) -> None:
    """Fill the troughs with bare fibre, soak, liquor, what came later and what is missing, in this order."""
    origin = QPointF(scale.layout.film.left(), scale.bottom)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.fibre)
    empty = _joined((p.left, p.right, scale.top, p.level_y) for p in places if p.level_y > scale.top)
    painter.drawRects(empty)
    fill_tiled(painter, "flecks", look.fleck, origin, empty)
    soaked = _joined((p.left, p.right, p.soak_y, scale.bottom) for p in places if p.trough.soak > 0.0)
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


def _joined(boxes: Iterable[tuple[float, float, float, float]]) -> list[QRectF]:
    """Return boxes (left, right, top, bottom) as rectangles, those that go on side by side as one."""
    found: list[tuple[float, float, float, float]] = []
    for left, right, top, bottom in boxes:
        if found and found[-1][1:] == (left, top, bottom):
            found[-1] = (found[-1][0], right, top, bottom)
        else:
            found.append((left, right, top, bottom))
    return [QRectF(left, top, right - left, bottom - top) for left, right, top, bottom in found]


def _paint_second(painter: QPainter, scale: Scale, origin: QPointF, places: Sequence[Place]) -> None:
    """Mark the part of the level that is painted later: rings in it, and a line beneath."""
    groups: defaultdict[int, list[QRectF]] = defaultdict(list)
    for place in places:
        if place.trough.second < place.trough.held:
            later = place.rect(place.level_y, scale.y(place.trough.second))
            groups[place.mark.rgba()].append(later)
    line = scale.line(1.0)
    for rgba, boxes in groups.items():
        colour = QColor.fromRgba(rgba)
        fill_tiled(painter, "rings", colour, origin, boxes)
        painter.setBrush(colour)
        painter.drawRects([QRectF(box.left(), box.bottom() - line, box.width(), line) for box in boxes])


# -- what is wrong, and what was taken out -----------------------------------------------------------------


def _paint_over(painter: QPainter, scale: Scale, look: Look, place: Place) -> None:
    """Paint what the fibre cannot hold: a bulge over the brim, with runs down both walls."""
    exact, cut = bulge(scale.layout, place.trough)
    height = scale.snapped(max(exact, LEAST_BULGE))
    top = scale.top - height
    line = scale.line(EDGE)
    out = scale.snapped(overhang(place.trough))
    inner = 0 if place.trough.narrow else min(SHOULDER, int(place.trough.width / 3.0))
    middle = QRectF(place.left + inner, top, place.right - place.left - 2.0 * inner, height + 1.0)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    painter.fillRect(middle, place.colour)
    painter.fillRect(QRectF(middle.left(), top, middle.width(), line), look.surface)
    if place.trough.narrow:
        return
    for side, x, depth in ((1, place.left, LEFT_RUN), (-1, place.right, RIGHT_RUN)):
        end = round(depth * (scale.bottom - scale.top))
        run = _Run(place.colour.rgba(), look.surface.rgba(), height, out, inner, end, line, side)
        box = (-out - 3.0 if side > 0 else -inner - 3.0, -height - 3.0, out + inner + 6.0, height + end + 8.0)
        paint_stamps(painter, _draw_run, (run,), box, (QPointF(x, scale.top),))
    y = scale.top + scale.line(1.0)
    for rect in (
        place.rect(y, y + scale.line(1.0)).adjusted(2.0, 0.0, -2.0, 0.0),
        QRectF(place.left + 2.0, y, scale.line(1.0), 8.0),
        QRectF(place.right - 2.0 - scale.line(1.0), y, scale.line(1.0), 8.0),
    ):
        painter.fillRect(rect, place.mark)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    if cut:
        _paint_cut(painter, look, QPointF((place.left + place.right) / 2.0, top))


class _Run(NamedTuple):
    """How one side of a bulge looks: colours, and measures in px; `side` -1 is the right one."""

    colour: int
    surface: int
    height: float
    out: float
    inner: int
    end: float
    line: float
    side: int


def _draw_run(painter: QPainter, run: _Run) -> None:
    """Draw the shoulder over a wall that stands at 0 under the brim at 0, and the run with its drop."""
    painter.scale(run.side, 1.0)
    half, end, drop = run.line / 2.0, run.end, max(run.out / 2.0, 1.5)
    height, out, inner = run.height, run.out, run.inner
    outline = QPainterPath(QPointF(inner, half - height))
    outline.quadTo(-out, half - height, -out, half - height + min(SHOULDER, height + 2.0))
    outline.lineTo(half - out, end - 2.0 * drop)
    # where there is little room beside the wall, it runs over the wall's own width
    wall = max(0.0, NARROWEST_RUN - out)
    outline.cubicTo(-out - 1.2, end + drop, wall + 1.0, end + drop, wall - 0.5, end - 2.0 * drop)
    outline.lineTo(wall + 0.5, 1.0)
    inside = QPainterPath(outline)
    inside.lineTo(inner, 1.0)
    painter.fillPath(inside, QColor.fromRgba(run.colour))
    pen = QPen(QColor.fromRgba(run.surface), max(run.line, EDGE) if wall == 0.0 else max(run.line, 1.0))
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    painter.strokePath(outline, pen)


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


def _paint_wiped(painter: QPainter, scale: Scale, look: Look, places: Sequence[Place]) -> None:
    """Paint what was wiped out: cross-hatched between the level and a broken line where it stood before."""
    rows = [
        max(scale.snapped(level_y(scale.layout, place.trough.before)), scale.top - HIGHEST_WIPED)
        for place in places
    ]
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    origin = QPointF(scale.layout.film.left(), scale.bottom)
    taken = [place.rect(y, place.level_y) for place, y in zip(places, rows, strict=True) if y < place.level_y]
    fill_tiled(painter, "cross", look.secondary, origin, taken)
    line = scale.line(1.4)
    edges = [place.rect(y, y + line) for place, y in zip(places, rows, strict=True)]
    fill_tiled(painter, "dashes", look.surface, origin, edges)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    for place, y in zip(places, rows, strict=True):
        if place.trough.width >= 2.0 * WIPE_SIDE:
            left = scale.snapped((place.left + place.right - WIPE_SIDE) / 2.0)
            top = max(y - WIPE_SIDE - 1.0, scale.top - GAUGE_GAP + 1.0)
            box = QRectF(left, top, WIPE_SIDE, WIPE_SIDE)
            if box.bottom() > y:
                painter.fillRect(box.adjusted(-2.0, 0.0, 2.0, 1.0), look.table)
            paint_wipe(painter, box, look)


# -- many sections -----------------------------------------------------------------------------------------


def _paint_outline(painter: QPainter, scale: Scale, look: Look, places: Sequence[Place]) -> None:
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
