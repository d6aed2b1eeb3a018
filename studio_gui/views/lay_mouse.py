"""What the mouse, a touchpad or a finger does on the lay.

The rule of this module: it finds what is under the pointer and begins, follows and ends gestures; what
they do is theirs. A press that does not move is a click and changes nothing but the selection.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QPointF, Qt, QTimer
from PySide6.QtGui import QContextMenuEvent, QGuiApplication, QMouseEvent, QNativeGestureEvent, QWheelEvent
from PySide6.QtWidgets import QApplication

from studio_gui.domain.edits.sections import split
from studio_gui.domain.errors import RovingLayError
from studio_gui.drawing.lay_layout import LayItem
from studio_gui.drawing.overview import film_m_at, is_overview_shown
from studio_gui.drawing.ruler import ruler_steps, ruler_unit_m, snapped
from studio_gui.views.gestures import LETS_GO, BoundaryDrag, FoldDrag, GapDrag, Gesture, SectionsDrag
from studio_gui.wording.translation import translate

if TYPE_CHECKING:
    from studio_gui.views.lay_canvas import LayCanvas

SCROLL_MS = 16
#: The film runs under a drag that comes this near to the pane's edge, faster the nearer, px a step.
SCROLL_EDGE_PX = 28.0
FASTEST_PX = 24.0
#: One notch of a wheel, in the eighths of a degree of Qt, and how much closer it brings the film.
NOTCH = 120.0
NOTCH_FACTOR = 1.25


class LayMouse(QObject):
    """The mouse over a lay canvas."""

    def __init__(self, canvas: LayCanvas) -> None:
        super().__init__(canvas)
        self._canvas = canvas
        self._pressed: tuple[QPointF, LayItem] | None = None  # a section that may yet be dragged
        self._panned_from: QPointF | None = None
        self._in_overview = False
        self.is_space_held = False
        self._scroll = QTimer(self)
        self._scroll.setInterval(SCROLL_MS)
        self._scroll.timeout.connect(self._scroll_on)

    # -- buttons -------------------------------------------------------------------------------------------

    def press(self, event: QMouseEvent) -> None:
        """Take hold of what is there."""
        canvas, point = self._canvas, event.position()
        if canvas.is_dragging:
            return
        if self._starts_panning(event):
            self._panned_from = point
            canvas.setCursor(Qt.CursorShape.ClosedHandCursor)
            return
        if event.button() != Qt.MouseButton.LeftButton:
            return
        if is_overview_shown(canvas.lay) and point.y() >= canvas.lay.overview.top() - 4.0:
            self._in_overview = True
            canvas.looks.centre_on(film_m_at(canvas.lay, point.x()))
            return
        item = canvas.lay.item_at(point)
        if item is None:
            return
        canvas.focus_item(item.kind, item.index, select=False)
        if item.kind == "section":
            self._select(item, event.modifiers())
            self._pressed = (point, item)
        else:
            self._take(item, point)

    def move(self, event: QMouseEvent) -> None:
        """Follow, or show what is under the pointer."""
        canvas, point = self._canvas, event.position()
        if self._panned_from is not None:
            canvas.looks.pan(self._panned_from.x() - point.x())
            self._panned_from = point
        elif self._in_overview:
            canvas.looks.centre_on(film_m_at(canvas.lay, point.x()))
        elif canvas.is_dragging:
            canvas.hold.follow(point, event.modifiers())
            self._scroll_near_edge()
        elif self._pressed is not None:
            self._maybe_lift(point, event.modifiers())
        else:
            canvas.hover(canvas.lay.item_at(point))

    def release(self, event: QMouseEvent) -> None:
        """Let go."""
        canvas = self._canvas
        pressed, self._pressed = self._pressed, None
        if pressed is not None and event.modifiers() == Qt.KeyboardModifier.NoModifier:
            canvas.focus_item("section", pressed[1].index)  # no drag came
        self._in_overview = False
        if self._panned_from is not None:
            self._panned_from = None
            canvas.unsetCursor()
        if canvas.is_dragging and event.button() == Qt.MouseButton.LeftButton:
            canvas.hold.end()
            canvas.hover(canvas.lay.item_at(event.position()))

    def double_click(self, event: QMouseEvent) -> None:
        """Split a section at the pointer, on the ruler's tick unless a key lets go of it."""
        canvas = self._canvas
        item = canvas.lay.item_at(event.position())
        if item is None or item.kind != "section" or event.button() != Qt.MouseButton.LeftButton:
            return
        place_m = canvas.lay.lay_m(event.position().x())
        if not event.modifiers() & LETS_GO:
            tick_m = ruler_steps(canvas.lay.px_per_m, ruler_unit_m())[1]
            low_m, high_m = canvas.document.sheet.plan.edges_m[item.index : item.index + 2]
            on_tick_m = snapped(place_m, tick_m)
            place_m = on_tick_m if low_m < on_tick_m < high_m else place_m
        name = translate("LayMouse", "Split section")
        canvas.document.edit(name, partial(split, index=item.index, position_m=place_m))

    def context_menu(self, event: QContextMenuEvent) -> None:
        """Ask for the menu of what is there."""
        canvas = self._canvas
        if canvas.is_dragging:
            return
        point = QPointF(event.pos())
        item = canvas.lay.item_at(point)
        if event.reason() == QContextMenuEvent.Reason.Keyboard:
            item = canvas.lay.item(*canvas.focused)
            point = item.rect.center()
        if item is not None and item.kind == "section":
            section_id = canvas.document.sheet.plan.sections[item.index].id
            if section_id not in canvas.document.selected_ids:
                canvas.select(section_id)
        if item is not None:
            canvas.focus_item(item.kind, item.index, select=False)
        canvas.menu_wanted.emit(canvas.mapToGlobal(point.toPoint()), item, canvas.lay.lay_m(point.x()))

    def _starts_panning(self, event: QMouseEvent) -> bool:
        if event.button() == Qt.MouseButton.MiddleButton:
            return True
        return event.button() == Qt.MouseButton.LeftButton and self.is_space_held

    def _take(self, item: LayItem, point: QPointF) -> None:
        canvas = self._canvas
        makers: dict[str, type[BoundaryDrag | GapDrag | FoldDrag]] = {
            "boundary": BoundaryDrag,
            "gap": GapDrag,
            "fold": FoldDrag,
        }
        try:
            gesture: Gesture = makers[item.kind](canvas.document, canvas.lay, item.index, point.x())
        except RovingLayError as refusal:
            canvas.document.refused.emit(refusal)
            return
        canvas.hold.begin(gesture, point)

    def _maybe_lift(self, point: QPointF, modifiers: Qt.KeyboardModifier) -> None:
        """Lift the pressed section, or the run of selected ones it belongs to, once the hand has moved."""
        canvas = self._canvas
        if self._pressed is None:
            return
        start, item = self._pressed
        if (point - start).manhattanLength() < QApplication.startDragDistance():
            return
        self._pressed = None
        run = self._run_of(item.index)
        if run[1] - run[0] + 1 == len(canvas.document.plan.sections):
            return  # nowhere else to go
        canvas.hold.begin(SectionsDrag(canvas.document, canvas.lay, run, start.x()), start)
        canvas.hold.follow(point, modifiers)

    def _run_of(self, index: int) -> tuple[int, int]:
        plan, chosen = self._canvas.document.plan, set(self._canvas.document.selected_ids)
        picked = [section.id in chosen for section in plan.sections]
        first = last = index
        while first > 0 and picked[first - 1]:
            first -= 1
        while last + 1 < len(picked) and picked[last + 1]:
            last += 1
        return first, last

    def _select(self, item: LayItem, modifiers: Qt.KeyboardModifier) -> None:
        document = self._canvas.document
        sections = document.sheet.plan.sections
        chosen = list(document.selected_ids)
        clicked = sections[item.index].id
        if modifiers & Qt.KeyboardModifier.ControlModifier:
            chosen = [one for one in chosen if one != clicked] if clicked in chosen else [*chosen, clicked]
        elif modifiers & Qt.KeyboardModifier.ShiftModifier and chosen:
            first, last = sorted((document.selected_index, item.index))
            chosen = [section.id for section in sections[first : last + 1]]
        elif clicked not in chosen:
            chosen = [clicked]
        self._canvas.select(*chosen)

    # -- looking -------------------------------------------------------------------------------------------

    def wheel(self, event: QWheelEvent) -> None:
        """Zoom at the pointer; sideways, or with Shift, move along the film."""
        canvas = self._canvas
        pixels, turned = event.pixelDelta(), event.angleDelta()
        sideways = event.modifiers() & Qt.KeyboardModifier.ShiftModifier
        along = pixels.x() or turned.x() or (sideways and (pixels.y() or turned.y()))
        if along:
            canvas.looks.pan(-float(along))
        elif turned.y():
            canvas.looks.zoom(NOTCH_FACTOR ** (turned.y() / NOTCH), event.position().x())
        event.accept()
        if not canvas.is_dragging:
            canvas.hover(canvas.lay.item_at(event.position()))

    def native_gesture(self, event: QNativeGestureEvent) -> bool:
        """Zoom with two fingers on a touchpad."""
        if event.gestureType() == Qt.NativeGestureType.ZoomNativeGesture:
            self._canvas.looks.zoom(1.0 + event.value(), event.position().x())
            return True
        return False

    def _scroll_near_edge(self) -> None:
        if self._speed() and not self._canvas.view.is_fitted:
            if not self._scroll.isActive():
                self._scroll.start()
        else:
            self._scroll.stop()

    def _scroll_on(self) -> None:
        """Run the film under what is held at the pane's edge, and what is held with it."""
        canvas, before = self._canvas, self._canvas.view
        if canvas.is_dragging:
            canvas.looks.pan(self._speed())
        if canvas.view == before:
            self._scroll.stop()
            return
        canvas.hold.follow(canvas.hold.pointer, QGuiApplication.queryKeyboardModifiers())

    def _speed(self) -> float:
        """Return how far (px) the film runs in a step, below 0 to the left."""
        pane, x = self._canvas.lay.pane, self._canvas.hold.pointer.x()
        inwards_left, inwards_right = x - pane.left(), pane.right() - x
        near = min(inwards_left, inwards_right)
        if near >= SCROLL_EDGE_PX:
            return 0.0
        speed = min((SCROLL_EDGE_PX - near) / SCROLL_EDGE_PX, 1.0) * FASTEST_PX
        return -speed if inwards_left < inwards_right else speed

    # -- words ---------------------------------------------------------------------------------------------

    def show_hint(self, item: LayItem | None) -> None:
        """Show by cursor and in words what can be done with what is under the pointer."""
        canvas = self._canvas
        if canvas.is_dragging:
            return
        if item is None:
            canvas.unsetCursor()
        elif item.kind == "section":
            canvas.setCursor(Qt.CursorShape.OpenHandCursor)
        elif item.locked:
            canvas.setCursor(Qt.CursorShape.ForbiddenCursor)
        else:
            canvas.setCursor(Qt.CursorShape.SplitHCursor)
        canvas.hinted.emit(_hint(item))


def _hint(item: LayItem | None) -> str:
    if item is None:
        return ""
    if item.locked and item.kind == "section":
        return translate("LayMouse", "This section is locked in its place. Double-click splits it.")
    if item.locked:
        return translate("LayMouse", "A locked section keeps this boundary in its place.")
    return {
        "section": translate(
            "LayMouse",
            "Drag to another place in the order. Double-click splits here; Ctrl and Shift select more.",
        ),
        "boundary": translate(
            "LayMouse",
            "Drag to move the boundary. Shift moves all that follows; Alt or Ctrl lets go of the marks.",
        ),
        "gap": translate(
            "LayMouse",
            "Drag right to leave a gap, left to overlap; weights still count the whole section.",
        ),
        "fold": translate("LayMouse", "Drag to move the fold: the legs beside it become longer or shorter."),
    }[item.kind]
