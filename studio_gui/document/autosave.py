"""Keeps a copy of what is not saved, for after a crash or a power cut.

The rule of this module: an edit, and what is being typed, is on disk at most `KEEP_AFTER_MS` and the time
of one write later, and never in the plan's own file. Writing happens off the window's thread. What is saved,
or given up by choice, needs no copy any more.
"""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QObject, QStandardPaths, QTimer, Signal

from studio_gui.document.background import LatestRun
from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import ORGANISATION
from studio_gui.domain.errors import FileProblem
from studio_gui.domain.plan import Plan
from studio_gui.storage.recovery import SnapshotFile, Typed

KEEP_AFTER_MS = 2_000
TRY_AGAIN_MS = 20_000


def state_folder() -> Path:
    """Return the folder of what the program has to remember by itself, which need not be there yet."""
    kind = QStandardPaths.StandardLocation.GenericStateLocation
    return Path(QStandardPaths.writableLocation(kind)) / ORGANISATION


def recovery_folder() -> Path:
    """Return the folder of snapshots."""
    return state_folder() / "recovery"


class Autosave(QObject):
    """Keeps a snapshot of one open plan while it differs from its file, or while something is being typed.

    Signals
    -------
    failed
        Nothing can be kept; carries the `FileProblem`. Tries that nobody asked for tell a cause once.
    mended
        After that, it can be again.
    """

    failed = Signal(FileProblem)
    mended = Signal()

    def __init__(self, document: OpenPlan, folder: Path | None = None, parent: QObject | None = None) -> None:
        """Keep snapshots in `folder`, by default the program's own."""
        super().__init__(parent)
        self._document = document
        self._file = SnapshotFile(recovery_folder() if folder is None else folder)
        self._typed: Typed | None = None
        self._asked: tuple[Plan, Typed | None] | None = None
        self._problem: FileProblem | None = None
        self._has_ended = False
        self._run = LatestRun(self)
        self._run.done.connect(self._kept)
        self._run.failed.connect(self._not_kept)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(KEEP_AFTER_MS)
        self._timer.timeout.connect(self._keep)
        self._again = QTimer(self)
        self._again.setSingleShot(True)
        self._again.setInterval(TRY_AGAIN_MS)
        self._again.timeout.connect(self.try_again)
        document.settled.connect(self._follow)
        document.file_changed.connect(self._follow)

    @property
    def file(self) -> Path:
        """Where the snapshot stands when there is one."""
        return self._file.file

    @property
    def folder(self) -> Path:
        """Where snapshots stand."""
        return self._file.file.parent

    @property
    def problem(self) -> FileProblem | None:
        """Why nothing can be kept, as it was found last; None while it can."""
        return self._problem

    @property
    def typed(self) -> Typed | None:
        """What is being typed, None for nothing."""
        return self._typed

    def hear_typing(self, typed: Typed | None) -> None:
        """Take up what is being typed, None for nothing."""
        if typed != self._typed:
            self._typed = typed
            self._follow()

    def keep_now(self) -> None:
        """Keep what is not saved, before this returns; `FileProblem` on failure."""
        self._timer.stop()
        self._run.settle()  # what is under way is older, and would come last
        if self._is_needed:
            self._asked = None
            try:
                self._file.write(self._document.plan, self._document.path, self._document.was, self._typed)
            except FileProblem as problem:
                self._not_kept(problem, was_asked=True)
                raise
            self._asked = (self._document.plan, self._typed)
            self._kept()
        elif not self._document.is_recovered:
            self._file.remove()

    def try_again(self) -> None:
        """Find out in a moment whether what could not be kept can be now."""
        if self._problem is not None and not self._has_ended:
            if self._is_needed:
                self._keep()
            elif not self._document.is_recovered:
                self._run.ask(self._file.try_out, self._document.plan)

    def go_on_with(self, kept: SnapshotFile) -> None:
        """Keep snapshots in a file of a plan that was just recovered from it."""
        self._run.stop()
        self._file.close()
        self._file = kept
        self._asked = (self._document.plan, None) if kept.file.exists() else None
        self._follow()

    def end(self) -> None:
        """Keep nothing any more, as the plan was saved or given up."""
        self._stop()
        self._file.close()

    def vanish(self) -> None:
        """Keep nothing any more, and leave what was kept for the next start."""
        self._stop()
        self._file.let_go()

    def _stop(self) -> None:
        self._has_ended = True
        self._timer.stop()
        self._again.stop()
        self._run.stop()

    @property
    def _is_needed(self) -> bool:
        """Whether there is anything to keep."""
        return self._document.is_modified or self._typed is not None

    def _follow(self) -> None:
        if self._has_ended:
            return
        if not self._is_needed:
            self._timer.stop()
            if self._document.is_recovered:
                return  # what it came from goes when it is saved
            if self._problem is not None:
                self.try_again()
            elif self._asked is not None:
                self._asked = None
                self._run.ask(self._file.remove)
        elif not self._is_asked and not self._timer.isActive():
            self._timer.start()

    @property
    def _is_asked(self) -> bool:
        """Whether what is kept, or being written, is what there is now."""
        if self._asked is None:
            return False
        plan, typed = self._asked
        return plan is self._document.plan and typed == self._typed

    def _keep(self) -> None:
        plan, document = self._document.plan, self._document
        self._asked = (plan, self._typed)
        self._run.ask(self._file.write, plan, document.path, document.was, self._typed)

    def _kept(self) -> None:
        self._again.stop()
        if self._problem is not None:
            self._problem = None
            self.mended.emit()

    def _not_kept(self, error: Exception, *, was_asked: bool = False) -> None:
        self._asked = None
        self._again.start()
        if isinstance(error, FileProblem):
            before, self._problem = self._problem, error
            if was_asked or before is None or before.code != error.code:
                self.failed.emit(error)
