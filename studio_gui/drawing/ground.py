"""The ground of a lay's picture: table, film, tapes, the axis of the gauges, and the words in the margin.

The rule of this module: the ground does not hang on where sections lie. While a boundary is dragged it stays
as it is, so it is painted once and kept.
"""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QPainter, QPen, QPixmap, QPolygonF

from studio_gui.domain.geometry import legs
from studio_gui.drawing.fonts import sized
from studio_gui.drawing.gauge_axis import paint_gauge_axis
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.lay_rows import SLIP_ROOM
from studio_gui.drawing.look import Look
from studio_gui.drawing.ruler import INCH_M, ruler_unit_m
from studio_gui.drawing.stripe_marks import paint_stripe_marks
from studio_gui.drawing.tape import paint_tape
from studio_gui.wording.translation import translate

#: Pegs and grips at the pane's edges may reach this far into the margins.
OVERHANG = 12.0
FILM_EDGE_PX = 1.0
FOLD_WORD_PX = 14.0


class Ground:
    """A picture of the ground, kept until something in it changes."""

    def __init__(self) -> None:
        self._pixmap = QPixmap()
        self._key: object = None

    def forget(self) -> None:
        """Paint it anew the next time: language, units, font or palette have changed."""
        self._key = None

    def paint(self, painter: QPainter, layout: LayLayout, look: Look, area: QRect) -> None:
        """Paint the ground in `area`."""
        ratio = painter.device().devicePixelRatioF()
        key = (ratio, look, *_key(layout))
        if key != self._key:
            self._key, self._pixmap = key, _pixmap(layout, look, painter.font(), ratio)
        copy_part(painter, self._pixmap, area)


def copy_part(painter: QPainter, picture: QPixmap, area: QRect) -> None:
    """Copy the part in `area` of a picture as large as what is painted on, pixel by pixel.

    Whole pixels are copied fast; at a broken pixel ratio the part grows to the next ones.
    """
    ratio = picture.devicePixelRatio()
    if ratio == 1.0:
        painter.drawPixmap(area.topLeft(), picture, area)
        return
    left, top = math.floor(area.left() * ratio), math.floor(area.top() * ratio)
    right = math.ceil((area.left() + area.width()) * ratio)
    bottom = math.ceil((area.top() + area.height()) * ratio)
    part = QRectF(left, top, right - left, bottom - top)
    target = QRectF(left / ratio, top / ratio, part.width() / ratio, part.height() / ratio)
    painter.drawPixmap(target, picture, part)


def paint_ground(painter: QPainter, layout: LayLayout, look: Look) -> None:
    """Paint table, words, film and tapes of the whole picture."""
    painter.fillRect(QRectF(0.0, 0.0, layout.size.width(), layout.size.height()), look.table)
    _paint_words(painter, layout, look)
    _paint_directions(painter, layout, look)
    paint_gauge_axis(painter, layout, look)
    painter.save()
    clip_to_pane(painter, layout, FILM_EDGE_PX)
    _paint_film(painter, layout, look)
    paint_tape(painter, layout, look, layout.tape_start, from_end=False)
    paint_tape(painter, layout, look, layout.tape_end, from_end=True)
    paint_stripe_marks(painter, layout, look)
    painter.restore()
    _paint_fold_words(painter, layout, look)


def clip_to_pane(painter: QPainter, layout: LayLayout, beyond: float = OVERHANG) -> None:
    """Cut what is painted from here on to the pane and `beyond` px over its edges."""
    painter.setClipRect(layout.pane.adjusted(-beyond, 0.0, beyond, 0.0), Qt.ClipOperation.IntersectClip)


def _key(layout: LayLayout) -> tuple[object, ...]:
    """Return all that the ground hangs on; plans keep the parts that an edit leaves alone."""
    plan = layout.sheet.plan
    return (
        layout.size,
        layout.view,
        layout.px_per_m,
        layout.film,
        layout.gauge,
        layout.rovings_shown,
        plan.fibre,
        plan.lay,
        plan.liquid,
        plan.yarn,
    )


def _pixmap(layout: LayLayout, look: Look, font: QFont, ratio: float) -> QPixmap:
    size = QSize(math.ceil(layout.size.width() * ratio), math.ceil(layout.size.height() * ratio))
    pixmap = QPixmap(size)
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(look.table)
    painter = QPainter(pixmap)
    try:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(font)
        paint_ground(painter, layout, look)
    finally:
        painter.end()
    return pixmap


def _paint_film(painter: QPainter, layout: LayLayout, look: Look) -> None:
    painter.save()
    painter.setPen(QPen(look.film_edge, 1.0))
    painter.setBrush(look.film)
    painter.drawRoundedRect(layout.film, 3.0, 3.0)
    painter.setPen(QPen(look.film_edge, 1.0, Qt.PenStyle.DashLine))
    for place_m in (0.0, layout.sheet.plan.lay_length_m):
        x = round(layout.x(place_m)) + 0.5
        painter.drawLine(QPointF(x, layout.film.top() + 4.0), QPointF(x, layout.film.bottom() - 4.0))
    painter.restore()


def _paint_directions(painter: QPainter, layout: LayLayout, look: Look) -> None:
    """Paint before every strand which way the roving runs in it: filled going out, hollow coming back."""
    side = min(9.0, layout.strand_height * 0.6)
    if layout.film.left() < layout.pane.left() or side < 4.0:
        return  # the start is out of sight
    x = layout.pane.left() - 8.0
    painter.save()
    painter.setPen(QPen(look.secondary, 1.0))
    for strand in layout.strands:
        way = 1.0 if strand.leg.forward else -1.0
        y = strand.rect.center().y()
        corners = [
            QPointF(x - way * side / 2.0, y - side / 2.0),
            QPointF(x + way * side / 2.0, y),
            QPointF(x - way * side / 2.0, y + side / 2.0),
        ]
        painter.setBrush(look.secondary if strand.leg.forward else Qt.BrushStyle.NoBrush)
        painter.drawPolygon(QPolygonF(corners))
    painter.restore()


def _paint_fold_words(painter: QPainter, layout: LayLayout, look: Look) -> None:
    """Paint the word "fold" beside the turns at the far end, on the film where there is room for it."""
    plan = layout.sheet.plan
    if plan.lay.passes == 1:
        return
    far_x = layout.x(max(leg.lay_high_m for leg in legs(plan.fibre, plan.lay)))
    if not layout.pane.left() < far_x <= layout.pane.right() + 1.0:
        return  # out of sight
    room = layout.film.right() - far_x
    x = (
        far_x + room - FOLD_WORD_PX / 2.0
        if room >= 2.0 * FOLD_WORD_PX
        else layout.film.right() + FOLD_WORD_PX
    )
    painter.save()
    painter.setFont(sized(painter, 0.85))
    painter.setPen(look.secondary)
    painter.translate(QPointF(x, layout.film.top() + (SLIP_ROOM + layout.film.height()) / 2.0))
    painter.rotate(90.0)
    words = translate("LayPicture", "fold")
    painter.drawText(QRectF(-40.0, -9.0, 80.0, 18.0), Qt.AlignmentFlag.AlignCenter, words)
    painter.restore()


def _paint_words(painter: QPainter, layout: LayLayout, look: Look) -> None:
    """Paint what the tapes count from, the mark at the start, and how many rovings lie there."""
    painter.save()
    plan = layout.sheet.plan
    base = painter.font()
    painter.setFont(sized(painter, 0.85))
    painter.setPen(look.secondary)
    left = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
    from_start, from_fold, from_end = _tape_words()
    far = from_fold if plan.lay.passes > 1 else from_end
    for box, words in ((layout.tape_start, from_start), (layout.tape_end, far)):
        painter.drawText(QRectF(8.0, box.top(), 92.0, box.height()), left, words)
    if plan.fibre.rovings > 1:
        all_shown = layout.rovings_shown == plan.fibre.rovings
        words = (
            translate("LayPicture", "{0} rovings")
            if all_shown
            else translate("LayPicture", "one of {0} rovings")
        )
        painter.drawText(
            QRectF(8.0, layout.film.top() + 2.0, 92.0, 20.0), left, words.format(plan.fibre.rovings)
        )
    painter.setFont(base)
    _paint_start_mark(painter, layout, look)
    painter.restore()


def _tape_words() -> tuple[str, str, str]:
    """Return what the tapes are in and count from: the start, the fold, the end."""
    if ruler_unit_m() == INCH_M:
        return (
            translate("LayPicture", "in from start"),
            translate("LayPicture", "in from fold"),
            translate("LayPicture", "in from end"),
        )
    return (
        translate("LayPicture", "cm from start"),
        translate("LayPicture", "cm from fold"),
        translate("LayPicture", "cm from end"),
    )


def _paint_start_mark(painter: QPainter, layout: LayLayout, look: Look) -> None:
    """Paint where to start; while the start is out of sight, only that it lies that way."""
    middle = layout.film.center().y() + 10.0
    slip = QRectF(10.0, middle - 22.0, 62.0, 44.0)
    in_sight = layout.film.left() >= layout.pane.left() - layout.overhang_px
    tip = QPointF(86.0, middle) if in_sight else QPointF(2.0, middle)
    right, left = (slip.topRight(), slip.bottomRight()), (slip.topLeft(), slip.bottomLeft())
    corners = [left[0], right[0], tip, right[1], left[1]]
    if not in_sight:
        corners = [left[0], right[0], right[1], left[1], tip]
    painter.setPen(QPen(look.film_edge, 1.0))
    painter.setBrush(look.paper)
    painter.drawPolygon(QPolygonF(corners))
    painter.setPen(look.ink)
    painter.setFont(sized(painter, 1.0, bold=True))
    words = translate("LayPicture", "Start here") if in_sight else translate("LayPicture", "Start")
    flags = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignHCenter | Qt.TextFlag.TextWordWrap
    painter.drawText(slip.adjusted(4.0, 2.0, 0.0, -2.0), int(flags), words)
