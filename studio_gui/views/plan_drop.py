"""A plan's file dragged onto the window.

The rule of this module: what would be opened is said while it is held over the window; what cannot be is
refused in words, and unsaved work is asked about as everywhere.
"""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QMimeData, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QWidget

from studio_gui.storage.files import PLAN_SUFFIX
from studio_gui.views.banner import Banner
from studio_gui.wording.naming import one_line


class PlanDrop(QObject):
    """What a window does with files that are held over it and dropped.

    Signals
    -------
    dropped
        A file that may be a plan was dropped; carries its `Path`.
    refused
        Something else was; carries a sentence.
    """

    dropped = Signal(object)
    refused = Signal(str)

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._banner = Banner(window)

    def enter(self, event: QDragEnterEvent) -> None:
        """Say what dropping would do. Any file is let in, so that a wrong one can be refused in words."""
        if not event.mimeData().hasUrls() or not event.possibleActions() & Qt.DropAction.CopyAction:
            event.ignore()
            return
        path, problem = self._read(event.mimeData())
        words = problem or self.tr("Drop to open {0}").format(one_line(path.name))
        self._banner.say(words, framed=not problem)
        self.stay(event)

    def stay(self, event: QDropEvent) -> None:
        """Go on taking the file as a copy: what was moved here would be deleted where it came from."""
        event.setDropAction(Qt.DropAction.CopyAction)
        event.accept()

    def leave(self) -> None:
        """Take the words away."""
        self._banner.end()

    def drop(self, event: QDropEvent) -> None:
        """Hand on what was dropped, after the program it came from has been let go."""
        self._banner.end()
        self.stay(event)
        path, problem = self._read(event.mimeData())
        if problem:
            self.refused.emit(problem)
        else:
            QTimer.singleShot(0, self, lambda: self.dropped.emit(path))

    def _read(self, data: QMimeData) -> tuple[Path, str]:
        """Return the file that is held, and why it cannot be opened, "" where it can be tried."""
        paths = [Path(url.toLocalFile()) for url in data.urls() if url.isLocalFile()]
        if not paths:
            return Path(), self.tr("Only files of this computer can be dropped here.")
        if len(data.urls()) > 1:
            return paths[0], self.tr("Drop one plan; a window holds one at a time.")
        if paths[0].suffix.casefold() != ".json":
            problem = self.tr("{0} is no plan. The names of plans end in {1}.")
            return paths[0], problem.format(one_line(paths[0].name), PLAN_SUFFIX)
        return paths[0], ""
