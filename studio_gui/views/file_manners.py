"""What all commands about files have in common: how a file is told of, and asked about before it is replaced.

The rule of this module: it writes nothing.
"""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QMessageBox, QWidget

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.domain.errors import RovingLayError
from studio_gui.storage.files import PLAN_SUFFIX
from studio_gui.views.questions import Button, ask, tell
from studio_gui.wording.naming import one_line
from studio_gui.wording.translation import translate

LONGEST_PATH = 160
MOST_TRIED = 1000


class CommandsOfFiles(QObject):
    """Commands about files of one window: what they work on, and how they tell what was done.

    Signals
    -------
    said
        A sentence for the status bar.
    """

    said = Signal(str)

    def __init__(self, document: OpenPlan, preferences: Preferences, window: QWidget) -> None:
        super().__init__(window)
        self._document, self._preferences, self._window = document, preferences, window


def told_path(path: Path) -> str:
    """Return a path fit to stand in a sentence."""
    return one_line(str(path), LONGEST_PATH)


def file_stem(document: OpenPlan) -> str:
    """Return what a file of the open plan is called without its ending."""
    if document.path is not None:
        return document.path.name.removesuffix(PLAN_SUFFIX)
    letters = "".join(c if c.isalnum() else "-" for c in document.plan.title.lower())
    return "-".join(filter(None, letters.split("-")))[:60] or "plan"


def free_path(path: Path) -> Path:
    """Return `path`, or the next of its name with a number where a file stands there, as a plan's."""
    stem = path.name.removesuffix(PLAN_SUFFIX)
    numbered = (path.with_name(f"{stem} {number}{PLAN_SUFFIX}") for number in range(2, MOST_TRIED))
    return next((one for one in (path, *numbered) if not _is_file(one)), path)


def finish_typing() -> None:
    """Take what is still being typed in a field or a table's cell: it belongs to the plan."""
    from studio_gui.views import fields  # noqa: PLC0415  (the first paint does without fields)

    fields.finish_typing()


def complain(window: QWidget, title: str, error: RovingLayError) -> None:
    """Say that something was not done, and why."""
    from studio_gui.wording.sentences import refusal  # noqa: PLC0415  (the first paint does without it)

    tell(window, title, f"{title}. {refusal(error)}")


def may_replace(window: QWidget, path: Path) -> bool:
    """Ask before a file is replaced that nobody typed the whole name of: its ending was put behind."""
    if not _is_file(path):
        return True
    answer = ask(
        window,
        translate("FileManners", "Write over this file?"),
        translate("FileManners", "“{0}” is there already. Write over it?").format(one_line(path.name)),
        Button.Yes | Button.Cancel,
        Button.Cancel,
        QMessageBox.Icon.Warning,
        yes=translate("FileManners", "&Write over it"),
    )
    return answer == Button.Yes


def _is_file(path: Path) -> bool:
    """Whether a file would be written over; what cannot be asked is told on saving, as of a long name."""
    try:
        return path.is_file()
    except OSError:
        return False
