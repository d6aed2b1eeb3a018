"""If these fail, something is done with the mouse alone, or a key does one thing here, another there."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.views.main_window import MainWindow
from tests.drawing.plans import plain_plan


@pytest.fixture
def window(qtbot: QtBot, tmp_path: Path) -> MainWindow:
    settings = QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)
    preferences = Preferences(settings)
    for number in range(12):
        preferences.remember_recent(tmp_path / f"S&p {number}.roving.json")
    window = MainWindow(OpenPlan(plain_plan(4)), preferences)
    qtbot.addWidget(window)
    return window


def submenu(action: QAction) -> QMenu | None:
    menu = action.menu()
    return menu if isinstance(menu, QMenu) else None


def menus(window: MainWindow) -> Iterator[QMenu]:
    waiting = list(window.menus.all)
    while waiting:
        menu = waiting.pop()
        menu.aboutToShow.emit()
        yield menu
        waiting += [one for one in map(submenu, menu.actions()) if one is not None]


def mnemonic(text: str) -> str:
    return text.replace("&&", "").partition("&")[2][:1].casefold()


def test_no_two_entries_of_a_menu_share_a_mnemonic(window: MainWindow) -> None:
    rows = [(menu.title(), [action.text() for action in menu.actions()]) for menu in menus(window)]
    rows.append(("menu bar", [menu.title() for menu in window.menus.all]))
    for title, texts in rows:
        counts = Counter(filter(None, map(mnemonic, texts)))
        assert [letter for letter, count in counts.items() if count > 1] == [], title


def test_every_entry_has_a_mnemonic_or_a_key(window: MainWindow) -> None:
    for menu in menus(window):
        for action in menu.actions():
            if not action.isSeparator():
                assert mnemonic(action.text()) or action.shortcuts(), f"{menu.title()}: {action.text()}"


def test_no_two_commands_share_a_key(window: MainWindow) -> None:
    actions = {action for menu in menus(window) for action in menu.actions()}
    keys = Counter(key.toString() for action in actions for key in action.shortcuts())
    assert [key for key, count in keys.items() if count > 1] == []


def test_whatever_is_on_the_tool_bar_is_in_a_menu(window: MainWindow) -> None:
    in_menus = {action for menu in menus(window) for action in menu.actions()}
    buttons = [one for one in window.menus.tool_bar.actions() if one.text() and not one.isSeparator()]
    assert len(buttons) > 5
    assert [one.text() for one in buttons if one not in in_menus] == []
