"""Fields that a value is typed into.

The rule of this module: a field shows what the plan says and nothing else. What is typed is read when Enter
is pressed or the field is left; where it cannot be taken, the old value comes back and the field says why.
Esc brings the old value back at once.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QColor, QFocusEvent, QKeyEvent, QKeySequence, QWheelEvent
from PySide6.QtWidgets import (
    QApplication,
    QColorDialog,
    QComboBox,
    QHBoxLayout,
    QLineEdit,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from studio_gui.document.open_plan import Edit, OpenPlan
from studio_gui.domain.colour.swatches import checked_srgb
from studio_gui.domain.errors import RovingLayError
from studio_gui.views.labels import MessageLabel, SwatchLabel
from studio_gui.wording.fields import FIELD_KINDS, field_name
from studio_gui.wording.quantities import Kind, parse, shown
from studio_gui.wording.sentences import refusal


class EntryField(QLineEdit):
    """One line that is typed into; `message` is the label that says why something typed was not taken."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._shown = ""
        self.message = MessageLabel()
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

    def finish(self) -> None:
        """Read what was typed, if anything was."""
        typed = self.text()
        if not self.isModified():
            return
        self._restore()
        if typed != self._shown:
            try:
                self._take(typed)
            except RovingLayError as problem:
                self.say(refusal(problem))
        if self.hasFocus():
            self.selectAll()

    def drop(self) -> None:
        """Forget what was typed and what was said about it."""
        self.clear_message()
        if self.isModified():
            self._restore()

    def say(self, sentence: str) -> None:
        """Say at the field why something was not taken."""
        self.message.say(sentence)
        self.setAccessibleDescription(sentence)

    def clear_message(self) -> None:
        """Take the sentence away."""
        if self.message.text():
            self.say("")

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
    """A field for several numbers of one kind, such as places of folds ("1.5 m; 3.04 m").

    Parameters
    ----------
    field
        Name of the plan's field that each number belongs to.
    joint
        What stands between the numbers when they are shown; a semicolon or a plus sign may be typed.
    """

    entered = Signal(tuple)

    def __init__(self, field: str, joint: str = "; ", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._field, self._kind, self._joint = field, FIELD_KINDS[field], joint
        self._values: tuple[float, ...] = ()
        self.setAlignment(Qt.AlignmentFlag.AlignRight)

    def set_values(self, values: Sequence[float]) -> None:
        """Show values in the plan's unit; none at all shows an empty field."""
        self._values = tuple(values)
        self.show_text(self._joint.join(shown(self._kind, value) for value in values))

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self.set_values(self._values)
        super().changeEvent(event)

    def _take(self, text: str) -> None:
        terms = re.split(r"[;+]", text) if text.strip() else []
        self.entered.emit(tuple(parse(self._kind, term, self._field) for term in terms))


class ColourField(QWidget):
    """A colour: typed as #rrggbb, or picked by the button that shows it."""

    entered = Signal(str)

    def __init__(self, field: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._field = field
        self.edit = _HexField(field)
        self.edit.entered.connect(self.entered)
        self.message = self.edit.message
        self.button = QToolButton()
        self.button.setFixedSize(32, 24)
        self.button.clicked.connect(self._pick)
        self._swatch = SwatchLabel(16, self.button)
        self._swatch.move(8, 4)
        self._swatch.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(4)
        row.addWidget(self.button)
        row.addWidget(self.edit, 1)
        self._retranslate()

    def set_value(self, srgb: str) -> None:
        """Show a colour, ``#rrggbb``."""
        self.edit.show_text(srgb)
        self._swatch.show_colour(QColor(srgb))

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self._retranslate()
        super().changeEvent(event)

    def _retranslate(self) -> None:
        name = field_name(self._field)
        self.edit.setAccessibleName(name)
        self.button.setAccessibleName(self.tr("Pick: {0}").format(name))
        self.button.setToolTip(self.tr("Pick a colour"))

    def _pick(self) -> None:
        colour = QColorDialog.getColor(QColor(self.edit.text()), self, field_name(self._field))
        if colour.isValid():
            self.entered.emit(colour.name())


class _HexField(EntryField):
    entered = Signal(str)

    def __init__(self, field: str) -> None:
        super().__init__()
        self._field = field

    def _take(self, text: str) -> None:
        typed = text.strip()
        self.entered.emit(checked_srgb(self._field, typed if typed.startswith("#") else f"#{typed}"))


class ChoiceField(QComboBox):
    """A choice of a few. A wheel that scrolls the pane does not change it."""

    chosen = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._choices: list[tuple[str, object]] = []
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(6)
        self.activated.connect(lambda index: self.chosen.emit(self._choices[index][1]))

    def set_choices(self, choices: Sequence[tuple[str, object]], value: object) -> None:
        """Offer choices (words and value), and show the one that stands; none where it is not among them."""
        if list(choices) != self._choices:
            self._choices = list(choices)
            self.clear()
            self.addItems([words for words, _ in self._choices])
        values = [value for _, value in self._choices]
        place = values.index(value) if value in values else -1
        if place != self.currentIndex():
            self.setCurrentIndex(place)

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()


def with_message(field: EntryField | ColourField) -> QVBoxLayout:
    """Return a column of a field and, under it, the label for what it has to say."""
    column = QVBoxLayout()
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(2)
    column.addWidget(field)
    column.addWidget(field.message)
    return column


def edit_at(field: EntryField | ColourField, document: OpenPlan, name: str, edit: Edit) -> bool:
    """Apply an edit as `OpenPlan.edit` does; where it is refused, say why at the field."""
    line = field.edit if isinstance(field, ColourField) else field
    return edit_and_say(document, name, edit, line.say)


def edit_and_say(document: OpenPlan, name: str, edit: Edit, say: Callable[[str], None]) -> bool:
    """Apply an edit as `OpenPlan.edit` does; `say` why it is refused, or nothing."""
    refusals: list[RovingLayError] = []

    def keep(error: RovingLayError) -> None:
        refusals.append(error)

    document.refused.connect(keep)
    try:
        done = document.edit(name, edit)
    finally:
        document.refused.disconnect(keep)
    say(refusal(refusals[0], document.plan) if refusals else "")
    return done


def finish_typing() -> None:
    """Take what is still being typed in the field with the focus, before a plan is saved or exported."""
    field = QApplication.focusWidget()
    if isinstance(field, EntryField):
        field.finish()
