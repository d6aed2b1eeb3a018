"""Boundaries as threads over the wool, with a peg on the tape to take hold of.

The rule of this module: what a boundary is doing shows in its shape first: grooves at rest, arrowheads under
the pointer, filled while dragged, three bars when locked, a ring when it has the focus.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from studio_gui.drawing.changes import CROWDED_PX, REACH_PX, Span
from studio_gui.drawing.lay_layout import LayItem, LayLayout
from studio_gui.drawing.lay_rows import SLIP_ROOM
from studio_gui.drawing.lay_state import LayState
from studio_gui.drawing.look import Look
from studio_gui.drawing.patterns import fill_column

#: Sections narrower than this have pins for pegs: a peg would cover its neighbours.
PINNED_PX = 12.0
#: The threads between sections narrower than this stay off the wool.
THREADED_PX = 8.0

#: A thread at rest: a dark and a light hairline side by side, one of which shows on any wool.
RESTING_THREAD = (QColor(0, 0, 0, 190), QColor(255, 255, 255, 165))


def paint_boundaries(painter: QPainter, layout: LayLayout, look: Look, state: LayState, within: Span) -> None:
    """Paint threads and pegs between two pixel columns, and the dotted ghost where a dragged one was."""
    painter.save()
    if state.ghost_m is not None:
        x = round(layout.x(state.ghost_m)) + 0.5
        painter.setPen(QPen(look.text, 1.0, Qt.PenStyle.DotLine))
        painter.drawLine(QPointF(x, layout.film.top()), QPointF(x, layout.film.bottom()))
    indexes = layout.sections_within(within[0] - REACH_PX, within[1] + REACH_PX)
    last = len(layout.edges_x) - 2
    boundaries = [layout.item("boundary", index) for index in indexes if index < last]
    _paint_resting_threads(painter, layout, [one for one in boundaries if not _emphasis(one, state)])
    for item in sorted(boundaries, key=lambda one: _emphasis(one, state)):
        if _emphasis(item, state):
            _paint_thread(painter, layout, look, item, _emphasis(item, state))
        if state.pegs:
            _paint_peg(painter, layout, look, item, state)
    painter.restore()


def _emphasis(item: LayItem, state: LayState) -> int:
    """Return 0 at rest, 1 with the focus, 2 under the pointer, 3 while dragged."""
    if state.dragged == ("boundary", item.index):
        return 3
    if state.hovered == ("boundary", item.index) and not item.locked:
        return 2
    return int(state.focused == ("boundary", item.index))


def _paint_resting_threads(painter: QPainter, layout: LayLayout, items: list[LayItem]) -> None:
    """Paint both hairlines of each; between narrow sections they end before the wool, or would hide it."""
    top, bottom = round(layout.tape_start.bottom()), round(layout.film.bottom())
    above = round(layout.film.top() + SLIP_ROOM / 2.0)
    for item in items:
        x, narrow = round(item.rect.center().x()), _narrow_px(layout, item)
        end = bottom if narrow >= THREADED_PX else above
        for offset, colour in enumerate(RESTING_THREAD[: 2 if narrow >= THREADED_PX else 1]):
            fill_column(painter, x + offset, top, end, colour)


def _narrow_px(layout: LayLayout, item: LayItem) -> float:
    """Return the width of the narrower of the sections beside a boundary."""
    before, here, after = layout.edges_x[item.index : item.index + 3]
    return min(here - before, after - here)


def _paint_thread(painter: QPainter, layout: LayLayout, look: Look, item: LayItem, emphasis: int) -> None:
    x = round(item.rect.center().x()) + 0.5
    style = Qt.PenStyle.DashLine if emphasis == 1 else Qt.PenStyle.SolidLine
    painter.setPen(QPen(look.handle, 3.0 if emphasis == 3 else 2.0, style))
    painter.drawLine(QPointF(x, layout.tape_start.bottom()), QPointF(x, layout.film.bottom()))


def _paint_pin(painter: QPainter, look: Look, peg: QRectF, item: LayItem, narrow: float) -> None:
    width = 3.0 if narrow >= THREADED_PX else 1.0
    pin = QRectF(round(peg.center().x() - width / 2.0), peg.top() + 4.0, width, peg.height() - 8.0)
    painter.fillRect(pin, look.handle if item.locked else look.peg_lines)


def _paint_peg(painter: QPainter, layout: LayLayout, look: Look, item: LayItem, state: LayState) -> None:
    emphasis = _emphasis(item, state)
    peg = QRectF(item.slip)
    narrow = _narrow_px(layout, item)
    if narrow < PINNED_PX and not emphasis:
        _paint_pin(painter, look, peg, item, narrow)
        return
    if narrow < CROWDED_PX and emphasis < 2:
        peg.adjust(2.0, 0.0, -2.0, 0.0)
    if emphasis >= 2:
        peg.adjust(-3.0, -2.0, 3.0, 2.0)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    if state.focused == ("boundary", item.index):
        painter.setPen(QPen(look.handle, 2.0))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRoundedRect(peg.adjusted(-3.0, -3.0, 3.0, 3.0), 5.0, 5.0)
    filled = emphasis == 3
    painter.setPen(QPen(look.handle if emphasis >= 2 else look.peg_lines, 1.4))
    painter.setBrush(look.handle if filled else look.peg_lines if item.locked else look.peg)
    painter.drawRoundedRect(peg, 3.0, 3.0)
    lines = look.peg if filled or item.locked else look.handle if emphasis >= 2 else look.peg_lines
    centre = peg.center()
    if item.locked:
        painter.setPen(QPen(lines, 1.4))
        for row in (-4.0, 0.0, 4.0):
            painter.drawLine(
                centre + QPointF(-peg.width() / 4.0, row), centre + QPointF(peg.width() / 4.0, row)
            )
    elif emphasis >= 2:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(lines)
        for side in (-1.0, 1.0):
            tip, foot = QPointF(side * 6.5, 0.0), side * 2.0
            painter.drawPolygon(
                QPolygonF([centre + tip, centre + QPointF(foot, -4.0), centre + QPointF(foot, 4.0)])
            )
    else:
        painter.setPen(QPen(lines, 1.2))
        for column in (-1.8, 1.8):
            painter.drawLine(centre + QPointF(column, -5.0), centre + QPointF(column, 5.0))
