"""If these fail, a crash costs what somebody was typing, or half a value gets into a plan by itself."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtGui import QFocusEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QLineEdit
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.storage.files import read_plan, save_plan
from studio_gui.storage.recovery import Snapshot, Typed, orphans
from studio_gui.views.main_window import MainWindow
from tests.drawing.plans import plain_plan
from tests.views.keys import ENTER, ESC, click_cell

ROOT = Path(__file__).parents[2]
TYPING = """
import os, signal, sys
from PySide6.QtCore import QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from studio_gui.app import main
from studio_gui.views.main_window import MainWindow

def work():
    window = next(one for one in QApplication.topLevelWidgets() if isinstance(one, MainWindow))
    window.activateWindow()
    field = window.panes.inputs.title
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "Half a tit")
    look = QTimer(window)
    look.timeout.connect(lambda: window.autosave.file.exists() and os.kill(os.getpid(), signal.SIGKILL))
    look.start(50)

show = MainWindow.show
def shown(self):
    show(self)
    QTimer.singleShot(300, work)
MainWindow.show = shown
sys.exit(main(sys.argv[1:]))
"""


@pytest.fixture
def window(qtbot: QtBot, tmp_path: Path) -> MainWindow:
    settings = QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)
    window = MainWindow(OpenPlan(plain_plan(4)), Preferences(settings), tmp_path / "recovery")
    qtbot.addWidget(window, before_close_func=lambda one: one.document.undo_stack.setClean())
    with qtbot.waitExposed(window):
        window.show()
    qtbot.waitUntil(lambda: "panes" in window.__dict__)
    window.activateWindow()
    return window


def type_half(field: QLineEdit, text: str) -> None:
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)


def test_a_kill_amid_typing_costs_no_letter_and_enters_none(tmp_path: Path) -> None:
    path, plan = tmp_path / "mine.roving.json", plain_plan(4)
    save_plan(path, plan)
    done = subprocess.run(
        [sys.executable, "-c", TYPING, str(path)],
        cwd=ROOT,
        env=os.environ | {"QT_QPA_PLATFORM": "offscreen", "XDG_STATE_HOME": str(tmp_path / "state")},
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert done.returncode == -signal.SIGKILL, done.stderr
    (orphan,) = orphans(tmp_path / "state" / "roving-lay" / "recovery")
    assert isinstance(orphan.found, Snapshot)
    assert orphan.found.typed is not None
    assert orphan.found.typed.text == "Half a tit"
    assert orphan.found.plan == read_plan(path) == plan


def told(window: MainWindow) -> Typed | None:
    return window.autosave.typed


def test_what_is_typed_is_told_until_it_is_entered_or_dropped(window: MainWindow) -> None:
    title = window.panes.inputs.title
    for end in (ENTER, ESC):
        type_half(title, "Two Sho")
        assert told(window) == Typed(title.accessibleName(), "Two Sho")
        QTest.keyClick(title, end)
        assert told(window) is None
        window.document.undo_stack.undo()
        window.canvas.setFocus()
    type_half(title, "Two")
    QTest.keyClick(title, Qt.Key.Key_Tab)
    assert told(window) is None
    assert window.document.plan.title == "Two"


def test_half_a_cell_is_told_by_its_column(window: MainWindow) -> None:
    table = window.panes.table.view
    click_cell(table, 1, 1)
    QTest.keyClick(table, Qt.Key.Key_F2)
    editor = QApplication.focusWidget()
    assert isinstance(editor, QLineEdit)
    QTest.keyClicks(editor, "Sla")
    typed = told(window)
    assert typed is not None
    assert typed.text.endswith("Sla")
    assert typed.where == table.model().headerData(1, Qt.Orientation.Horizontal)
    QTest.keyClick(editor, ESC)
    QApplication.processEvents()
    assert told(window) is None


def test_a_window_of_the_window_counts_and_a_foreign_one_does_not(window: MainWindow, qtbot: QtBot) -> None:
    mine, foreign = QDialog(window), QDialog()
    for dialog, is_told in ((mine, True), (foreign, False)):
        qtbot.addWidget(dialog)
        field = QLineEdit(dialog)
        dialog.show()
        dialog.activateWindow()
        qtbot.waitUntil(dialog.isActiveWindow)
        type_half(field, "12")
        assert (told(window) == Typed("", "12")) == is_told
        dialog.close()
    QApplication.processEvents()
    assert told(window) is None


def test_a_window_that_is_left_for_another_enters_what_was_typed(window: MainWindow) -> None:
    title = window.panes.inputs.title
    type_half(title, "Two Shores")
    left = QFocusEvent(QFocusEvent.Type.FocusOut, Qt.FocusReason.ActiveWindowFocusReason)
    QApplication.sendEvent(title, left)
    assert window.document.plan.title == "Two Shores"
