"""If these fail, a context menu lacks an edit, or does it to something else than was pointed at."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QSettings, Qt
from PySide6.QtGui import QAction, QContextMenuEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.domain.edits.boundaries import set_gap
from studio_gui.domain.edits.folds import move_fold
from studio_gui.domain.edits.inputs import set_fibre
from studio_gui.drawing.lay_layout import ItemKind
from studio_gui.views.main_window import MainWindow
from studio_gui.views.place_entry import PlaceEntry
from tests.drawing.plans import plain_plan
from tests.views.lay_hand import CONTROL, LEFT, NONE


@pytest.fixture
def window(qtbot: QtBot, tmp_path: Path) -> Iterator[MainWindow]:
    settings = QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)
    window = MainWindow(OpenPlan(plain_plan(4, passes=2)), Preferences(settings))
    qtbot.addWidget(window, before_close_func=lambda shown: shown.document.undo_stack.setClean())
    window.resize(1400, 860)
    with qtbot.waitExposed(window):
        window.show()
    yield window
    window.document.undo_stack.setClean()


def menu_of(window: MainWindow, kind: ItemKind, index: int) -> QMenu:
    """Ask for the context menu of an item with the mouse."""
    canvas = window.canvas
    item = canvas.lay.item(kind, index)
    point = (item.rect if kind == "section" else item.slip).center().toPoint()
    return _asked(window, point)


def _asked(window: MainWindow, point: QPoint) -> QMenu:
    canvas = window.canvas
    event = QContextMenuEvent(QContextMenuEvent.Reason.Mouse, point, canvas.mapToGlobal(point))
    QApplication.sendEvent(canvas, event)
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    return menu


def words(menu: QMenu) -> list[str]:
    return [action.text().replace("&", "") for action in menu.actions() if not action.isSeparator()]


def choose(menu: QMenu, text: str) -> None:
    """Click an entry."""
    action = found(menu, text)
    QTest.mouseClick(menu, LEFT, NONE, menu.actionGeometry(action).center())
    menu.close()


def found(menu: QMenu, text: str) -> QAction:
    return next(action for action in menu.actions() if action.text().replace("&", "") == text)


def places(window: MainWindow) -> list[float]:
    return [boundary.position_m for boundary in window.document.plan.boundaries]


def test_a_section_is_split_at_the_pointer(window: MainWindow) -> None:
    menu = menu_of(window, "section", 1)
    choose(menu, "Split here")
    assert places(window) == pytest.approx([0.5, 0.75, 1.0, 1.5], abs=0.01)


def test_several_sections_are_painted_with_one_liquor(window: MainWindow) -> None:
    canvas = window.canvas
    for index, modifiers in ((0, NONE), (2, CONTROL)):
        point = canvas.lay.item("section", index).rect.center().toPoint()
        QTest.mouseClick(canvas, LEFT, modifiers, point)
    menu = menu_of(window, "section", 2)
    paint = found(menu, "Paint with").menu()
    assert isinstance(paint, QMenu)
    assert [action.text() for action in paint.actions()] == ["A  Blue", "B  Pale", "C  Red"]
    paint.actions()[1].trigger()
    menu.close()
    assert [section.liquor_id for section in window.document.plan.sections] == ["q2", "q2", "q2", "q1"]
    window.document.undo_stack.undo()
    assert [section.liquor_id for section in window.document.plan.sections] == ["q1", "q2", "q3", "q1"]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("Move up, towards the start", ["s2", "s1", "s3", "s4"]),
        ("Move down, towards the end", ["s1", "s3", "s2", "s4"]),
        ("Take out", ["s1", "s3", "s4"]),
        ("Reverse the lay", ["s4", "s3", "s2", "s1"]),
    ],
)
def test_a_section_is_moved_or_taken_out(window: MainWindow, text: str, wanted: list[str]) -> None:
    choose(menu_of(window, "section", 1), text)
    assert [section.id for section in window.document.plan.sections] == wanted
    assert window.document.undo_stack.count() == 1


def test_a_boundary_is_placed_halved_or_dropped(window: MainWindow) -> None:
    choose(menu_of(window, "boundary", 1), "Place…")
    field = window.canvas.findChild(PlaceEntry)
    assert isinstance(field, PlaceEntry)
    assert field.isVisible()
    QTest.keyClicks(field.field, "90")
    QTest.keyClick(field.field, Qt.Key.Key_Return)
    assert places(window) == pytest.approx([0.5, 0.9, 1.5])
    choose(menu_of(window, "boundary", 1), "Equal halves")
    assert places(window) == pytest.approx([0.5, 1.0, 1.5])
    choose(menu_of(window, "boundary", 1), "Merge both sides")
    assert places(window) == pytest.approx([0.5, 1.5])


def test_a_gap_is_closed(window: MainWindow) -> None:
    window.document.edit("Gap", lambda plan: set_gap(plan, 0, 0.05))
    choose(menu_of(window, "gap", 0), "No gap")
    assert window.document.plan.boundaries[0].gap_m == 0.0
    menu = menu_of(window, "gap", 0)
    assert not found(menu, "No gap").isEnabled(), "there is none any more"
    menu.close()


def test_a_fold_goes_back_to_equal_legs(window: MainWindow) -> None:
    window.document.edit("Fold", lambda plan: move_fold(plan, 0, 2.03))
    menu = menu_of(window, "fold", 0)
    assert words(menu) == ["Place of the fold…", "Legs of equal length", "Fold by weight"]
    choose(menu, "Legs of equal length")
    assert window.document.plan.lay.fold_positions_m == (2.0,)


def test_the_table_around_the_film_offers_other_looks(window: MainWindow) -> None:
    menu = _asked(window, QPoint(20, int(window.canvas.lay.tape_start.center().y())))
    choose(menu, "Look closer")
    assert not window.canvas.view.is_fitted
    menu = _asked(window, QPoint(20, int(window.canvas.lay.tape_start.center().y())))
    choose(menu, "Show the whole film")
    assert window.canvas.view.is_fitted


def test_keys_look_closer_and_show_one_roving_for_all(window: MainWindow) -> None:
    canvas, commands = window.canvas, window.view_commands
    QTest.keyClick(canvas, Qt.Key.Key_Plus, CONTROL)
    assert commands.fit.isEnabled()
    QTest.keyClick(canvas, Qt.Key.Key_0, CONTROL)
    assert canvas.view.is_fitted
    assert not commands.fit.isEnabled()
    window.document.edit("Rovings", partial(set_fibre, rovings=3))
    assert canvas.lay.rovings_shown == 3
    QTest.keyClick(canvas, Qt.Key.Key_1, CONTROL)
    assert canvas.lay.rovings_shown == 1
    assert commands.one_roving.isChecked()
    canvas.select("s2")
    QTest.keyClick(canvas, Qt.Key.Key_9, CONTROL)
    section = canvas.lay.item("section", 1).rect
    assert section.width() > 0.85 * canvas.lay.pane.width()
    assert canvas.lay.pane.left() <= section.left()
    assert section.right() <= canvas.lay.pane.right()
