"""If these fail, the tables of the yarn tell other metres, or of other liquors, than the worksheet has."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QObject, Qt

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.row_model import SEVERITY_ROLE
from studio_gui.document.yarn_models import FigureModel, LeftoverModel, PairModel, RunModel
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.plan import Plan
from studio_gui.domain.yarn import Strip
from tests.scenes.scene_plans import four_gates, lantern_row

pytestmark = pytest.mark.usefixtures("qapp")


def cells(model: FigureModel, row: int) -> list[str]:
    return [str(model.index(row, column).data()) for column in range(model.columnCount())]


def headings(model: FigureModel) -> list[str]:
    return [str(model.headerData(column, Qt.Orientation.Horizontal)) for column in range(model.columnCount())]


def thirds_by_eye() -> Plan:
    return set_yarn(lantern_row(), structure="lengthwise", splits=(42.0, 39.0, 39.0))


def test_leftovers_are_told_by_ply_in_metres_grams_and_share() -> None:
    model = LeftoverModel(OpenPlan(thirds_by_eye()))
    assert headings(model) == ["Ply", "spun, m", "left, m", "g", "%", "State"]
    assert cells(model, 0) == ["1", "378.0", "27.0", "3.0", "7.1", "warning"]
    assert cells(model, 2) == ["3", "351.0", "0.0", "0.0", "0.0", "fine"]
    assert model.index(0, 5).data(SEVERITY_ROLE) == "warning"


def test_leftovers_are_judged_by_the_plans_own_limits() -> None:
    document = OpenPlan(thirds_by_eye())
    model = LeftoverModel(document)
    document.edit("", lambda plan: set_yarn(plan, warn_share=0.08))
    assert cells(model, 0)[-1] == "note"


def test_pairs_name_the_first_strand_first() -> None:
    model = PairModel(OpenPlan(four_gates(*[Strip()] * 4)))
    found = {cells(model, row)[0]: cells(model, row)[1:] for row in range(model.rowCount())}
    assert len(found) == 16
    assert found["B/D"] == ["6.3", "5.9", "1.3", "barber-pole"]
    assert found["D/B"] == ["25.0", "23.8", "5.0", "barber-pole"]
    assert found["C"] == ["37.5", "35.6", "7.5", "solid"]


def test_loops_of_a_chain_that_mix_two_colours_are_smeared() -> None:
    model = PairModel(OpenPlan(lantern_row()))
    found = {cells(model, row)[0]: cells(model, row)[-1] for row in range(model.rowCount())}
    assert (found["A"], found["A/B"]) == ("solid", "smeared")


def test_runs_are_told_from_the_start_of_the_yarn() -> None:
    model = RunModel(OpenPlan(lantern_row()))
    assert headings(model) == ["from, m", "m", "Liquors", "Look"]
    assert [cells(model, row) for row in range(model.rowCount())] == [
        ["0.0", "84.6", "A", "solid"],
        ["84.6", "56.4", "B", "solid"],
        ["141.0", "112.8", "C", "solid"],
        ["253.8", "84.6", "D", "solid"],
    ]
    assert model.plain(1, 1) == "56.4"


def test_only_what_changed_is_announced(qapp: QObject) -> None:  # noqa: ARG001  (models need an application)
    document = OpenPlan(lantern_row())
    model = RunModel(document)
    changed: list[tuple[int, int]] = []
    model.dataChanged.connect(lambda first, last: changed.append((first.row(), last.row())))
    document.edit("", lambda plan: move_boundary(plan, 2, 3.7))
    assert changed == [(2, 3)]


def test_nothing_is_typed_into_figures() -> None:
    model = RunModel(OpenPlan(lantern_row()))
    assert not model.flags(model.index(0, 1)) & Qt.ItemFlag.ItemIsEditable
