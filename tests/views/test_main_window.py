"""If these fail, the parts of the window do not belong together: one shows what another has not done."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QPoint, QSettings, Qt
from PySide6.QtGui import QCloseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu, QMessageBox, QScrollArea
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.preferences import Preferences
from studio_gui.document.section_rows import Column
from studio_gui.domain.edits.sections import set_locked
from studio_gui.storage.files import read_plan
from studio_gui.views.main_window import MainWindow
from tests.drawing.plans import plain_plan
from tests.views.dialogs import answering, choose_file, press

Button = QMessageBox.StandardButton
CONTROL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def settings(tmp_path: Path) -> QSettings:
    return QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)


@pytest.fixture
def window(qtbot: QtBot, settings: QSettings) -> MainWindow:
    window = MainWindow(OpenPlan(plain_plan(4)), Preferences(settings))
    qtbot.addWidget(window, before_close_func=forget)
    with qtbot.waitExposed(window):
        window.show()
    qtbot.waitUntil(lambda: furnished(window))
    return window


def furnished(window: MainWindow) -> bool:
    rooms = [dock.widget() for dock in window.docks]
    return all(isinstance(room, QScrollArea) and room.widget() is not None for room in rooms)


def forget(window: MainWindow) -> None:
    """Leave nothing unsaved, so that closing asks nothing."""
    window.document.undo_stack.setClean()


def drag_first_boundary(window: MainWindow, by_px: int) -> None:
    canvas = window.canvas
    start = canvas.lay.item("boundary", 0).slip.center().toPoint()
    QTest.mousePress(canvas, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    QTest.mouseMove(canvas, start + QPoint(by_px // 2, 0))
    QTest.mouseMove(canvas, start + QPoint(by_px, 0))
    QTest.mouseRelease(
        canvas, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start + QPoint(by_px, 0)
    )


def test_the_canvas_is_painted_before_the_panes_are_made(qtbot: QtBot, settings: QSettings) -> None:
    window = MainWindow(OpenPlan(plain_plan(4)), Preferences(settings))
    qtbot.addWidget(window)
    assert not furnished(window)
    with qtbot.waitSignal(window.canvas.painted):
        window.show()
    qtbot.waitUntil(lambda: furnished(window))


def test_a_drag_is_undone_and_redone_from_the_menu_by_name(window: MainWindow) -> None:
    before = window.document.plan
    drag_first_boundary(window, 60)
    after = window.document.plan
    assert after != before
    assert window.undo_action.text().endswith("Move boundary A | B")
    assert window.isWindowModified()
    window.undo_action.trigger()
    assert window.document.plan is before
    assert not window.isWindowModified()
    window.redo_action.trigger()
    assert window.document.plan is after


def test_undo_and_redo_have_keys(window: MainWindow) -> None:
    before = window.document.plan
    drag_first_boundary(window, 60)
    QTest.keyClick(window, Qt.Key.Key_Z, CONTROL)
    assert window.document.plan is before
    assert window.redo_action.shortcuts()
    assert window.quit_action.shortcuts()


def test_table_and_canvas_select_alike(window: MainWindow) -> None:
    canvas = window.canvas
    point = canvas.lay.item("section", 2).rect.center().toPoint()
    QTest.mouseClick(canvas, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, point)
    rows = {index.row() for index in window.panes.table.view.selectionModel().selectedRows()}
    assert rows == {2}


def test_a_refusal_is_said_in_the_status_bar(window: MainWindow) -> None:
    window.document.edit("Lock", lambda plan: set_locked(plan, ["s1"], locked=True))
    drag_first_boundary(window, 60)
    assert "Section 1" in window.statusBar().currentMessage()


def test_the_title_names_the_plan_and_keeps_its_brackets(window: MainWindow, tmp_path: Path) -> None:
    assert window.windowTitle() == "Plain[*] – Roving Lay"
    window.document.replace(plain_plan(2))
    drag_first_boundary(window, 60)
    with answering(choose_file(tmp_path / "mine.roving.json")):
        window.files.save_action.trigger()
    assert window.windowFilePath() == str(tmp_path / "mine.roving.json")
    assert read_plan(tmp_path / "mine.roving.json") == window.document.plan


def test_a_half_typed_field_is_saved_with_the_plan(window: MainWindow, tmp_path: Path) -> None:
    window.document.save(tmp_path / "mine.roving.json")
    field = window.panes.inputs.fields["mass_g"]
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "123 g")
    assert window.document.plan.fibre.mass_g == 100.0
    window.files.save_action.trigger()
    assert read_plan(tmp_path / "mine.roving.json").fibre.mass_g == 123.0


def test_a_half_typed_cell_is_saved_with_the_plan(window: MainWindow, tmp_path: Path) -> None:
    window.document.save(tmp_path / "mine.roving.json")
    view = window.panes.table.view
    view.setFocus()
    view.setCurrentIndex(view.model().index(1, Column.NAME))
    QTest.keyClick(view, Qt.Key.Key_F2)
    editor = QApplication.focusWidget()
    assert editor is not None
    QTest.keyClicks(editor, "Shell")
    window.files.save_action.trigger()
    assert read_plan(tmp_path / "mine.roving.json").sections[1].name == "Shell"


@pytest.mark.parametrize("answer", [Button.Cancel, Button.Discard])
def test_closing_asks_about_unsaved_changes(
    window: MainWindow, settings: QSettings, answer: QMessageBox.StandardButton
) -> None:
    drag_first_boundary(window, 60)
    event = QCloseEvent()
    with answering(press(answer)):
        QApplication.sendEvent(window, event)
    assert event.isAccepted() == (answer == Button.Discard)
    assert (not Preferences(settings).window_geometry().isEmpty()) == (answer == Button.Discard)


def test_geometry_and_docks_come_back(qtbot: QtBot, window: MainWindow, settings: QSettings) -> None:
    window.inputs_dock.hide()
    window.resize(790, 640)
    size = window.size()
    window.close()
    again = MainWindow(OpenPlan(plain_plan(2)), Preferences(settings))
    qtbot.addWidget(again)
    with qtbot.waitExposed(again):
        again.show()
    assert again.size() == size
    assert again.inputs_dock.isHidden()
    assert not again.stocks_dock.isHidden()


def test_the_canvas_s_context_menu_opens_where_asked(window: MainWindow) -> None:
    canvas = window.canvas
    canvas.menu_wanted.emit(canvas.mapToGlobal(QPoint(300, 200)), canvas.lay.item("section", 2), 2.5)
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    menu.actions()[0].trigger()
    menu.close()
    assert [boundary.position_m for boundary in window.document.plan.boundaries] == [1.0, 2.0, 2.5, 3.0]


def test_words_come_anew_with_the_language(window: MainWindow) -> None:
    window.checks_dock.setWindowTitle("")
    window.files.save_action.setText("")
    window.section_commands.split_action.setText("")
    QApplication.sendEvent(window, QEvent(QEvent.Type.LanguageChange))
    assert window.checks_dock.windowTitle() == "Checks"
    assert window.files.save_action.text() == "&Save"
    assert window.section_commands.split_action.text() == "S&plit"


def test_an_untitled_plan_is_called_so(qtbot: QtBot, settings: QSettings) -> None:
    window = MainWindow(OpenPlan(plain_plan(2)), Preferences(settings))
    qtbot.addWidget(window, before_close_func=forget)
    with answering():
        window.files.new_action.trigger()
    assert window.windowTitle() == "Untitled[*] – Roving Lay"


def test_a_refusal_goes_when_the_plan_or_the_selection_moves_on(window: MainWindow) -> None:
    field = window.panes.inputs.fields["mass_g"]

    def refuse() -> None:
        field.setFocus()
        field.selectAll()
        QTest.keyClicks(field, "-5")
        QTest.keyClick(field, Qt.Key.Key_Return)
        assert field.message.isVisible()

    refuse()
    window.document.select("s3")
    assert not field.message.isVisible()
    refuse()
    drag_first_boundary(window, 60)
    assert not field.message.isVisible()
    assert field.text() == "100.0 g"


def test_a_refusal_is_shown_to_its_last_line(window: MainWindow) -> None:
    form = window.panes.stocks.form
    form.open_fields(True)
    QTest.keyClick(form.strength, Qt.Key.Key_A, CONTROL)
    QTest.keyClicks(form.strength, "0")
    QTest.keyClick(form.strength, Qt.Key.Key_Return)
    message = form.strength.message
    QApplication.processEvents()
    assert message.isVisible()
    assert message.height() >= message.heightForWidth(message.width())
