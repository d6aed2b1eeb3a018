"""If these fail, who types the name of a dye gets another one, or none."""

from __future__ import annotations

import pytest
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from studio_gui.views.finding_field import FindingField, found
from tests.views.keys import ENTER, shown

NAMES = ["undyed", "Harbour blue", "Gorse yellow", "Brick red", "Blue", "Fox red", "Sea-green"]


@pytest.fixture
def field(qtbot: QtBot) -> FindingField:
    field = FindingField()
    field.set_choices([(name, name) for name in NAMES], "Harbour blue")
    shown(field, qtbot, 200, 30).setFocus()
    return field


@pytest.mark.parametrize(
    ("keys", "name"),
    [
        ("go", "Gorse yellow"),
        ("yel", "Gorse yellow"),
        ("RED", "Brick red"),
        ("rr", "Fox red"),
        ("bl", "Blue"),
        ("green", "Sea-green"),
        ("und", "undyed"),
        ("zz", "Harbour blue"),
    ],
)
def test_closed_it_takes_what_is_typed(field: FindingField, keys: str, name: str) -> None:
    taken: list[object] = []
    field.chosen.connect(taken.append)
    QTest.keyClicks(field, keys)
    assert field.currentText() == name
    assert taken[-1:] == ([] if name == "Harbour blue" else [name])


def test_open_it_goes_there_and_enter_takes_it(field: FindingField) -> None:
    taken: list[object] = []
    field.chosen.connect(taken.append)
    field.showPopup()
    QTest.keyClicks(field.view(), "gre")
    assert (field.view().currentIndex().row(), taken) == (6, [])
    QTest.keyClick(field.view(), ENTER)
    assert taken == ["Sea-green"]


def test_after_a_pause_another_word_begins(field: FindingField, qtbot: QtBot) -> None:
    QTest.keyClicks(field, "brick")
    qtbot.wait(QApplication.keyboardInputInterval() + 50)
    QTest.keyClicks(field, "yel")
    assert field.currentText() == "Gorse yellow"


def test_the_same_key_goes_round_all_that_have_it() -> None:
    places, current = [], 0
    for count in range(1, 5):
        row = found(NAMES, "b" * count, current)
        assert row is not None
        places.append(current := row)
    assert [NAMES[place] for place in places] == ["Brick red", "Blue", "Harbour blue", "Brick red"]
    assert found([], "b", 0) is None
