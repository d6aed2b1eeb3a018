"""Grips: what else on the lay can be taken hold of, and the guides that show where a dragged thing rests.

The rule of this module: a grip rests quietly and shows under the pointer, with the focus, or while something
hangs on it; a gap or overlap that is there always shows its grip.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from studio_gui.drawing.changes import CROWDED_PX, REACH_PX, Span
from studio_gui.drawing.fonts import lettering
from studio_gui.drawing.lay_layout import TARGET, LayLayout
from studio_gui.drawing.lay_rows import SLIP_HEIGHT
from studio_gui.drawing.lay_state import Guide, LayState, Lifted
from studio_gui.drawing.look import Look

NOTE_HEIGHT = 20.0


def paint_grips(painter: QPainter, layout: LayLayout, look: Look, state: LayState, within: Span) -> None:
    """Paint the grips of gaps between two pixel columns, and those of the folds."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    if state.pegs:
        for index in layout.sections_within(within[0] - REACH_PX, within[1] + REACH_PX):
            if index < len(layout.edges_x) - 2:
                _paint_gap_grip(painter, layout, look, state, index)
    for index in range(len(layout.sheet.plan.lay.fold_positions_m)):
        _paint_fold(painter, layout, look, state, index)
    painter.restore()


def paint_guide(painter: QPainter, layout: LayLayout, look: Look, guide: Guide, tag: QRectF) -> None:
    """Paint the line on which a dragged thing rests, its partner, and why, clear of the `tag`."""
    painter.save()
    painter.setPen(QPen(look.handle, 1.4, Qt.PenStyle.DashDotLine))
    for place_m in (guide.place_m, guide.other_m):
        if place_m is not None:
            x = round(layout.x(place_m)) + 0.5
            painter.drawLine(QPointF(x, layout.tape_start.top()), QPointF(x, layout.tape_end.bottom()))
    y = layout.tape_end.center().y()
    if tag.top() - NOTE_HEIGHT < y < tag.bottom() + NOTE_HEIGHT:
        y = layout.film.top() + SLIP_HEIGHT + NOTE_HEIGHT if tag.top() > y / 2.0 else layout.gauge.bottom()
    paint_note(painter, layout, look, layout.x(guide.place_m), guide.words, y)
    painter.restore()


def paint_note(painter: QPainter, layout: LayLayout, look: Look, x: float, words: str, y: float) -> None:
    """Paint a few words on a filled slip, centred on a pixel column and kept inside the picture."""
    bold = lettering(painter, 0.9, bold=True)
    width = bold.width(words) + 14.0
    left = min(max(x - width / 2.0, 4.0), layout.size.width() - width - 4.0)
    slip = QRectF(left, y - NOTE_HEIGHT / 2.0, width, NOTE_HEIGHT)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.handle)
    painter.drawRoundedRect(slip, 3.0, 3.0)
    painter.setFont(bold.font)
    painter.setPen(look.paper if look.handle.lightness() < 140 else look.ink)
    painter.drawText(slip, Qt.AlignmentFlag.AlignCenter, words)


def paint_lifted(painter: QPainter, layout: LayLayout, look: Look, lifted: Lifted) -> None:
    """Paint the paper of sections in the hand, lifted off the film, and where they would be put down."""
    left, right = layout.edges_x[lifted.first], layout.edges_x[lifted.last + 1]
    painter.save()
    painter.setPen(QPen(look.handle, 3.0))
    for x in (left, right):
        painter.drawLine(QPointF(x, layout.tape_start.bottom()), QPointF(x, layout.film.bottom()))
    paper = QRectF(left + 4.0, layout.film.top() + 1.0, right - left - 8.0, SLIP_HEIGHT)
    paper.setWidth(max(paper.width(), TARGET))
    paper.translate(lifted.by_px, 0.0)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(0, 0, 0, 70))
    painter.drawRoundedRect(paper.translated(2.0, 4.0), 3.0, 3.0)
    painter.setPen(QPen(look.handle, 2.0))
    painter.setBrush(look.paper)
    painter.drawRoundedRect(paper, 3.0, 3.0)
    painter.setPen(look.ink)
    bold = lettering(painter, 1.15, bold=True)
    painter.setFont(bold.font)
    plan = layout.sheet.plan
    run = plan.sections[lifted.first : lifted.last + 1]
    letters = "  ".join(plan.liquor(section.liquor_id).letter for section in run)
    words = bold.elided(letters, paper.width() - 6.0)
    painter.drawText(paper, Qt.AlignmentFlag.AlignCenter, words)
    painter.restore()


def paint_focus_ring(painter: QPainter, look: Look, box: QRectF) -> None:
    """Paint the ring round what has the keyboard's focus."""
    painter.setPen(QPen(look.handle, 2.0, Qt.PenStyle.DashLine))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRoundedRect(box.adjusted(-3.0, -3.0, 3.0, 3.0), 4.0, 4.0)


def _paint_gap_grip(painter: QPainter, layout: LayLayout, look: Look, state: LayState, index: int) -> None:
    """Paint two arrows that point away from each other for a gap, towards each other for an overlap."""
    me = ("gap", index)
    taken = state.dragged == me
    shown = taken or me in (state.hovered, state.focused)
    gap_m = layout.sheet.plan.boundaries[index].gap_m
    if not shown and gap_m == 0.0:
        _paint_resting_grip(painter, layout, look, index)
        return
    grip = layout.item("gap", index).slip
    colour = look.handle if shown else look.peg_lines
    painter.setPen(QPen(look.peg if taken else colour, 1.2))
    painter.setBrush(colour if taken else look.peg)
    box = grip.adjusted(-4.0, 0.0, 4.0, 0.0)
    painter.drawRoundedRect(box, 3.0, 3.0)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.peg if taken else colour)
    inwards = gap_m < 0.0
    for side in (-1.0, 1.0):
        tip, foot = (2.0, 7.0) if inwards else (7.0, 2.0)
        centre = grip.center()
        painter.drawPolygon(
            QPolygonF(
                [
                    centre + QPointF(side * tip, 0.0),
                    centre + QPointF(side * foot, -3.5),
                    centre + QPointF(side * foot, 3.5),
                ]
            )
        )


def _paint_resting_grip(painter: QPainter, layout: LayLayout, look: Look, index: int) -> None:
    """Paint two small dots where a gap can be opened, unless the sections are crowded."""
    before, here, after = layout.edges_x[index : index + 3]
    if min(here - before, after - here) < CROWDED_PX:
        return
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.film_edge)
    centre = layout.item("gap", index).slip.center()
    for side in (-1.0, 1.0):
        painter.drawEllipse(centre + QPointF(side * 3.5, 0.0), 1.8, 1.8)


def _paint_fold(painter: QPainter, layout: LayLayout, look: Look, state: LayState, index: int) -> None:
    """Paint the grip of a fold where it is pointed at, focused or held."""
    me = ("fold", index)
    item = layout.item("fold", index)
    if not state.pegs or me not in (state.hovered, state.focused, state.dragged):
        return
    taken = state.dragged == me
    painter.setPen(QPen(look.handle, 1.6))
    painter.setBrush(look.handle if taken else look.peg)
    painter.drawRoundedRect(item.slip, 4.0, 4.0)
    painter.setPen(QPen(look.peg if taken else look.handle, 1.2))
    centre = item.slip.center()
    for column in (-1.8, 1.8):
        painter.drawLine(centre + QPointF(column, -9.0), centre + QPointF(column, 9.0))
    if state.focused == me:
        paint_focus_ring(painter, look, item.slip)
