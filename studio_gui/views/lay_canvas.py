"""The lay canvas: the roving on its film, with boundaries, sections, gaps and folds to take hold of.

The rule of this module: the canvas shows `OpenPlan.sheet` and edits through gestures and pure edits only;
everything it hits, focuses and paints comes from one `LayLayout`. It paints what changed and nothing else.
What the mouse does is in `lay_mouse`, what keys do in `lay_keys`, what is in the hand in `lay_hold`, how the
film is looked at in `lay_looks`.
"""

from __future__ import annotations

import math

from PySide6.QtCore import QEvent, QSizeF, Qt, Signal
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

from studio_gui.document.open_plan import OpenPlan
from studio_gui.drawing.changes import Span, changed_span
from studio_gui.drawing.lay_layout import (
    TARGET,
    ItemKind,
    LayItem,
    LayLayout,
    lay_layout,
)
from studio_gui.drawing.lay_screen import LayScreen
from studio_gui.drawing.lay_state import LayState
from studio_gui.drawing.lay_view import LayView
from studio_gui.drawing.look import look_for
from studio_gui.drawing.overview import is_overview_shown, lay_in_overview, paint_overview
from studio_gui.views.combing import Combing
from studio_gui.views.gestures import FoldDrag, Gesture
from studio_gui.views.lay_hold import LayHold
from studio_gui.views.lay_keys import LayKeys
from studio_gui.views.lay_looks import LayLooks
from studio_gui.views.lay_mouse import LayMouse
from studio_gui.views.lay_voice import LayVoice

Focus = tuple[ItemKind, int]


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
    lit
        The index of the section under the pointer, -1 for none.
    """

    hinted = Signal(str)
    menu_wanted = Signal(object, object, float)
    view_changed = Signal()
    painted = Signal()
    lit = Signal(int)

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.document = document
        self.voice = LayVoice(self)
        self.looks = LayLooks(self)
        self.hold = LayHold(self)
        self._layout: LayLayout | None = None
        self._screen = LayScreen()
        self._combing = Combing(self._screen.wool, self)
        self._combing.done.connect(self.repaint_all)
        self._hovered: Focus | None = None
        self._focused: Focus = ("section", 0)
        self._is_selecting = False
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

    @property
    def lay(self) -> LayLayout:
        """The picture as it is laid out now."""
        size, view = QSizeF(self.size()), self.looks.view
        layout = self._layout
        if (
            layout is None
            or layout.sheet is not self.document.sheet
            or layout.size != size
            or layout.view != view
        ):
            layout = self._layout = lay_layout(self.document.sheet, size, view)
        return layout

    @property
    def view(self) -> LayView:
        """How the film is looked at."""
        return self.looks.view

    @property
    def gesture(self) -> Gesture | None:
        """What is in the hand."""
        return self.hold.gesture

    @property
    def is_dragging(self) -> bool:
        """Whether something is in the hand."""
        return self.hold.gesture is not None

    def hold_to_pan(self, *, held: bool) -> None:
        """Let the left button move the film instead of taking hold of something, while `held`."""
        self._mouse.is_space_held = held
        if not self.is_dragging:
            self.setCursor(Qt.CursorShape.OpenHandCursor) if held else self.unsetCursor()

    # -- what is drawn -------------------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            layout, look = self.lay, look_for(self.palette())
            state = self._state()
            self._screen.wool.follow(layout, self.devicePixelRatioF(), None)
            self._combing.look_after()
            self._screen.paint(painter, layout, look, state, event.rect())
            if is_overview_shown(layout) and event.rect().bottom() >= layout.overview.top() - 2.0:
                brush = self._screen.wool.lay_brush(layout, lay_in_overview(layout))
                paint_overview(painter, layout, look, brush)
            self.hold.paint(painter, layout, look, state)
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

    def _repaint_span(self, span: Span | None) -> None:
        if span is not None:
            self._screen.touch(span)
            left, right = math.floor(max(span[0], 0.0)), math.ceil(min(span[1], float(self.width())))
            self.update(left, 0, right - left, self.height())

    def repaint_all(self) -> None:
        """Paint the whole lay anew."""
        self._screen.touch()
        self.update()

    def _sheet_changed(self) -> None:
        before = self._layout
        if not isinstance(self.gesture, FoldDrag):
            self.looks.clamp()
        span = (0.0, float(self.width())) if before is None else changed_span(before, self.lay)
        self._screen.wool.follow(self.lay, self.devicePixelRatioF(), span)
        self._repaint_span(span)
        self._focused = self._existing(self._moved(self._focused, before))

    def _moved(self, focus: Focus, before: LayLayout | None) -> Focus:
        """Return where a section that had the focus lies now; other items keep their number."""
        kind, index = focus
        sections = () if before is None else before.sheet.plan.sections
        if kind != "section" or index >= len(sections):
            return focus
        section_id = sections[index].id
        ids = [section.id for section in self.document.sheet.plan.sections]
        return (kind, ids.index(section_id)) if section_id in ids else focus

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
        self.repaint_all()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.looks.clamp()

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
        self.looks.show_item(self.lay.item(*self._focused))
        self.repaint_all()

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
                rect = self.lay.item(*one).rect
                self._repaint_span((rect.left() - TARGET, rect.right() + TARGET))
        self._hovered = hovered
        self.lit.emit(hovered[1] if hovered is not None and hovered[0] == "section" else -1)
        self._mouse.show_hint(item)

    @property
    def hovered(self) -> Focus | None:
        """What is under the pointer, or lit from elsewhere."""
        return self._hovered

    def light(self, section: int) -> None:
        """Show a section as if it were under the pointer; -1 for none."""
        self.hover(self.lay.item("section", section) if section >= 0 else None)

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
        self.repaint_all()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.repaint_all()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self._keys.press(event):
            super().keyPressEvent(event)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        if not self._keys.release(event):
            super().keyReleaseEvent(event)
