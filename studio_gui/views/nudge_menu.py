"""A little lighter, deeper, redder: the menu of a section's colour.

The rule of this module: every entry is one graduation and one undo step.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QMenu, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.nudges import DIRECTIONS, Direction, nudge

#: Of the two that are wanted most; the others are a menu away.
_KEYS: dict[Direction, str] = {"lighter": "Alt+PgUp", "deeper": "Alt+PgDown"}


class NudgeMenu(QMenu):
    """Changes the liquor of the selected section by one graduation."""

    def __init__(self, document: OpenPlan, parent: QWidget) -> None:
        super().__init__(parent)
        self._document = document
        self._entries = {}
        for direction in DIRECTIONS:
            action = self.addAction("")
            if direction in _KEYS:
                action.setShortcut(QKeySequence(_KEYS[direction]))
            action.triggered.connect(partial(self._nudge, direction))
            self._entries[direction] = action
        self.setToolTipsVisible(True)

    def retranslate(self) -> None:
        """Put the menu into the language of the program."""
        self.setTitle(self.tr("A l&ittle"))
        words: dict[Direction, str] = {
            "lighter": self.tr("&Lighter"),
            "deeper": self.tr("&Deeper"),
            "redder": self.tr("&Redder"),
            "greener": self.tr("&Greener"),
            "yellower": self.tr("&Yellower"),
            "bluer": self.tr("&Bluer"),
        }
        for direction, action in self._entries.items():
            action.setText(words[direction])
            action.setToolTip(
                self.tr("By one graduation of the jar, for every section with this liquor; indicative")
            )

    def _nudge(self, direction: Direction) -> None:
        section_id = self._document.plan.sections[self._document.selected_index].id
        name = self.tr("A little {0}").format(self._entries[direction].text().replace("&", "").casefold())
        self._document.edit(name, partial(nudge, section_id=section_id, direction=direction))
