"""If these fail, a row of a split or a strip shows or hands on what belongs to another."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from studio_gui.views.numbered_rows import NumberedRows
from tests.views.keys import choose, shown, type_into


@pytest.fixture
def rows(qtbot: QtBot) -> NumberedRows:
    made = NumberedRows("strip_weight", ticked=True)
    made.name("Strips", "Strip {0}", "Its weight", "flipped")
    made.offer_counts(1, 8, 2)
    made.show_rows([14.0, 12.0], ["14 g", "12 g"], [False, True])
    return shown(made, qtbot, 340, 300)


def test_each_row_shows_its_own(rows: NumberedRows) -> None:
    assert [field.text() for field in rows.fields] == ["14.00", "12.00"]
    assert [tick.isChecked() for tick in rows.ticks] == [False, True]
    assert [name.text() for name in rows.names] == ["Strip 1", "Strip 2"]
    assert [field.accessibleName() for field in rows.fields] == ["Strip 1", "Strip 2"]


def test_what_is_typed_and_ticked_says_its_row(rows: NumberedRows, qtbot: QtBot) -> None:
    with qtbot.waitSignal(rows.entered) as typed:
        type_into(rows.fields[1], "12.5")
    assert typed.args == [1, 12.5]
    with qtbot.waitSignal(rows.ticked) as ticked:
        QTest.keyClick(rows.ticks[0], Qt.Key.Key_Space)
    assert ticked.args == [0, True]


def test_another_count_is_chosen(rows: NumberedRows, qtbot: QtBot) -> None:
    with qtbot.waitSignal(rows.counted) as counted:
        choose(rows.count, "4")
    assert counted.args == [4]


def test_rows_that_go_are_out_of_sight_and_come_again(rows: NumberedRows) -> None:
    rows.show_rows([14.0], ["14 g"], [False])
    assert [field.isVisible() for field in rows.fields] == [True, False]
    rows.show_rows([14.0, 13.0, 13.0], ["", "", ""], [False, False, False])
    assert [field.text() for field in rows.fields if field.isVisible()] == ["14.00", "13.00", "13.00"]


def test_showing_is_no_edit(rows: NumberedRows, qtbot: QtBot) -> None:
    with qtbot.assertNotEmitted(rows.ticked), qtbot.assertNotEmitted(rows.entered):
        rows.show_rows([1.0, 2.0], ["", ""], [True, False])
    assert [tick.isChecked() for tick in rows.ticks] == [True, False]
