"""If these fail, the yarn is said to be longer, plainer or less wasteful than it will be."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.plan import Plan
from studio_gui.domain.yarn import Strip
from studio_gui.views.live import use_units
from studio_gui.views.yarn_numbers import YarnNumbers
from studio_gui.wording.counts import counts_words
from tests.scenes.scene_plans import four_gates, lantern_row
from tests.views.keys import shown, steps, type_into


@pytest.fixture
def metric() -> Iterator[None]:
    yield
    use_units("metric")


def opened(plan: Plan, qtbot: QtBot) -> YarnNumbers:
    return shown(YarnNumbers(OpenPlan(plan)), qtbot, 350, 1100)


def said(numbers: YarnNumbers) -> dict[str, str]:
    return {name: value.text() for name, value in numbers.values.items() if value.isVisible()}


def test_a_fractal_tells_length_grist_and_how_much_is_solid(qtbot: QtBot) -> None:
    numbers = opened(four_gates(*[Strip()] * 4), qtbot)
    assert said(numbers) == {
        "length": "475.0 m",
        "grist": "4.75 m/g",
        "solid": "25.0 % · 118.8 m",
        "barber_pole": "75.0 % · 356.3 m",
    }
    assert numbers.values["grist"].toolTip() == counts_words(4.75)
    assert numbers.leftovers.sum.text() == "nothing"
    assert numbers.pairs.sum.text() == "475.0 m of yarn"


def test_a_chain_tells_what_its_changes_mix(qtbot: QtBot) -> None:
    numbers = opened(lantern_row(), qtbot)
    assert said(numbers)["smear_each"] == "40.0 cm, 60.0 cm at worst, before take-up"
    assert said(numbers)["smear_all"] == "120.0 cm, 180.0 cm at worst, before take-up"
    assert numbers.runs.sum.text() == "4 runs, 338.4 m of yarn"


def test_figures_follow_the_plan_and_the_units(qtbot: QtBot, metric: None) -> None:  # noqa: ARG001  (puts back)
    document = OpenPlan(lantern_row())
    numbers = shown(YarnNumbers(document), qtbot, 350, 1100)
    document.edit("", lambda plan: set_yarn(plan, take_up=0.0))
    assert said(numbers)["length"] == "360.0 m"
    use_units("us")
    assert said(numbers)["length"] == "393.7 yd"
    assert numbers.runs.model.headerData(0, Qt.Orientation.Horizontal) == "from, yd"


def test_limits_are_typed_and_judge_what_is_left(qtbot: QtBot) -> None:
    document = OpenPlan(set_yarn(lantern_row(), structure="lengthwise", splits=(42.0, 39.0, 39.0)))
    numbers = shown(YarnNumbers(document), qtbot, 350, 1100)
    assert numbers.leftovers.sum.text() == "7.1 % of the longest at most"
    type_into(numbers.fields["warn_share"], "8")
    type_into(numbers.fields["note_share"], "2")
    type_into(numbers.fields["alike_difference"], "3")
    yarn = document.plan.yarn
    assert (yarn.note_share, yarn.warn_share, yarn.alike_difference) == (0.02, 0.08, 3.0)
    assert len(steps(document)) == 3
    assert [check.severity for check in document.sheet.checks if check.code == "leftover"] == ["note"]
    assert "Your own" in numbers.fields["note_share"].toolTip()


def copied() -> list[list[str]]:
    return list(csv.reader(io.StringIO(QGuiApplication.clipboard().text()), delimiter="\t"))


def test_all_rows_are_copied_or_those_selected(qtbot: QtBot) -> None:
    numbers = opened(lantern_row(), qtbot)
    QTest.mouseClick(numbers.runs.copy_button, Qt.MouseButton.LeftButton)
    assert copied()[:2] == [["from, m", "m", "Liquors", "Look"], ["0", "84.6", "A", "solid"]]
    assert len(copied()) == 5
    table = numbers.runs.table
    there = table.visualRect(numbers.runs.model.index(2, 1)).center()
    QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=there)
    QTest.keyClick(table, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert copied()[1:] == [["141", "112.8", "C", "solid"]]


def test_a_list_is_as_high_as_its_rows_up_to_a_few(qtbot: QtBot) -> None:
    numbers = opened(four_gates(*[Strip()] * 4), qtbot)
    row_px = numbers.pairs.table.verticalHeader().defaultSectionSize()
    assert numbers.leftovers.table.height() < 4 * row_px
    assert 8 * row_px < numbers.pairs.table.height() < 11 * row_px
