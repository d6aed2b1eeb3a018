"""If these fail, what the canvas does by hand cannot be done in the table by keys, or does something else."""

from __future__ import annotations

from functools import partial

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAction, QContextMenuEvent, QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QMenu, QMessageBox
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.section_rows import Column
from studio_gui.domain.edits.boundaries import lengths_m
from studio_gui.domain.edits.sections import change_section, set_locked
from studio_gui.views.section_commands import SectionCommands
from studio_gui.views.section_table import SectionTable
from tests.views.dialogs import answering, cancel
from tests.views.keys import CONTROL, cell_middle, click_cell, shown, steps, type_on


@pytest.fixture
def table(document: OpenPlan, qtbot: QtBot) -> SectionTable:
    table = shown(SectionTable(document), qtbot, 1080, 300)
    commands = SectionCommands(document, table)
    table.addActions(commands.actions)
    table.offer(commands.actions, commands.remove_action)
    return table


def menu_at(table: SectionTable, row: int, column: int) -> QMenu:
    """Click a cell with the right button, and return the menu that opens."""
    click_cell(table.view, row, column)
    there = cell_middle(table.view, row, column)
    viewport = table.view.viewport()
    event = QContextMenuEvent(QContextMenuEvent.Reason.Mouse, there, viewport.mapToGlobal(there))
    QApplication.sendEvent(viewport, event)
    return opened()


def opened() -> QMenu:
    QApplication.processEvents()
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    return menu


def entry(menu: QMenu, words: str) -> QAction:
    found = [action for action in menu.actions() if words in action.text().replace("&", "")]
    assert len(found) == 1, [action.text() for action in menu.actions()]
    return found[0]


def pick(menu: QMenu, words: str) -> None:
    QTest.mouseClick(menu, Qt.MouseButton.LeftButton, pos=menu.actionGeometry(entry(menu, words)).center())
    QApplication.processEvents()


def copied() -> str:
    return QGuiApplication.clipboard().text()


def paste(table: SectionTable, text: str) -> None:
    QGuiApplication.clipboard().setText(text)
    QTest.keyClick(table.view, Qt.Key.Key_V, CONTROL)
    QApplication.processEvents()


def make_sections(dialog: QDialog) -> None:
    assert isinstance(dialog, QMessageBox)
    button = next(one for one in dialog.buttons() if "Make" in one.text())
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


# -- the menu ------------------------------------------------------------------------------------------------


def test_a_cell_that_can_be_typed_into_is_opened_from_the_menu(
    table: SectionTable, document: OpenPlan
) -> None:
    pick(menu_at(table, 1, Column.NAME), "Type in “Section”")
    type_on("Shell")
    assert document.plan.sections[1].name == "Shell"
    menu = menu_at(table, 1, Column.DEPTH)
    assert not [action for action in menu.actions() if "Type in" in action.text()]
    menu.close()


@pytest.mark.parametrize(
    ("words", "ids"),
    [
        ("Split", ["s1", "s2", "s5", "s3", "s4"]),
        ("Merge", ["s1", "s2", "s4"]),
        ("Duplicate", ["s1", "s2", "s5", "s3", "s4"]),
        ("Move up", ["s2", "s1", "s3", "s4"]),
        ("Move down", ["s1", "s3", "s2", "s4"]),
        ("Take out", ["s1", "s3", "s4"]),
        ("Reverse", ["s4", "s3", "s2", "s1"]),
    ],
)
def test_every_edit_of_sections_is_in_the_menu(
    words: str, ids: list[str], table: SectionTable, document: OpenPlan
) -> None:
    pick(menu_at(table, 1, Column.LENGTH), words)
    assert [section.id for section in document.plan.sections] == ids
    assert len(steps(document)) == 1


def test_the_menu_opens_by_the_keyboard_at_the_current_cell(table: SectionTable) -> None:
    click_cell(table.view, 2, Column.NAME)
    event = QContextMenuEvent(QContextMenuEvent.Reason.Keyboard, QPoint(-1, -1), QPoint(-1, -1))
    QApplication.sendEvent(table.view.viewport(), event)
    menu = opened()
    assert entry(menu, "Type in “Section”").isEnabled()
    menu.close()


def test_several_sections_get_a_liquor_at_once(table: SectionTable, document: OpenPlan) -> None:
    click_cell(table.view, 0, Column.NAME)
    menu = menu_at(table, 0, Column.NAME)
    menu.close()
    document.select("s1", "s2")
    table.actions_here.menu(table.model.index(0, 0)).actions()
    menu = table.actions_here.menu(table.model.index(0, int(Column.NAME)))
    liquors = next(action.menu() for action in menu.actions() if isinstance(action.menu(), QMenu))
    assert isinstance(liquors, QMenu)
    assert [action.isChecked() for action in liquors.actions()] == [False, False, False]
    entry(liquors, "C Red").trigger()
    assert [section.liquor_id for section in document.plan.sections] == ["q3", "q3", "q3", "q1"]
    assert steps(document) == ["Choose liquor"]


def test_liquid_follows_the_fibre_again(table: SectionTable, document: OpenPlan) -> None:
    document.edit("", partial(change_section, section_id="s2", fixed_ml=50.0))
    pick(menu_at(table, 1, Column.LIQUID), "follow the fibre")
    assert document.plan.sections[1].fixed_ml is None


def test_the_delete_key_takes_the_selected_sections_out(table: SectionTable, document: OpenPlan) -> None:
    click_cell(table.view, 1, Column.NAME)
    click_cell(table.view, 2, Column.NAME, CONTROL)
    QTest.keyClick(table.view, Qt.Key.Key_Delete)
    assert [section.id for section in document.plan.sections] == ["s1", "s4"]
    assert document.selected_ids == ("s4",), "the keys go on where the sections were"


def test_sections_are_moved_by_keys(table: SectionTable, document: OpenPlan) -> None:
    click_cell(table.view, 0, Column.NAME)
    QTest.keyClick(table.view, Qt.Key.Key_Down, CONTROL | Qt.KeyboardModifier.ShiftModifier)
    assert [section.id for section in document.plan.sections] == ["s2", "s1", "s3", "s4"]
    assert document.selected_ids == ("s1",)
    assert table.view.currentIndex().row() == 1


# -- copy and paste ------------------------------------------------------------------------------------------


def test_the_selected_rows_are_copied_under_their_headings(table: SectionTable) -> None:
    click_cell(table.view, 1, Column.NAME)
    QTest.keyClick(table.view, Qt.Key.Key_C, CONTROL)
    lines = copied().splitlines()
    assert len(lines) == 2
    assert lines[0].startswith("liquor\tsection\tfrom, cm\tto, cm\tlength, cm")
    assert "per roving" not in lines[0], "what is hidden is not copied"
    assert lines[1].startswith("B\tSection 2\t100\t200\t100\t25\t")


def test_pasted_lengths_fill_the_lay_and_the_factor_is_said(table: SectionTable, document: OpenPlan) -> None:
    click_cell(table.view, 0, Column.NAME)
    paste(table, "80 cm\n0,8 m\n31.5 in\n79,99 cm")
    assert lengths_m(document.plan) == pytest.approx([1.0] * 4, abs=2e-4)
    assert steps(document) == ["Paste lengths"]
    assert table.note.text().startswith("Lengths taken: 4, each multiplied by 1.25")
    paste(table, "1 m; 50; 50; 2 m")
    assert table.note.text() == "Lengths taken as they are: 4."


def test_a_selected_run_is_filled_when_the_list_fits_it(table: SectionTable, document: OpenPlan) -> None:
    document.select("s2", "s3")
    paste(table, "50\t150")
    assert document.plan.edges_m == pytest.approx((0.0, 1.0, 1.5, 3.0, 4.0))


def test_one_length_for_one_section_is_its_length(table: SectionTable, document: OpenPlan) -> None:
    click_cell(table.view, 1, Column.NAME)
    paste(table, "80 cm")
    assert document.plan.edges_m == pytest.approx((0.0, 1.0, 1.8, 3.0, 4.0))
    assert steps(document) == ["Set length"]


def test_what_is_no_list_is_said_and_nothing_changes(table: SectionTable, document: OpenPlan) -> None:
    paste(table, "80\nlong\n40\n40")
    assert table.message.text().startswith("“long” is not a number.")
    paste(table, "80\n80\n80\n0")
    assert "Section 4" in table.message.text()
    document.edit("", partial(set_locked, section_ids=("s2",), locked=True))
    paste(table, "50; 100; 100; 150")
    assert "locked" in table.message.text()
    assert document.plan.edges_m == pytest.approx((0.0, 1.0, 2.0, 3.0, 4.0))


def test_more_or_fewer_lengths_are_said_and_nothing_is_made_unasked(
    table: SectionTable, document: OpenPlan
) -> None:
    with answering(cancel) as said:
        paste(table, "80; 80; 80; 80; 80")
    assert said == ["Lengths found: 5. Needed: 4, one for each section."]
    assert steps(document) == []


@pytest.mark.parametrize(
    ("text", "ids"), [("80; 40", ["s1", "s2"]), ("1;1;1;1;2", ["s1", "s2", "s3", "s4", "s5"])]
)
def test_sections_are_made_from_the_list_when_that_is_chosen(
    text: str, ids: list[str], table: SectionTable, document: OpenPlan
) -> None:
    with answering(make_sections):
        paste(table, text)
    assert [section.id for section in document.plan.sections] == ids
    assert steps(document) == ["Make sections from lengths"]
    assert table.note.isVisible()
