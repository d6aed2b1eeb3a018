"""What every pane shares: it follows a change of language and of font while it is open.

The rule of this module: words are put in by `_retranslate`, sizes that hang on the font by `_set_fonts`, and
nowhere else, so that both can come anew at any time.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QWidget


class LiveWidget(QWidget):
    """A widget whose words and fonts come anew when the program's do."""

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self._retranslate()
        elif event.type() == QEvent.Type.FontChange:
            self._set_fonts()
        super().changeEvent(event)

    def _retranslate(self) -> None:
        """Put all words into the language of the program."""

    def _set_fonts(self) -> None:
        """Set what hangs on the widget's font."""
