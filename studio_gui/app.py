"""The program: opens the window on a plan, or exports one without a window.

The rule of this module: what cannot be done is told in one line on standard error, with status 2, before any
file is touched. The window and its libraries are loaded only when there is a window to open.
"""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

from studio_gui.display import NoDisplay, choose_display
from studio_gui.domain.errors import FileProblem, RovingLayError
from studio_gui.domain.worksheet import worksheet
from studio_gui.paths import font_path, program_version, samples_dir
from studio_gui.storage.files import PLAN_SUFFIX, read_plan
from studio_gui.storage.locks import HELD
from studio_gui.wording.naming import one_line
from studio_gui.wording.translation import translate

if TYPE_CHECKING:
    from studio_gui.document.open_plan import OpenPlan
    from studio_gui.domain.plan import Plan
    from studio_gui.views.main_window import MainWindow

PROGRAM = "roving-lay"
FIRST_SAMPLE = f"harbour-thaw{PLAN_SUFFIX}"
REFUSED = 2
LONGEST_LINE = 500


def main(argv: Sequence[str] | None = None) -> int:
    """Run the program on the arguments `argv` (those of the process if None) and return its exit status."""
    arguments = _Arguments(prog=PROGRAM, allow_abbrev=False, description="Plans hand-painted roving.").parsed(
        argv
    )
    if arguments.version:
        print(f"{PROGRAM} {program_version()}")  # noqa: T201  (a command line's only voice)
        return 0
    try:
        if arguments.export is not None:
            return _export(arguments.plan, arguments.export)
        return _open_window(arguments.plan)
    except RovingLayError as error:
        return _refuse(_words(error))
    except NoDisplay as error:
        lead = translate("CommandLine", "No window can be opened here ({reason}).").format(reason=error)
        way = translate("CommandLine", "To write a file instead: {command}")
        return _refuse(f"{lead} {way.format(command=f'{PROGRAM} PLAN --export OUT')}")


class _Arguments(argparse.ArgumentParser):
    """The command line; a slip in it is one line, like every refusal."""

    def parsed(self, argv: Sequence[str] | None) -> argparse.Namespace:
        self.add_argument("plan", nargs="?", type=Path, metavar="PLAN", help=f"a plan, NAME{PLAN_SUFFIX}")
        self.add_argument(
            "--export",
            type=Path,
            metavar="OUT",
            help="write PLAN to OUT (.pdf .svg .png .json .csv) and open no window; needs no display",
        )
        self.add_argument("--version", action="store_true", help="say which version this is")
        arguments = self.parse_args(argv)
        if arguments.export is not None and arguments.plan is None:
            self.error("--export needs a PLAN")
        return arguments

    def error(self, message: str) -> NoReturn:
        sys.exit(_refuse(one_line(message, LONGEST_LINE)))


def _export(plan_path: Path, out: Path) -> int:
    """Write the plan to `out` by its ending. Qt draws off screen, and keeps quiet about what it lacks."""
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    os.environ.setdefault("QT_LOGGING_RULES", "*=false")
    from PySide6.QtGui import QGuiApplication  # noqa: PLC0415

    from studio_gui.export.registry import export_plan  # noqa: PLC0415

    application = QGuiApplication.instance() or QGuiApplication([PROGRAM])
    plan = read_plan(plan_path)
    if _is_same_file(out, plan_path):
        raise FileProblem("export-onto-plan", path=str(out))
    export_plan(worksheet(plan), out)
    del application
    return 0


def _open_window(plan_path: Path | None) -> int:
    """Open the window on a plan, or on an unsaved copy of the first sample, and return when it is closed."""
    document, problem = _opened(plan_path)
    choose_display()
    from PySide6.QtCore import QTimer  # noqa: PLC0415
    from PySide6.QtGui import QFontDatabase, QFontInfo  # noqa: PLC0415
    from PySide6.QtWidgets import QApplication  # noqa: PLC0415

    from studio_gui.document.autosave import state_folder  # noqa: PLC0415
    from studio_gui.storage.log import note, start_log  # noqa: PLC0415
    from studio_gui.storage.private import close_to_others  # noqa: PLC0415
    from studio_gui.views.fault_dialog import FaultWatch  # noqa: PLC0415
    from studio_gui.views.leaving import Leaving  # noqa: PLC0415
    from studio_gui.views.main_window import MainWindow  # noqa: PLC0415
    from studio_gui.views.readable import keep_readable  # noqa: PLC0415

    application = QApplication([PROGRAM])
    application.setApplicationDisplayName("Roving Lay")
    application.setDesktopFileName(PROGRAM)
    keep_readable(application)
    if not QFontInfo(application.font()).family():
        QFontDatabase.addApplicationFont(str(font_path()))  # the system has no font at all
    start_log(state_folder() / "log")
    close_to_others(state_folder())
    note("started", process=os.getpid())
    window = MainWindow(document)
    FaultWatch(window.autosave, window).install()
    leaving = Leaving(window.autosave, window)
    leaving.left.connect(lambda _status: window.leave())
    leaving.left.connect(application.exit)
    leaving.stayed.connect(lambda: _refuse(window.recovery.say_stayed()))
    leaving.listen()
    window.furnished.connect(gc.freeze)  # a search through all that stays would cost a frame its time
    window.show()
    QTimer.singleShot(0, window, partial(_begin, window, plan_path, problem))
    status = application.exec()
    note("ended")
    return status


def _opened(plan_path: Path | None) -> tuple[OpenPlan, FileProblem | None]:
    """Return the plan to begin with, and why it is not that of the file itself, if it is not.

    Where somebody else has the file open it is a copy; where it cannot be opened, the first sample. A window
    opens nevertheless: whoever starts the program by a click would hear nothing else, and what a crash left
    behind may be the very copy that is needed.
    """
    from studio_gui.document.open_plan import OpenPlan  # noqa: PLC0415

    if plan_path is not None:
        try:
            return OpenPlan.from_file(plan_path), None
        except FileProblem as problem:
            if problem.code in HELD:
                return OpenPlan(read_plan(plan_path)), problem
            _refuse(_words(problem))
            return OpenPlan(_first_sample()), problem
    return OpenPlan(_first_sample()), None


def _first_sample() -> Plan:
    return read_plan(samples_dir() / FIRST_SAMPLE)


def _begin(window: MainWindow, plan_path: Path | None, problem: FileProblem | None) -> None:
    """Say why the file was not opened, if it was not, and then offer what a crash left behind."""
    if plan_path is not None and problem is not None:
        window.files.say_not_opened(plan_path, problem)
    window.recovery.offer_at_start()


def _words(error: RovingLayError) -> str:
    from studio_gui.wording.sentences import refusal  # noqa: PLC0415  (a start that goes well needs none)

    return refusal(error)


def _is_same_file(one: Path, other: Path) -> bool:
    try:
        return one.samefile(other)
    except OSError:
        return False  # one of them is not there, or has a name that cannot be


def _refuse(line: str) -> int:
    print(f"{PROGRAM}: {line}", file=sys.stderr)  # noqa: T201  (a command line's only voice)
    return REFUSED
