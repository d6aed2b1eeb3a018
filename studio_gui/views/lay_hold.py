"""What is in the hand over a canvas, and what shows of it above the lay.

The rule of this module: a gesture begins, follows and ends here, as one undo step or as if it had never been.
Tag, guide and lifted slips lie over the lay: where they were and where they are is copied anew, no more.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter

from studio_gui.drawing.fonts import lettering_on
from studio_gui.drawing.lay_layout import TARGET, LayLayout, pane_of
from studio_gui.drawing.lay_picture import paint_in_hand
from studio_gui.drawing.lay_rows import SLIP_HEIGHT
from studio_gui.drawing.lay_state import LayState, Lifted
from studio_gui.drawing.look import Look
from studio_gui.drawing.tags import TagColumn, paint_tag, tag_rect
from studio_gui.views.gestures import FoldDrag, Gesture

if TYPE_CHECKING:
    from studio_gui.views.lay_canvas import LayCanvas

#: How far the words of a guide may reach from it, px.
GUIDE_HALF_PX = 90.0


class LayHold:
    """The hand of one canvas."""

    def __init__(self, canvas: LayCanvas) -> None:
        self.gesture: Gesture | None = None
        self.pointer = QPointF()
        self._canvas = canvas
        self._tag: tuple[tuple[TagColumn, ...], QRectF] | None = None
        self._shown = QRectF()
        self._start_x = 0.0  # of the rovings, and how the film was looked at, when a fold was taken
        self._view_before = canvas.looks.view

    def begin(self, gesture: Gesture, point: QPointF) -> None:
        """Take something into the hand."""
        canvas = self._canvas
        self.gesture, self.pointer = gesture, point
        if isinstance(gesture, FoldDrag):
            # at the scale of its start, or the film's end would stay under the hand whatever its length
            self._view_before = canvas.looks.view
            canvas.looks.view = replace(self._view_before, px_per_m=canvas.lay.px_per_m)
            self._start_x = canvas.lay.strands[0].rect.left()
        canvas.setCursor(gesture.cursor)
        self._show()

    def follow(self, point: QPointF, modifiers: Qt.KeyboardModifier) -> None:
        """Move what is in the hand."""
        if self.gesture is not None:
            self.pointer = point
            self.gesture.move(self._canvas.lay, point, modifiers)
            if isinstance(self.gesture, FoldDrag):
                self._keep_start_in_place()
            self._show()

    def end(self) -> None:
        """Let go: what was previewed is one undo step."""
        gesture = self._let_go()
        if gesture is not None:
            self._canvas.document.commit_preview(gesture.name())
            self._canvas.focus_item(*gesture.item, select=False)

    def cancel(self) -> None:
        """Let go as if nothing had been taken."""
        if self._let_go() is not None:
            self._canvas.document.cancel_preview()

    def paint(self, painter: QPainter, layout: LayLayout, look: Look, state: LayState) -> None:
        """Paint what shows of it above the lay."""
        if self.gesture is not None and self._tag is not None:
            paint_in_hand(painter, layout, look, state, self.gesture.place_m, self._tag[1])
            paint_tag(painter, look, *self._tag)

    def _let_go(self) -> Gesture | None:
        canvas = self._canvas
        gesture, self.gesture = self.gesture, None
        if gesture is not None:
            canvas.unsetCursor()
            if isinstance(gesture, FoldDrag):
                canvas.looks.view = pane_of(canvas.lay).clamped(self._view_before)
                canvas.repaint_all()
            self._show()
        return gesture

    def _keep_start_in_place(self) -> None:
        """Keep the rovings' start where it is while a far end reaches out before it."""
        canvas = self._canvas
        moved_m = (canvas.lay.strands[0].rect.left() - self._start_x) / canvas.lay.px_per_m
        if abs(moved_m) > 1e-9:
            view = canvas.looks.view
            canvas.looks.view = replace(view, left_m=view.left_m + moved_m)
            canvas.repaint_all()

    def _show(self) -> None:
        """Lay out the tag, and have copied anew what lies under it, guide and slips, then and now."""
        gesture, now, self._tag = self.gesture, QRectF(), None
        layout = self._canvas.lay
        if gesture is not None:
            columns = gesture.tag()
            bold = lettering_on(self._canvas, self._canvas.font(), 1.0, bold=True)
            tag = tag_rect(bold, layout, columns, layout.x(gesture.place_m), self.pointer)
            self._tag = columns, tag
            now = tag.adjusted(-3.0, -3.0, 3.0, 3.0)
            if gesture.lifted is not None:
                now |= _lifted_area(layout, gesture.lifted)
            guide = gesture.guide
            for place_m in (gesture.place_m, *((guide.place_m, guide.other_m) if guide else ())):
                if place_m is not None:
                    left, bottom = layout.x(place_m) - GUIDE_HALF_PX, layout.gauge.bottom() + TARGET
                    now |= QRectF(left, 0.0, 2.0 * GUIDE_HALF_PX, bottom)
        touched = self._shown | now
        if not touched.isNull():
            # from top to bottom, as spans are: within one rectangle Qt copies far faster than along a region
            area = touched.toAlignedRect()
            self._canvas.update(area.left(), 0, area.width(), self._canvas.height())
        self._shown = now


def _lifted_area(layout: LayLayout, lifted: Lifted) -> QRectF:
    left, right = layout.edges_x[lifted.first], layout.edges_x[lifted.last + 1]
    area = QRectF(left, layout.tape_start.bottom(), right - left, SLIP_HEIGHT + 2.0 * TARGET)
    return (area | area.translated(lifted.by_px, 0.0)).adjusted(-TARGET, 0.0, TARGET, 0.0)
