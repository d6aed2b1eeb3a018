"""What every pane and window shares: it follows a change of language, of units and of font while it is open.

The rule of this module: words and numbers are put in by `_retranslate`, sizes that hang on the font by
`_set_fonts`, and nowhere else, so that both can come anew at any time. Units are a part of how things are
said: a change of them is Qt's own change of language, which every widget of the program hears. The open plan
is followed while the widget is seen.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent
from PySide6.QtGui import QPaintEvent, QShowEvent
from PySide6.QtWidgets import QApplication, QDialog, QWidget

from studio_gui.document.follower import Follower
from studio_gui.document.open_plan import OpenPlan
from studio_gui.views.sight import rest_out_of_sight
from studio_gui.wording.translation import TRANSLATED, Units, install_units


class LiveWidget(QWidget):
    """A widget whose words, numbers and fonts come anew when the program's do."""

    _follower: Follower | None = None

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self._retranslate()
        elif event.type() == QEvent.Type.FontChange:
            self._set_fonts()
        super().changeEvent(event)

    def showEvent(self, event: QShowEvent) -> None:
        self._catch_up()
        super().showEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        self._catch_up()
        super().paintEvent(event)

    def _keep_up(
        self,
        document: OpenPlan,
        refresh: Callable[[], None],
        *,
        turn: int | None = None,
        selection: bool = False,
    ) -> None:
        """Have `refresh` called when the plan on the screen changes; see `Follower`."""
        self._follower = Follower(document, refresh, self, turn=turn, selection=selection)
        rest_out_of_sight(self._follower, self)

    def _catch_up(self) -> None:
        """Take up what was missed out of sight, with the parts of the pane that are still scrolled away."""
        if self._follower is not None and self._follower.catch_up():
            for part in self.findChildren(LiveWidget):
                part._catch_up()

    def _retranslate(self) -> None:
        """Put all words into the language of the program, and all numbers into its units."""

    def _set_fonts(self) -> None:
        """Set what hangs on the widget's font."""


class LiveDialog(QDialog):
    """A window of its own whose words and numbers come anew when the program's do."""

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.LanguageChange:
            self._retranslate()
        super().changeEvent(event)

    def _retranslate(self) -> None:
        """Put all words into the language of the program, and all numbers into its units."""


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
