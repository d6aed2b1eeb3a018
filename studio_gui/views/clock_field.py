"""A field for a time of day, which may be left open.

The rule of this module: an empty field is an open time.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtWidgets import QWidget

from studio_gui.views.fields import EntryField
from studio_gui.wording.times import parse_clock, shown_clock


class ClockField(EntryField):
    """A time of day, minutes after midnight; `entered` carries None for an open one."""

    entered = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._minutes: float | None = None
        self.setAlignment(Qt.AlignmentFlag.AlignRight)
        self.setPlaceholderText(self.tr("open"))

    def set_value(self, minutes: float | None) -> None:
        """Show a time of day; None is an open one."""
        self._minutes = minutes
        self.show_text("" if minutes is None else shown_clock(minutes))

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self.setPlaceholderText(self.tr("open"))
            self.set_value(self._minutes)
        super().changeEvent(event)

    def _take(self, text: str) -> None:
        self.entered.emit(parse_clock(text))
