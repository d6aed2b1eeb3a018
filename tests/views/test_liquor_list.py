"""If these fail, a liquor is lost or renamed unasked, or picking one picks sections of another."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.liquor_model import Column, LiquorModel
from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.liquors import add_liquor
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.plan import Plan
from studio_gui.views.liquor_list import LiquorList
from studio_gui.views.removal import RemovalQuestion
from tests.views.dialogs import answering, cancel
from tests.views.keys import ESC, choose, click_cell, shown, steps, type_into_cell, type_on

LEFT, ALT = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.AltModifier


@pytest.fixture
def liquors(document: OpenPlan, qtbot: QtBot) -> LiquorList:
    return shown(LiquorList(document, LiquorModel(document)), qtbot, 290, 400)


def click(button: QWidget) -> None:
    QTest.mouseClick(button, LEFT)
    QApplication.processEvents()


def letters(document: OpenPlan) -> str:
    return "".join(liquor.letter for liquor in document.plan.liquors)


def test_a_liquor_is_added_with_the_next_letter_and_named(liquors: LiquorList, document: OpenPlan) -> None:
    click(liquors.add)
    type_on("Quince")
    liquor = document.plan.liquors[-1]
    assert (liquor.letter, liquor.name, liquor.is_empty) == ("D", "Quince", True)
    assert steps(document) == ["Add liquor", "Rename liquor"]


def test_a_copy_has_the_same_in_it(liquors: LiquorList, document: OpenPlan) -> None:
    click_cell(liquors.table, 1, Column.NAME)
    liquors.copy_command.trigger()
    QApplication.processEvents()
    type_on("x", ESC)
    original, copy = document.plan.liquors[1], document.plan.liquors[-1]
    assert (copy.letter, copy.name, copy.parts) == ("D", "Pale copy", original.parts)


def test_letter_and_name_are_typed_in_place(liquors: LiquorList, document: OpenPlan) -> None:
    type_into_cell(liquors.table, 0, Column.LETTER, "K")
    type_into_cell(liquors.table, 0, Column.NAME, "Kelp")
    assert (document.plan.liquors[0].letter, document.plan.liquors[0].name) == ("K", "Kelp")


def test_a_letter_that_is_taken_is_answered_with_whose_it_is(liquors: LiquorList) -> None:
    type_into_cell(liquors.table, 0, Column.LETTER, "B")
    assert liquors.message.text() == "The letter B is that of liquor B Pale. Choose another, such as D."


def test_picking_a_liquor_picks_its_sections_by_mouse_and_by_keys(
    liquors: LiquorList, document: OpenPlan
) -> None:
    click_cell(liquors.table, 1, Column.NAME)
    assert list(document.selected_ids) == ["s2"]
    QTest.keyClick(liquors.table, Qt.Key.Key_Up)
    assert list(document.selected_ids) == ["s1", "s4"]
    document.select("s4")
    assert liquors.current_id == "q1"
    click_cell(liquors.table, 0, Column.NAME)
    assert document.selected_ids == ("s1", "s4"), "a click on the current row picks all of them again"


def test_picking_a_section_picks_its_liquor_and_no_other_section(
    liquors: LiquorList, document: OpenPlan
) -> None:
    document.select("s3")
    assert liquors.current_id == "q3"
    document.select("s4")
    assert (liquors.current_id, document.selected_ids) == ("q1", ("s4",))
    document.select()
    assert liquors.current_id == "q1"


def test_the_list_goes_along_to_a_liquor_that_comes_back_with_its_section(
    liquors: LiquorList, document: OpenPlan
) -> None:
    first = document.plan.sections[0]
    document.select(first.id)

    def paint(plan: Plan) -> Plan:
        changed, liquor_id = add_liquor(plan, "Quince", plan.liquors[0].parts)
        return change_section(changed, first.id, liquor_id=liquor_id)

    document.edit("Paint", paint)
    QApplication.processEvents()
    document.undo_stack.undo()
    QApplication.processEvents()
    assert liquors.current_id == first.liquor_id
    document.undo_stack.redo()
    QApplication.processEvents()
    assert liquors.current_id == document.plan.sections[0].liquor_id != first.liquor_id


def test_a_liquor_painted_nowhere_leaves_the_selection_alone(liquors: LiquorList, document: OpenPlan) -> None:
    document.edit("", lambda plan: add_liquor(plan, "Spare")[0])
    document.select("s2")
    click_cell(liquors.table, 3, Column.NAME)
    assert (liquors.current_id, document.selected_ids) == ("q4", ("s2",))


def test_liquors_change_places_and_keep_their_letters(liquors: LiquorList, document: OpenPlan) -> None:
    click_cell(liquors.table, 0, Column.NAME)
    QTest.keyClick(liquors.table, Qt.Key.Key_Down, ALT)
    assert letters(document) == "BAC"
    assert document.selected_ids == ("s1", "s4")
    QTest.keyClick(liquors.table, Qt.Key.Key_Up, ALT)
    assert letters(document) == "ABC"


def test_an_unused_liquor_goes_without_a_question(liquors: LiquorList, document: OpenPlan) -> None:
    document.edit("", lambda plan: add_liquor(plan, "Spare")[0])
    click_cell(liquors.table, 3, Column.NAME)
    QTest.keyClick(liquors.table, Qt.Key.Key_Delete)
    assert letters(document) == "ABC"


def test_a_used_liquor_is_asked_about_with_its_sections_and_may_stay(
    liquors: LiquorList, document: OpenPlan
) -> None:
    before = document.plan
    click_cell(liquors.table, 0, Column.NAME)
    with answering(cancel) as said:
        click(liquors.remove)
    assert said == ["A Blue is painted on Section 1 and Section 4."]
    assert document.plan is before


def test_its_sections_are_painted_with_another_in_one_step(liquors: LiquorList, document: OpenPlan) -> None:
    def paint_red(dialog: QDialog) -> None:
        assert isinstance(dialog, RemovalQuestion)
        (box,) = dialog.boxes
        assert box is not None
        choose(box, "C Red")
        QTest.mouseClick(dialog.remove, LEFT)

    click_cell(liquors.table, 0, Column.NAME)
    with answering(paint_red):
        click(liquors.remove)
    assert letters(document) == "BC"
    assert [section.liquor_id for section in document.plan.sections] == ["q3", "q2", "q3", "q3"]
    assert steps(document) == ["Remove liquor"]


def test_the_only_liquor_is_refused_with_what_to_do_first(liquors: LiquorList, document: OpenPlan) -> None:
    for section in ("s2", "s3"):
        document.edit("", partial(change_section, section_id=section, liquor_id="q1"))
    document.edit("", lambda plan: replace(plan, liquors=plan.liquors[:1]))
    click_cell(liquors.table, 0, Column.NAME)
    click(liquors.remove)
    assert letters(document) == "A"
    assert "another liquor first" in liquors.message.text()


def test_commands_without_a_liquor_do_nothing(liquors: LiquorList, document: OpenPlan) -> None:
    liquors.table.setCurrentIndex(liquors.model.index(-1, -1))
    click(liquors.remove)
    for command in liquors.table.menu.actions():
        command.trigger()
    assert steps(document) == []
