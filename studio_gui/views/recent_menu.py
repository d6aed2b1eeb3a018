"""The plans that were opened or saved last, to be opened again.

The rule of this module: it looks at no disk; a plan that is gone is found out, said and taken off the list
when it is picked.
"""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QMenu, QWidget

from studio_gui.document.preferences import Preferences
from studio_gui.views.menu_entries import add_entry
from studio_gui.wording.naming import one_line

WIDEST_PX = 480


class RecentMenu(QMenu):
    """File > Open recent.

    Signals
    -------
    picked
        Carries the `Path` of the plan picked.
    """

    picked = Signal(object)

    def __init__(self, preferences: Preferences, parent: QWidget) -> None:
        super().__init__(parent)
        self._preferences = preferences
        self.setToolTipsVisible(True)
        self.aboutToShow.connect(self.fill)  # other windows of the program write the list too

    def retranslate(self) -> None:
        """Put the title into the language of the program; the rest is said when the menu opens."""
        self.setTitle(self.tr("Open &recent"))

    def fill(self) -> None:
        """List the plans, the last one first, with keys 1 to 9 and 0."""
        self.clear()
        paths = self._preferences.recent
        for place, path in enumerate(paths, start=1):
            entry = add_entry(self, f"{_key(place)} {self._words(path)}")
            entry.setToolTip(one_line(str(path), 400))
            entry.triggered.connect(lambda _=False, path=path: self.picked.emit(path))
        if not paths:
            add_entry(self, self.tr("No plan was opened or saved yet")).setEnabled(False)
        self.addSeparator()
        clear = add_entry(self, self.tr("&Clear this list"))
        clear.setEnabled(bool(paths))
        clear.triggered.connect(self._clear)

    def _clear(self) -> None:
        self._preferences.forget_recent()
        self.fill()

    def _words(self, path: Path) -> str:
        folder = str(path.parent)
        home = str(Path.home())
        if folder == home or folder.startswith(f"{home}/"):
            folder = "~" + folder.removeprefix(home)
        room = self.fontMetrics()
        name = room.elidedText(one_line(path.name, 200), Qt.TextElideMode.ElideMiddle, WIDEST_PX // 2)
        shown = room.elidedText(one_line(folder, 400), Qt.TextElideMode.ElideMiddle, WIDEST_PX // 2)
        return self.tr("{0} in {1}").format(name, shown).replace("&", "&&")


def _key(place: int) -> str:
    return f"&{place}" if place < 10 else f"1&{place - 10}"
