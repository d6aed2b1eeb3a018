"""If these fail, somebody is left on a bare screen, or finds the panes elsewhere when coming back."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QSettings, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QToolBar
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.views.dock_icons import CLOSE
from studio_gui.views.main_window import MainWindow
from tests.drawing.plans import plain_plan

CONTROL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def settings(tmp_path: Path) -> QSettings:
    return QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)


@pytest.fixture
def window(qtbot: QtBot, settings: QSettings) -> MainWindow:
    window = MainWindow(OpenPlan(plain_plan(4)), Preferences(settings))
    qtbot.addWidget(window, before_close_func=lambda one: one.document.undo_stack.setClean())
    with qtbot.waitExposed(window):
        window.show()
    assert window.panes is not None
    window.activateWindow()
    return window


def shown(window: MainWindow) -> list[bool]:
    bars = window.findChildren(QToolBar)
    return [part.isVisible() for part in (window.menuBar(), window.statusBar(), *bars, *window.docks.all)]


def test_only_canvas_and_totals_are_left_and_all_comes_back(window: MainWindow) -> None:
    window.docks.stocks.hide()
    window.docks.checks.setFloating(True)
    QApplication.processEvents()
    before, size = shown(window), window.size()
    QTest.keyClick(window.canvas, Qt.Key.Key_F11)
    assert window.isFullScreen()
    assert not any(shown(window))
    assert window.canvas.isVisible()
    assert window.totals.isVisible()
    assert window.menus.full_action.isChecked()
    QTest.keyClick(window.canvas, Qt.Key.Key_F11)
    QApplication.processEvents()
    assert not window.isFullScreen()
    assert shown(window) == before
    assert window.docks.checks.isFloating()
    assert window.size() == size


def test_the_buttons_of_panes_come_back_in_the_colour_of_their_words(window: MainWindow) -> None:
    """Qt puts its own icons there, drawn for light ground alone, whenever docks are put back."""
    close = window.docks.inputs.findChild(QAbstractButton, CLOSE)
    assert close is not None
    before = close.icon().cacheKey()
    for _ in range(2):
        QTest.keyClick(window.canvas, Qt.Key.Key_F11)
        QApplication.processEvents()
    assert close.icon().cacheKey() == before


def test_esc_comes_back_but_first_lets_go_of_a_drag(window: MainWindow) -> None:
    window.menus.full_action.trigger()
    canvas, before = window.canvas, window.document.plan
    QApplication.processEvents()
    start = canvas.lay.item("boundary", 0).slip.center().toPoint()
    QTest.mousePress(canvas, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    QTest.mouseMove(canvas, start + QPoint(40, 0))
    QTest.keyClick(canvas, Qt.Key.Key_Escape)
    assert window.isFullScreen()
    assert window.document.plan is before
    QTest.mouseRelease(canvas, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    QTest.keyClick(canvas, Qt.Key.Key_Escape)
    assert not window.isFullScreen()
    assert window.menuBar().isVisible()
    assert not window.menus.full_action.isChecked()


def test_keys_of_the_menus_hold_while_the_menu_bar_is_out_of_sight(window: MainWindow) -> None:
    window.menus.full_action.trigger()
    before = len(window.document.plan.sections)
    QTest.keyClick(window.canvas, Qt.Key.Key_D, CONTROL)
    assert len(window.document.plan.sections) == before + 1
    QTest.keyClick(window.canvas, Qt.Key.Key_Z, CONTROL)
    assert len(window.document.plan.sections) == before


def test_closed_on_the_whole_screen_it_opens_with_its_panes(
    qtbot: QtBot, window: MainWindow, settings: QSettings
) -> None:
    window.resize(760, 600)
    size = window.size()
    window.menus.full_action.trigger()
    QApplication.processEvents()
    window.close()
    again = MainWindow(OpenPlan(plain_plan(2)), Preferences(settings))
    qtbot.addWidget(again)
    with qtbot.waitExposed(again):
        again.show()
    assert not again.isFullScreen()
    assert again.size() == size
    assert again.menuBar().isVisible()
    assert again.docks.section.isVisible()


def test_a_window_manager_that_ends_it_brings_the_panes_back(window: MainWindow) -> None:
    window.menus.full_action.trigger()
    window.showNormal()
    QApplication.processEvents()
    assert window.menuBar().isVisible()
    assert window.docks.section.isVisible()
