"""What every pane shares: it follows a change of language, of units and of font while it is open.

The rule of this module: words and numbers are put in by `_retranslate`, sizes that hang on the font by
`_set_fonts`, and nowhere else, so that both can come anew at any time. Units are a part of how things are
said: a change of them is Qt's own change of language, which every widget of the program hears.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QApplication, QWidget

from studio_gui.wording.translation import TRANSLATED, Units, install_units


class LiveWidget(QWidget):
    """A widget whose words, numbers and fonts come anew when the program's do."""

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self._retranslate()
        elif event.type() == QEvent.Type.FontChange:
            self._set_fonts()
        super().changeEvent(event)

    def _retranslate(self) -> None:
        """Put all words into the language of the program, and all numbers into its units."""

    def _set_fonts(self) -> None:
        """Set what hangs on the widget's font."""


def use_units(units: Units) -> None:
    """Show and read all quantities in `units` from now on, in every widget of the program at once."""
    if units == TRANSLATED.units:
        return
    from studio_gui.views.fields import finish_typing  # noqa: PLC0415  (the first paint does without fields)

    finish_typing()  # a bare number means the units that it was typed in
    install_units(units)
    for window in QApplication.topLevelWidgets():
        if window.parent() is None:  # Qt hands the event on to all children, and those may be windows too
            QApplication.sendEvent(window, QEvent(QEvent.Type.LanguageChange))
