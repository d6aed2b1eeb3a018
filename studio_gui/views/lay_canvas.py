"""The lay canvas: the roving on its film, with boundaries to take hold of.

The rule of this module: the canvas shows `OpenPlan.sheet` and edits through gestures and pure edits only;
everything it hits, focuses and paints comes from one list of `LayItem`s.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QEvent, QPointF, QSizeF, Qt, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.boundaries import Drag, move_boundary
from studio_gui.domain.edits.sections import merge, split
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.plan import Plan
from studio_gui.drawing.lay_layout import ItemKind, LayItem, LayLayout, lay_layout
from studio_gui.drawing.lay_picture import paint_drag_tag, paint_lay
from studio_gui.drawing.look import look_for
from studio_gui.drawing.pegs import LayState
from studio_gui.drawing.wool import column_brush
from studio_gui.views.gestures import BoundaryDrag

NUDGE_M = 0.001
BIG_NUDGE_M = 0.01


class LayCanvas(QWidget):
    """Film, strands, tapes, boundaries and the figures of each section.

    Signals
    -------
    hinted
        A sentence for the status bar: what can be done with what is under the pointer.
    painted
        The canvas was painted for the first time.
    menu_wanted
        A context menu is asked for at a global point; carries the point and the place on the lay (m).
    """

    hinted = Signal(str)
    menu_wanted = Signal(object, float)
    painted = Signal()

    def __init__(self, document: OpenPlan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._layout: LayLayout | None = None
        self._drag: BoundaryDrag | None = None
        self._hovered: tuple[ItemKind, int] | None = None
        self._focused: tuple[ItemKind, int] = ("section", 0)
        self._pointer = QPointF()
        self._was_painted = False
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
        size = QSizeF(self.size())
        layout = self._layout
        if layout is None or layout.sheet is not self._document.sheet or layout.size != size:
            layout = self._layout = lay_layout(self._document.sheet, size)
        return layout

    @property
    def is_dragging(self) -> bool:
        """Whether a boundary is in the hand."""
        return self._drag is not None

    # -- what is drawn -------------------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            layout, look = self.lay, look_for(self.palette())
            paint_lay(painter, layout, look, self._state(), column_brush(layout, self.devicePixelRatioF()))
            if self._drag is not None:
                paint_drag_tag(painter, layout, look, self._drag.index, self._document.plan, self._pointer)
        finally:
            painter.end()
        if not self._was_painted:
            self._was_painted = True
            self.painted.emit()

    def _state(self) -> LayState:
        chosen = set(self._document.selected_ids)
        sections = self._document.sheet.plan.sections
        return LayState(
            selected=frozenset(index for index, section in enumerate(sections) if section.id in chosen),
            hovered=self._hovered,
            focused=self._focused if self.hasFocus() else None,
            dragged=None if self._drag is None else self._drag.index,
            ghost_m=None if self._drag is None else self._drag.origin_m,
        )

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self._retranslate()
        if event.type() in (QEvent.Type.LanguageChange, QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self.update()
        super().changeEvent(event)

    def _retranslate(self) -> None:
        self.setAccessibleName(self.tr("Lay"))
        self.setAccessibleDescription(
            self.tr("The roving on its film. Tab walks sections and boundaries; arrows move a boundary.")
        )

    def _sheet_changed(self) -> None:
        kind, index = self._focused
        last = len(self._document.sheet.plan.sections) - 1 - (kind == "boundary")
        self._focused = (kind, min(index, last)) if last >= 0 else ("section", 0)
        self.update()

    def _selection_changed(self) -> None:
        if self._focused[0] == "section":
            self._focused = ("section", self._document.selected_index)
        self.update()

    # -- mouse ---------------------------------------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:
        item = self.lay.item_at(event.position())
        if event.button() != Qt.MouseButton.LeftButton or item is None:
            return
        self._focused = (item.kind, item.index)
        if item.kind == "section":
            self._select(item, event.modifiers())
        else:
            self._take(item, event.position())
        self.update()

    def _take(self, item: LayItem, point: QPointF) -> None:
        try:
            self._drag = BoundaryDrag(self._document, self.lay, item.index, point.x())
        except RovingLayError as refusal:
            self._document.refused.emit(refusal)
            return
        self._pointer = point
        self.setCursor(Qt.CursorShape.SplitHCursor)

    def _select(self, item: LayItem, modifiers: Qt.KeyboardModifier) -> None:
        sections = self._document.sheet.plan.sections
        chosen = list(self._document.selected_ids)
        clicked = sections[item.index].id
        if modifiers & Qt.KeyboardModifier.ControlModifier:
            chosen = [one for one in chosen if one != clicked] if clicked in chosen else [*chosen, clicked]
        elif modifiers & Qt.KeyboardModifier.ShiftModifier and chosen:
            first, last = sorted((self._document.selected_index, item.index))
            chosen = [section.id for section in sections[first : last + 1]]
        else:
            chosen = [clicked]
        self._document.select(*chosen)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self._pointer = event.position()
        if self._drag is None:
            self._hover(self.lay.item_at(event.position()))
            return
        modifiers = event.modifiers()
        way: Drag = "shift" if modifiers & Qt.KeyboardModifier.ShiftModifier else "trade"
        self._drag.move(event.position().x(), way, snap=not modifiers & Qt.KeyboardModifier.AltModifier)
        self.update()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if self._drag is not None and event.button() == Qt.MouseButton.LeftButton:
            drag, self._drag = self._drag, None
            drag.finish(self._move_name(drag.index))
            self._hover(self.lay.item_at(event.position()))
            self.update()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        item = self.lay.item_at(event.position())
        if item is not None and item.kind == "section" and event.button() == Qt.MouseButton.LeftButton:
            place_m = self.lay.lay_m(event.position().x())
            self._document.edit(
                self.tr("Split section"), partial(split, index=item.index, position_m=place_m)
            )

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        if self._drag is not None:
            return
        point = QPointF(event.pos())
        if event.reason() == QContextMenuEvent.Reason.Keyboard:
            point = self.lay.item(*self._focused).rect.center()
        item = self.lay.item_at(point)
        if item is not None and item.kind == "section":
            section_id = self._document.sheet.plan.sections[item.index].id
            if section_id not in self._document.selected_ids:
                self._document.select(section_id)
        self.menu_wanted.emit(self.mapToGlobal(point.toPoint()), self.lay.lay_m(point.x()))

    def leaveEvent(self, event: QEvent) -> None:
        self._hover(None)
        super().leaveEvent(event)

    def _hover(self, item: LayItem | None) -> None:
        hovered = None if item is None else (item.kind, item.index)
        if hovered == self._hovered:
            return
        self._hovered = hovered
        boundary = item is not None and item.kind == "boundary"
        if boundary and not (item and item.locked):
            self.setCursor(Qt.CursorShape.SplitHCursor)
            self.hinted.emit(
                self.tr("Drag to move the boundary. Shift moves all that follows; Alt lets go of the ruler.")
            )
        else:
            self.unsetCursor()
            self.hinted.emit(
                self.tr("A locked section keeps this boundary in its place.") if boundary else ""
            )
        self.update()

    # -- keyboard ------------------------------------------------------------------------------------------

    def event(self, event: QEvent) -> bool:
        # Esc and Delete belong to the canvas while it has the focus, not to a menu's shortcut
        own = (Qt.Key.Key_Escape, Qt.Key.Key_Delete)
        if (
            event.type() == QEvent.Type.ShortcutOverride
            and isinstance(event, QKeyEvent)
            and event.key() in own
        ):
            event.accept()
            return True
        return super().event(event)

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Walk sections and boundaries before the focus leaves the canvas."""
        kind, index = self._focused
        place = 2 * index + (kind == "boundary") + (1 if forward else -1)
        items = self.lay.items
        if self._drag is not None or not 0 <= place < len(items):
            return super().focusNextPrevChild(forward)
        self._focus(items[place])
        return True

    def focusInEvent(self, event: QFocusEvent) -> None:
        if event.reason() == Qt.FocusReason.TabFocusReason:
            self._focus(self.lay.items[0])
        elif event.reason() == Qt.FocusReason.BacktabFocusReason:
            self._focus(self.lay.items[-1])
        super().focusInEvent(event)
        self.update()

    def _focus(self, item: LayItem) -> None:
        self._focused = (item.kind, item.index)
        if item.kind == "section":
            self._document.select(self._document.sheet.plan.sections[item.index].id)
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self._drag is not None:
            self._drag.cancel()
            self._drag = None
            self.unsetCursor()
            self.update()
        elif self._drag is not None:
            return  # a drag owns the lay until it ends
        elif event.key() in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            self._arrow(1 if event.key() == Qt.Key.Key_Right else -1, event.modifiers())
        elif event.key() == Qt.Key.Key_Delete:
            self._delete()
        else:
            super().keyPressEvent(event)

    def _arrow(self, direction: int, modifiers: Qt.KeyboardModifier) -> None:
        kind, index = self._focused
        if kind == "section":
            place = index + direction
            if 0 <= place < len(self._document.sheet.plan.sections):
                self._focus(self.lay.item("section", place))
            return
        shift = modifiers & Qt.KeyboardModifier.ShiftModifier
        position_m = self._document.plan.boundaries[index].position_m
        position_m = round(position_m + direction * (BIG_NUDGE_M if shift else NUDGE_M), 9)
        self._document.edit(
            self._move_name(index), partial(move_boundary, index=index, position_m=position_m)
        )

    def _delete(self) -> None:
        kind, index = self._focused
        if kind == "boundary":
            self._document.edit(self.tr("Merge sections"), partial(merge, first=index, last=index + 1))
        elif index > 0:
            self._document.edit(self.tr("Merge sections"), partial(merge, first=index - 1, last=index))

    def _move_name(self, index: int) -> str:
        plan: Plan = self._document.plan
        letters = [plan.liquor(section.liquor_id).letter for section in plan.sections[index : index + 2]]
        return self.tr("Move boundary {0} | {1}").format(*letters)
