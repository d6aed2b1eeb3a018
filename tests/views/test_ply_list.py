"""If these fail, a free ply is added, taken away or split elsewhere than where it was wanted."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.document.ply_model import Column
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.yarn import Ply, Strip
from studio_gui.views.ply_list import PlyList
from tests.scenes.scene_plans import four_gates
from tests.views.keys import choose, shown, type_into


@pytest.fixture
def document() -> OpenPlan:
    plies = (Ply(to_share=0.5), Ply(from_share=1.0, to_share=0.5))
    return OpenPlan(set_yarn(four_gates(Strip()), structure="free", plies=plies))


@pytest.fixture
def plies(document: OpenPlan, qtbot: QtBot) -> PlyList:
    return shown(PlyList(document), qtbot, 340, 500)


def select(plies: PlyList, row: int) -> None:
    there = plies.table.visualRect(plies.model.index(row, Column.NUMBER)).center()
    QTest.mouseClick(plies.table.viewport(), Qt.MouseButton.LeftButton, pos=there)


def test_a_ply_is_added_beside_the_selected_one_and_taken_away(plies: PlyList, document: OpenPlan) -> None:
    before = document.plan.yarn.plies
    select(plies, 1)
    QTest.mouseClick(plies.add, Qt.MouseButton.LeftButton)
    assert [ply.cross_section for ply in document.plan.yarn.plies] == [1.0, 0.5, 0.5]
    assert (plies.ply, plies.table.hasFocus()) == (3, True), "the new one is gone on with"
    select(plies, 0)
    QTest.mouseClick(plies.remove, Qt.MouseButton.LeftButton)
    assert [ply.cross_section for ply in document.plan.yarn.plies] == [0.5, 0.5]
    document.undo_stack.undo()
    document.undo_stack.undo()
    assert document.plan.yarn.plies == before


def test_strips_are_those_of_the_selected_ply(plies: PlyList, document: OpenPlan) -> None:
    select(plies, 1)
    choose(plies.strips.count, "3")
    type_into(plies.strips.fields[2], "20")
    QTest.keyClick(plies.strips.ticks[0], Qt.Key.Key_Space)
    first, second = document.plan.yarn.plies
    assert first.strips == (Strip(),)
    assert second.strips == (Strip(flipped=True), Strip(), Strip(20.0))
    assert plies.strips.heading.text() == "Strips of ply 2"
    assert plies.model.index(1, Column.FLIPPED).data() == "1"
    assert not plies.table.isColumnHidden(Column.FLIPPED)
    select(plies, 0)
    assert plies.strips.heading.text() == "Strips of ply 1"


def test_what_a_cell_does_not_take_is_said_with_the_stretch(plies: PlyList, document: OpenPlan) -> None:
    before = document.plan
    plies.model.setData(plies.model.index(0, Column.TO), "75")
    assert document.plan is before
    assert "50 % to 75 % of roving 1" in plies.message.text()
    plies.model.setData(plies.model.index(0, Column.TO), "40")
    assert not plies.message.text()


def test_the_only_ply_cannot_be_taken_away(plies: PlyList) -> None:
    QTest.mouseClick(plies.remove, Qt.MouseButton.LeftButton)
    assert not plies.remove.isEnabled()


def test_rovings_are_told_apart_only_where_there_are_several(plies: PlyList) -> None:
    assert plies.table.isColumnHidden(Column.ROVING)
    assert plies.table.isColumnHidden(Column.FLIPPED)
