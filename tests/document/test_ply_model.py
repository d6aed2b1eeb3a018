"""If these fail, a cell of the free plies sets another number than its heading says, or another ply's."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import QObject, Qt

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.ply_model import Column, PlyModel
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.yarn import Ply, Strip
from tests.scenes.scene_plans import four_gates

PLIES = (Ply(cross_section=0.5), Ply(cross_section=0.5, strips=(Strip(14.0), Strip(12.0, flipped=True))))


@pytest.fixture
def document(qapp: QObject) -> OpenPlan:  # noqa: ARG001  (models need an application)
    plan = four_gates(Strip())
    plan = replace(plan, fibre=replace(plan.fibre, rovings=2))
    return OpenPlan(set_yarn(plan, structure="free", plies=PLIES))


@pytest.fixture
def model(document: OpenPlan) -> PlyModel:
    return PlyModel(document)


def test_a_row_says_what_its_ply_is_spun_from(model: PlyModel) -> None:
    cells = [[model.index(row, column).data() for column in range(len(Column))] for row in range(2)]
    assert cells[0] == ["1", "1", "0.0", "100.0", "50.0", "0.0", "1", ""]
    assert cells[1] == ["2", "1", "0.0", "100.0", "50.0", "0.0", "2", "2"]


@pytest.mark.parametrize(
    ("column", "typed", "wanted"),
    [
        (Column.ROVING, "2", {"roving": 2}),
        (Column.FROM, "25", {"from_share": 0.25}),
        (Column.TO, "50 %", {"to_share": 0.5}),
        (Column.THICKNESS, "30", {"cross_section": 0.3}),
        (Column.OFFSET, "10 yd", {"offset_m": 9.144}),
    ],
)
def test_a_cell_sets_its_own_number_of_its_own_ply(
    column: int, typed: str, wanted: dict[str, float], model: PlyModel, document: OpenPlan
) -> None:
    assert model.setData(model.index(1, column), typed)
    assert document.plan.yarn.plies == (PLIES[0], replace(PLIES[1], **wanted))  # type: ignore[arg-type]  # one field
    assert document.undo_stack.count() == 1


def test_strips_are_counted_in_the_table(model: PlyModel, document: OpenPlan) -> None:
    assert model.setData(model.index(1, Column.STRIPS), "3")
    assert document.plan.yarn.plies[1].strips == (*PLIES[1].strips, Strip(13.0))


@pytest.mark.parametrize(
    ("column", "typed", "code"),
    [
        (Column.THICKNESS, "60", "plies-take-too-much"),
        (Column.TO, "0", "ply-without-fibre"),
        (Column.ROVING, "3", "ply-from-no-roving"),
        (Column.ROVING, "1.5", "not-a-whole-number"),
        (Column.STRIPS, "9", "out-of-range"),
    ],
)
def test_what_cannot_be_spun_is_refused(
    column: int, typed: str, code: str, model: PlyModel, document: OpenPlan
) -> None:
    refused: list[RovingLayError] = []
    model.refused.connect(refused.append)
    assert not model.setData(model.index(1, column), typed)
    assert [error.code for error in refused] == [code]
    assert document.plan.yarn.plies == PLIES


def test_number_and_flips_are_only_told(model: PlyModel) -> None:
    for column in (Column.NUMBER, Column.FLIPPED):
        assert not model.flags(model.index(0, column)) & Qt.ItemFlag.ItemIsEditable
    assert not model.setData(
        model.index(0, Column.FROM), model.index(0, Column.FROM).data(Qt.ItemDataRole.EditRole)
    )


def test_another_structure_has_no_free_plies(model: PlyModel, document: OpenPlan) -> None:
    document.edit("", lambda plan: set_yarn(plan, structure="single"))
    assert model.rowCount() == 0


def test_every_heading_is_explained_but_the_number(model: PlyModel) -> None:
    told = [model.heading_explained(column) for column in range(len(Column))]
    assert [column for column, words in enumerate(told) if not words] == [Column.NUMBER]
