"""Marks on the film beside the strands: stains, dry cores, wipes, gaps and overlaps.

The rule of this module: each thing has a line of its own, so that none needs its hue: a wavering rim where a
section runs over, broken lines where its core may stay white, a cross-hatched band where it is wiped,
brackets round a gap, stripes between two threads where colours overlap. Words stand on paper on the film.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from studio_gui.drawing.fonts import lettering
from studio_gui.drawing.lay_layout import LayLayout, Strand
from studio_gui.drawing.lay_rows import FILM_FOOT, SLIP_ROOM, pass_gap, roving_gap
from studio_gui.drawing.look import Look, mixed
from studio_gui.drawing.marks import paint_wipe
from studio_gui.drawing.patterns import fill_tiled
from studio_gui.drawing.troughs import showing
from studio_gui.wording.quantities import LAY_LENGTH, shown

WIDEST_STAIN = 7.5  # px beyond the wool
STAIN_STEP = 8.0
POOL_SHARE, RIM_SHARE = 0.35, 0.6  # of the liquor's colour on the film, of the darkest in its rim
TAPER = 14.0
BROKEN_AWAY = 2.5  # px from the wool to the broken outline
LEAST_GAP_FIGURE = 24.0  # px: the width of a narrower gap is not written
BAND_HEIGHT = 7.0
NARROWEST_OVERLAP = 8.0  # px: a narrower one has stripes, but no threads
LEAST_CLOTH_ROOM = 20.0  # px: narrower bands are marked by their hatch alone
NARROWEST_DRY = 6.0  # px: the strands of narrower sections have no broken lines


def paint_stains(painter: QPainter, layout: LayLayout, look: Look, within: tuple[float, float]) -> None:
    """Paint, before the wool, the wet rims on the film along sections that run over."""
    over = layout.sheet.figures.over
    wet = [index for index in showing(layout, within) if over[index]]
    if not wet:
        return
    painter.save()
    srgb = layout.sheet.colours.srgb
    for index in wet:
        colour = QColor.fromRgbF(*srgb[index].tolist())
        left, right = _painted(layout, index)
        rims = [_stain(layout, strand, left, right) for strand in layout.strands]
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(mixed(look.film, colour, POOL_SHARE))
        for upper, lower in rims:
            painter.drawPolygon(QPolygonF([*upper, *reversed(lower)]))
        # lines one pixel wide are drawn many times faster than wider ones
        painter.setPen(QPen(mixed(look.film, QColor(255, 255, 255), 0.6), 1.0))
        for upper, _ in rims:
            painter.drawPolyline([QPointF(point.x(), point.y() + 1.6) for point in upper[1:-1]])
        painter.setPen(QPen(mixed(colour, look.surface, RIM_SHARE), 1.0))
        for upper, lower in rims:
            for rim in (upper, lower):
                painter.drawPolyline(rim)
                painter.drawPolyline([QPointF(point.x(), point.y() + 0.5) for point in rim])
    painter.restore()


def _stain(
    layout: LayLayout, strand: Strand, left: float, right: float
) -> tuple[list[QPointF], list[QPointF]]:
    """Return the upper and the lower rim along one strand of a section between two pixel columns."""
    left, right = max(left, strand.rect.left()), min(right, strand.rect.right())
    if right - left < 1.0:
        return [], []
    height, passes = layout.strand_height, layout.sheet.plan.lay.passes
    inner, outer = pass_gap(height) / 2.0, roving_gap(height) / 2.0
    above = inner if strand.pass_index > 0 else WIDEST_STAIN if strand.roving == 0 else outer
    is_last = strand.roving + 1 == layout.rovings_shown
    below = inner if strand.pass_index + 1 < passes else WIDEST_STAIN if is_last else outer
    above, below = min(above, WIDEST_STAIN), min(below, WIDEST_STAIN)
    start = layout.x(0.0)
    first = math.ceil((left - start) / STAIN_STEP)
    last = math.floor((right - start) / STAIN_STEP)
    places = [left, *(start + number * STAIN_STEP for number in range(first, last + 1)), right]
    phase = 2.0 * strand.roving + strand.pass_index
    upper, lower = [], []
    for x in places:
        # near the ends it comes back to the wool; between them it stands still while an end is dragged
        swell = min(1.0, math.sqrt(max(min(x - left, right - x), 0.0) / TAPER))
        along = (x - start) / 23.0 + phase
        rise = 0.68 + 0.22 * math.sin(along) + 0.10 * math.sin(2.7 * along + 1.0)
        fall = 0.68 + 0.22 * math.sin(along + 2.2) + 0.10 * math.sin(2.3 * along)
        upper.append(QPointF(x, strand.rect.top() - above * swell * rise))
        lower.append(QPointF(x, strand.rect.bottom() + below * swell * fall))
    return upper, lower


def paint_film_marks(painter: QPainter, layout: LayLayout, look: Look, within: tuple[float, float]) -> None:
    """Paint, after wool and threads, the other marks of the sections between two columns."""
    which = showing(layout, within)
    if not which:
        return
    painter.save()
    figures, sections = layout.sheet.figures, layout.sheet.plan.sections
    dry = figures.under & figures.painted & ~figures.over
    _paint_dry(painter, layout, look, [index for index in which if dry[index]])
    _paint_wiped(painter, layout, look, [index for index in which if sections[index].wiped_ml > 0.0])
    boundaries = layout.sheet.plan.boundaries
    beside = range(max(which.start - 1, 0), min(which.stop, len(boundaries)))
    _paint_overlaps(painter, layout, look, [index for index in beside if boundaries[index].gap_m < 0.0])
    _paint_gaps(painter, layout, look, [index for index in beside if boundaries[index].gap_m > 0.0])
    painter.restore()


def _paint_dry(painter: QPainter, layout: LayLayout, look: Look, which: Iterable[int]) -> None:
    """Paint the outline of dry sections as broken lines, and a pale broken line along their core."""
    outlines: list[QLineF] = []
    cores: list[QLineF] = []
    for index in which:
        left, right = _painted(layout, index)
        if right - left < NARROWEST_DRY:
            continue
        for strand in layout.strands:
            start, end = max(left, strand.rect.left()), min(right, strand.rect.right())
            if end <= start:
                continue
            upper, lower = strand.rect.top() - BROKEN_AWAY, strand.rect.bottom() + BROKEN_AWAY
            outlines += [QLineF(start, upper, end, upper), QLineF(start, lower, end, lower)]
            middle = strand.rect.center().y()
            cores.append(QLineF(start, middle, end, middle))
    for lines, colour, width, dashes in (
        (outlines, look.under, 1.4, [4.0, 3.0]),
        (cores, QColor(0, 0, 0, 130), 3.6, [2.5, 1.5]),
        (cores, QColor(255, 255, 255, 235), 1.8, [5.0, 3.0]),
    ):
        pen = QPen(colour, width)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        pen.setDashPattern(dashes)
        painter.setPen(pen)
        painter.drawLines(lines)


def _painted(layout: LayLayout, index: int) -> tuple[float, float]:
    """Return the columns between which a section is painted, without its shares of gaps."""
    before_m, after_m = layout.sheet.plan.half_gaps_m[index : index + 2]
    left, right = layout.edges_x[index : index + 2]
    return left + before_m * layout.px_per_m + 1.0, right - after_m * layout.px_per_m - 1.0


def _foot(layout: LayLayout) -> tuple[float, float]:
    """Return the rows between which bands stand at the film's foot."""
    middle = layout.film.bottom() - FILM_FOOT / 2.0
    return middle - BAND_HEIGHT / 2.0, middle + BAND_HEIGHT / 2.0


def _paint_wiped(painter: QPainter, layout: LayLayout, look: Look, which: Iterable[int]) -> None:
    """Paint a cross-hatched band at the foot of wiped sections, with a cloth where there is room."""
    top, bottom = _foot(layout)
    bands = []
    for index in which:
        left, right = _painted(layout, index)
        bands.append(QRectF(left + 1.0, top, max(right - left - 2.0, 1.0), bottom - top))
    fill_tiled(painter, "cross", look.film_edge, layout.film.bottomLeft(), bands)
    for band in bands:
        seen = band & layout.pane
        if seen.width() >= LEAST_CLOTH_ROOM:
            side = FILM_FOOT - 2.0
            left = seen.center().x() - side / 2.0 - 1.0
            plate = QRectF(left, layout.film.bottom() - side - 1.0, side + 2.0, side)
            painter.fillRect(plate, look.film)
            paint_wipe(painter, plate.adjusted(1.0, 0.0, -1.0, 0.0), look)


def _span(layout: LayLayout, index: int) -> tuple[float, float]:
    """Return the columns between which boundary `index` has its gap or overlap."""
    half = abs(layout.sheet.plan.boundaries[index].gap_m) / 2.0 * layout.px_per_m
    return layout.edges_x[index + 1] - half, layout.edges_x[index + 1] + half


def _paint_gaps(painter: QPainter, layout: LayLayout, look: Look, which: Iterable[int]) -> None:
    """Paint brackets round gaps above and below the strands, and their width between them at the foot."""
    lines: list[QLineF] = []
    head, foot = layout.film.top() + SLIP_ROOM - 3.0, layout.film.bottom() - 3.0
    small = lettering(painter, 0.75)
    figures = []
    for index in which:
        left, right = _span(layout, index)
        arm = min(5.0, (right - left) / 3.0)
        for x, inwards in ((left, arm), (right, -arm)):
            lines += [QLineF(x, head, x, head - 6.0), QLineF(x, foot - 8.0, x, foot)]
            if arm >= 2.0:
                lines += [
                    QLineF(x, head - 6.0, x + inwards, head - 6.0),
                    QLineF(x, foot, x + inwards, foot),
                ]
        width = shown(LAY_LENGTH, layout.sheet.plan.boundaries[index].gap_m)
        needed = small.width(width) + 4.0
        if right - left >= max(LEAST_GAP_FIGURE, needed + 10.0):
            slip = QRectF((left + right - needed) / 2.0, layout.film.bottom() - 13.0, needed, 12.0)
            figures.append((slip, width))
    painter.setPen(QPen(look.text, 1.2))
    painter.drawLines(lines)
    painter.setFont(small.font)
    for slip, width in figures:
        painter.fillRect(slip, look.paper)
        painter.setPen(look.ink)
        painter.drawText(slip, Qt.AlignmentFlag.AlignCenter, width)


def _paint_overlaps(painter: QPainter, layout: LayLayout, look: Look, which: Iterable[int]) -> None:
    """Paint a thread in each colour where it ends, and stripes of both between them at head and foot."""
    srgb = layout.sheet.colours.srgb
    top, bottom = _foot(layout)
    head = layout.film.top() + SLIP_ROOM - 8.0
    for index in which:
        left, right = _span(layout, index)
        before, after = (QColor.fromRgbF(*srgb[place].tolist()) for place in (index, index + 1))
        for band in (
            QRectF(left, head, right - left, 5.0),
            QRectF(left, top, right - left, bottom - top),
        ):
            painter.fillRect(band, before)
            fill_tiled(painter, "hatch", after, QPointF(left, band.top()), [band])
            painter.setPen(QPen(look.film_edge, 1.0))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(band)
        if right - left < NARROWEST_OVERLAP:
            continue
        for x, colour in ((left, after), (right, before)):
            for width, shade in ((2.8, QColor(255, 255, 255, 150)), (1.4, colour)):
                painter.setPen(QPen(shade, width))
                painter.drawLine(QLineF(x, head, x, bottom))
