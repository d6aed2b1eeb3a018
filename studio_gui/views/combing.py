"""Fibre for the wool on a canvas, made while nobody waits for it.

The rule of this module: fibre is asked for once a window or a view has come to rest, and what has become of
no use meanwhile is dropped.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from studio_gui.document.background import LatestRun
from studio_gui.drawing.lay_wool import LayWool

if TYPE_CHECKING:
    from studio_gui.drawing.fibre.maps import FibreMaps

REST_MS = 40


class Combing(QObject):
    """Has the fibre maps made that some wool lacks; `done` when it has them."""

    done = Signal()

    def __init__(self, wool: LayWool, parent: QObject) -> None:
        super().__init__(parent)
        self._wool = wool
        self._run = LatestRun(self)
        self._run.done.connect(self._adopt)
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(REST_MS)
        self._rest.timeout.connect(self._ask)

    def look_after(self) -> None:
        """See to it that the wool gets the fibre it lacks, if it lacks any."""
        if self._wool.lacks_fibre:
            self._rest.start()

    def _ask(self) -> None:
        from studio_gui.drawing.fibre.maps import fibre_maps  # noqa: PLC0415  (the first paint does without)

        wanted = self._wool.wanted()
        if wanted is not None:
            self._run.ask(fibre_maps, wanted)

    def _adopt(self, maps: FibreMaps) -> None:
        if self._wool.adopt(maps):
            self.done.emit()
        else:
            self.look_after()
