"""If these fail, the parts of the window do not belong together: one shows what another has not done."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QPoint, QSettings, Qt
from PySide6.QtGui import QCloseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QMenu, QMessageBox
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
    return "panes" in window.__dict__


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


def test_the_keyboard_starts_on_the_lay(window: MainWindow) -> None:
    assert window.focusWidget() is window.canvas


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
    assert window.statusBar().currentMessage() == "Undid: Move boundary A | B"
    window.redo_action.trigger()
    assert window.document.plan is after
    assert window.statusBar().currentMessage() == "Redid: Move boundary A | B"


def test_undo_and_redo_have_keys(window: MainWindow) -> None:
    before = window.document.plan
    drag_first_boundary(window, 60)
    QTest.keyClick(window, Qt.Key.Key_Z, CONTROL)
    assert window.document.plan is before
    assert window.redo_action.shortcuts()
    assert window.menus.quit_action.shortcuts()


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
    assert window.windowTitle() == "Plain (mine.roving.json)[*] – Roving Lay"
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
    window.docks.inputs.hide()
    window.resize(790, 640)
    size = window.size()
    window.close()
    again = MainWindow(OpenPlan(plain_plan(2)), Preferences(settings))
    qtbot.addWidget(again)
    with qtbot.waitExposed(again):
        again.show()
    assert again.size() == size
    assert again.docks.inputs.isHidden()
    assert not again.docks.stocks.isHidden()


def test_the_canvas_s_context_menu_opens_where_asked(window: MainWindow) -> None:
    canvas = window.canvas
    canvas.menu_wanted.emit(canvas.mapToGlobal(QPoint(300, 200)), canvas.lay.item("section", 2), 2.5)
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    menu.actions()[0].trigger()
    menu.close()
    assert [boundary.position_m for boundary in window.document.plan.boundaries] == [1.0, 2.0, 2.5, 3.0]


def test_words_come_anew_with_the_language(window: MainWindow) -> None:
    window.docks.checks.setWindowTitle("")
    window.files.save_action.setText("")
    window.section_commands.split_action.setText("")
    QApplication.sendEvent(window, QEvent(QEvent.Type.LanguageChange))
    assert window.docks.checks.windowTitle() == "Checks"
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


@pytest.mark.parametrize(
    "title",
    [
        "Slate " * 60,
        "\u0635\u0648\u0641 \u0623\u0632\u0631\u0642",
        "\U0001f9f6 fold [*] over",
        "two\nlines",
        "\u202edrawkcab",
    ],
    ids=["long", "from the right", "emoji", "lines", "directing"],
)
def test_any_title_fits_the_title_bar(window: MainWindow, title: str) -> None:
    window.document.edit("Title", lambda plan: replace(plan, title=title))
    shown = window.windowTitle()
    assert shown.endswith("[*] – Roving Lay")
    assert len(shown) < 160
    assert shown.count("[*]") == 1
    assert "\n" not in shown
    assert "\u202e" not in shown


def test_a_new_plan_says_what_to_do_first(window: MainWindow) -> None:
    window.files.new_action.trigger()
    hints = [label.text() for label in window.statusBar().findChildren(QLabel)]
    assert any("set weight and length" in hint for hint in hints)
    window.document.replace(plain_plan(2))
    hints = [label.text() for label in window.statusBar().findChildren(QLabel)]
    assert any(hint.startswith("Drag a peg") for hint in hints)


def test_the_undo_list_goes_back_and_forth(window: MainWindow) -> None:
    before = window.document.plan
    drag_first_boundary(window, 60)
    drag_first_boundary(window, -20)
    after = window.document.plan
    window.docks.steps.toggleViewAction().trigger()
    view = window.panes.steps
    QApplication.processEvents()
    names = [view.model().index(row, 0).data() for row in range(view.model().rowCount())]
    assert names == ["Opened plan", "Move boundary A | B", "Move boundary A | B"]
    first = view.visualRect(view.model().index(0, 0)).center()
    QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, first)
    assert window.document.plan is before
    for _ in range(2):
        QTest.keyClick(view, Qt.Key.Key_Down)
    assert window.document.plan is after


def test_the_window_fits_a_small_screen(window: MainWindow) -> None:
    assert window.minimumSizeHint().width() <= 1024
    assert window.minimumSizeHint().height() <= 660, "less the window's frame"
