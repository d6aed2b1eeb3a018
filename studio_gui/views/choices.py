"""Fields that something is chosen in: one of a few, or a colour.

The rule of this module: as in `studio_gui.views.fields`, a field shows what the plan says; a choice is handed
on, and shown when the plan says so.
"""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QColor, QWheelEvent
from PySide6.QtWidgets import QColorDialog, QComboBox, QHBoxLayout, QToolButton, QWidget

from studio_gui.domain.colour.swatches import checked_srgb
from studio_gui.views.fields import EntryField
from studio_gui.views.labels import SwatchLabel
from studio_gui.wording.fields import field_name


class ColourField(QWidget):
    """A colour: typed as #rrggbb, or picked by the button that shows it."""

    entered = Signal(str)

    def __init__(self, field: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._field = field
        self.edit = HexField(field)
        self.edit.entered.connect(self.entered)
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


class HexField(EntryField):
    """A colour typed as #rrggbb, with or without the sign."""

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
