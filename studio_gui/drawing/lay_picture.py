"""The picture of a lay: table, film, wool, tapes, boundaries, slips and gauges.

The rule of this module: screen, SVG and PNG are the same drawing; only how the wool is painted differs. What
lies outside the pixel columns `within` is left alone.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen, QPolygonF

from studio_gui.drawing.changes import Span
from studio_gui.drawing.figures_row import paint_figures, paint_figures_heading
from studio_gui.drawing.film_marks import paint_film_marks, paint_stains
from studio_gui.drawing.fonts import sized
from studio_gui.drawing.gauge_axis import paint_gauge_axis
from studio_gui.drawing.gauges import paint_gauges
from studio_gui.drawing.grips import paint_grips, paint_guide, paint_lifted, paint_note
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.lay_state import LayState
from studio_gui.drawing.look import Look
from studio_gui.drawing.pegs import paint_boundaries
from studio_gui.drawing.ruler import INCH_M, ruler_unit_m
from studio_gui.drawing.slips import paint_slips
from studio_gui.drawing.tape import paint_tape
from studio_gui.wording.quantities import LAY_LENGTH, shown
from studio_gui.wording.translation import translate

#: Pegs and grips at the pane's edges may reach this far into the margins.
OVERHANG = 12.0


def paint_lay(
    painter: QPainter,
    layout: LayLayout,
    look: Look,
    state: LayState,
    paint_wool: Callable[[QPainter], None],
    within: Span | None = None,
) -> None:
    """Paint the lay between two pixel columns, all of it by default; `paint_wool` paints the strands."""
    span = within or (0.0, layout.size.width())
    painter.fillRect(QRectF(span[0], 0.0, span[1] - span[0], layout.size.height()), look.table)
    if span[0] < layout.pane.left():
        _paint_words(painter, layout, look)
        paint_gauge_axis(painter, layout, look)
        paint_figures_heading(painter, layout, look)
    painter.save()
    painter.setClipRect(layout.pane.adjusted(-OVERHANG, 0.0, OVERHANG, 0.0), Qt.ClipOperation.IntersectClip)
    _paint_film(painter, layout, look)
    paint_tape(painter, layout, look, layout.tape_start, from_end=False)
    paint_tape(painter, layout, look, layout.tape_end, from_end=True)
    paint_stains(painter, layout, look, span)
    paint_wool(painter)
    _paint_selection(painter, layout, look, state, span)
    paint_slips(painter, layout, look, state, span)
    paint_boundaries(painter, layout, look, state, span)
    paint_film_marks(painter, layout, look, span)
    paint_grips(painter, layout, look, state, span)
    paint_gauges(painter, layout, look, span)
    paint_figures(painter, layout, look, span)
    if state.lifted is not None:
        paint_lifted(painter, layout, look, state.lifted)
    if state.guide is not None:
        paint_guide(painter, layout, look, state.guide)
    painter.restore()


def paint_place(painter: QPainter, layout: LayLayout, look: Look, place_m: float) -> None:
    """Paint the place of a dragged thing as a filled slip on the upper tape."""
    words = shown(LAY_LENGTH, place_m)
    paint_note(painter, layout, look, layout.x(place_m), words, layout.tape_start.top() + 2.0)


def _paint_film(painter: QPainter, layout: LayLayout, look: Look) -> None:
    painter.save()
    painter.setPen(QPen(look.film_edge, 1.0))
    painter.setBrush(look.film)
    painter.drawRoundedRect(layout.film, 3.0, 3.0)
    painter.setPen(QPen(look.film_edge, 1.0, Qt.PenStyle.DashLine))
    for place_m in (0.0, layout.sheet.plan.lay_length_m):
        x = round(layout.x(place_m)) + 0.5
        painter.drawLine(QPointF(x, layout.film.top() + 4.0), QPointF(x, layout.film.bottom() - 4.0))
    _paint_directions(painter, layout, look)
    painter.restore()


def _paint_directions(painter: QPainter, layout: LayLayout, look: Look) -> None:
    """Paint before every strand which way the roving runs in it: filled going out, hollow coming back."""
    side = min(9.0, layout.strand_height * 0.5)
    if layout.overhang_px < 1.6 * side or side < 4.0:
        return
    x = layout.x(0.0) - layout.overhang_px + side
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


def _paint_selection(painter: QPainter, layout: LayLayout, look: Look, state: LayState, within: Span) -> None:
    """Mark the span of the selected sections on the tape."""
    painter.save()
    painter.setPen(QPen(look.handle, 3.0))
    y = layout.tape_start.bottom() + 1.5
    edges = layout.edges_x
    for index in layout.sections_within(*within):
        if index in state.selected:
            painter.drawLine(QPointF(edges[index] + 1.0, y), QPointF(edges[index + 1] - 1.0, y))
    painter.restore()
