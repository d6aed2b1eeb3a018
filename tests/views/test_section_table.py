"""If these fail, the table selects or changes another section than the one under the pointer."""

from __future__ import annotations

from functools import partial

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.section_rows import Column
from studio_gui.domain.edits.boundaries import move_boundary, reverse
from studio_gui.domain.edits.inputs import set_fibre
from studio_gui.domain.edits.sections import change_section, duplicate, merge, split
from studio_gui.views.section_table import SectionTable
from tests.drawing.plans import plain_plan
from tests.views.keys import (
    CONTROL,
    ESC,
    NONE,
    cell_middle,
    choose,
    click_cell,
    shown,
    steps,
    type_into_cell,
    type_on,
)

SHIFT = Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def table(document: OpenPlan, qtbot: QtBot) -> SectionTable:
    return shown(SectionTable(document), qtbot, 1080, 240)


def selected_rows(table: SectionTable) -> list[int]:
    return sorted(index.row() for index in table.view.selectionModel().selectedRows())


def test_a_clicked_row_is_the_selected_section(table: SectionTable, document: OpenPlan) -> None:
    click_cell(table.view, 2, Column.FIBRE)
    assert document.selected_ids == ("s3",)
    QTest.keyClick(table.view, Qt.Key.Key_Up)
    assert document.selected_ids == ("s2",)


@pytest.mark.parametrize(("modifier", "ids"), [(CONTROL, ("s1", "s4")), (SHIFT, ("s1", "s2", "s3", "s4"))])
def test_several_rows_are_several_sections(
    modifier: Qt.KeyboardModifier, ids: tuple[str, ...], table: SectionTable, document: OpenPlan
) -> None:
    click_cell(table.view, 0, Column.NAME)
    click_cell(table.view, 3, Column.NAME, modifier)
    assert document.selected_ids == ids


def test_sections_selected_elsewhere_are_the_selected_rows(table: SectionTable, document: OpenPlan) -> None:
    document.select("s2", "s4")
    assert selected_rows(table) == [1, 3]
    assert table.view.currentIndex().row() == 1, "the keys go on from there"
    assert document.selected_ids == ("s2", "s4"), "and nothing comes back from the table"


def test_the_selection_goes_along_when_sections_come_or_change_places(
    table: SectionTable, document: OpenPlan
) -> None:
    document.select("s3")
    document.edit("", partial(split, index=0, position_m=0.5))
    assert (document.selected_ids, selected_rows(table)) == (("s3",), [3])
    document.edit("", reverse)
    assert (document.selected_ids, selected_rows(table)) == (("s3",), [1])
    document.replace(plain_plan(2))
    assert (document.selected_ids, selected_rows(table)) == (("s1",), [0])


def test_what_a_merge_takes_from_the_selection_comes_back_with_undo(
    table: SectionTable, document: OpenPlan
) -> None:
    document.select("s2", "s3")
    document.edit("", partial(merge, first=0, last=1))
    assert selected_rows(table) == [1]
    document.undo_stack.undo()
    assert (document.selected_ids, selected_rows(table)) == (("s2", "s3"), [1, 2])


def test_a_section_far_down_is_brought_into_view(table: SectionTable, document: OpenPlan) -> None:
    document.replace(plain_plan(40))
    document.select("s33")
    assert table.view.viewport().rect().contains(cell_middle(table.view, 32, Column.NAME))


def test_a_name_is_typed_in_place(table: SectionTable, document: OpenPlan) -> None:
    type_into_cell(table.view, 1, Column.NAME, "Shell")
    assert document.plan.sections[1].name == "Shell"
    assert steps(document) == ["Rename section"]


def test_typing_at_once_replaces_the_amount(table: SectionTable, document: OpenPlan) -> None:
    click_cell(table.view, 1, Column.LIQUID)
    QTest.keyClick(table.view, Qt.Key.Key_5)
    type_on("0 ml")
    assert document.plan.sections[1].fixed_ml == 50.0


def test_a_typed_length_trades_with_the_neighbour(table: SectionTable, document: OpenPlan) -> None:
    type_into_cell(table.view, 1, Column.LENGTH, "80")
    assert [boundary.position_m for boundary in document.plan.boundaries] == pytest.approx([1.0, 1.8, 3.0])


def test_what_a_cell_does_not_take_is_said_below_and_goes_with_the_next_row(
    table: SectionTable, document: OpenPlan
) -> None:
    before = document.plan
    type_into_cell(table.view, 1, Column.LENGTH, "long")
    assert table.message.isVisible()
    assert "long" in table.message.text()
    assert table.view.accessibleDescription() == table.message.text()
    assert document.plan is before
    assert table.view.model().index(1, Column.LENGTH).data() == "100.0"
    click_cell(table.view, 2, Column.NAME)
    assert not table.message.isVisible()


def test_a_refused_length_names_the_locked_section(table: SectionTable, document: OpenPlan) -> None:
    document.edit("", partial(change_section, section_id="s3", locked=True))
    type_into_cell(table.view, 1, Column.LENGTH, "80")
    assert table.message.text().startswith("C Section 3 is locked")


def test_esc_leaves_a_cell_as_it_was(table: SectionTable, document: OpenPlan) -> None:
    type_into_cell(table.view, 1, Column.NAME, "Shell", ESC)
    assert steps(document) == []
    assert table.view.hasFocus()


def test_a_liquor_is_chosen_from_the_list(table: SectionTable, document: OpenPlan) -> None:
    click_cell(table.view, 0, Column.LETTER)
    QTest.keyClick(table.view, Qt.Key.Key_F2)
    box = table.view.findChild(QComboBox)
    assert isinstance(box, QComboBox)
    assert box.currentText() == "A Blue"
    choose(box, "C Red")
    assert document.plan.sections[0].liquor_id == "q3"
    assert steps(document) == ["Choose liquor"]


def test_a_tick_locks(table: SectionTable, document: OpenPlan) -> None:
    place = table.view.visualRect(table.model.index(1, Column.LOCKED))
    QTest.mouseClick(
        table.view.viewport(),
        Qt.MouseButton.LeftButton,
        NONE,
        place.topLeft() + QPoint(12, place.height() // 2),
    )
    assert document.plan.sections[1].locked


def test_ml_per_roving_is_shown_where_there_are_several(table: SectionTable, document: OpenPlan) -> None:
    assert table.view.isColumnHidden(Column.PER_ROVING)
    document.edit("", partial(set_fibre, rovings=4))
    assert not table.view.isColumnHidden(Column.PER_ROVING)


def test_dragging_takes_no_focus_closes_no_editor_and_keeps_the_place(
    table: SectionTable, document: OpenPlan
) -> None:
    for _ in range(5):
        document.edit("", partial(duplicate, index=0))
    QApplication.processEvents()
    bar = table.view.verticalScrollBar()
    bar.setValue(bar.maximum())
    place = bar.value()
    assert place > 0
    click_cell(table.view, 7, Column.NAME)
    QTest.keyClick(table.view, Qt.Key.Key_F2)
    editor = table.view.findChild(QLineEdit)
    assert isinstance(editor, QLineEdit)
    QTest.keyClicks(editor, "She")
    plan = document.plan
    document.preview(move_boundary(plan, 1, plan.boundaries[1].position_m + 0.05))
    assert editor.isVisible()
    assert (editor.hasFocus(), editor.text(), bar.value()) == (True, "She", place)


def test_figures_have_room_and_names_get_the_rest(table: SectionTable) -> None:
    view = table.view
    for column in Column:
        if not view.isColumnHidden(column) and column != Column.STATE:
            text = str(table.model.index(0, column).data() or "")
            assert view.fontMetrics().horizontalAdvance(text) < view.columnWidth(column)
    assert view.horizontalHeader().length() == view.viewport().width()
    table.resize(400, 240)
    assert view.columnWidth(Column.NAME) >= 80
