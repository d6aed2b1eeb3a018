"""What happens on the lay canvas, told to assistive technology.

The rule of this module: what hangs together is told once, when it has come to rest: a drag at its end, a
step of undo as one sentence. Nothing is computed while nobody listens.
"""

from __future__ import annotations

import weakref
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cache, partial
from typing import TYPE_CHECKING

import numpy as np
from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QAccessibleEvent,
    QAccessibleInterface,
    QAccessibleStateChangeEvent,
    QAccessibleValueChangeEvent,
)
from shiboken6 import isValid

from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.views.lay_accessible import Key, LayObject, LayRoot, focused_key, living
from studio_gui.views.lay_manners import MANNERS
from studio_gui.wording.lay_sentences import Way, changed_words
from studio_gui.wording.quantities import LAY_LENGTH, one_shown

if TYPE_CHECKING:
    from studio_gui.views.lay_canvas import LayCanvas


@dataclass(frozen=True, slots=True)
class Seen:
    """What was last told: the sheet, where undo stood, what redo would show; keys selected, focused."""

    sheet: Worksheet
    undo_index: int
    redo_plan: Plan | None
    selected: frozenset[Key] | None = None
    focused: Key | None = None


class LayVoice(QObject):
    """Tells assistive technology of the canvas' items and of what happens to them.

    Parameters
    ----------
    canvas
        Whose items they are; it owns the voice.

    Attributes
    ----------
    send
        Takes the events.
    """

    def __init__(self, canvas: LayCanvas) -> None:
        super().__init__(canvas)
        _install_factory()
        self.document = document = canvas.document
        self._canvas = weakref.ref(canvas)
        self.send: Callable[[QAccessibleEvent], None] = QAccessible.updateAccessibility
        self._objects: dict[Key, tuple[LayObject, int]] = {}  # with their numbers in Qt's registry
        self._order: tuple[LayLayout | None, tuple[Key, ...]] = (None, ())
        self._words_changed = False
        self._seen = self._glance()
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self.tell)
        canvas.installEventFilter(self)
        canvas.destroyed.connect(partial(_forget, self._objects))
        document.shown.connect(self._later)
        document.selected.connect(self._later)
        document.undo_stack.indexChanged.connect(self._later)  # a drag shows nothing new at its end
        document.refused.connect(self._tell_refusal)

    # -- what there is -------------------------------------------------------------------------------------

    @property
    def canvas(self) -> LayCanvas | None:
        """The canvas, as long as it lives."""
        return living(self._canvas)

    @property
    def _is_whole(self) -> bool:
        """Whether Python has not yet taken apart what Qt still calls."""
        return "_seen" in vars(self)

    @property
    def sheet(self) -> Worksheet:
        """The worksheet on the screen."""
        return self.document.sheet

    def order(self) -> tuple[Key, ...]:
        """Return the items that have an object, in the order of the keyboard."""
        canvas = self.canvas
        if canvas is None:
            return ()
        if self._order[0] is not canvas.lay:
            found = tuple((item.kind, item.index) for item in canvas.lay.items if item.kind in MANNERS)
            self._order = canvas.lay, found
        return self._order[1]

    def selected_keys(self) -> frozenset[Key]:
        """Return the selected sections."""
        chosen = frozenset(self.document.selected_ids)
        sections = self.sheet.plan.sections
        return frozenset(("section", index) for index, one in enumerate(sections) if one.id in chosen)

    def object_of(self, key: Key) -> LayObject:
        """Return the object of an item; made and registered when it is first asked for."""
        if key not in self._objects:
            made = LayObject(self._canvas, key)
            self._objects[key] = made, QAccessible.registerAccessibleInterface(made)
        return self._objects[key][0]

    # -- what happens --------------------------------------------------------------------------------------

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in _TELLING and self._is_whole:
            self._words_changed |= event.type() == QEvent.Type.LanguageChange
            self._later()
        return False

    def _later(self) -> None:
        """Tell once all that hangs together has happened; only remember where nobody listens."""
        if not self._is_whole or self.canvas is None or not isValid(self.document.undo_stack):
            return  # a stack that is being destroyed says that its index changed
        if QAccessible.isActive():
            self._timer.start()
        elif not self.document.is_previewing:
            self._seen = self._glance()

    def tell(self) -> None:
        """Tell what is different since the last time; nothing while a gesture runs."""
        canvas = self.canvas
        if canvas is None or self.document.is_previewing:
            return
        before = self._seen
        after = self._seen = replace(
            self._glance(),
            selected=self.selected_keys(),
            focused=focused_key(canvas),
        )
        if before.sheet is not after.sheet or self._words_changed:
            self._tell_items(before.sheet, after.sheet)
        if before.selected is not None and before.selected != after.selected:
            self._tell_selection(canvas, before.selected, self.selected_keys())
        if after.focused is not None and after.focused != before.focused:
            self.send(QAccessibleEvent(self.object_of(after.focused), QAccessible.Event.Focus))
        self._announce(canvas, self._change(before, after))

    def _glance(self) -> Seen:
        document = self.document
        return Seen(document.sheet, document.undo_stack.index(), document.redo_plan)

    def _tell_items(self, before: Worksheet, after: Worksheet) -> None:
        keys = self.order()
        gone = [key for key in self._objects if key not in frozenset(keys)]
        changed = frozenset(keys) if self._words_changed else _changed(before, after)
        self._words_changed = False
        _forget(self._objects, gone)
        known = [made for made, _ in self._objects.values() if made.key in changed]
        for made in known:
            self.send(QAccessibleEvent(made, QAccessible.Event.NameChanged))
            place_m = _place_m(made.key, after.plan)
            if place_m is not None and place_m != _place_m(made.key, before.plan):
                self.send(QAccessibleValueChangeEvent(made, place_m / one_shown(LAY_LENGTH)))
        if self._objects or gone:  # else nobody has looked at any item yet
            old = frozenset(_all_keys(before.plan))
            for key in keys:
                if key not in old:
                    self.send(QAccessibleEvent(self.object_of(key), QAccessible.Event.ObjectCreated))

    def _tell_selection(self, canvas: LayCanvas, before: frozenset[Key], after: frozenset[Key]) -> None:
        changed = QAccessible.State()
        changed.selected = True
        for key in sorted(before ^ after):
            if key in self._objects or key in after:
                self.send(QAccessibleStateChangeEvent(self.object_of(key), changed))
        self.send(QAccessibleEvent(canvas, QAccessible.Event.SelectionWithin))

    def _change(self, before: Seen, after: Seen) -> str:
        """Return what to say of the step from one worksheet to the other."""
        stack = self.document.undo_stack
        if before.sheet is after.sheet or not stack.count():  # nothing done, or another plan opened
            return ""
        way: Way = "done"
        if after.undo_index < before.undo_index:
            way = "undone"
        elif after.undo_index > before.undo_index:
            way = "redone" if after.sheet.plan is before.redo_plan else "done"
        step = stack.text(after.undo_index if way == "undone" else after.undo_index - 1)
        return changed_words(before.sheet, after.sheet, step, way)

    def _tell_refusal(self, error: RovingLayError) -> None:
        """Say why nothing moved, to somebody who hears no status bar."""
        canvas = self.canvas
        if QAccessible.isActive() and canvas is not None and canvas.hasFocus():
            from studio_gui.wording.sentences import refusal  # noqa: PLC0415  (the first paint does without)

            self._announce(canvas, refusal(error, self.document.plan))

    def _announce(self, canvas: LayCanvas, words: str) -> None:
        if words:
            event = QAccessibleAnnouncementEvent(canvas, words)
            event.setPoliteness(QAccessible.AnnouncementPoliteness.Polite)
            self.send(event)


_TELLING = (
    QEvent.Type.FocusIn,
    QEvent.Type.FocusOut,
    QEvent.Type.KeyPress,
    QEvent.Type.MouseButtonPress,
    QEvent.Type.MouseButtonRelease,
    QEvent.Type.LanguageChange,
)


def _forget(objects: dict[Key, tuple[LayObject, int]], keys: Iterable[Key] | None = None) -> None:
    """Take objects, all of them unless `keys` are given, out of Qt's registry, which deletes them."""
    for key in list(objects if keys is None else keys):
        _kept, number = objects.pop(key)  # until the registry has let go
        QAccessible.deleteAccessibleInterface(number)


def _all_keys(plan: Plan) -> Iterator[Key]:
    """Yield the items of a plan, in no order to speak of."""
    for kind, manner in MANNERS.items():
        for index in range(manner.count(plan)):
            yield kind, index


def _changed(before: Worksheet, after: Worksheet) -> frozenset[Key]:
    """Return the items of `after` of which something else is said than of those in their place before."""
    old, new = before.figures, after.figures
    if (
        len(old) != len(new)
        or before.plan.liquors != after.plan.liquors
        or before.plan.lay != after.plan.lay
        or before.plan.fibre != after.plan.fibre
    ):
        return frozenset(_all_keys(after.plan))
    moved = old.edges_m != new.edges_m
    other = moved[:-1] | moved[1:] | (old.liquid_ml != new.liquid_ml) | (old.free_ml != new.free_ml)
    other |= (old.over != new.over) | (old.under != new.under)
    pairs = zip(before.plan.sections, after.plan.sections, strict=True)
    named = np.array([one is not two for one, two in pairs])  # or locked
    pairs_between = zip(before.plan.boundaries, after.plan.boundaries, strict=True)
    widened = np.array([one is not two for one, two in pairs_between], dtype=bool)
    sections: list[Key] = [("section", index) for index in np.flatnonzero(other | named).tolist()]
    beside = np.flatnonzero(widened | named[:-1] | named[1:]).tolist()
    return frozenset([*sections, *(("boundary", index) for index in beside)])


def _place_m(key: Key, plan: Plan) -> float | None:
    """Return where an item lies that can be moved, m; None for others and for one that is not in `plan`."""
    manner, index = MANNERS[key[0]], key[1]
    return manner.slide.place_m(plan, index) if manner.slide and index < manner.count(plan) else None


def _make(class_name: str, thing: QObject) -> QAccessibleInterface | None:
    # by its name first: of other classes Qt may ask for what is half made or half deleted
    voice = getattr(thing, "voice", None) if class_name == "LayCanvas" else None
    canvas = voice.canvas if isinstance(voice, LayVoice) else None
    return LayRoot(canvas) if canvas is thing and canvas is not None else None


@cache
def _install_factory() -> None:
    QAccessible.installFactory(_make)
