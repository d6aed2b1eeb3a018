"""If these fail, the fade curve selects another section than was pointed at, or shows an old plan."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.inputs import set_passes
from studio_gui.domain.edits.nudges import nudge
from studio_gui.views.curve_view import CurveView
from tests.views.keys import shown

LEFT, CONTROL = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.ControlModifier
SHIFT, NONE = Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.NoModifier


@pytest.fixture
def view(document: OpenPlan, qtbot: QtBot) -> CurveView:
    return shown(CurveView(document), qtbot, 700, 200)


def middle(view: CurveView, place: int) -> QPoint:
    start, end = view.laid_out.span(place)
    return QPoint(round((start + end) / 2.0), 60)


def test_a_click_selects_and_one_with_ctrl_selects_more(view: CurveView, document: OpenPlan) -> None:
    selected = []
    beside = QPoint(10, 60)  # the names at the side
    for keys, there in ((NONE, middle(view, 2)), (CONTROL, middle(view, 0)), (NONE, beside)):
        QTest.mouseClick(view, LEFT, keys, there)
        selected.append(document.selected_ids)
    assert selected == [("s3",), ("s1", "s3"), ("s1", "s3")]


def test_keys_go_from_run_to_run_on_both_legs_of_a_fold(view: CurveView, document: OpenPlan) -> None:
    document.edit("Fold", lambda plan: set_passes(plan, 2))
    view.setFocus()
    walked = []
    for key in (Qt.Key.Key_End, Qt.Key.Key_Left, Qt.Key.Key_Home, Qt.Key.Key_Right, Qt.Key.Key_Right):
        QTest.keyClick(view, key)
        walked.append(document.selected_ids)
    assert walked == [("s1",), ("s2",), ("s1",), ("s2",), ("s3",)]
    QTest.keyClick(view, Qt.Key.Key_Left, SHIFT)
    assert document.selected_ids == ("s2", "s3")


def test_it_says_the_colour_of_the_run_and_follows_the_plan(view: CurveView, document: OpenPlan) -> None:
    document.select("s2")
    before = view.accessibleName()
    assert before.startswith("Fade curve: B Section 2 · lightness ")
    assert "step to the next" in before
    document.edit("Deeper", lambda plan: nudge(plan, "s2", "deeper"))
    assert view.accessibleName() != before
    document.select("s4")
    assert "step to the next" not in view.accessibleName()


def test_the_selected_run_is_marked(view: CurveView, document: OpenPlan) -> None:
    document.select("s1")
    there, elsewhere = middle(view, 0) - QPoint(0, 59 - 10), middle(view, 2) - QPoint(0, 59 - 10)
    picture = view.grab().toImage()
    ratio = picture.devicePixelRatio()
    assert picture.pixelColor(there * ratio) != picture.pixelColor(elsewhere * ratio)
