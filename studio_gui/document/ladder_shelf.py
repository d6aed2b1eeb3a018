"""The ladders that can be used again: a few of the program's own, and those that were saved.

The rule of this module: saved ladders live in one small file of the person's settings, read anew before every
change. A file that cannot be read is told of, and set aside before anything is written in its place.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, QStandardPaths, Signal

from studio_gui.document.preferences import ORGANISATION
from studio_gui.domain.errors import FileProblem
from studio_gui.storage.files import make_folder, read_bytes, set_aside, write_atomically
from studio_gui.storage.ladder_templates import (
    LadderTemplate,
    LadderTemplates,
    ladders_from_json,
    ladders_to_json,
)

FILE_NAME = "ladders.json"


def settings_folder() -> Path:
    """Return the folder of the person's settings, which need not be there yet."""
    kind = QStandardPaths.StandardLocation.GenericConfigLocation
    return Path(QStandardPaths.writableLocation(kind)) / ORGANISATION


class LadderShelf(QObject):
    """The person's ladders.

    Signals
    -------
    changed
        Another list of ladders is there, or another problem with them.
    """

    changed = Signal()

    def __init__(self, path: Path | None = None, parent: QObject | None = None) -> None:
        """Read the ladders in the file at `path`, by default the one among the person's settings."""
        super().__init__(parent)
        self._path = settings_folder() / FILE_NAME if path is None else path
        self._saved = LadderTemplates()
        self._problem: FileProblem | None = None
        self._read()

    @property
    def saved(self) -> tuple[LadderTemplate, ...]:
        """The saved ladders, in the order they were saved."""
        return self._saved.ladders

    @property
    def problem(self) -> FileProblem | None:
        """Why saved ladders could not be read; None where they were."""
        return self._problem

    def own(self) -> tuple[LadderTemplate, ...]:
        """Return the program's own ladders, called in its language; two stocks, by parts."""
        lines = (
            (self.tr("Even quarters"), "12+36, 24+24, 36+12, 48+0"),
            (self.tr("Halving"), "48+0, 24+24, 12+36, 6+42"),
            (self.tr("There and back"), "12+36, 24+24, 36+12, 24+24, 12+36"),
        )
        return tuple(LadderTemplate(name, line, "equal", "follows fibre") for name, line in lines)

    def save(self, ladder: LadderTemplate) -> None:
        """Save a ladder; `InvalidPlan` ``name-taken``, `FileProblem` when the file cannot be written."""
        self._change(lambda templates: templates.plus(ladder))

    def rename(self, name: str, new_name: str) -> None:
        """Call a saved ladder otherwise; raises as `save`, and ``ladder-not-there``."""
        self._change(lambda templates: templates.renamed(name, new_name))

    def remove(self, name: str) -> None:
        """Take a saved ladder away; raises as `rename`."""
        self._change(lambda templates: templates.without(name))

    def _change(self, edit: Callable[[LadderTemplates], LadderTemplates]) -> None:
        self._read()
        if self._problem is not None and self._problem.code in _UNREADABLE:
            raise self._problem
        edited = edit(self._saved)
        make_folder(self._path.parent)
        if self._problem is not None:
            set_aside(self._path)
        write_atomically(self._path, ladders_to_json(edited))
        self._saved, self._problem = edited, None
        self.changed.emit()

    def _read(self) -> None:
        before = (self._saved, self._problem)
        self._saved, self._problem = LadderTemplates(), None
        try:
            self._saved = ladders_from_json(read_bytes(self._path))
        except FileProblem as problem:
            if problem.code != "file-not-found":
                self._problem = FileProblem(problem.code, **problem.params | {"path": str(self._path)})
        if (self._saved, self._problem) != before:
            self.changed.emit()


#: Of files that were not even looked into; what is wrong with them has to be mended first.
_UNREADABLE = ("file-not-readable", "is-a-folder", "not-a-regular-file", "name-too-long", "file-failed")
