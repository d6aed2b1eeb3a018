"""Somebody at the keys and the mouse of a pane."""

from __future__ import annotations

from typing import TypeVar

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractItemView, QApplication, QComboBox, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.background import LatestRun
from studio_gui.document.open_plan import OpenPlan

ENTER, ESC, TAB = Qt.Key.Key_Return, Qt.Key.Key_Escape, Qt.Key.Key_Tab
CONTROL, NONE = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.NoModifier

Pane = TypeVar("Pane", bound=QWidget)


def shown(pane: Pane, qtbot: QtBot, width: int = 360, height: int = 900) -> Pane:
    """Show a pane in a window of its own and give it the keyboard."""
    qtbot.addWidget(pane)
    pane.resize(width, height)
    with qtbot.waitExposed(pane):
        pane.show()
    pane.activateWindow()
    return pane


def type_into(field: QLineEdit, text: str, end: Qt.Key = ENTER) -> None:
    """Click into a field, type over what is in it, and end with a key."""
    QApplication.processEvents()  # fields that have just been made are shown by then
    QTest.mouseClick(field, Qt.MouseButton.LeftButton)
    field.selectAll()
    type_on(text, end)


def type_on(text: str, end: Qt.Key = ENTER) -> None:
    """Type where the keyboard is; no text at all deletes what is selected."""
    where = QApplication.focusWidget()
    assert where is not None, "nothing has the keyboard"
    if text:
        QTest.keyClicks(where, text)
    else:
        QTest.keyClick(where, Qt.Key.Key_Delete)
    QTest.keyClick(where, end)
    QApplication.processEvents()  # tables close their editors a moment later


def wait_for_work(widget: QWidget) -> None:
    """Let the work that a widget has asked for come to its end."""
    runs = widget.findChildren(LatestRun)
    for _ in range(4_000):
        if not any(run.is_running for run in runs):
            return
        QTest.qWait(5)
    raise TimeoutError


def choose(box: QComboBox, words: str) -> None:
    """Open a list and click an entry."""
    place = box.findText(words)
    assert place >= 0, f"{words!r} is not among {[box.itemText(i) for i in range(box.count())]}"
    box.showPopup()
    view = box.view()
    there = view.visualRect(box.model().index(place, box.modelColumn())).center()
    QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, NONE, there)
    box.window().activateWindow()  # with no window manager, a list that closes leaves nothing active
    QApplication.processEvents()


def click_cell(view: QAbstractItemView, row: int, column: int, modifiers: Qt.KeyboardModifier = NONE) -> None:
    """Click into the middle of a cell."""
    QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, modifiers, cell_middle(view, row, column))


def cell_middle(view: QAbstractItemView, row: int, column: int) -> QPoint:
    return view.visualRect(view.model().index(row, column)).center()


def type_into_cell(view: QAbstractItemView, row: int, column: int, text: str, end: Qt.Key = ENTER) -> None:
    """Click a cell, open its editor with F2, type over what is in it, and end with a key."""
    click_cell(view, row, column)
    QTest.keyClick(view, Qt.Key.Key_F2)
    type_on(text, end)


def steps(document: OpenPlan) -> list[str]:
    """Return the names of all undo steps."""
    stack = document.undo_stack
    return [stack.text(index) for index in range(stack.count())]
