"""What keys do on the lay.

The rule of this module: whatever the mouse can do on the lay, keys can; each through the same edit and as one
named undo step.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QContextMenuEvent, QKeyEvent
from PySide6.QtWidgets import QApplication

from studio_gui.document.open_plan import Edit
from studio_gui.domain.edits.boundaries import Drag, boundary_range, gap_range, move_boundary, set_gap
from studio_gui.domain.edits.folds import fold_place_m, fold_range, move_fold
from studio_gui.domain.edits.order import move_sections
from studio_gui.domain.edits.sections import merge
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.plan import Plan
from studio_gui.drawing.lay_layout import ItemKind
from studio_gui.views.gestures import gap_name, move_name
from studio_gui.wording.translation import translate

if TYPE_CHECKING:
    from studio_gui.views.lay_canvas import LayCanvas
    from studio_gui.views.place_entry import PlaceEntry

NUDGE_M = 0.001
BIG_NUDGE_M = 0.01

_Key = Qt.Key
_SHIFT, _ALT, _CONTROL = (
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.AltModifier,
    Qt.KeyboardModifier.ControlModifier,
)


class LayKeys:
    """The keyboard on a lay canvas."""

    def __init__(self, canvas: LayCanvas) -> None:
        self._canvas = canvas
        self._entry: PlaceEntry | None = None

    # -- walking -------------------------------------------------------------------------------------------

    def owns(self, event: QKeyEvent) -> bool:
        """Tell whether a key belongs to the canvas while it has the focus, not to a menu's shortcut."""
        if event.key() in (_Key.Key_Escape, _Key.Key_Delete, _Key.Key_Backspace):
            return True
        return bool(event.key() == _Key.Key_A and event.modifiers() == _CONTROL)

    def walk(self, forward: bool) -> bool:
        """Go to the next or last item; False at the ends, and while something is in the hand."""
        canvas = self._canvas
        items = [(item.kind, item.index) for item in canvas.lay.items]
        focused = canvas.focused if canvas.focused[0] != "gap" else ("boundary", canvas.focused[1])
        place = items.index(focused) + (1 if forward else -1)
        if canvas.is_dragging or not 0 <= place < len(items):
            return False
        canvas.focus_item(*items[place])
        return True

    def came_in(self, reason: Qt.FocusReason) -> None:
        """Start at the first item, or going backwards at the last one; what is selected stays so."""
        items = self._canvas.lay.items
        if reason in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason):
            item = items[0 if reason == Qt.FocusReason.TabFocusReason else -1]
            self._canvas.focus_item(item.kind, item.index, select=False)

    # -- keys ----------------------------------------------------------------------------------------------

    def press(self, event: QKeyEvent) -> bool:
        """Do what a key asks for; False for a key that means nothing here."""
        canvas, key, modifiers = self._canvas, event.key(), event.modifiers()
        if canvas.is_dragging:
            if key == _Key.Key_Escape:
                canvas.hold.cancel()
            return True  # a gesture owns the lay until it ends
        if key == _Key.Key_F10 and modifiers == _SHIFT:
            point = canvas.lay.item(*canvas.focused).rect.center().toPoint()
            asked = QContextMenuEvent(QContextMenuEvent.Reason.Keyboard, point, canvas.mapToGlobal(point))
            QApplication.sendEvent(canvas, asked)
            return True
        if key == _Key.Key_Space:
            return self._space(modifiers, is_repeated=event.isAutoRepeat())
        if key == _Key.Key_A and modifiers == _CONTROL:
            canvas.select(*(section.id for section in canvas.document.plan.sections))
            return True
        if key in (_Key.Key_Left, _Key.Key_Right):
            self._arrow(1 if key == _Key.Key_Right else -1, modifiers)
        elif key in (_Key.Key_Home, _Key.Key_End):
            self._end(at_start=key == _Key.Key_Home, whole=bool(modifiers & _CONTROL))
        elif key in (_Key.Key_Delete, _Key.Key_Backspace):
            self._delete()
        elif key in (_Key.Key_Return, _Key.Key_Enter, _Key.Key_F2):
            self.type_place(*canvas.focused)
        elif event.text()[:1].isdigit() and not modifiers & (_CONTROL | _ALT):
            self.type_place(*canvas.focused, event.text())
        else:
            return False
        return True

    def release(self, event: QKeyEvent) -> bool:
        """Take note that the space bar is up again."""
        if event.key() == _Key.Key_Space and not event.isAutoRepeat():
            self._canvas.hold_to_pan(held=False)
            return True
        return False

    def type_place(self, kind: ItemKind, index: int, text: str = "") -> None:
        """Open a field for a boundary's or fold's exact place, a section's length, or the width of a gap."""
        if self._entry is None:
            from studio_gui.views.place_entry import PlaceEntry  # noqa: PLC0415  (the first paint does without)

            self._entry = PlaceEntry(self._canvas)
        self._entry.open_at(kind, index, text)

    # -- what they do --------------------------------------------------------------------------------------

    def _space(self, modifiers: Qt.KeyboardModifier, *, is_repeated: bool) -> bool:
        """Select the focused section too, or no more; held down alone, let the mouse move the film."""
        canvas = self._canvas
        kind, index = canvas.focused
        if modifiers & _CONTROL and kind == "section":
            clicked = canvas.document.sheet.plan.sections[index].id
            chosen = canvas.document.selected_ids
            rest = tuple(one for one in chosen if one != clicked)
            canvas.select(*(rest if clicked in chosen else (*chosen, clicked)))
        elif not is_repeated:
            canvas.hold_to_pan(held=True)
        return True

    def _arrow(self, direction: int, modifiers: Qt.KeyboardModifier) -> None:
        kind, index = self._canvas.focused
        step_m = direction * (BIG_NUDGE_M if modifiers & _SHIFT else NUDGE_M)
        if kind == "section":
            self._arrow_on_section(index, direction, modifiers)
        elif kind == "gap" or (kind == "boundary" and modifiers & _CONTROL):
            self._widen(index, step_m)
        elif kind == "boundary":
            place_m = round(self._plan.boundaries[index].position_m + step_m, 9)
            self._move_boundary(index, place_m, "shift" if modifiers & _ALT else "trade")
        else:
            place_m = round(fold_place_m(self._plan, index) + step_m, 9)
            self._edit(
                translate("LayKeys", "Move the fold"), partial(move_fold, index=index, place_m=place_m)
            )

    def _arrow_on_section(self, index: int, direction: int, modifiers: Qt.KeyboardModifier) -> None:
        """Go to the neighbour; with Shift select it too; with Control change places with it."""
        canvas = self._canvas
        place = index + direction
        if not 0 <= place < len(self._plan.sections):
            return
        if modifiers & _CONTROL:
            before = place + 1 if direction > 0 else place
            name = translate("LayKeys", "Move {0} to another place").format(self._letter(index))
            if self._edit(name, partial(move_sections, first=index, last=index, before=before)):
                canvas.focus_item("section", place)
        elif modifiers & _SHIFT:
            chosen = canvas.document.selected_ids
            canvas.focus_item("section", place, select=False)
            canvas.select(*dict.fromkeys((*chosen, self._plan.sections[place].id)))
        else:
            canvas.focus_item("section", place)

    def _end(self, *, at_start: bool, whole: bool) -> None:
        """Move a boundary or fold as far as it goes; with Control, or on a section, go to the far section."""
        canvas = self._canvas
        kind, index = canvas.focused
        if kind == "section" or whole:
            last = len(self._plan.sections) - 1
            canvas.focus_item("section", 0 if at_start else last)
            return
        ranges = {"boundary": boundary_range, "gap": gap_range, "fold": fold_range}
        try:
            low, high = ranges[kind](self._plan, index)
        except RovingLayError as refusal:
            canvas.document.refused.emit(refusal)
            return
        there = low if at_start else high
        if kind == "boundary":
            self._move_boundary(index, there, "trade")
        elif kind == "gap":
            self._edit(gap_name(self._plan, index), partial(set_gap, index=index, gap_m=there))
        else:
            self._move_fold(index, there)

    def _delete(self) -> None:
        kind, index = self._canvas.focused
        if kind == "gap":
            self._edit(gap_name(self._plan, index), partial(set_gap, index=index, gap_m=0.0))
        elif kind == "boundary":
            self._merge(index, index + 1)
        elif kind == "section":
            chosen = [self._plan.section_index(one) for one in self._canvas.document.selected_ids]
            if len(chosen) > 1 and index in chosen:
                self._merge(min(chosen), max(chosen))
            elif index > 0:
                self._merge(index - 1, index)

    def _merge(self, first: int, last: int) -> None:
        self._edit(translate("LayKeys", "Merge sections"), partial(merge, first=first, last=last))

    def _move_boundary(self, index: int, place_m: float, drag: Drag) -> None:
        edit = partial(move_boundary, index=index, position_m=place_m, drag=drag)
        self._edit(move_name(self._plan, index), edit)

    def _move_fold(self, index: int, place_m: float) -> None:
        name = translate("LayKeys", "Move the fold")
        self._edit(name, partial(move_fold, index=index, place_m=place_m))

    def _widen(self, index: int, by_m: float) -> None:
        gap_m = round(self._plan.boundaries[index].gap_m + by_m, 9)
        self._edit(gap_name(self._plan, index), partial(set_gap, index=index, gap_m=gap_m))

    def _letter(self, index: int) -> str:
        return self._plan.liquor(self._plan.sections[index].liquor_id).letter

    @property
    def _plan(self) -> Plan:
        return self._canvas.document.plan

    def _edit(self, name: str, edit: Edit) -> bool:
        return self._canvas.document.edit(name, edit)
