"""If these fail, somebody loses work to New, Open, Save or Quit."""

from __future__ import annotations

import json
import os
import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialog, QLineEdit, QMessageBox, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.paths import samples_dir
from studio_gui.storage.files import read_plan, save_plan
from studio_gui.storage.locks import lock_path
from studio_gui.storage.strict_json import Json, serialise
from studio_gui.views.file_commands import FileCommands
from studio_gui.views.file_manners import file_stem
from tests.drawing.plans import plain_plan
from tests.storage.owners import another_holder
from tests.views.dialogs import answering, cancel, choose_file, click_text, press, soon

Button = QMessageBox.StandardButton


class Desk:
    """A document with its file commands, and a folder to keep plans in."""

    def __init__(self, qtbot: QtBot, folder: Path) -> None:
        self.folder = folder
        self.document = OpenPlan(plain_plan(3))
        self.window = QWidget()
        qtbot.addWidget(self.window)
        self.window.show()
        settings = QSettings(str(folder / "settings.ini"), QSettings.Format.IniFormat)
        self.preferences = Preferences(settings)
        self.files = FileCommands(self.document, self.preferences, self.window)
        self.said: list[str] = []
        self.files.said.connect(self.said.append)

    def change(self) -> None:
        assert self.document.edit("Move", lambda plan: move_boundary(plan, 0, 1.0))

    def plan_file(self, name: str = "other.roving.json") -> Path:
        path = self.folder / name
        save_plan(path, plain_plan(5))
        return path

    def modified(self) -> bool:
        return self.document.is_modified

    def plan(self) -> Plan:
        return self.document.plan


@pytest.fixture
def desk(qtbot: QtBot, tmp_path: Path) -> Desk:
    return Desk(qtbot, tmp_path)


def test_save_asks_for_a_name_once_and_then_writes_there(desk: Desk) -> None:
    desk.change()
    target = desk.folder / "mine.roving.json"
    with answering(choose_file(target)):
        desk.files.save_action.trigger()
    assert read_plan(target) == desk.plan()
    assert not desk.modified()
    assert "mine.roving.json" in desk.said[-1]
    desk.document.undo_stack.undo()
    assert desk.modified(), "undoing past the save is a change"
    with answering():
        desk.files.save_action.trigger()
    assert read_plan(target) == desk.plan()
    assert desk.preferences.folder == desk.folder


def test_dialogs_start_beside_the_plan_that_the_program_was_started_with(desk: Desk) -> None:
    mine = desk.folder / "shed"
    mine.mkdir()
    save_plan(mine / "mine.roving.json", plain_plan(3))
    FileCommands(OpenPlan.from_file(mine / "mine.roving.json"), desk.preferences, desk.window)
    assert desk.preferences.folder == mine
    sample = samples_dir() / "two-shores.roving.json"
    FileCommands(OpenPlan.from_file(sample), desk.preferences, desk.window)
    assert desk.preferences.folder == mine
    assert desk.preferences.recent[0] == sample


def test_a_name_without_ending_gets_the_plan_s(desk: Desk) -> None:
    with answering(choose_file(desk.folder / "plain")):
        desk.files.save_as_action.trigger()
    assert (desk.folder / "plain.roving.json").exists()
    desk.change()
    with answering(choose_file(desk.folder / "plain"), press(Button.Cancel)):
        desk.files.save_as_action.trigger()
    assert read_plan(desk.folder / "plain.roving.json") == plain_plan(3)


def test_leaving_the_dialog_saves_nothing(desk: Desk) -> None:
    desk.change()
    with answering(cancel):
        assert not desk.files.save()
    assert desk.modified()
    assert desk.document.path is None


def changed_by_another(desk: Desk) -> Path:
    """Open a plan, let something else change its title, and change a boundary here."""
    path = desk.plan_file()
    desk.document.open_file(path)
    path.write_bytes(path.read_bytes().replace(b"Plain", b"Theirs"))
    os.utime(path, (1_700_000_000, 1_700_000_000))
    desk.change()
    return path


def test_a_file_changed_outside_is_told_with_time_and_difference_and_stays(desk: Desk) -> None:
    path = changed_by_another(desk)
    foreign = path.read_bytes()
    with answering(cancel) as said:
        assert not desk.files.save()
    assert said[0].startswith("“other.roving.json” was changed by something else")
    assert "November 2023" in said[0]
    assert said[0].endswith("What is open here differs from it in: the title, boundaries: 1.")
    with answering(soon(click_text("Save as…")), cancel):
        assert not desk.files.save()
    mine = desk.folder / "mine.roving.json"
    with answering(soon(click_text("Save as…")), choose_file(mine)):
        assert desk.files.save()
    assert read_plan(mine) == desk.plan()
    assert path.read_bytes() == foreign


def test_a_file_changed_outside_is_kept_beside_where_it_is_written_over(desk: Desk) -> None:
    path = changed_by_another(desk)
    foreign = path.read_bytes()
    with answering(click_text("Keep both")):
        assert desk.files.save()
    assert read_plan(path) == desk.plan()
    assert (desk.folder / "other (other version).roving.json").read_bytes() == foreign
    assert "other (other version).roving.json" in desk.said[-1]
    desk.change()
    with answering():
        assert desk.files.save()


def test_a_file_changed_outside_can_be_shown_and_undone(desk: Desk) -> None:
    path = changed_by_another(desk)
    mine = desk.plan()
    with answering(click_text("Reload")):
        assert not desk.files.save()
    assert desk.plan() == read_plan(path)
    assert not desk.modified()
    assert "Undo gives yours back" in desk.said[-1]
    desk.document.undo_stack.undo()
    assert desk.plan() == mine
    assert desk.modified()
    with answering():
        assert desk.files.save()


def possible(dialog: QMessageBox) -> list[str]:
    """The answers that can be given; all stand in their places."""
    assert len(dialog.buttons()) == 4
    return [button.text().replace("&", "") for button in dialog.buttons() if button.isEnabled()]


def test_what_cannot_be_read_is_not_offered_to_be_shown_and_kept_whole(desk: Desk) -> None:
    path = changed_by_another(desk)
    path.write_bytes(b"no plan")

    def keep(dialog: QDialog) -> None:
        assert isinstance(dialog, QMessageBox)
        assert sorted(possible(dialog)) == ["Cancel", "Keep both", "Save as…"]
        click_text("Keep both")(dialog)

    with answering(keep) as said:
        assert desk.files.save()
    assert "It holds no plan that can be read" in said[0]
    assert (desk.folder / "other (other version).roving.json").read_bytes() == b"no plan"


def test_a_file_that_goes_while_it_is_asked_about_is_told(desk: Desk) -> None:
    path = changed_by_another(desk)
    mine = desk.plan()

    def late(dialog: QDialog) -> None:
        path.unlink()
        click_text("Reload")(dialog)

    with answering(soon(late), press(Button.Ok)) as said:
        assert not desk.files.save()
    assert "is not there" in said[1]
    assert desk.plan() == mine


def test_a_file_that_became_a_folder_is_told_and_saved_elsewhere(desk: Desk) -> None:
    path = changed_by_another(desk)
    path.unlink()
    path.mkdir()
    mine = desk.folder / "mine.roving.json"

    def elsewhere(dialog: QDialog) -> None:
        assert isinstance(dialog, QMessageBox)
        assert sorted(possible(dialog)) == ["Cancel", "Save as…"], "what cannot be read cannot be kept beside"
        click_text("Save as…")(dialog)

    with answering(soon(elsewhere), choose_file(mine)) as said:
        assert desk.files.save()
    assert "is a folder" in said[0]
    assert read_plan(mine) == desk.plan()


def test_the_same_file_chosen_again_is_asked_about_all_the_same(desk: Desk) -> None:
    path = changed_by_another(desk)
    with answering(soon(choose_file(path)), press(Button.Yes), cancel) as said:
        desk.files.save_as_action.trigger()
    assert "was changed by something else" in said[2]
    assert read_plan(path).title == "Theirs"


def proposed(dialog: QDialog) -> str:
    """The name that a file dialog begins with."""
    line = dialog.findChild(QLineEdit, "fileNameEdit")
    assert line is not None
    return line.text()


def test_where_its_own_file_is_of_no_use_a_free_name_is_proposed(desk: Desk) -> None:
    path = changed_by_another(desk)
    (desk.folder / "other 2.roving.json").write_bytes(b"somebody's")
    names: list[str] = []

    def take(dialog: QDialog) -> None:
        names.append(proposed(dialog))
        QTest.keyClick(dialog, Qt.Key.Key_Return)

    with answering(soon(click_text("Save as…")), take):
        assert desk.files.save()
    assert names == ["other 3.roving.json"]
    assert read_plan(desk.folder / names[0]) == desk.plan()
    assert read_plan(path).title == "Theirs"


def test_a_plan_without_a_file_is_not_proposed_to_stand_in_another_s_place(desk: Desk) -> None:
    desk.preferences.remember_folder(desk.folder)
    stem = file_stem(desk.document)
    (desk.folder / f"{stem}.roving.json").write_bytes(b"somebody's")
    names: list[str] = []

    def leave(dialog: QDialog) -> None:
        names.append(proposed(dialog))
        cancel(dialog)

    with answering(leave):
        assert not desk.files.save()
    assert names == [f"{stem} 2.roving.json"]


def test_a_file_that_is_gone_is_made_anew_and_told(desk: Desk) -> None:
    path = desk.plan_file()
    desk.document.open_file(path)
    path.unlink()
    desk.change()
    with answering():
        assert desk.files.save()
    assert desk.said[-1].endswith("The file was not there any more, and was made anew.")
    desk.change()
    assert desk.files.save()
    assert "anew" not in desk.said[-1]


def test_a_failed_save_says_why_keeps_everything_and_offers_another_place(desk: Desk) -> None:
    desk.change()
    before = desk.plan()
    gone = desk.folder / "gone"
    gone.mkdir()
    path = gone / "mine.roving.json"
    desk.document.save(path)
    shutil.rmtree(gone)
    desk.document.undo_stack.undo()
    with answering(cancel) as said:
        assert not desk.files.save()
    assert said[0].startswith("The plan was not saved. The folder for ")
    assert desk.modified()
    desk.document.undo_stack.redo()
    assert desk.plan() is before
    desk.document.undo_stack.undo()
    elsewhere = desk.folder / "elsewhere.roving.json"
    with answering(soon(click_text("Save as…")), choose_file(elsewhere)):
        assert desk.files.save()
    assert read_plan(elsewhere) == desk.plan()


def test_a_plan_that_no_file_may_hold_is_told_without_another_place(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("studio_gui.storage.strict_json.MOST_SIGNS", 10)
    with answering(choose_file(desk.folder / "mine"), press(Button.Ok)) as said:
        desk.files.save_action.trigger()
    assert said[1].endswith("The plan holds more than a file of it may. Take out what is not needed.")


def test_every_answer_has_a_key_of_its_own(desk: Desk) -> None:
    desk.document.save(desk.folder / "mine.roving.json")

    def keys(dialog: QDialog) -> None:
        assert isinstance(dialog, QMessageBox)
        shortcuts = [QKeySequence.mnemonic(button.text()).toString() for button in dialog.buttons()]
        assert len(set(shortcuts)) == len(shortcuts) == 3
        assert all(shortcuts)
        QTest.keyClick(dialog, Qt.Key.Key_D, Qt.KeyboardModifier.AltModifier)

    desk.change()
    with answering(keys):
        assert desk.files.may_discard()
    assert desk.modified()


@pytest.mark.parametrize("answer", [Button.Save, Button.Discard, Button.Cancel])
def test_unsaved_changes_are_asked_about(desk: Desk, answer: QMessageBox.StandardButton) -> None:
    mine = desk.folder / "mine.roving.json"
    desk.document.save(mine)
    desk.change()
    changed = desk.plan()
    with answering(press(answer)):
        desk.files.open_path(desk.plan_file())
    kept = desk.plan() is changed
    assert kept == (answer == Button.Cancel)
    assert (read_plan(mine) == changed) == (answer == Button.Save)


def test_open_replaces_the_plan_and_starts_clean(desk: Desk) -> None:
    path = desk.plan_file()
    with answering(choose_file(path)):
        desk.files.open_action.trigger()
    assert len(desk.plan().sections) == 5
    assert desk.document.path == path
    assert not desk.modified()
    with answering(cancel):
        desk.files.open_action.trigger()
    assert desk.document.path == path


@pytest.mark.parametrize(
    "content",
    [b"", b"[1, 2", b'{"document": "something else"}', b"[" * 100_000, b"\xff\xfe", b'{"version": NaN}'],
    ids=["empty", "cut", "foreign", "nested", "bytes", "nan"],
)
def test_a_bad_file_is_one_dialog_and_no_change(desk: Desk, content: bytes) -> None:
    desk.change()
    before = desk.plan()
    desk.document.save(desk.folder / "mine.roving.json")
    bad = desk.folder / "bad.roving.json"
    bad.write_bytes(content)
    with answering(press(Button.Ok)) as said:
        desk.files.open_path(bad)
    assert said[0].startswith("This file was not opened.")
    assert "Traceback" not in said[0]
    assert desk.plan() is before
    assert desk.document.path == desk.folder / "mine.roving.json"
    assert bad.read_bytes() == content


def test_new_starts_a_small_plan_that_needs_no_mending(desk: Desk) -> None:
    with answering():
        desk.files.new_action.trigger()
    assert desk.plan() == new_plan()
    assert worksheet(desk.plan()).checks == ()


def test_samples_are_at_hand(desk: Desk) -> None:
    with answering(choose_file(Path("two-shores.roving.json"))):
        desk.files.sample_action.trigger()
    assert desk.plan().lay.passes == 2


@pytest.mark.parametrize("ending", [".pdf", ".json", ".csv", ".svg", ".png"])
def test_export_writes_what_the_ending_says(desk: Desk, ending: str) -> None:
    target = desk.folder / f"map{ending}"
    with answering(choose_file(target)):
        desk.files.export_action.trigger()
    assert target.stat().st_size > 100
    assert target.name in desk.said[-1]
    if ending == ".json":
        assert json.loads(target.read_text(encoding="utf-8"))["document"] == "section-map"


def test_an_export_of_unknown_kind_is_refused_in_words(desk: Desk) -> None:
    with answering(choose_file(desk.folder / "map.xls"), press(Button.Ok)) as said:
        desk.files.export_action.trigger()
    assert said[-1].startswith("Nothing was exported.")
    assert not (desk.folder / "map.xls").exists()
    with answering(cancel):
        desk.files.export_action.trigger()


@pytest.mark.parametrize("name", ["map", "Kelp No. 4", "Harbour v1.2"])
def test_an_export_without_ending_takes_the_chosen_kind(desk: Desk, name: str) -> None:
    with answering(choose_file(desk.folder / name)):
        desk.files.export_action.trigger()
    assert (desk.folder / f"{name}.pdf").exists()
    with answering(choose_file(desk.folder / name), press(Button.Cancel)):
        desk.files.export_action.trigger()


# -- plans that are open elsewhere -------------------------------------------------------------------------


def leave_far_holder(path: Path) -> None:
    words: Json = {"program": "x", "user": "ann", "host": "loft", "process": 7, "since": "2026-01-02"}
    lock_path(path).write_bytes(serialise(words))


def test_a_plan_open_elsewhere_names_who_has_it_and_may_be_opened_as_a_copy(desk: Desk) -> None:
    path = desk.plan_file()
    with another_holder(path) as other:
        with answering(cancel) as said:
            desk.files.open_path(path)
        assert len(desk.plan().sections) == 3
        assert f"process {other.pid}" in said[0]
        with answering(click_text("Work on a copy")):
            desk.files.open_path(path)
    assert len(desk.plan().sections) == 5
    assert desk.document.path is None


def test_a_copy_of_a_plan_that_is_gone_meanwhile_is_told(desk: Desk) -> None:
    path = desk.plan_file()

    def late(dialog: QDialog) -> None:
        path.unlink()
        click_text("Work on a copy")(dialog)

    with another_holder(path), answering(late, press(Button.Ok)):
        desk.files.open_path(path)
    assert len(desk.plan().sections) == 3


def test_a_plan_left_open_on_another_computer_may_be_taken_over(desk: Desk) -> None:
    path = desk.plan_file()
    leave_far_holder(path)
    with answering(cancel) as said:
        desk.files.open_path(path)
    assert "user ann on loft" in said[0]
    with answering(click_text("Take it over")):
        desk.files.open_path(path)
    assert desk.document.path == path
    desk.document.let_go()


def test_saving_over_a_plan_that_is_open_elsewhere_is_refused_or_asked(desk: Desk) -> None:
    path = desk.plan_file()
    before = path.read_bytes()
    with (
        another_holder(path),
        answering(soon(choose_file(path)), press(Button.Yes), cancel) as said,
    ):
        desk.files.save_as_action.trigger()
    assert "is open: Roving Lay, user" in said[2]
    assert said[2].endswith("Save under another name, or close it there first.")
    leave_far_holder(path)
    with answering(soon(choose_file(path)), press(Button.Yes), cancel) as said:
        desk.files.save_as_action.trigger()
    assert "Save under another name, or write over it" in said[2]
    assert path.read_bytes() == before
    with answering(soon(choose_file(path)), press(Button.Yes), click_text("Write over it")):
        desk.files.save_as_action.trigger()
    assert read_plan(path) == desk.plan()
    desk.document.let_go()


def test_the_original_of_an_older_format_is_told_of(desk: Desk) -> None:
    path = desk.folder / "old.roving.json"
    shutil.copy(Path(__file__).parents[1] / "data" / "plan_version_1.roving.json", path)
    desk.files.open_path(path)
    desk.document.edit("Rename", lambda plan: replace(plan, title="New"))
    assert desk.files.save()
    assert "old (format 1).roving.json" in desk.said[-1]
    desk.document.let_go()


def test_names_in_questions_are_shown_as_they_are_never_as_markup(desk: Desk) -> None:
    desk.document.edit("Rename", lambda plan: replace(plan, title="<b>bold</b><img src='x'>"))

    def plain(dialog: QDialog) -> None:
        assert isinstance(dialog, QMessageBox)
        assert dialog.textFormat() == Qt.TextFormat.PlainText
        press(Button.Cancel)(dialog)

    with answering(plain) as said:
        assert not desk.files.may_discard()
    assert "<b>bold</b>" in said[0]


def test_a_name_too_long_is_told_and_no_fault(desk: Desk) -> None:
    """The ending that is put behind it makes it too long for the disk."""
    name = "x" * 250
    with answering(choose_file(desk.folder / name), cancel) as said:
        desk.files.save_as_action.trigger()
    assert any("too long" in words for words in said)
    with answering(choose_file(desk.folder / ("x" * 253)), press(Button.Ok)) as said:
        desk.files.export_action.trigger()
    assert any("too long" in words for words in said)
    assert list(desk.folder.iterdir()) == []
