"""If these fail, help names keys that do nothing, stays silent about a danger, or stands in the way."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QSettings, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QMenu
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.paths import program_version
from studio_gui.views.help_windows import AboutWindow, CautionsWindow, KeysWindow
from studio_gui.views.main_window import MainWindow
from tests.drawing.plans import plain_plan


@pytest.fixture
def window(qtbot: QtBot, tmp_path: Path) -> MainWindow:
    settings = QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)
    window = MainWindow(OpenPlan(plain_plan(4)), Preferences(settings))
    qtbot.addWidget(window, before_close_func=lambda one: one.document.undo_stack.setClean())
    with qtbot.waitExposed(window):
        window.show()
    return window


#: Gestures on the lay and the yarn, and keys in fields and tables, that no menu has.
GESTURES = 25


def only(window: MainWindow, kind: type[QDialog]) -> QDialog:
    (dialog,) = window.findChildren(kind)
    return dialog


def listed(keys: KeysWindow) -> list[tuple[str, str]]:
    rows = []
    for place in range(keys.list.topLevelItemCount()):
        group = keys.list.topLevelItem(place)
        assert group is not None
        for row in (group.child(number) for number in range(group.childCount())):
            assert row is not None
            rows.append((row.text(0), row.text(1)))
    return rows


def with_keys(menu: QMenu) -> int:
    count = 0
    for action in menu.actions():
        inner = action.menu()
        count += with_keys(inner) if isinstance(inner, QMenu) else bool(action.shortcuts())
    return count


def test_every_command_with_keys_is_listed_as_it_is(window: MainWindow) -> None:
    QTest.keyClick(window, Qt.Key.Key_F1)
    keys = only(window, KeysWindow)
    assert isinstance(keys, KeysWindow)
    assert keys.isVisible()
    rows = listed(keys)
    for row in (("Save", "Ctrl+S"), ("Full screen canvas", "F11"), ("Next pane", "F6")):
        assert row in rows
    undo = dict(rows)["Undo"]
    assert undo.startswith("Ctrl+Z")
    commands = sum(with_keys(menu) for menu in window.menus.all)
    assert len(rows) == commands + GESTURES
    assert all(how for _, how in rows)


def test_help_stands_beside_the_work_and_closes_with_esc(window: MainWindow) -> None:
    window.menus.help.keys_action.trigger()
    keys = only(window, KeysWindow)
    assert not keys.isModal()
    window.menus.help.keys_action.trigger()
    assert only(window, KeysWindow) is keys, "asked for twice, it is still one window"
    QTest.keyClick(keys, Qt.Key.Key_Escape)
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    assert window.findChildren(KeysWindow) == []
    window.menus.help.keys_action.trigger()
    assert only(window, KeysWindow).isVisible()


def test_the_keys_follow_a_change_of_language(window: MainWindow) -> None:
    window.menus.help.keys_action.trigger()
    keys = only(window, KeysWindow)
    assert isinstance(keys, KeysWindow)
    rows = listed(keys)
    keys.list.clear()
    QApplication.sendEvent(window, QEvent(QEvent.Type.LanguageChange))
    assert listed(keys) == rows


@pytest.mark.parametrize(
    "danger", ["dye powder", "hot acid", "steam", "never go back to food", "waste water", "breathe"]
)
def test_cautions_name_the_dangers(window: MainWindow, danger: str) -> None:
    window.menus.help.cautions_action.trigger()
    cautions = only(window, CautionsWindow)
    assert isinstance(cautions, CautionsWindow)
    assert danger in cautions.text.toPlainText().casefold()


def test_cautions_give_way_to_those_who_know(window: MainWindow) -> None:
    window.menus.help.cautions_action.trigger()
    cautions = only(window, CautionsWindow)
    assert isinstance(cautions, CautionsWindow)
    last = cautions.text.toPlainText().splitlines()[-1]
    for authority in ("safety data sheet", "local rules", "trained practice", "follow those"):
        assert authority in last


def test_about_names_version_and_licences(window: MainWindow) -> None:
    window.menus.help.about_action.trigger()
    about = only(window, AboutWindow)
    assert isinstance(about, AboutWindow)
    text = about.text.toPlainText()
    for word in (program_version(), "MIT", "Noto Sans", "SIL Open Font License 1.1", "LGPL"):
        assert word in text
