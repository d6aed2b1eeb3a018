"""Fields that something is chosen in: one of a few, or a colour.

The rule of this module: as in `studio_gui.views.fields`, a field shows what the plan says; a choice is handed
on, and shown when the plan says so.
"""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QColor, QWheelEvent
from PySide6.QtWidgets import QColorDialog, QComboBox, QHBoxLayout, QToolButton, QWidget

from studio_gui.views.fields import EntryField
from studio_gui.views.labels import SwatchLabel, call
from studio_gui.views.menu_button import MenuButton
from studio_gui.wording.colours import TypedColour, parse_colour
from studio_gui.wording.fields import field_name


class ColourField(QWidget):
    """A colour: typed as #rrggbb or CIE Lab, or picked by the button that shows it.

    Signals
    -------
    entered
        A colour, ``#rrggbb``.
    meant
        The same as a `TypedColour`, before it went through any screen.
    """

    entered = Signal(str)
    meant = Signal(TypedColour)

    def __init__(self, field: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._field = field
        self._name = ""
        self.edit = HexField(field)
        self.edit.entered.connect(self.entered)
        self.edit.meant.connect(self.meant)
        self.button, self._swatch = swatch_button()
        self.button.clicked.connect(self._pick)
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

    def set_name(self, name: str) -> None:
        """Give the colour a name of its own for screen readers, instead of that of its field."""
        self._name = name
        self._retranslate()

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self._retranslate()
        super().changeEvent(event)

    def _retranslate(self) -> None:
        name = self._name or field_name(self._field)
        call(self.edit, name)
        call(self.button, self.tr("Pick: {0}").format(name))
        self.button.setToolTip(self.tr("Pick a colour"))

    def _pick(self) -> None:
        colour = QColorDialog.getColor(QColor(self.edit.text()), self, self.edit.accessibleName())
        if colour.isValid():
            self.entered.emit(colour.name())
            self.meant.emit(TypedColour(colour.name()))


class HexField(EntryField):
    """A colour typed as #rrggbb, with or without the sign, or as CIE Lab."""

    entered = Signal(str)
    meant = Signal(TypedColour)

    def __init__(self, field: str) -> None:
        super().__init__()
        self._field = field

    def _take(self, text: str) -> None:
        typed = parse_colour(text, self._field)
        self.entered.emit(typed.srgb)
        self.meant.emit(typed)
        if typed.is_nearest:
            self.note(
                self.tr("No screen shows that colour; {0} is the nearest that one can.").format(typed.srgb)
            )


def swatch_button() -> tuple[QToolButton, SwatchLabel]:
    """Return a button that shows a colour, and the label in it that does."""
    button = MenuButton()  # with or without a menu
    button.setFixedSize(32, 24)
    button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
    swatch = SwatchLabel(16, button)
    swatch.move(8, 4)
    swatch.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
    return button, swatch


class ChoiceField(QComboBox):
    """A choice of a few. A wheel that scrolls the pane does not change it."""

    chosen = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._choices: list[tuple[str, object]] = []
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(6)
        self.activated.connect(lambda index: self.chosen.emit(self._choices[index][1]))

    @property
    def value(self) -> object:
        """What stands in the field now, None where nothing does."""
        place = self.currentIndex()
        return self._choices[place][1] if place >= 0 else None

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
