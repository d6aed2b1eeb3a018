"""How models and panes keep up with the open plan.

The rule of this module: a follower refreshes once for each state of the screen, and not at all while nobody
looks; it then catches up when somebody does. One with a turn of its own lags behind while a gesture previews.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.worksheet import Worksheet


class Follower(QObject):
    """Calls a view's `refresh` when the worksheet on the screen changes.

    Parameters
    ----------
    document
        The open plan.
    refresh
        What brings the view up to date.
    parent
        The view; it is followed for as long as that lives.
    turn
        The turn in which the view follows a preview, where it may lag behind by `LATE_MS`; None to follow at
        once.
    selection
        Whether it shows the selected sections, and follows them too.

    `is_wanted` tells whether anybody looks.
    """

    _due = Signal()

    def __init__(
        self,
        document: OpenPlan,
        refresh: Callable[[], None],
        parent: QObject,
        *,
        turn: int | None = None,
        selection: bool = False,
    ) -> None:
        super().__init__(parent)
        self.is_wanted: Callable[[], bool] = _always
        self._document, self._selection = document, selection
        self._state: tuple[Worksheet, tuple[str, ...]] | None = None
        self._is_behind = False
        self._due.connect(refresh)  # not kept here, or view and follower would hold each other
        self._turn = turn
        if turn is None:
            document.shown.connect(self._hear)
        else:
            document.settled.connect(self._hear)
            document.turn.connect(self._hear_turn)
        if selection:
            document.selected.connect(self._hear)

    def catch_up(self) -> bool:
        """Refresh now, if something was missed while nobody looked, and tell whether it was."""
        was_behind, self._is_behind = self._is_behind, False
        if was_behind:
            self._refresh_once()
        return was_behind

    def _hear_turn(self, turn: int) -> None:
        if turn == self._turn:
            self._hear()

    def _hear(self) -> None:
        if self.is_wanted():
            self._is_behind = False
            self._refresh_once()
        else:
            self._is_behind = True

    def _refresh_once(self) -> None:
        document = self._document
        state = (document.sheet, document.selected_ids if self._selection else ())
        if self._state is None or state[0] is not self._state[0] or state[1] != self._state[1]:
            self._state = state
            self._due.emit()


def _always() -> bool:
    return True
