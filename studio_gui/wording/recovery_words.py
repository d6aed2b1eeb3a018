"""What is said while unsaved work cannot be kept for a crash: why, and what would mend it.

The rule of this module: every cause has its own mend, and it is never that of a plan that cannot be saved:
nobody chose the folder of recovery, and nobody saves there.
"""

from __future__ import annotations

from pathlib import Path

from studio_gui.domain.errors import FileProblem
from studio_gui.wording.naming import one_line
from studio_gui.wording.told import Telling, Told
from studio_gui.wording.translation import TRANSLATED, Tongue

LONGEST_PATH = 300


def recovery_is_off(problem: FileProblem, folder: Path, tongue: Tongue = TRANSLATED) -> str:
    """Return that nothing is kept in `folder`, why, and what would mend it, in one paragraph."""
    told = Told(problem.params, tongue).plus(folder=one_line(str(folder), LONGEST_PATH))
    cause = _CAUSES.get(problem.code, _other)(told)
    return told.plus(cause=cause).translate(
        "Recovery", "Recovery is off: after a crash, what was not saved would be lost. {cause}"
    )


def has_stayed(problem: FileProblem, folder: Path, tongue: Tongue = TRANSLATED) -> str:
    """Return why the program goes on although it was told to end, and what to do, in one paragraph."""
    told = Told(problem.params, tongue).plus(folder=one_line(str(folder), LONGEST_PATH))
    cause = _CAUSES.get(problem.code, _other)(told)
    return told.plus(cause=cause).translate(
        "Recovery",
        "Roving Lay was told to end and goes on, because what is not saved could not be kept. {cause}"
        " Save the plan now: told once more, it ends without it.",
    )


def how_long(tongue: Tongue = TRANSLATED) -> str:
    """Return what to do until it is mended, and how one will know that it is."""
    return tongue.translate(
        "Recovery", "Until then, save often. This note goes by itself once recovery works again."
    )


def _folder_not_writable(told: Told) -> str:
    return told.translate(
        "Recovery",
        "You may not write in {folder}. Give yourself the right to, or ask whoever looks after the computer.",
    )


def _in_the_way(told: Told) -> str:
    return told.translate(
        "Recovery", "The folder {folder} cannot be made. Move what stands in its place to another one."
    )


def _too_large(told: Told) -> str:
    if "most_bytes" in told.params:
        return _too_much(told)
    return told.translate(
        "Recovery", "The disk of {folder} takes no file as large as this plan. Make room there."
    )


def _too_much(told: Told) -> str:
    return told.translate(
        "Recovery", "The plan holds more than a file of it may. Take out what is not needed."
    )


def _other(told: Told) -> str:
    if told.text("reason"):
        return told.translate(
            "Recovery", "{folder} could not be written to: {reason}. See whether its disk is well."
        )
    return told.translate("Recovery", "{folder} could not be written to. See whether its disk is well.")


_CAUSES: dict[str, Telling] = {
    "disk-full": lambda told: told.translate(
        "Recovery", "The disk that {folder} is on is full. Make room on it."
    ),
    "folder-not-writable": _folder_not_writable,
    "file-not-writable": _folder_not_writable,
    "folder-missing": _in_the_way,
    "not-a-folder": _in_the_way,
    "file-too-large": _too_large,
    "too-many-values": _too_much,
}
