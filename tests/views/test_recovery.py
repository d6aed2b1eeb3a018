"""If these fail, work that a crash left behind is not offered, misread, or deleted unasked."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtGui import QColor, QPalette
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialog, QMessageBox, QPushButton
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.errors import FileProblem
from studio_gui.domain.plan import Plan
from studio_gui.drawing.look import look_for
from studio_gui.storage.files import fingerprint, read_plan, save_plan
from studio_gui.storage.locks import lock_path
from studio_gui.storage.recovery import SnapshotFile, Typed, adopt, orphans
from studio_gui.storage.strict_json import Json, serialise
from studio_gui.views.main_window import MainWindow
from studio_gui.views.recovery_dialog import RecoveryDialog
from tests.drawing.plans import plain_plan
from tests.views.dialogs import Answer, answering, cancel, click_text, press, soon

Button = QMessageBox.StandardButton
PLAN = replace(plain_plan(4), title="Two Shores")
CHANGED = move_boundary(replace(PLAN, title="Two Shores again"), 0, 1.2)


class Start:
    """A window at its start, and the folder of snapshots it looks into."""

    def __init__(self, qtbot: QtBot, folder: Path) -> None:
        self.snapshots = folder / "recovery"
        settings = QSettings(str(folder / "settings.ini"), QSettings.Format.IniFormat)
        self.window = MainWindow(OpenPlan(plain_plan(2)), Preferences(settings), self.snapshots)
        qtbot.addWidget(self.window, before_close_func=lambda one: one.document.undo_stack.setClean())
        with qtbot.waitExposed(self.window):
            self.window.show()

    def leave(self, plan: Plan, path: Path | None = None) -> Path:
        kept = SnapshotFile(self.snapshots)
        kept.write(plan, path, fingerprint(path) if path is not None else None)
        kept.let_go()
        return kept.file

    @property
    def status(self) -> str:
        return self.window.statusBar().currentMessage()


@pytest.fixture
def start(qtbot: QtBot, tmp_path: Path) -> Start:
    return Start(qtbot, tmp_path)


def click(button: Callable[[RecoveryDialog], QPushButton], *, row: int = 0) -> Answer:
    """Choose a row and click a button, as the pictures of the dialog suggest."""

    def answer(dialog: QDialog) -> None:
        assert isinstance(dialog, RecoveryDialog)
        dialog.list.setCurrentRow(row)
        QTest.mouseClick(button(dialog), Qt.MouseButton.LeftButton)

    return answer


RECOVER = click(lambda dialog: dialog.recover)
RECOVER_SECOND = click(lambda dialog: dialog.recover, row=1)
LATER = click(lambda dialog: dialog.later)
DELETE = click(lambda dialog: dialog.delete)


def details(said: list[str]) -> Answer:
    def answer(dialog: QDialog) -> None:
        assert isinstance(dialog, RecoveryDialog)
        for row in range(dialog.list.count()):
            dialog.list.setCurrentRow(row)
            said.append(f"{dialog.list.item(row).text()}: {dialog.details.text()}")
        cancel(dialog)

    return answer


def test_a_start_without_anything_left_behind_asks_nothing(start: Start) -> None:
    with answering():
        start.window.recovery.offer_at_start()
        start.window.menus.recover_action.trigger()
    assert "no unsaved work" in start.status


def test_recovered_work_opens_as_modified_and_says_so_and_goes_on(start: Start, tmp_path: Path) -> None:
    path = tmp_path / "mine.roving.json"
    save_plan(path, PLAN)
    file = start.leave(CHANGED, path)
    with answering(RECOVER):
        start.window.recovery.offer_at_start()
    document = start.window.document
    assert document.plan == CHANGED
    assert document.path == path
    assert start.window.isWindowModified()
    assert "(recovered)" in start.window.windowTitle()
    assert "not saved yet" in start.status
    assert file.exists()
    assert start.window.files.save()
    assert "(recovered)" not in start.window.windowTitle()
    assert read_plan(path) == CHANGED


def test_what_was_being_typed_is_told_before_and_after_and_enters_nothing(
    start: Start, tmp_path: Path
) -> None:
    path = tmp_path / "mine.roving.json"
    save_plan(path, PLAN)
    kept = SnapshotFile(start.snapshots)
    kept.write(PLAN, path, fingerprint(path), Typed("Title", "Two Sho"))
    kept.let_go()
    said: list[str] = []
    with answering(details(said)):
        start.window.recovery.offer_at_start()
    assert "Typed in “Title”, and not entered: “Two Sho”." in said[0]
    assert "The plan is as it stands in the file." in said[0]
    with answering(RECOVER):
        start.window.recovery.offer_at_start()
    assert start.status.endswith("Typed in “Title”, and not entered: “Two Sho”.")
    assert start.window.document.plan == PLAN


def test_a_plan_that_was_never_saved_is_recovered_without_a_file(start: Start) -> None:
    start.leave(CHANGED)
    with answering(RECOVER):
        start.window.menus.recover_action.trigger()
    assert start.window.document.plan == CHANGED
    assert start.window.document.path is None
    assert start.window.isWindowModified()


def test_what_is_open_is_asked_about_before_recovered_work_takes_its_place(start: Start) -> None:
    start.leave(CHANGED)
    start.window.document.edit("Rename", lambda plan: replace(plan, title="Here"))
    with answering(RECOVER, press(Button.Cancel)):
        start.window.menus.recover_action.trigger()
    assert start.window.document.plan.title == "Here"
    assert len(orphans(start.snapshots)) == 1


def test_each_is_offered_with_its_time_and_what_differs(start: Start, tmp_path: Path) -> None:
    paths = [tmp_path / f"{name}.roving.json" for name in ("same", "changed", "gone", "broken")]
    for path in paths:
        save_plan(path, PLAN)
        start.leave(CHANGED, path)
    save_plan(paths[1], replace(PLAN, wicking_mm=3.0))
    paths[2].unlink()
    paths[3].write_bytes(b"{")
    start.leave(CHANGED)
    start.leave(CHANGED).write_bytes(b"damaged")
    said: list[str] = []
    with answering(details(said)):
        start.window.recovery.offer_at_start()
    told = "\n".join(said)
    assert len(said) == 6
    assert "differs from the file in: the title, boundaries: 1." in told
    assert "changed since. It differs in: the title, boundaries: 1, the wicking." in told
    assert "not there any more" in told
    assert "cannot be compared" in told
    assert "never saved to a file" in told
    assert "A copy that cannot be read: " in told
    assert told.count("Two Shores again – ") == 5


def test_what_is_left_alone_is_offered_again_and_nothing_is_deleted(start: Start) -> None:
    files = {start.leave(CHANGED), start.leave(PLAN)}
    for answer in (LATER, cancel, RECOVER):
        with answering(answer):
            start.window.recovery.offer_at_start()
        assert all(file.exists() for file in files)
    assert len(orphans(start.snapshots)) == 1, "the other one waits"


def test_only_the_button_and_its_question_delete(start: Start) -> None:
    start.leave(PLAN)
    start.leave(CHANGED)

    def twice(dialog: QDialog) -> None:
        assert isinstance(dialog, RecoveryDialog)
        QTest.mouseClick(dialog.delete, Qt.MouseButton.LeftButton)
        assert dialog.list.count() == 2
        dialog.list.setFocus()
        QTest.keyClick(dialog.list, Qt.Key.Key_Delete)
        assert dialog.list.count() == 1
        QTest.mouseClick(dialog.delete, Qt.MouseButton.LeftButton)

    with answering(soon(twice), press(Button.Cancel), press(Button.Yes), press(Button.Yes)) as said:
        start.window.recovery.offer_at_start()
    assert "Two Shores again" in said[1]
    assert orphans(start.snapshots) == []
    assert start.window.document.plan == plain_plan(2)


def test_what_another_window_took_meanwhile_is_told_and_left_to_it(start: Start) -> None:
    start.leave(PLAN)
    start.leave(CHANGED)
    (first, second) = orphans(start.snapshots)

    def late(dialog: QDialog) -> None:
        assert isinstance(dialog, RecoveryDialog)
        adopted = adopt(first)
        QTest.mouseClick(dialog.delete, Qt.MouseButton.LeftButton)
        assert dialog.details.text().startswith("Another window has begun to recover this")
        assert not dialog.delete.isEnabled()
        dialog.list.setFocus()
        for key in (Qt.Key.Key_Delete, Qt.Key.Key_Return):
            QTest.keyClick(dialog.list, key)
        assert dialog.list.count() == 2
        adopted.close()
        dialog.list.setCurrentRow(1)
        assert dialog.delete.isEnabled()
        adopt(second).close()
        RECOVER_SECOND(dialog)
        assert dialog.details.text().startswith("Another window has saved this by now")
        cancel(dialog)

    with answering(late):
        start.window.recovery.offer_at_start()
    assert start.window.document.plan == plain_plan(2)


def test_what_is_taken_while_it_is_asked_about_is_not_deleted(start: Start) -> None:
    file = start.leave(CHANGED)
    taken: list[SnapshotFile] = []

    def delete(dialog: QDialog) -> None:
        DELETE(dialog)
        assert isinstance(dialog, RecoveryDialog)
        assert dialog.details.text().startswith("Another window has begun to recover this")
        cancel(dialog)

    def late(dialog: QDialog) -> None:
        taken.extend(adopt(orphan) for orphan in orphans(start.snapshots))
        press(Button.Yes)(dialog)

    with answering(soon(delete), late):
        start.window.recovery.offer_at_start()
    assert file.exists()
    taken[0].let_go()


def test_what_cannot_be_deleted_is_not_said_to_be(start: Start, monkeypatch: pytest.MonkeyPatch) -> None:
    file = start.leave(CHANGED)
    monkeypatch.setattr(SnapshotFile, "remove", lambda _file: None)

    def delete(dialog: QDialog) -> None:
        DELETE(dialog)
        assert isinstance(dialog, RecoveryDialog)
        assert dialog.message.text().startswith("This copy may not be deleted")
        assert dialog.list.count() == 1
        cancel(dialog)

    with answering(soon(delete), press(Button.Yes)):
        start.window.recovery.offer_at_start()
    assert file.exists()


def test_what_is_taken_at_the_last_moment_is_told(start: Start) -> None:
    start.leave(CHANGED)
    start.window.document.edit("Rename", lambda plan: replace(plan, title="Here"))
    taken: list[SnapshotFile] = []

    def late(dialog: QDialog) -> None:
        taken.extend(adopt(orphan) for orphan in orphans(start.snapshots))
        press(Button.Discard)(dialog)

    with answering(RECOVER, late):
        start.window.recovery.offer_at_start()
    assert start.status.startswith("Another window has begun to recover this")
    assert start.window.document.plan.title == "Here"
    taken[0].let_go()


def test_a_copy_of_another_computer_is_told_as_such(start: Start) -> None:
    file = start.leave(PLAN)
    words: Json = {"program": "x", "user": "ann", "host": "loft", "process": 1, "since": "2026-01-02"}
    lock_path(file).write_bytes(serialise(words))
    said: list[str] = []
    with answering(details(said)):
        start.window.recovery.offer_at_start()
    assert "Kept on the computer “loft”." in said[0]


def test_that_nothing_can_be_kept_stays_in_sight_until_it_can(start: Start, qtbot: QtBot) -> None:
    window = start.window
    off = window.recovery.off
    assert not off.isVisible()
    start.snapshots.write_bytes(b"in the way")
    window.document.edit("Rename", lambda plan: replace(plan, title="Here"))
    with pytest.raises(FileProblem):
        window.autosave.keep_now()
    assert start.status.endswith("Click “Recovery is off” for why.")
    window.statusBar().clearMessage()
    assert off.isVisible()
    with answering(cancel) as said:
        QTest.mouseClick(off, Qt.MouseButton.LeftButton)
    assert f"The folder {start.snapshots} cannot be made. Move what stands in its place" in said[0]
    assert said[0].split() == off.toolTip().split()
    window.full_screen.set_on(True)
    assert off.isVisible(), "nobody goes on without knowing because the bar is out of sight"
    start.snapshots.unlink()
    with qtbot.waitSignal(window.autosave.mended, timeout=3_000), answering(click_text("Try again")):
        QTest.mouseClick(off, Qt.MouseButton.LeftButton)
    assert not off.isVisible()
    assert not window.statusBar().isVisible()
    assert window.autosave.file.exists()
    assert start.status.startswith("Recovery works again")
    window.full_screen.set_on(False)


def test_the_note_is_told_from_the_ground_in_light_and_dark(start: Start) -> None:
    off = start.window.recovery.off
    for ground in ("white", "#202020"):
        palette = QPalette(QColor("black"), QColor(ground))
        start.window.setPalette(palette)
        expected = look_for(start.window.statusBar().palette()).over
        assert off.palette().color(QPalette.ColorRole.ButtonText) == expected


def test_closing_leaves_nothing_behind_once_it_was_chosen(start: Start, tmp_path: Path) -> None:
    path = tmp_path / "mine.roving.json"
    start.window.document.save(path)
    start.window.document.edit("Rename", lambda plan: replace(plan, title="Here"))
    start.window.autosave.keep_now()
    with answering(press(Button.Cancel)):
        start.window.close()
    assert start.window.autosave.file.exists()
    with answering(press(Button.Discard)):
        start.window.close()
    assert orphans(start.snapshots) == []
    assert list(start.snapshots.iterdir()) == []
    assert not lock_path(path).exists()
