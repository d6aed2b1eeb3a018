"""Boundaries as threads over the wool, with a peg on the tape to take hold of.

The rule of this module: what a boundary is doing shows in its shape first: grooves at rest, arrowheads under
the pointer, filled while dragged, three bars when locked, a ring when it has the focus.
"""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from studio_gui.domain.edits.boundaries import is_locked
from studio_gui.drawing.changes import CROWDED_PX, REACH_PX, Span
from studio_gui.drawing.lay_layout import LayItem, LayLayout
from studio_gui.drawing.lay_rows import SLIP_ROOM
from studio_gui.drawing.lay_state import LayState
from studio_gui.drawing.look import Look
from studio_gui.drawing.stamps import paint_stamps

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
    emphases = {index: _emphasis(layout, index, state) for index in indexes if index < last}
    resting = [index for index, emphasis in emphases.items() if not emphasis]
    narrow_px = [_narrow_px(layout, index) for index in resting]
    _paint_resting_threads(painter, layout, resting, narrow_px)
    if state.pegs:
        _paint_pins(painter, layout, look, resting, narrow_px)
    pegs = [index for index, narrow in zip(resting, narrow_px, strict=True) if narrow >= PINNED_PX]
    lively = sorted((index for index, emphasis in emphases.items() if emphasis), key=emphases.__getitem__)
    for index in (*pegs, *lively):
        item, emphasis = layout.item("boundary", index), emphases[index]
        if emphasis:
            _paint_thread(painter, layout, look, item, emphasis)
        if state.pegs:
            _paint_peg(painter, layout, look, item, emphasis, has_focus=state.focused == ("boundary", index))
    painter.restore()


def _emphasis(layout: LayLayout, index: int, state: LayState) -> int:
    """Return 0 at rest, 1 with the focus, 2 under the pointer, 3 while dragged."""
    here = ("boundary", index)
    if state.dragged == here:
        return 3
    if state.hovered == here and not is_locked(layout.sheet.plan, index):
        return 2
    return int(state.focused == here)


def _paint_resting_threads(
    painter: QPainter, layout: LayLayout, indexes: Sequence[int], narrow_px: Sequence[float]
) -> None:
    """Paint both hairlines of each; between narrow sections one, which ends before the wool it would hide."""
    top, bottom = round(layout.tape_start.bottom()), round(layout.film.bottom())
    above = round(layout.film.top() + SLIP_ROOM / 2.0)
    apart: list[QPointF] = []
    close: list[QPointF] = []
    for index, narrow in zip(indexes, narrow_px, strict=True):
        (apart if narrow >= THREADED_PX else close).append(QPointF(round(layout.edges_x[index + 1]), top))
    for places, height, lines in ((apart, bottom - top, 2), (close, above - top, 1)):
        paint_stamps(painter, _draw_thread, (float(height), lines), (0.0, 0.0, lines, height), places)


def _draw_thread(painter: QPainter, height: float, lines: int) -> None:
    for offset, colour in enumerate(RESTING_THREAD[:lines]):
        painter.fillRect(QRectF(offset, 0.0, 1.0, height), colour)


def _narrow_px(layout: LayLayout, index: int) -> float:
    """Return the width of the narrower of the sections beside a boundary."""
    before, here, after = layout.edges_x[index : index + 3]
    return min(here - before, after - here)


def _paint_thread(painter: QPainter, layout: LayLayout, look: Look, item: LayItem, emphasis: int) -> None:
    x = round(item.rect.center().x()) + 0.5
    style = Qt.PenStyle.DashLine if emphasis == 1 else Qt.PenStyle.SolidLine
    painter.setPen(QPen(look.handle, 3.0 if emphasis == 3 else 2.0, style))
    painter.drawLine(QPointF(x, layout.tape_start.bottom()), QPointF(x, layout.film.bottom()))


def _paint_pins(
    painter: QPainter, layout: LayLayout, look: Look, indexes: Sequence[int], narrow_px: Sequence[float]
) -> None:
    """Paint the pegs between narrow sections, as pins."""
    peg = layout.peg(0.0).adjusted(0.0, 4.0, 0.0, -4.0)
    top, height = peg.top(), peg.height()
    loose: list[QRectF] = []
    locked: list[QRectF] = []
    for index, narrow in zip(indexes, narrow_px, strict=True):
        if narrow < PINNED_PX:
            width = 3.0 if narrow >= THREADED_PX else 1.0
            left = round(layout.edges_x[index + 1]) - (width - 1.0) / 2.0  # over its thread
            pin = QRectF(left, top, width, height)
            (locked if is_locked(layout.sheet.plan, index) else loose).append(pin)
    painter.setPen(Qt.PenStyle.NoPen)
    for pins, colour in ((loose, look.peg_lines), (locked, look.handle)):
        painter.setBrush(colour)
        painter.drawRects(pins)


def _paint_peg(
    painter: QPainter, layout: LayLayout, look: Look, item: LayItem, emphasis: int, *, has_focus: bool
) -> None:
    peg = QRectF(item.slip)
    if _narrow_px(layout, item.index) < CROWDED_PX and emphasis < 2:
        peg.adjust(2.0, 0.0, -2.0, 0.0)
    if emphasis >= 2:
        peg.adjust(-3.0, -2.0, 3.0, 2.0)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, True)
    if has_focus:
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
