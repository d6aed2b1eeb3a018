"""If these fail, a mistake of the program costs somebody's work, shuts the window, or tells recipes."""

from __future__ import annotations

import sys
import threading
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.autosave import Autosave
from studio_gui.document.open_plan import OpenPlan
from studio_gui.storage.recovery import Snapshot, SnapshotFile, orphans
from studio_gui.views.fault_dialog import FaultDialog, FaultWatch

RECIPE = "Slate 12 + 38"


class Desk:
    """A window with its watch; `fail` is a mistake of the program on the window's thread."""

    def __init__(self, qtbot: QtBot, document: OpenPlan, folder: Path) -> None:
        self.qtbot, self.document, self.folder = qtbot, document, folder
        self.window = QWidget()
        qtbot.addWidget(self.window)
        self.window.show()
        self.autosave = Autosave(document, folder, self.window)
        self.watch = FaultWatch(self.autosave, self.window)

    def fail(self, words: str = RECIPE) -> None:
        try:
            dict[str, str]()[words]
        except KeyError as error:
            sys.excepthook(KeyError, error, error.__traceback__)

    def dialog(self) -> FaultDialog:
        self.qtbot.waitUntil(lambda: self.watch.dialog is not None)
        assert self.watch.dialog is not None
        return self.watch.dialog

    def kept_title(self) -> str:
        self.autosave._file.let_go()  # as if killed
        (orphan,) = orphans(self.folder)
        assert isinstance(orphan.found, Snapshot)
        return orphan.found.plan.title


@pytest.fixture
def desk(qtbot: QtBot, document: OpenPlan, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Desk]:
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(threading, "excepthook", threading.excepthook)
    desk = Desk(qtbot, document, tmp_path / "recovery")
    desk.watch.install()
    yield desk
    desk.autosave.end()


def test_a_mistake_keeps_what_is_not_saved_and_says_so_plainly(desk: Desk) -> None:
    desk.document.edit("Rename", lambda plan: replace(plan, title=RECIPE))
    desk.fail()
    dialog = desk.dialog()
    assert "Your work is safe" in dialog.words.text()
    QTest.mouseClick(dialog.copy, Qt.MouseButton.LeftButton)
    copied = QGuiApplication.clipboard().text()
    assert "KeyError" in copied
    assert "test_fault_dialog.py:" in copied
    assert RECIPE not in copied
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    desk.qtbot.waitUntil(lambda: desk.watch.dialog is None)
    assert desk.window.isVisible()
    assert desk.document.edit("Rename", lambda plan: replace(plan, title="Goes on"))
    assert desk.kept_title() == RECIPE


def test_the_same_mistake_again_and_again_is_told_once(desk: Desk) -> None:
    for _ in range(5):
        desk.fail()
    first = desk.dialog()
    desk.fail()
    QTest.mouseClick(first.go_on, Qt.MouseButton.LeftButton)
    desk.qtbot.waitUntil(lambda: desk.watch.dialog is None)
    desk.qtbot.wait(50)
    assert desk.watch.dialog is None


def test_a_mistake_on_another_thread_is_told_too(desk: Desk) -> None:
    thread = threading.Thread(target=lambda: int("x"))
    thread.start()
    thread.join()
    assert "ValueError" in desk.dialog().details.toPlainText()


def test_that_nothing_could_be_kept_is_told(
    desk: Desk, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    (tmp_path / "file").write_bytes(b"")
    monkeypatch.setattr(desk.autosave, "_file", SnapshotFile(tmp_path / "file" / "recovery"))
    desk.document.edit("Rename", lambda plan: replace(plan, title=RECIPE))
    desk.fail()
    assert "save it now" in desk.dialog().words.text()
    desk.document.undo_stack.setClean()


def test_an_interruption_by_keyboard_is_no_mistake(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    passed: list[object] = []
    monkeypatch.setattr(sys, "__excepthook__", lambda *told: passed.append(told[0]))
    sys.excepthook(KeyboardInterrupt, KeyboardInterrupt(), None)
    assert passed == [KeyboardInterrupt]
    assert desk.watch.dialog is None
