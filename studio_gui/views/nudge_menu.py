"""A little lighter, deeper, redder: the menu of a section's colour.

The rule of this module: every entry is one undo step, and says what it changes besides what it is called:
beforehand as its tooltip, afterwards on the status line.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QMenu, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.colour.shifts import Direction, Shift
from studio_gui.domain.edits.nudges import DIRECTIONS, nudged
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.plan import Plan

#: Of the two that are wanted most; the others are a menu away.
_KEYS: dict[Direction, str] = {"lighter": "Alt+PgUp", "deeper": "Alt+PgDown"}


class NudgeMenu(QMenu):
    """Changes the liquor of the selected section by a graduation or a few.

    Signals
    -------
    said
        What the change did to the colour, as a sentence.
    """

    said = Signal(str)

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
        self.aboutToShow.connect(self._foretell)

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
            action.setToolTip(self._meaning())

    def _meaning(self) -> str:
        return self.tr("By graduations of the jar, for every section with this liquor; indicative")

    def _foretell(self) -> None:
        """Say of every entry what it would do, or why it cannot."""
        from studio_gui.wording.sentences import refusal  # noqa: PLC0415  (the first paint does without it)

        plan = self._document.plan
        section_id = plan.sections[self._document.selected_index].id
        for direction, action in self._entries.items():
            try:
                words = self._words(direction, nudged(plan, section_id, direction).shift)
            except RovingLayError as problem:
                action.setToolTip(refusal(problem, plan))
            else:
                action.setToolTip(f"{words} {self._meaning()}")

    def _words(self, direction: Direction, found: Shift) -> str:
        from studio_gui.wording.shifts import shift_line  # noqa: PLC0415  (as above)

        return shift_line(direction, found, self._document.plan.bench.graduation_ml)

    def _nudge(self, direction: Direction) -> None:
        section_id = self._document.plan.sections[self._document.selected_index].id
        name = self.tr("A little {0}").format(self._entries[direction].text().replace("&", "").casefold())
        shifts: list[Shift] = []

        def edit(plan: Plan) -> Plan:
            change = nudged(plan, section_id, direction)
            shifts.append(change.shift)
            return change.plan

        if self._document.edit(name, edit):
            self.said.emit(self._words(direction, shifts[-1]))
