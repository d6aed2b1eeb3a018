"""If these fail, a program that the system ends loses what was done or typed last, or hangs."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from studio_gui.document.autosave import Autosave
from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.errors import FileProblem
from studio_gui.storage.files import read_plan, save_plan
from studio_gui.storage.locks import lock_path
from studio_gui.storage.recovery import Snapshot, orphans
from studio_gui.views.leaving import SIGNALS, Leaving
from tests.drawing.plans import plain_plan

ROOT = Path(__file__).parents[2]
EDITING = """
import os, signal, sys
from dataclasses import replace
from PySide6.QtCore import QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from studio_gui.app import main
from studio_gui.views.main_window import MainWindow

def work():
    window = next(one for one in QApplication.topLevelWidgets() if isinstance(one, MainWindow))
    window.document.edit("Rename", lambda plan: replace(plan, title="Moved just now"))
    field = window.panes.inputs.title
    window.activateWindow()
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "Typed just now")
    assert window.document.plan.title == "Moved just now"
    {then}

for number in (signal.SIGTERM, signal.SIGINT, signal.SIGHUP):
    signal.signal(number, signal.SIG_DFL)  # tests in the background of a shell start with SIGINT ignored
{first}
show = MainWindow.show
def shown(self):
    show(self)
    QTimer.singleShot(300, work)
MainWindow.show = shown
sys.exit(main(sys.argv[1:]))
"""
ASKED = """
    QTimer.singleShot(0, window.close)
    QTimer.singleShot(300, lambda: os.kill(os.getpid(), signal.{name}))
"""


def run(then: str, folder: Path, first: str = "") -> subprocess.CompletedProcess[str]:
    path = folder / "mine.roving.json"
    save_plan(path, plain_plan(4))
    return subprocess.run(
        [sys.executable, "-c", EDITING.replace("{then}", then).replace("{first}", first), str(path)],
        cwd=ROOT,
        env=os.environ | {"QT_QPA_PLATFORM": "offscreen", "XDG_STATE_HOME": str(folder / "state")},
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )


def recovered(folder: Path) -> Snapshot:
    (orphan,) = orphans(folder / "state" / "roving-lay" / "recovery")
    assert isinstance(orphan.found, Snapshot)
    return orphan.found


@pytest.mark.parametrize("number", SIGNALS, ids=lambda number: number.name)
def test_a_signal_right_after_an_edit_costs_neither_it_nor_what_is_being_typed(
    number: signal.Signals, tmp_path: Path
) -> None:
    done = run(f"os.kill(os.getpid(), signal.{number.name})", tmp_path)
    assert done.returncode == 128 + number, done.stderr
    assert recovered(tmp_path).plan.title == "Typed just now"
    assert read_plan(tmp_path / "mine.roving.json").title == plain_plan(4).title
    assert not lock_path(tmp_path / "mine.roving.json").exists(), "others can open it"


def test_a_signal_ends_the_program_amid_a_question_too(tmp_path: Path) -> None:
    done = run(ASKED.replace("{name}", "SIGTERM").strip(), tmp_path)
    assert done.returncode == 128 + signal.SIGTERM, done.stderr
    assert "Traceback" not in done.stderr
    assert recovered(tmp_path).plan.title == "Typed just now"


def test_a_signal_with_nothing_unsaved_leaves_nothing(qtbot: QtBot, tmp_path: Path) -> None:
    document = OpenPlan(plain_plan(4))
    leaving = Leaving(Autosave(document, tmp_path / "recovery"))
    with qtbot.waitSignal(leaving.left):
        leaving.leave(signal.SIGTERM)
    assert not (tmp_path / "recovery").exists()


def test_the_end_of_the_session_keeps_at_once_and_the_work_can_go_on(
    document: OpenPlan, tmp_path: Path
) -> None:
    autosave = Autosave(document, tmp_path / "recovery")
    document.edit("Rename", lambda plan: replace(plan, title="Just now"))
    assert Leaving(autosave).keep()
    assert autosave.file.exists()
    document.undo_stack.undo()
    assert Leaving(autosave).keep()
    assert not autosave.file.exists()
    autosave.end()


def test_the_first_signal_ends_nothing_while_nothing_can_be_kept_and_says_so(
    document: OpenPlan, tmp_path: Path
) -> None:
    (tmp_path / "recovery").write_bytes(b"in the way")
    autosave = Autosave(document, tmp_path / "recovery")
    leaving = Leaving(autosave)
    left: list[int] = []
    told: list[object] = []
    leaving.left.connect(left.append)
    autosave.failed.connect(told.append)
    document.edit("Rename", lambda plan: replace(plan, title="Just now"))
    leaving.leave(signal.SIGTERM)
    assert (len(left), [type(problem) for problem in told]) == (0, [FileProblem])
    leaving.leave(signal.SIGTERM)
    assert left == [128 + signal.SIGTERM]


def test_who_told_it_to_end_hears_why_it_goes_on(tmp_path: Path) -> None:
    (tmp_path / "state" / "roving-lay").mkdir(parents=True)
    (tmp_path / "state" / "roving-lay" / "recovery").write_bytes(b"in the way")
    twice = (
        "os.kill(os.getpid(), signal.SIGTERM)\n"
        "    def again():\n"
        "        print(*[box.text() for box in window.findChildren(QMessageBox) if box.isVisible()])\n"
        "        os.kill(os.getpid(), signal.SIGTERM)\n"
        "    QTimer.singleShot(800, again)"
    )
    done = run(twice, tmp_path, "from PySide6.QtWidgets import QMessageBox")
    words = done.stdout.strip()
    assert words.startswith("Roving Lay was told to end and goes on")
    assert words.endswith("Save the plan now: told once more, it ends without it.")
    assert f"roving-lay: {words}" in done.stderr.splitlines()
    assert done.returncode == 128 + signal.SIGTERM


def test_what_whoever_started_the_program_ignores_stays_ignored(tmp_path: Path) -> None:
    hang_up = (
        "os.kill(os.getpid(), signal.SIGHUP)\n"
        "    QTimer.singleShot(200, lambda: os.kill(os.getpid(), signal.SIGINT))"
    )
    done = run(hang_up, tmp_path, first="signal.signal(signal.SIGHUP, signal.SIG_IGN)")
    assert done.returncode == 128 + signal.SIGINT


def test_what_is_typed_and_cannot_be_entered_is_kept_as_it_stands(tmp_path: Path) -> None:
    cannot = (
        "field = window.panes.inputs.pieces\n"
        "    field.setFocus()\n"
        "    field.selectAll()\n"
        "    QTest.keyClicks(field, 'heavy')\n"
        "    os.kill(os.getpid(), signal.SIGTERM)"
    )
    assert run(cannot, tmp_path).returncode == 128 + signal.SIGTERM
    typed = recovered(tmp_path).typed
    assert typed is not None
    assert typed.text == "heavy"
