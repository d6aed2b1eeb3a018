"""If these fail, an entry of a menu is lost while its menu is still there."""

from __future__ import annotations

import gc

import shiboken6
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import QMenu, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.views.menu_entries import add_entry


def test_an_entry_stands_at_the_end_and_does_what_it_is_for(qtbot: QtBot) -> None:
    menu = QMenu()
    qtbot.addWidget(menu)
    add_entry(menu, "First")
    last = add_entry(menu, "Last")
    assert [action.text() for action in menu.actions()] == ["First", "Last"]
    with qtbot.waitSignal(last.triggered):
        menu.actions()[1].trigger()


def test_entries_outlive_the_menus_of_others(qtbot: QtBot) -> None:
    rows = [QWidget() for _ in range(20)]
    entries = [add_entry(QMenu(row), "Kept") for row in rows]
    for row in rows[10:]:
        row.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    gc.collect()
    for row, entry in zip(rows[:10], entries[:10], strict=True):
        qtbot.addWidget(row)
        assert shiboken6.isValid(entry)
        entry.setText("Still here")
