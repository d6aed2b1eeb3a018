"""If these fail, the list of liquors shows other jars than the bench needs, or renames the wrong liquor."""

from __future__ import annotations

from functools import partial

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QAbstractItemModelTester

from studio_gui.document.liquor_model import Column, LiquorModel
from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.edits.inputs import set_bench
from studio_gui.domain.edits.liquors import add_liquor, paint_amounts, to_depth_basis
from studio_gui.domain.edits.sections import change_section
from tests.document.heard import Announced


@pytest.fixture
def model(document: OpenPlan) -> LiquorModel:
    return LiquorModel(document)


def shown(model: LiquorModel, row: int) -> list[str]:
    return [str(model.index(row, column).data()) for column in range(len(Column))]


def test_a_jar_holds_what_all_its_sections_take_and_the_spare(model: LiquorModel) -> None:
    model.document.edit("", partial(set_bench, spare_share=0.1))
    assert shown(model, 0) == ["A", "Blue", "30 + 20", "Section 1 and Section 4", "137.5"]
    assert shown(model, 2) == ["C", "Red", "30 + 20", "Section 3", "68.8"]


def test_two_jars_of_one_liquor_are_shown_together(model: LiquorModel) -> None:
    # by depth at two wetnesses, the liquor is mixed twice: 62.5 ml and 80 ml, and the spare
    document = model.document
    document.edit("", partial(paint_amounts, section_id="s1", amounts_ml={"k1": 40.0, "k3": 40.0}))
    document.edit("", partial(to_depth_basis, liquor_id="q1"))
    assert len([jar for jar in document.sheet.make_up.jars if jar.liquor_id == "q1"]) == 2
    assert shown(model, 0)[Column.JAR] == "149.6"


def test_letter_and_name_are_typed(model: LiquorModel) -> None:
    assert model.setData(model.index(1, Column.LETTER), " S ")
    assert model.setData(model.index(1, Column.NAME), "Shell")
    assert shown(model, 1)[:2] == ["S", "Shell"]
    assert model.document.undo_stack.undoText() == "Rename liquor"
    for column in (Column.JAR, Column.MADE, Column.SECTIONS):
        assert not model.flags(model.index(1, column)) & Qt.ItemFlag.ItemIsEditable


@pytest.mark.parametrize(
    ("letter", "code"),
    [("A", "letter-taken"), (" C ", "letter-taken"), ("", "text-empty"), ("WXYZ", "text-too-long")],
)
def test_a_letter_that_cannot_be_is_refused(model: LiquorModel, letter: str, code: str) -> None:
    announced = Announced(model)
    assert not model.setData(model.index(1, Column.LETTER), letter)
    assert announced.codes == [code]
    assert shown(model, 1)[Column.LETTER] == "B"


def test_only_liquors_that_changed_are_announced(model: LiquorModel) -> None:
    tester = QAbstractItemModelTester(model, QAbstractItemModelTester.FailureReportingMode.Warning)
    announced = Announced(model)
    model.setData(model.index(2, Column.NAME), "Rust")
    assert (announced.rows, announced.layouts) == ([(2, 2)], 0)
    model.document.edit("", lambda plan: add_liquor(plan, "New")[0])
    assert (model.rowCount(), announced.layouts) == (4, 1)
    assert shown(model, 3) == ["D", "New", "empty", "not painted", "0.0"]
    assert tester.model() is model


def test_what_it_is_made_of_is_figures_in_the_cell_and_names_beside(model: LiquorModel) -> None:
    model.document.edit("", partial(to_depth_basis, liquor_id="q1"))
    made = model.index(0, Column.MADE)
    assert made.data() == "1.5 %"
    for role in (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleTextRole):
        assert made.data(role) == "1.5 % Blue + Acid water"
    assert model.index(0, Column.NAME).data(Qt.ItemDataRole.AccessibleTextRole) is None
    assert model.index(0, Column.NAME).data(Qt.ItemDataRole.ToolTipRole) == "Blue"
    poured = "131.3 ml = 78.8 ml Blue + 52.5 ml Acid water"
    assert model.index(0, Column.JAR).data(Qt.ItemDataRole.ToolTipRole) == poured


def test_sections_without_a_name_and_many_sections_are_told(model: LiquorModel) -> None:
    document = model.document
    for section in ("s1", "s2", "s3", "s4"):
        document.edit("", partial(change_section, section_id=section, liquor_id="q2", name=""))
    assert shown(model, 1)[Column.SECTIONS] == "no name, no name, no name and 1 more"
    assert shown(model, 0)[Column.SECTIONS] == "not painted"


def test_headings_say_what_is_under_them(model: LiquorModel) -> None:
    for column in (Column.LETTER, Column.MADE, Column.JAR, Column.SECTIONS):
        explained = model.headerData(column, Qt.Orientation.Horizontal, Qt.ItemDataRole.ToolTipRole)
        assert explained
    assert model.headerData(Column.NAME, Qt.Orientation.Horizontal, Qt.ItemDataRole.ToolTipRole) is None


def test_a_dragged_boundary_announces_amounts_alone(model: LiquorModel) -> None:
    announced = Announced(model)
    model.document.edit("", partial(move_boundary, index=1, position_m=2.2))
    assert announced.columns
    assert set(announced.columns) == {(Column.JAR, Column.JAR)}
