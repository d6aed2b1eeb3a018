"""The lay canvas for screen readers: its sections, boundaries and folds as objects, and what happens to them.

The rule of this module: whatever the canvas draws as one `LayItem` is one accessible object, which keeps
nothing of its own and reads the layout that is painted. Nothing is computed while no assistive technology
listens.

The objects are subclasses of `QAccessibleInterface`, without a widget behind each. With PySide6 6.11.3 and
6.12.0 that is stable on four conditions, found by experiment (a client on the accessibility bus, windows
opened and closed a thousand times, the program's end):

- ``interface_cast`` returns a `VoidPtr`, for "none" too: a Python ``None`` or ``0`` would reach C++ as an
  address and crash.
- A value or an action interface is an object of its own: its address is the one that C++ expects.
- Python keeps every object as long as Qt's registry knows it, and takes it out of the registry before it
  lets go.
- No object holds the canvas but weakly: those that the factory makes live as long as the program.

Small transparent widgets would have been the other way; 500 sections would need a thousand of them, moved at
every drag.
"""

from __future__ import annotations

import math
import weakref
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, TypeAlias

import shiboken6
from PySide6.QtCore import QCoreApplication, QEvent, QObject, QPoint, QPointF, QRect, Qt
from PySide6.QtGui import (
    QAccessible,
    QAccessibleActionInterface,
    QAccessibleInterface,
    QAccessibleSelectionInterface,
    QAccessibleValueInterface,
    QKeyEvent,
    QKeySequence,
    QWindow,
)
from PySide6.QtWidgets import QAccessibleWidget

from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.plan import Plan
from studio_gui.drawing.lay_layout import ItemKind
from studio_gui.views.lay_keys import NUDGE_M
from studio_gui.views.lay_manners import MANNERS, Slide
from studio_gui.wording.quantities import LAY_LENGTH, one_shown

if TYPE_CHECKING:
    from studio_gui.views.lay_canvas import LayCanvas

Key = tuple[ItemKind, int]
CanvasRef: TypeAlias = "weakref.ref[LayCanvas]"


def living(canvas: CanvasRef) -> LayCanvas | None:
    """Return the canvas, unless Python or Qt has deleted it."""
    found = canvas()
    return found if found is not None and shiboken6.isValid(found) else None


def focused_key(canvas: LayCanvas) -> Key | None:
    """Return the item that keys go to; a gap is spoken of with its boundary. None without the focus."""
    kind, index = canvas.focused
    return ("boundary" if kind == "gap" else kind, index) if canvas.hasFocus() else None


class LayObject(QAccessibleInterface):
    """One section, boundary or fold; `key` is its kind and index among the layout's items."""

    def __init__(self, canvas: CanvasRef, key: Key) -> None:
        super().__init__()
        self.key = key
        self.manner = MANNERS[key[0]]
        self._canvas = canvas
        self._moves = LayMoves(canvas, key, self.manner.slide) if self.manner.slide else None
        self._keys = LayActions(canvas, key)

    @property
    def canvas(self) -> LayCanvas | None:
        """The canvas, unless it or this object's item is gone."""
        canvas = living(self._canvas)
        if canvas is None or self.key[1] >= self.manner.count(canvas.lay.sheet.plan):
            return None
        return canvas

    def isValid(self) -> bool:
        return living(self._canvas) is not None

    def object(self) -> QObject:
        return None  # type: ignore[return-value]  # Qt's word for no QObject of its own

    def window(self) -> QWindow:
        canvas = living(self._canvas)
        return canvas.window().windowHandle() if canvas else None  # type: ignore[return-value]  # may be null

    def parent(self) -> QAccessibleInterface:
        canvas = living(self._canvas)
        return QAccessible.queryAccessibleInterface(canvas) if canvas else None  # type: ignore[return-value]

    def child(self, index: int) -> QAccessibleInterface:
        return None  # type: ignore[return-value]  # it has none

    def childAt(self, x: int, y: int) -> QAccessibleInterface:
        return None  # type: ignore[return-value]  # it has none

    def childCount(self) -> int:
        return 0

    def indexOfChild(self, child: QAccessibleInterface) -> int:
        return -1

    def text(self, kind: QAccessible.Text) -> str:
        words = {
            QAccessible.Text.Name: self.manner.name,
            QAccessible.Text.Value: self.manner.value,
            QAccessible.Text.Description: self.manner.description,
        }.get(kind)
        canvas = self.canvas
        return words(canvas.lay.sheet, self.key[1]) if canvas and words else ""

    def setText(self, kind: QAccessible.Text, text: str) -> None:
        """Nothing is named or described through here."""

    def rect(self) -> QRect:
        canvas = self.canvas
        if canvas is None:
            return QRect()
        here = canvas.lay.item(*self.key).rect.toRect() & canvas.rect()
        return QRect(canvas.mapToGlobal(here.topLeft()), here.size())

    def role(self) -> QAccessible.Role:
        return self.manner.role

    def state(self) -> QAccessible.State:
        state = QAccessible.State()
        canvas = self.canvas
        if canvas is None:
            state.invalid = True
            return state
        state.focusable = True
        state.focused = focused_key(canvas) == self.key
        state.invisible = not canvas.isVisible()
        state.offscreen = self.rect().isEmpty()
        state.readOnly = self._moves is not None and canvas.lay.item(*self.key).locked
        state.selectable = state.multiSelectable = self.key[0] == "section"
        state.selected = self.key in canvas.voice.selected_keys()
        return state

    def interface_cast(self, kind: QAccessible.InterfaceType) -> Any:  # noqa: ANN401  (an address)
        if kind == QAccessible.InterfaceType.ValueInterface and self._moves is not None:
            return _address(self._moves)
        if kind == QAccessible.InterfaceType.ActionInterface:
            return _address(self._keys)
        return shiboken6.VoidPtr(0)


class LayMoves(QAccessibleValueInterface):
    """The place of a boundary as a value, in the unit that lengths on the lay are shown in.

    Setting it is one undo step. Outside its range it goes as far as it can; where it is locked, not at all.
    """

    def __init__(self, canvas: CanvasRef, key: Key, slide: Slide) -> None:
        super().__init__()
        self._canvas, self._index, self._slide = canvas, key[1], slide

    def currentValue(self) -> float:
        return self._shown(self._slide.place_m)

    def setCurrentValue(self, value: Any) -> None:  # noqa: ANN401  (whatever a client sends)
        canvas = living(self._canvas)
        try:
            wanted_m = float(value) * one_shown(LAY_LENGTH)
        except (TypeError, ValueError):
            return
        if canvas is None or canvas.is_dragging or not math.isfinite(wanted_m):
            return
        document = canvas.document
        low, high = self._range_m(document.plan, self._index)
        place_m = min(max(wanted_m, low), high)
        name = self._slide.step_name(document.plan, self._index)
        document.edit(name, self._slide.edit(self._index, place_m))

    def minimumValue(self) -> float:
        return self._shown(lambda plan, index: self._range_m(plan, index)[0])

    def maximumValue(self) -> float:
        return self._shown(lambda plan, index: self._range_m(plan, index)[1])

    def minimumStepSize(self) -> float:
        return NUDGE_M / one_shown(LAY_LENGTH)

    def _shown(self, place_m: Callable[[Plan, int], float]) -> float:
        canvas = living(self._canvas)
        if canvas is None:
            return 0.0
        # without the dust in the last places, which would be read out
        return round(place_m(canvas.lay.sheet.plan, self._index) / one_shown(LAY_LENGTH), 6)

    def _range_m(self, plan: Plan, index: int) -> tuple[float, float]:
        try:
            return self._slide.range_m(plan, index)
        except RovingLayError:  # it is locked
            place_m = self._slide.place_m(plan, index)
            return place_m, place_m


class LayActions(QAccessibleActionInterface):
    """What can be done with an item: what its keys do, by way of these very keys."""

    def __init__(self, canvas: CanvasRef, key: Key) -> None:
        super().__init__()
        self._canvas, self._key = canvas, key
        self._pressed = {self.setFocusAction(): Qt.Key.Key_unknown}
        if MANNERS[key[0]].slide is not None:
            self._pressed[self.increaseAction()] = Qt.Key.Key_Right
            self._pressed[self.decreaseAction()] = Qt.Key.Key_Left

    def actionNames(self) -> list[str]:
        return list(self._pressed)

    def doAction(self, name: str) -> None:
        canvas = living(self._canvas)
        if canvas is None or name not in self._pressed:
            return
        canvas.focus_item(*self._key)
        if name == self.setFocusAction():
            canvas.setFocus()
            return
        for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
            event = QKeyEvent(kind, self._pressed[name], Qt.KeyboardModifier.NoModifier)
            QCoreApplication.sendEvent(canvas, event)

    def keyBindingsForAction(self, name: str) -> list[str]:
        key = self._pressed.get(name, Qt.Key.Key_unknown)
        return [] if key == Qt.Key.Key_unknown else [QKeySequence(key).toString()]


class LayChoice(QAccessibleSelectionInterface):
    """The selected sections."""

    def __init__(self, canvas: CanvasRef) -> None:
        super().__init__()
        self._canvas = canvas

    def selectedItemCount(self) -> int:
        return len(self._chosen())

    def selectedItems(self) -> list[QAccessibleInterface]:
        canvas = living(self._canvas)
        return [canvas.voice.object_of(key) for key in sorted(self._chosen())] if canvas else []

    def isSelected(self, child: QAccessibleInterface) -> bool:
        return isinstance(child, LayObject) and child.key in self._chosen()

    def select(self, child: QAccessibleInterface) -> bool:
        section = _section_key(child)
        return bool(section) and self._choose(self._chosen() | section)

    def unselect(self, child: QAccessibleInterface) -> bool:
        return self._choose(self._chosen() - _section_key(child))

    def selectAll(self) -> bool:
        canvas = living(self._canvas)
        return canvas is not None and self._choose(
            frozenset(key for key in canvas.voice.order() if key[0] == "section")
        )

    def clear(self) -> bool:
        return False  # there is always a section that the panes speak of

    def _chosen(self) -> frozenset[Key]:
        canvas = living(self._canvas)
        return canvas.voice.selected_keys() if canvas else frozenset()

    def _choose(self, keys: frozenset[Key]) -> bool:
        canvas = living(self._canvas)
        if canvas is None or not keys:
            return False
        sections = canvas.lay.sheet.plan.sections
        canvas.document.select(*(sections[index].id for _, index in sorted(keys)))
        return True


class LayRoot(QAccessibleWidget):
    """The canvas itself, which has the items as its children, in the order of the keyboard."""

    def __init__(self, canvas: LayCanvas) -> None:
        super().__init__(canvas, QAccessible.Role.Grouping)
        self._canvas = weakref.ref(canvas)
        self._choice = LayChoice(self._canvas)

    def childCount(self) -> int:
        return len(self._keys())

    def child(self, index: int) -> QAccessibleInterface:
        keys = self._keys()
        return self._object(keys[index] if 0 <= index < len(keys) else None)

    def indexOfChild(self, child: QAccessibleInterface) -> int:
        keys = self._keys()
        return keys.index(child.key) if isinstance(child, LayObject) and child.key in keys else -1

    def childAt(self, x: int, y: int) -> QAccessibleInterface:
        canvas = living(self._canvas)
        item = canvas.lay.item_at(QPointF(canvas.mapFromGlobal(QPoint(x, y)))) if canvas else None
        return self._object((item.kind, item.index) if item else None)

    def focusChild(self) -> QAccessibleInterface:
        canvas = living(self._canvas)
        return self._object(focused_key(canvas) if canvas else None)

    def interface_cast(self, kind: QAccessible.InterfaceType) -> Any:  # noqa: ANN401  (an address)
        if kind == QAccessible.InterfaceType.SelectionInterface:
            return _address(self._choice)
        own: Any = super().interface_cast(kind)  # None where there is none, whatever its stub says
        return shiboken6.VoidPtr(0) if own is None else own

    def _keys(self) -> tuple[Key, ...]:
        canvas = living(self._canvas)
        return canvas.voice.order() if canvas else ()

    def _object(self, key: Key | None) -> QAccessibleInterface:
        canvas = living(self._canvas)
        if canvas is None or key not in canvas.voice.order():
            return None  # type: ignore[return-value]  # nothing there but the canvas
        return canvas.voice.object_of(key)


def _section_key(child: QAccessibleInterface) -> frozenset[Key]:
    """Return the key of a section, and none of anything else."""
    return frozenset([child.key] if isinstance(child, LayObject) and child.key[0] == "section" else [])


def _address(interface: shiboken6.Object) -> shiboken6.VoidPtr:
    return shiboken6.VoidPtr(shiboken6.getCppPointer(interface)[0])
