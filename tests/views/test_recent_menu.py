"""If these fail, yesterday's plan has to be looked for, or the list leads to where it is no longer."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QSettings
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMessageBox
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import MOST_RECENT, Preferences
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.storage.files import save_plan
from studio_gui.views.main_window import MainWindow
from tests.drawing.plans import plain_plan
from tests.views.dialogs import answering, choose_file, press

Button = QMessageBox.StandardButton


@pytest.fixture
def settings(tmp_path: Path) -> QSettings:
    return QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)


@pytest.fixture
def window(qtbot: QtBot, settings: QSettings) -> MainWindow:
    window = MainWindow(OpenPlan(plain_plan(4)), Preferences(settings))
    qtbot.addWidget(window, before_close_func=lambda one: one.document.undo_stack.setClean())
    window.show()
    return window


def saved(folder: Path, name: str) -> Path:
    path = folder / f"{name}.roving.json"
    save_plan(path, plain_plan(3))
    return path


def entries(window: MainWindow) -> list[QAction]:
    """The plans on the list, as the menu shows them when it opens."""
    menu = window.files.recent_menu
    menu.aboutToShow.emit()
    return [entry for entry in menu.actions() if entry.isEnabled() and " in " in entry.text()]


def test_opened_and_saved_plans_are_listed_the_last_one_first(window: MainWindow, tmp_path: Path) -> None:
    assert entries(window) == []
    one, two = saved(tmp_path, "one"), saved(tmp_path, "two")
    window.files.open_path(one)
    window.files.open_path(two)
    window.files.open_path(one)
    target = tmp_path / "three.roving.json"
    with answering(choose_file(target)):
        window.files.save_as_action.trigger()
    tips = [entry.toolTip() for entry in entries(window)]
    assert tips == [str(target), str(one), str(two)]
    entries(window)[2].trigger()
    assert window.document.path == two
    assert window.statusBar().currentMessage() == f"Opened {two}"


def test_the_list_outlives_the_window_and_keeps_ten(
    qtbot: QtBot, window: MainWindow, settings: QSettings, tmp_path: Path
) -> None:
    paths = [saved(tmp_path, f"plan-{number}") for number in range(MOST_RECENT + 2)]
    for path in paths:
        window.files.open_path(path)
    settings.sync()
    again = Preferences(QSettings(settings.fileName(), QSettings.Format.IniFormat))
    assert again.recent == tuple(reversed(paths[2:]))
    other = MainWindow(OpenPlan(plain_plan(2)), again)
    qtbot.addWidget(other)
    assert len(entries(other)) == MOST_RECENT
    keys = [entry.text().partition(" ")[0] for entry in entries(other)]
    assert keys == [*(f"&{number}" for number in range(1, 10)), "1&0"]


def test_a_list_of_one_comes_back(settings: QSettings, tmp_path: Path) -> None:
    Preferences(settings).remember_recent(tmp_path / "one.roving.json")
    settings.sync()
    again = Preferences(QSettings(settings.fileName(), QSettings.Format.IniFormat))
    assert again.recent == (tmp_path / "one.roving.json",)


def test_a_plan_that_is_gone_is_said_so_and_leaves_the_list(window: MainWindow, tmp_path: Path) -> None:
    path = saved(tmp_path, "gone")
    window.files.open_path(path)
    window.files.open_path(saved(tmp_path, "here"))
    path.unlink()
    before = window.document.plan
    with answering(press(Button.Ok)) as said:
        entries(window)[1].trigger()
    assert "is not there" in said[0]
    assert window.document.plan is before
    assert [entry.toolTip() for entry in entries(window)] == [str(tmp_path / "here.roving.json")]


def test_picking_one_asks_about_unsaved_work(window: MainWindow, tmp_path: Path) -> None:
    window.files.open_path(saved(tmp_path, "one"))
    window.files.open_path(saved(tmp_path, "two"))
    window.document.edit("Move", lambda plan: move_boundary(plan, 0, 1.0))
    changed = window.document.plan
    with answering(press(Button.Cancel)):
        entries(window)[1].trigger()
    assert window.document.plan is changed


def test_the_list_is_cleared(window: MainWindow, tmp_path: Path) -> None:
    window.files.open_path(saved(tmp_path, "one"))
    assert len(entries(window)) == 1
    window.files.recent_menu.actions()[-1].trigger()
    assert entries(window) == []
    assert not any(entry.isEnabled() for entry in window.files.recent_menu.actions() if entry.text())


@pytest.mark.parametrize(
    "name",
    ["R&D & more", "\u0635\u0648\u0641", "\U0001f9f6" * 20, "very-" * 40],
    ids=["&", "right", "emoji", "long"],
)
def test_any_name_fits_the_menu(window: MainWindow, tmp_path: Path, name: str) -> None:
    path = saved(tmp_path, name)
    window.files.open_path(path)
    (entry,) = entries(window)
    assert window.files.recent_menu.fontMetrics().horizontalAdvance(entry.text()) < 640
    assert entry.text().replace("&&", "").count("&") == 1, "one mnemonic, and no other"
    entry.trigger()
    assert window.document.path == path


def test_a_name_that_is_no_unicode_is_left_out_without_harm(settings: QSettings, tmp_path: Path) -> None:
    preferences = Preferences(settings)
    preferences.remember_recent(tmp_path / "good.roving.json")
    preferences.remember_recent(tmp_path / "bad\udcff.roving.json")
    assert preferences.recent == (tmp_path / "good.roving.json",)


def test_kept_nonsense_is_an_empty_list(settings: QSettings) -> None:
    settings.setValue("recent", 7)
    assert Preferences(settings).recent == ()
