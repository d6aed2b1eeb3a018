"""Fields that a value is typed into.

The rule of this module: a field shows what the plan says and nothing else. What is typed is read when Enter
is pressed or the field is left; where it cannot be taken, the old value comes back and the field says why,
with what was typed, which undo in the field brings back. Esc brings the old value back at once.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, QSignalBlocker, Qt, Signal
from PySide6.QtGui import QDragEnterEvent, QFocusEvent, QKeyEvent, QKeySequence
from PySide6.QtWidgets import (
    QApplication,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.domain.errors import RovingLayError
from studio_gui.drawing.lay_layout import TARGET
from studio_gui.views.labels import MessageLabel
from studio_gui.wording.fields import FIELD_KINDS, field_name
from studio_gui.wording.naming import one_line
from studio_gui.wording.quantities import Kind, parse, shown, shown_bare
from studio_gui.wording.sentences import refusal

_UNIT_AT_END = re.compile(r"(?<=\d)\s*[^\W\d].*$")


class EntryField(QLineEdit):
    """One line that is typed into; `message` is the label that says why something typed was not taken."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._shown = ""
        self._typed = ""
        self._is_refused = False
        self.message = MessageLabel()
        self.setMinimumHeight(round(TARGET))
        self.editingFinished.connect(self.finish)
        self.textEdited.connect(self.clear_message)

    def show_text(self, text: str) -> None:
        """Show what the plan says; somebody's half typed text stays until it is finished."""
        if text == self._shown:
            return
        typing = self.isModified()
        self._shown = text
        if not typing:
            self._restore()

    def finish(self) -> bool:
        """Read what was typed, if anything was; return False where it could not be taken."""
        typed = self.text()
        self._is_refused = False
        if not self.isModified():
            return True
        self._restore()
        if typed != self._shown:
            self._typed = typed
            try:
                self._take(typed)
            except RovingLayError as problem:
                self.say(refusal(problem))
            finally:
                self._typed = ""
            if self._is_refused:
                self._keep_for_undo(typed)
        if self.hasFocus():
            self.selectAll()
        return not self._is_refused

    def drop(self) -> None:
        """Forget what was typed and what was said about it."""
        self.clear_message()
        if self.isModified():
            self._restore()

    def say(self, sentence: str) -> None:
        """Say at the field why something was not taken, and what was typed, so that it can be mended."""
        typed = one_line(self._typed)
        if sentence and typed:
            self._is_refused = True
            if typed not in sentence:
                sentence = self.tr("{0} You typed “{1}”.").format(sentence, typed)
        self.message.say(sentence)
        self.setAccessibleDescription(sentence)

    def note(self, sentence: str) -> None:
        """Say something of what was taken."""
        self.message.say(sentence, "secondary")
        self.setAccessibleDescription(sentence)

    def clear_message(self) -> None:
        """Take the sentence away."""
        if self.message.text():
            self.say("")
            if not self.isModified():
                self._restore()  # undo is that of the plan again

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and (self.isModified() or self.message.text()):
            self.drop()
            self.selectAll()
            event.accept()
            return
        super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        # with nothing typed, undo and redo are those of the plan
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            undo = event.matches(QKeySequence.StandardKey.Undo) and not self.isUndoAvailable()
            redo = event.matches(QKeySequence.StandardKey.Redo) and not self.isRedoAvailable()
            if undo or redo:
                event.ignore()
                return False
        return super().event(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        # a file held over a field is meant for the window, whose path would else be typed in
        if event.mimeData().hasUrls():
            event.ignore()
            return
        super().dragEnterEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if event.reason() == Qt.FocusReason.ShortcutFocusReason:
            self.selectAll()

    def _take(self, text: str) -> None:
        """Make a value of the typed text and hand it on; `RovingLayError` where it is none."""
        raise NotImplementedError

    def _restore(self) -> None:
        self.setText(self._shown)
        self.setCursorPosition(0)

    def _keep_for_undo(self, typed: str) -> None:
        """Let undo in the field bring back what was typed, though the field shows the plan's value."""
        with QSignalBlocker(self):
            self.setText(typed)
            self.selectAll()
            self.insert(self._shown)
            self.setModified(False)
            self.setCursorPosition(0)


class TextField(EntryField):
    """A field for a name."""

    entered = Signal(str)

    def set_value(self, text: str) -> None:
        """Show a name."""
        self.show_text(text)

    def _take(self, text: str) -> None:
        self.entered.emit(text)


class QuantityField(EntryField):
    """A field for a number with its unit.

    Parameters
    ----------
    field
        Name of the plan's field; gives the range, the accessible name and, unless `kind` is given, the kind.
    kind
        How the number is shown.
    may_be_unknown
        Whether "?", "unknown" or nothing may be typed.
    """

    entered = Signal(float)
    made_unknown = Signal()

    def __init__(
        self,
        field: str,
        kind: Kind | None = None,
        parent: QWidget | None = None,
        *,
        may_be_unknown: bool = False,
    ) -> None:
        super().__init__(parent)
        self._field = field
        self._kind = kind or FIELD_KINDS[field]
        self._may_be_unknown = may_be_unknown
        self._value: float | None = None
        self._has_value = False
        self._name = field_name(field)
        self.setAlignment(Qt.AlignmentFlag.AlignRight)
        self.setAccessibleName(self._name)

    def set_value(self, value: float | None) -> None:
        """Show a value in the plan's unit; None is an unknown one."""
        if self._has_value and value == self._value:
            return
        self._value, self._has_value = value, True
        self.show_text(self._words(value))

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            before, self._name = self._name, field_name(self._field)
            if self.accessibleName() == before:  # else the pane gave it a name of its own
                self.setAccessibleName(self._name)
            if self._has_value:
                self.show_text(self._words(self._value))
        super().changeEvent(event)

    def _words(self, value: float | None) -> str:
        return self.tr("unknown") if value is None else shown(self._kind, value)

    def _take(self, text: str) -> None:
        unknown = ("", "?", "unknown", self.tr("unknown").casefold())
        if self._may_be_unknown and text.strip().casefold() in unknown:
            self.made_unknown.emit()
            return
        self.entered.emit(parse(self._kind, text, self._field))


class QuantityListField(EntryField):
    """A field for several numbers of one kind, such as places of folds ("1.50; 3.04 m").

    The unit is shown once, after the last; typed there, it is that of all before it which have none.

    Parameters
    ----------
    field
        Name of the plan's field that each number belongs to.
    joint
        What stands between the numbers when they are shown; a semicolon, a plus sign or a comma with a space
        after it may be typed.
    example
        Two values that say, where something cannot be read, how several are typed.
    """

    entered = Signal(tuple)

    def __init__(
        self,
        field: str,
        joint: str = "; ",
        parent: QWidget | None = None,
        *,
        example: tuple[float, float],
    ) -> None:
        super().__init__(parent)
        self._field, self._kind, self._joint, self._example = field, FIELD_KINDS[field], joint, example
        self._values: tuple[float, ...] = ()
        self.setAlignment(Qt.AlignmentFlag.AlignRight)

    def set_values(self, values: Sequence[float]) -> None:
        """Show values in the plan's unit; none at all shows an empty field."""
        self._values = tuple(values)
        self.show_text(self._words(values))

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self.set_values(self._values)
        super().changeEvent(event)

    def _take(self, text: str) -> None:
        terms = re.split(r"[;+]|,\s", text) if text.strip() else []
        unit = _UNIT_AT_END.search(terms[-1]) if terms else None
        if unit is not None:
            terms[:-1] = [term if _UNIT_AT_END.search(term) else term + unit[0] for term in terms[:-1]]
        try:
            values = tuple(parse(self._kind, term, self._field) for term in terms)
        except RovingLayError as problem:
            several = self.tr("Several are typed like {0}.").format(self._words(self._example))
            self.say(f"{refusal(problem)} {several}")
            return
        self.entered.emit(values)

    def _words(self, values: Sequence[float]) -> str:
        last = [shown(self._kind, value) for value in values[-1:]]
        return self._joint.join([shown_bare(self._kind, value) for value in values[:-1]] + last)


def with_message(field: EntryField, holder: QWidget | None = None) -> QVBoxLayout:
    """Return a column of a field, or of what holds it, and under it the label for what it has to say."""
    column = QVBoxLayout()
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(2)
    column.addWidget(holder or field)
    column.addWidget(field.message)
    return column


def edit_at(field: EntryField, document: OpenPlan, name: str, edit: Edit) -> bool:
    """Apply an edit as `OpenPlan.edit` does; where it is refused, say why at the field."""
    return edit_and_say(document, name, edit, field.say)


def edit_and_say(document: OpenPlan, name: str, edit: Edit, say: Callable[[str], None]) -> bool:
    """Apply an edit as `OpenPlan.edit` does; `say` why it is refused, or nothing."""
    problem = document.try_edit(name, edit)
    say("" if problem is None else refusal(problem, document.plan))
    return problem is None


def finish_typing() -> bool:
    """Take what is still being typed where the focus is; return False where a field could not take it."""
    field = QApplication.focusWidget()
    if isinstance(field, EntryField):
        return field.finish()
    if isinstance(field, QLineEdit):
        field.clearFocus()  # the editor of a table's cell hands its text on when it loses the focus
    return True
