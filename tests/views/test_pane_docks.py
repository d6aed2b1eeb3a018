"""If these fail, a pane is lost: hidden for good, off the screen, or out of reach of the keyboard."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QRect, QSettings, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDockWidget, QMainWindow, QTabBar
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.views.main_window import MainWindow
from tests.drawing.plans import plain_plan


@pytest.fixture
def settings(tmp_path: Path) -> QSettings:
    return QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)


def opened(qtbot: QtBot, settings: QSettings, width: int = 1400) -> MainWindow:
    window = MainWindow(OpenPlan(plain_plan(4)), Preferences(settings))
    qtbot.addWidget(window)
    if width != window.width():
        window.resize(width, 800)
        window.docks.arrange()
    with qtbot.waitExposed(window):
        window.show()
    assert window.panes is not None
    window.activateWindow()
    QApplication.processEvents()
    return window


@pytest.fixture
def window(qtbot: QtBot, settings: QSettings) -> MainWindow:
    return opened(qtbot, settings)


def placing(window: MainWindow) -> list[tuple[str, object, bool, bool]]:
    return [
        (dock.objectName(), window.dockWidgetArea(dock), dock.isFloating(), dock.isVisible())
        for dock in window.docks.all
    ]


def sizes(window: MainWindow) -> list[int]:
    in_front = [dock for dock in window.docks.all if not dock.visibleRegion().isEmpty()]
    return [size for dock in in_front for size in (dock.width(), dock.height())]


def test_reset_puts_every_pane_back_as_at_first(window: MainWindow) -> None:
    docks, first, at_first = window.docks, placing(window), sizes(window)
    docks.stocks.hide()
    docks.checks.setFloating(True)
    window.addDockWidget(Qt.DockWidgetArea.BottomDockWidgetArea, docks.section)
    window.tabifyDockWidget(docks.table, docks.inputs)
    docks.table.hide()
    docks.steps.show()
    window.menus.reset_action.trigger()
    QApplication.processEvents()
    assert placing(window) == first
    assert sizes(window) == pytest.approx(at_first, abs=8)
    assert not any(window.tabifiedDockWidgets(dock) for dock in (docks.stocks, docks.inputs))


def test_the_table_is_hidden_and_comes_back(window: MainWindow) -> None:
    toggle = window.docks.table.toggleViewAction()
    toggle.trigger()
    assert not window.panes.table.isVisible()
    toggle.trigger()
    assert window.panes.table.isVisible()


def test_a_narrow_window_leaves_most_of_it_to_the_canvas(qtbot: QtBot, settings: QSettings) -> None:
    window = opened(qtbot, settings, width=1000)
    assert window.canvas.width() > 600
    assert window.docks.section.isVisible()
    tabbed = window.tabifiedDockWidgets(window.docks.section)
    assert {dock.objectName() for dock in tabbed} == {"stocks", "inputs"}
    assert not window.docks.checks.visibleRegion().isEmpty()


def test_places_come_back_with_the_next_window(qtbot: QtBot, window: MainWindow, settings: QSettings) -> None:
    window.docks.table.hide()
    window.addDockWidget(Qt.DockWidgetArea.LeftDockWidgetArea, window.docks.checks)
    window.docks.steps.show()
    window.close()
    again = MainWindow(OpenPlan(plain_plan(2)), Preferences(settings))
    qtbot.addWidget(again)
    with qtbot.waitExposed(again):
        again.show()
    assert again.docks.table.isHidden()
    assert again.docks.steps.toggleViewAction().isChecked()
    assert again.dockWidgetArea(again.docks.checks) == Qt.DockWidgetArea.LeftDockWidgetArea


def on_a_screen(frame: QRect) -> bool:
    return any(
        screen.availableGeometry().contains(frame.topLeft() + QPoint(24, 8))
        for screen in QApplication.screens()
    )


def test_nothing_stays_on_a_screen_that_is_gone(
    qtbot: QtBot, window: MainWindow, settings: QSettings
) -> None:
    window.docks.checks.setFloating(True)
    window.docks.checks.move(9000, 7000)
    window.move(9000, 7000)
    window.close()
    again = MainWindow(OpenPlan(plain_plan(2)), Preferences(settings))
    qtbot.addWidget(again)
    with qtbot.waitExposed(again):
        again.show()
    assert on_a_screen(again.frameGeometry())
    assert again.docks.checks.isFloating()
    assert on_a_screen(again.docks.checks.frameGeometry())


def test_places_of_an_older_program_move_nothing(qtbot: QtBot, settings: QSettings) -> None:
    older = QMainWindow()
    qtbot.addWidget(older)
    dock = QDockWidget()
    dock.setObjectName("section")
    older.addDockWidget(Qt.DockWidgetArea.TopDockWidgetArea, dock)
    settings.setValue("window/state", older.saveState())
    window = opened(qtbot, settings)
    assert window.dockWidgetArea(window.docks.section) == Qt.DockWidgetArea.RightDockWidgetArea


def stop(window: MainWindow) -> str:
    """Name of the pane that has the keyboard."""
    focus = QApplication.focusWidget()
    assert focus is not None
    if window.canvas is focus or window.canvas.isAncestorOf(focus):
        return "canvas"
    return next(dock.objectName() for dock in window.docks.all if dock.isAncestorOf(focus))


def press_f6(modifiers: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    focus = QApplication.focusWidget()
    assert focus is not None
    QTest.keyClick(focus, Qt.Key.Key_F6, modifiers)


def test_f6_walks_every_pane_and_back(window: MainWindow) -> None:
    window.canvas.setFocus()
    walked = []
    for _ in range(11):
        press_f6()
        walked.append(stop(window))
    assert walked == [
        "table",
        "strip",
        "swatch",
        "curve",
        "stocks",
        "inputs",
        "section",
        "yarn",
        "bench",
        "checks",
        "canvas",
    ]
    assert window.statusBar().currentMessage() == "Lay", "it is said which pane, for those that look alike"
    press_f6(Qt.KeyboardModifier.ShiftModifier)
    assert stop(window) == "checks"


def test_f6_brings_a_tabbed_pane_to_the_front_and_reaches_a_floating_one(window: MainWindow) -> None:
    window.tabifyDockWidget(window.docks.stocks, window.docks.inputs)
    window.docks.stocks.raise_()
    window.docks.section.setFloating(True)
    window.docks.table.hide()
    QApplication.processEvents()
    window.activateWindow()  # from the pane that floats
    QApplication.processEvents()
    window.canvas.setFocus()
    walked = []
    for _ in range(9):
        press_f6()
        QApplication.processEvents()
        walked.append(stop(window))
    assert walked == [
        "strip",
        "swatch",
        "curve",
        "stocks",
        "inputs",
        "section",
        "yarn",
        "bench",
        "checks",
    ]
    assert not window.panes.inputs.visibleRegion().isEmpty()


def test_f6_comes_back_to_the_field_it_left(window: MainWindow) -> None:
    field = window.panes.inputs.fields["soak_ml_per_g"]
    field.setFocus()
    window.docks.walk(1)
    window.docks.walk(-1)
    assert QApplication.focusWidget() is field


def test_bars_of_panes_that_lie_apart_again_are_no_stops(window: MainWindow) -> None:
    bars = window.findChildren(QTabBar, options=Qt.FindChildOption.FindDirectChildrenOnly)
    assert bars, "Qt keeps them; without any this says nothing"
    assert all(bar.focusPolicy() == Qt.FocusPolicy.NoFocus for bar in bars)
