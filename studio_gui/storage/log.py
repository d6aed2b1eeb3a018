"""What the program did, for whoever has to find a fault in it.

The rule of this module: no recipe, no name and no path of the person's is ever written down: events are words
of the program itself with whole numbers, and of an error only its kind and where it happened. The log is
small, turns over, and never stops the program.
"""

from __future__ import annotations

import logging
import os
import traceback
from io import FileIO, TextIOWrapper
from logging.handlers import RotatingFileHandler
from pathlib import Path, PurePath

from studio_gui.domain.errors import FileProblem, RovingLayError
from studio_gui.storage.private import make_private_folder

FILE_NAME = "roving-lay.log"
LARGEST_LOG_BYTES = 256 * 1024
OLDER_LOGS = 2

_LOG = logging.getLogger("roving-lay")
_LOG.propagate = False
_LOG.addHandler(logging.NullHandler())


class _QuietHandler(RotatingFileHandler):
    """A handler that gives up in silence: a full disk is told of where it matters; nobody else reads it."""

    def _open(self) -> TextIOWrapper:
        flags = os.O_WRONLY | os.O_CREAT | os.O_APPEND | os.O_CLOEXEC
        return TextIOWrapper(FileIO(os.open(self.baseFilename, flags, 0o600), "ab"), self.encoding)

    def handleError(self, record: logging.LogRecord) -> None:  # noqa: ARG002, N802  (as logging has it)
        return


def start_log(folder: Path) -> None:
    """Write the log into `folder` from now on, in place of where it was written before."""
    stop_log()
    try:
        make_private_folder(folder)
        handler = _QuietHandler(
            folder / FILE_NAME,
            maxBytes=LARGEST_LOG_BYTES,
            backupCount=OLDER_LOGS,
            encoding="utf-8",
            delay=True,
        )
    except FileProblem:
        return
    handler.setFormatter(logging.Formatter("%(asctime)s %(process)d %(message)s"))
    _LOG.addHandler(handler)
    _LOG.setLevel(logging.INFO)


def stop_log() -> None:
    """Write no log any more."""
    for handler in [one for one in _LOG.handlers if isinstance(one, _QuietHandler)]:
        _LOG.removeHandler(handler)
        handler.close()


def note(event: str, **numbers: int) -> None:
    """Write down an event, a word of the program's own, with numbers of which none is of a recipe."""
    _LOG.info(" ".join([event, *(f"{name}={number:d}" for name, number in numbers.items())]))


def note_error(error: BaseException) -> str:
    """Write down an error, and return what was written: its kind and where it happened, no values."""
    report = report_of(error)
    _LOG.error(report)
    return report


def report_of(error: BaseException) -> str:
    r"""Return the kind of an error and the places it came through, the innermost last.

    >>> report_of(KeyError("Slate blue, 12+38"))
    'KeyError'
    """
    kind = type(error).__name__
    if isinstance(error, RovingLayError):
        kind = f"{kind} {error.code}"
    places = [
        f"  {_short(frame.filename)}:{frame.lineno} {frame.name}"
        for frame in traceback.extract_tb(error.__traceback__)
    ]
    return "\n".join([kind, *places])


def _short(name: str) -> str:
    """Return a source file from its package on: where that is installed is the person's own business."""
    parts = PurePath(name).parts
    if "studio_gui" in parts:
        return "/".join(parts[len(parts) - 1 - parts[::-1].index("studio_gui") :])
    return "/".join(parts[-2:])
