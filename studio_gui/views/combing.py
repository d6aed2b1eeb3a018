"""Fibre for the wool on a canvas, made while nobody waits for it.

The rule of this module: fibre is asked for once a window or a view has come to rest, and what has become of
no use meanwhile is dropped.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from studio_gui.document.background import RestedRun
from studio_gui.drawing.lay_wool import LayWool

if TYPE_CHECKING:
    from studio_gui.drawing.fibre.maps import FibreMaps


class Combing(QObject):
    """Has the fibre maps made that some wool lacks; `done` when it has them."""

    done = Signal()

    def __init__(self, wool: LayWool, parent: QObject) -> None:
        super().__init__(parent)
        self._wool = wool
        self._run = RestedRun(self._work, self)
        self._run.done.connect(self._adopt)

    def look_after(self) -> None:
        """See to it that the wool gets the fibre it lacks, if it lacks any."""
        if self._wool.lacks_fibre:
            self._run.ask_at_rest()

    def _work(self) -> Callable[[], FibreMaps] | None:
        from studio_gui.drawing.fibre.maps import fibre_maps  # noqa: PLC0415  (the first paint does without)

        wanted = self._wool.wanted()
        return None if wanted is None else partial(fibre_maps, wanted)

    def _adopt(self, maps: FibreMaps) -> None:
        if self._wool.adopt(maps):
            self.done.emit()
        else:
            self.look_after()
