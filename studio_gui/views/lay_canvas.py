"""The lay canvas: the roving on its film, with boundaries, sections, gaps and folds to take hold of.

The rule of this module: the canvas shows `OpenPlan.sheet` and edits through gestures and pure edits only;
everything it hits, focuses and paints comes from one `LayLayout`. It paints what changed and nothing else.
What the mouse does is in `lay_mouse`, what keys do in `lay_keys`.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QPointF, QRectF, QSizeF, Qt, QTimer, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QNativeGestureEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from studio_gui.document.background import LatestRun
from studio_gui.document.open_plan import OpenPlan
from studio_gui.drawing.changes import Span, changed_span
from studio_gui.drawing.lay_layout import (
    SLIP_HEIGHT,
    TARGET,
    ItemKind,
    LayItem,
    LayLayout,
    lay_layout,
    pane_of,
)
from studio_gui.drawing.lay_picture import paint_in_hand
from studio_gui.drawing.lay_screen import LayScreen
from studio_gui.drawing.lay_state import LayState, Lifted
from studio_gui.drawing.lay_view import LayView
from studio_gui.drawing.look import look_for
from studio_gui.drawing.overview import is_overview_shown, lay_in_overview, paint_overview
from studio_gui.drawing.tags import TagColumn, paint_tag, tag_rect
from studio_gui.views.gestures import FoldDrag, Gesture
from studio_gui.views.lay_keys import LayKeys
from studio_gui.views.lay_mouse import LayMouse
from studio_gui.views.lay_voice import LayVoice

if TYPE_CHECKING:
    from studio_gui.drawing.fibre.maps import FibreMaps

Focus = tuple[ItemKind, int]

GUIDE_HALF_PX = 90.0
COMB_AFTER_MS = 40


class LayCanvas(QWidget):
    """Film, strands, tapes, boundaries, gauges and the figures of each section.

    Signals
    -------
    hinted
        A sentence for the status bar: what can be done with what is under the pointer.
    menu_wanted
        A context menu is asked for: global point, the `LayItem` there or None, the place on the lay (m).
    view_changed
        The film is looked at in another way.
    painted
        The canvas was painted for the first time.
    """

    hinted = Signal(str)
    menu_wanted = Signal(object, object, float)
    view_changed = Signal()
    painted = Signal()

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.document = document
        self.voice = LayVoice(self)
        self.gesture: Gesture | None = None
        self.pointer = QPointF()
        self._view = LayView()
        self._layout: LayLayout | None = None
        self._screen = LayScreen()
        self._combing = LatestRun(self)
        self._combing.done.connect(self._combed)
        self._comb_soon = QTimer(self)  # not while a window is being resized or a lay zoomed
        self._comb_soon.setSingleShot(True)
        self._comb_soon.setInterval(COMB_AFTER_MS)
        self._comb_soon.timeout.connect(self._comb)
        self._hovered: Focus | None = None
        self._focused: Focus = ("section", 0)
        self._tag: tuple[tuple[TagColumn, ...], QRectF] | None = None
        self._is_selecting = False
        self._adorned = QRectF()
        self._start_x = 0.0  # of the rovings, and how the film was looked at, when a fold was taken
        self._view_before = self._view
        self._was_painted = False
        self._mouse = LayMouse(self)
        self._keys = LayKeys(self)
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(360, 300)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        document.shown.connect(self._sheet_changed)
        document.selected.connect(self._selection_changed)
        self._retranslate()

    # -- how it is looked at -------------------------------------------------------------------------------

    @property
    def lay(self) -> LayLayout:
        """The picture as it is laid out now."""
        size = QSizeF(self.size())
        layout = self._layout
        if (
            layout is None
            or layout.sheet is not self.document.sheet
            or layout.size != size
            or layout.view != self._view
        ):
            layout = self._layout = lay_layout(self.document.sheet, size, self._view)
        return layout

    @property
    def view(self) -> LayView:
        """How the film is looked at."""
        return self._view

    def look_at(self, view: LayView) -> None:
        """Look at the film in another way, as far as there is film."""
        view = pane_of(self.lay).clamped(view)
        if view != self._view:
            self._view = view
            self._adorned = QRectF()
            self._repaint()
            self.view_changed.emit()

    def zoom(self, factor: float, at_x: float | None = None) -> None:
        """Look `factor` times as close; the place at pixel column `at_x` (by default the middle) stays."""
        pane = self.lay.pane
        at_px = pane.width() / 2.0 if at_x is None else min(max(at_x - pane.left(), 0.0), pane.width())
        self.look_at(pane_of(self.lay).zoomed(self._view, factor, at_px))

    def pan(self, by_px: float) -> None:
        """Look further to the right; with `by_px` below 0 to the left."""
        self.look_at(pane_of(self.lay).moved(self._view, by_px))

    def centre_on(self, film_m: float) -> None:
        """Bring a place on the film (m from its left end) into the middle."""
        self.look_at(pane_of(self.lay).centred(self._view, film_m))

    def fit(self) -> None:
        """Show the whole film."""
        self.look_at(self._view.fitted())

    def look_at_selection(self) -> None:
        """Show the selected sections as large as the pane allows."""
        plan = self.document.sheet.plan
        chosen = [plan.section_index(one) for one in self.document.selected_ids] or [0]
        low_m, high_m = plan.edges_m[min(chosen)], plan.edges_m[max(chosen) + 1]
        margin_m = (high_m - low_m) * 0.05
        scale = self.lay.pane.width() / (high_m - low_m + 2.0 * margin_m)
        left_m = plan.lay.overhang_m / 2.0 + low_m - margin_m
        self.look_at(LayView(scale, left_m, one_roving=self._view.one_roving))

    def show_one_roving(self, one: bool) -> None:
        """Show one roving of the set for all, or all of them."""
        self.look_at(LayView(self._view.px_per_m, self._view.left_m, one_roving=one))

    def show_item(self, item: LayItem) -> None:
        """Bring an item into sight."""
        pane = self.lay.pane
        width = min(item.rect.width(), pane.width())
        left, right = item.rect.left(), item.rect.left() + width
        margin = min(TARGET, (pane.width() - width) / 2.0)
        if left < pane.left():
            self.pan(left - pane.left() - margin)
        elif right > pane.right():
            self.pan(right - pane.right() + margin)

    def hold_to_pan(self, *, held: bool) -> None:
        """Let the left button move the film instead of taking hold of something, while `held`."""
        self._mouse.is_space_held = held
        if not self.is_dragging:
            self.setCursor(Qt.CursorShape.OpenHandCursor) if held else self.unsetCursor()

    # -- gestures ------------------------------------------------------------------------------------------

    @property
    def is_dragging(self) -> bool:
        """Whether something is in the hand."""
        return self.gesture is not None

    def begin(self, gesture: Gesture, point: QPointF) -> None:
        """Take something into the hand."""
        self.gesture, self.pointer = gesture, point
        if isinstance(gesture, FoldDrag):
            # at the scale of its start, or the film's end would stay under the hand whatever its length
            self._view_before = self._view
            self._view = LayView(self.lay.px_per_m, self._view.left_m, self._view.one_roving)
            self._start_x = self.lay.strands[0].rect.left()
        self.setCursor(gesture.cursor)
        self._adorn()

    def follow(self, point: QPointF, modifiers: Qt.KeyboardModifier) -> None:
        """Move what is in the hand."""
        if self.gesture is not None:
            self.pointer = point
            self.gesture.move(self.lay, point, modifiers)
            if isinstance(self.gesture, FoldDrag):
                self._keep_start_in_place()
            self._adorn()

    def end(self) -> None:
        """Let go: what was previewed is one undo step."""
        gesture = self._let_go()
        if gesture is not None:
            self.document.commit_preview(gesture.name())
            self.focus_item(*gesture.item, select=False)

    def cancel(self) -> None:
        """Let go as if nothing had been taken."""
        if self._let_go() is not None:
            self.document.cancel_preview()

    def _let_go(self) -> Gesture | None:
        gesture, self.gesture = self.gesture, None
        if gesture is not None:
            self._mouse.rest()
            self.unsetCursor()
            if isinstance(gesture, FoldDrag):
                self._view = pane_of(self.lay).clamped(self._view_before)
                self._repaint()
            self._adorn()
        return gesture

    def _keep_start_in_place(self) -> None:
        """Keep the rovings' start where it is while a far end reaches out before it."""
        moved_m = (self.lay.strands[0].rect.left() - self._start_x) / self.lay.px_per_m
        if abs(moved_m) > 1e-9:
            self._view = LayView(self._view.px_per_m, self._view.left_m + moved_m, self._view.one_roving)
            self._repaint()

    # -- what is drawn -------------------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            layout, look = self.lay, look_for(self.palette())
            state = self._state()
            self._screen.wool.follow(layout, self.devicePixelRatioF(), None)
            if self._screen.wool.lacks_fibre:
                self._comb_soon.start()
            self._screen.paint(painter, layout, look, state, event.rect())
            if is_overview_shown(layout) and event.rect().bottom() >= layout.overview.top() - 2.0:
                brush = self._screen.wool.lay_brush(layout, lay_in_overview(layout))
                paint_overview(painter, layout, look, brush)
            if self.gesture is not None and self._tag is not None:
                paint_in_hand(painter, layout, look, state, self.gesture.place_m, self._tag[1])
                paint_tag(painter, look, *self._tag)
        finally:
            painter.end()
        if not self._was_painted:
            self._was_painted = True
            self.painted.emit()

    def _state(self) -> LayState:
        chosen = set(self.document.selected_ids)
        sections = self.document.sheet.plan.sections
        gesture = self.gesture
        return LayState(
            selected=frozenset(index for index, section in enumerate(sections) if section.id in chosen),
            hovered=self._hovered,
            focused=self._focused if self.hasFocus() else None,
            dragged=None if gesture is None else gesture.item,
            ghost_m=None if gesture is None else gesture.ghost_m,
            guide=None if gesture is None else gesture.guide,
            lifted=None if gesture is None else gesture.lifted,
        )

    def _comb(self) -> None:
        """Have the fibre made that is wanted now; what was asked for before is dropped."""
        wanted = self._screen.wool.wanted()
        if wanted is not None:
            from studio_gui.drawing.fibre.maps import fibre_maps  # noqa: PLC0415  (the first paint does without)

            self._combing.ask(fibre_maps, wanted)

    def _combed(self, maps: FibreMaps) -> None:
        if self._screen.wool.adopt(maps):
            self._repaint()
        elif self._screen.wool.lacks_fibre:
            self._comb_soon.start()

    def _adorn(self) -> None:
        """Paint anew where tag, guide and lifted slips are, and where they were."""
        gesture, now, self._tag = self.gesture, QRectF(), None
        if gesture is not None:
            layout, columns = self.lay, gesture.tag()
            tag = tag_rect(self.font(), layout, columns, layout.x(gesture.place_m), self.pointer)
            self._tag = columns, tag
            now = tag.adjusted(-3.0, -3.0, 3.0, 3.0)
            places = [gesture.place_m]
            if gesture.guide is not None:
                places += [one for one in (gesture.guide.place_m, gesture.guide.other_m) if one is not None]
            if gesture.lifted is not None:
                now |= self._lifted_area(gesture.lifted)
            for place_m in places:
                x = layout.x(place_m)
                now |= QRectF(x - GUIDE_HALF_PX, 0.0, 2.0 * GUIDE_HALF_PX, layout.tape_end.bottom() + 4.0)
        for area in (self._adorned, now):
            if not area.isNull():
                self.update(area.toAlignedRect())
        self._adorned = now

    def _lifted_area(self, lifted: Lifted) -> QRectF:
        layout = self.lay
        left, right = layout.edges_x[lifted.first], layout.edges_x[lifted.last + 1]
        area = QRectF(left, layout.tape_start.bottom(), right - left, SLIP_HEIGHT + 2.0 * TARGET)
        return (area | area.translated(lifted.by_px, 0.0)).adjusted(-TARGET, 0.0, TARGET, 0.0)

    def _repaint_span(self, span: Span | None) -> None:
        if span is not None:
            self._screen.touch(span)
            left, right = math.floor(max(span[0], 0.0)), math.ceil(min(span[1], float(self.width())))
            self.update(left, 0, right - left, self.height())

    def _repaint(self) -> None:
        self._screen.touch()
        self.update()

    def _sheet_changed(self) -> None:
        before = self._layout
        if not isinstance(self.gesture, FoldDrag):
            self._clamp_view()
        span = (0.0, float(self.width())) if before is None else changed_span(before, self.lay)
        self._screen.wool.follow(self.lay, self.devicePixelRatioF(), span)
        self._repaint_span(span)
        self._focused = self._existing(self._focused)

    def _clamp_view(self) -> None:
        clamped = pane_of(self.lay).clamped(self._view)
        if clamped != self._view:
            self._view = clamped
            self.view_changed.emit()

    def _existing(self, focus: Focus) -> Focus:
        """Return the nearest item to `focus` that is there."""
        kind, index = focus
        plan = self.document.sheet.plan
        count = {
            "section": len(plan.sections),
            "boundary": len(plan.boundaries),
            "gap": len(plan.boundaries),
            "fold": len(plan.lay.fold_positions_m),
        }[kind]
        return (kind, min(index, count - 1)) if count else ("section", 0)

    def _selection_changed(self) -> None:
        if self._focused[0] == "section" and not self._is_selecting:
            self._focused = ("section", self.document.selected_index)
        self._repaint()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._clamp_view()

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self._retranslate()
        if event.type() in (QEvent.Type.LanguageChange, QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self._screen.forget()
            self.update()
        super().changeEvent(event)

    def _retranslate(self) -> None:
        self.setAccessibleName(self.tr("Lay"))
        self.setAccessibleDescription(
            self.tr("The roving on its film. Tab walks sections and boundaries; arrows move a boundary.")
        )

    # -- what is pointed at and what has the focus ---------------------------------------------------------

    @property
    def focused(self) -> Focus:
        """What the keyboard works on."""
        return self._focused

    def focus_item(self, kind: ItemKind, index: int, *, select: bool = True) -> None:
        """Give an item the keyboard's focus, bring it into sight and, if it is a section, select it."""
        self._focused = self._existing((kind, index))
        if kind == "section" and select:
            self.select(self.document.sheet.plan.sections[self._focused[1]].id)
        self.show_item(self.lay.item(*self._focused))
        self._repaint()

    def select(self, *section_ids: str) -> None:
        """Select sections and leave the keyboard's focus where it is."""
        self._is_selecting = True
        try:
            self.document.select(*section_ids)
        finally:
            self._is_selecting = False

    def hover(self, item: LayItem | None) -> None:
        """Show what is under the pointer."""
        hovered = None if item is None else (item.kind, item.index)
        if hovered == self._hovered:
            return
        for one in (self._hovered, hovered):
            if one is not None and one == self._existing(one):
                x = self.lay.item(*one).rect.center().x()
                self._repaint_span((x - TARGET, x + TARGET))
        self._hovered = hovered
        self._mouse.show_hint(item)

    def type_place(self, kind: ItemKind, index: int) -> None:
        """Open a field for the exact place, length or width of an item."""
        self._keys.type_place(kind, index)

    # -- events --------------------------------------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self._mouse.press(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self._mouse.move(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._mouse.release(event)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        self._mouse.double_click(event)

    def wheelEvent(self, event: QWheelEvent) -> None:
        self._mouse.wheel(event)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        self._mouse.context_menu(event)

    def leaveEvent(self, event: QEvent) -> None:
        self.hover(None)
        super().leaveEvent(event)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            if self._keys.owns(event):
                event.accept()
                return True
        elif event.type() == QEvent.Type.NativeGesture and isinstance(event, QNativeGestureEvent):
            return self._mouse.native_gesture(event)
        return super().event(event)

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Walk sections, boundaries and folds before the focus leaves the canvas."""
        return self._keys.walk(forward) or super().focusNextPrevChild(forward)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self._keys.came_in(event.reason())
        self._repaint()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self._repaint()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self._keys.press(event):
            super().keyPressEvent(event)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        if not self._keys.release(event):
            super().keyReleaseEvent(event)
