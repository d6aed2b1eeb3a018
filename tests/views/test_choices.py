"""If these fail, a colour or a choice is handed on that nobody made."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QColor, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QColorDialog
from pytestqt.qtbot import QtBot

from studio_gui.views.choices import ChoiceField, ColourField
from tests.views.field_bench import bench
from tests.views.keys import choose, shown, type_into


@pytest.mark.parametrize("text", ["#336699", "336699", " #3366AA "])
def test_a_colour_is_typed(text: str, qtbot: QtBot) -> None:
    field = ColourField("srgb")
    field.set_value("#f3eee2")
    made = bench(field, qtbot)
    type_into(field.edit, text)
    assert made.values == [f"#{text.strip().removeprefix('#').lower()}"]


def test_a_word_is_no_colour(qtbot: QtBot) -> None:
    field = ColourField("srgb")
    field.set_value("#f3eee2")
    made = bench(field, qtbot)
    type_into(field.edit, "blue")
    assert (made.values, field.edit.text(), field.edit.message.isVisible()) == ([], "#f3eee2", True)


@pytest.mark.parametrize(("picked", "values"), [(QColor("#112233"), ["#112233"]), (QColor(), [])])
def test_a_colour_is_picked_or_the_dialog_left(
    picked: QColor, values: list[str], qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    started: list[str] = []

    def dialog(start: QColor, *_: object) -> QColor:
        started.append(start.name())
        return picked

    monkeypatch.setattr(QColorDialog, "getColor", dialog)
    field = ColourField("srgb")
    field.set_value("#f3eee2")
    made = bench(field, qtbot)
    QTest.mouseClick(field.button, Qt.MouseButton.LeftButton)
    assert (made.values, started) == (values, ["#f3eee2"])


def test_a_choice_hands_on_its_value_and_the_wheel_leaves_it_alone(qtbot: QtBot) -> None:
    field = ChoiceField()
    chosen: list[object] = []
    field.chosen.connect(chosen.append)
    field.set_choices([("by length", 1), ("by weight", 2)], 1)
    shown(field, qtbot, 200, 40)
    wheel = QWheelEvent(
        QPointF(5.0, 5.0),
        QPointF(field.mapToGlobal(QPoint(5, 5))),
        QPoint(),
        QPoint(0, -120),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(field, wheel)
    assert (field.currentText(), wheel.isAccepted()) == ("by length", False), "the pane scrolls instead"
    choose(field, "by weight")
    assert chosen == [2]
    field.set_choices([("by length", 1), ("by weight", 2)], None)
    assert field.currentIndex() == -1
