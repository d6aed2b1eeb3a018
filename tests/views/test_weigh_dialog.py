"""If these fail, weighed rovings are not what the scale showed, or go into the plan unasked."""

from __future__ import annotations

from functools import partial

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.inputs import set_fibre
from studio_gui.domain.fibre import MassMark, Roving
from studio_gui.views.inputs_pane import InputsPane
from studio_gui.views.weigh_dialog import WeighDialog
from tests.views.keys import shown


@pytest.fixture
def dialog(document: OpenPlan, qtbot: QtBot) -> WeighDialog:
    document.edit("", partial(set_fibre, rovings=2))
    return shown(WeighDialog(document), qtbot, 420, 460)


def type_rows(dialog: WeighDialog, text: str) -> None:
    dialog.rows.setFocus()
    QTest.keyClick(dialog.rows, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClicks(dialog.rows, text.replace("\n", "\r"))


def take(dialog: WeighDialog) -> None:
    QTest.mouseClick(dialog.take, Qt.MouseButton.LeftButton)


def test_pieces_go_in_as_one_step(dialog: WeighDialog, document: OpenPlan) -> None:
    steps = document.undo_stack.count()
    type_rows(dialog, "2 m; 52 g\n2 m; 48 g")
    assert dialog.told.text() == "Weighs 100 g: halves 52 g and 48 g, 4 g apart (8 %)."
    assert document.undo_stack.count() == steps, "typing changes nothing"
    take(dialog)
    assert document.plan.fibre.mass_marks == (MassMark(0.5, 0.52),)
    assert document.undo_stack.count() == steps + 1


def test_one_roving_is_weighed_by_itself(dialog: WeighDialog, document: OpenPlan) -> None:
    dialog.which.chosen.emit(1)
    type_rows(dialog, "4 m; 104 g")
    take(dialog)
    assert document.plan.fibre.measured == (Roving(100.0), Roving(104.0))
    assert document.plan.fibre.mass_g == pytest.approx(102.0)


def test_thickness_keeps_the_weight(dialog: WeighDialog, document: OpenPlan) -> None:
    dialog.how.chosen.emit("thickness")
    type_rows(dialog, "0 m; 20 g/m\n4 m; 30 g/m")
    take(dialog)
    assert document.plan.fibre.mass_g == 100.0
    assert len(document.plan.fibre.mass_marks) == 7
    QTest.mouseClick(dialog.even, Qt.MouseButton.LeftButton)
    assert not document.plan.fibre.weight_marks


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("2 m; 52 g\n2 m", "Row 2: “2 m” is not two"),
        ("2 m; 52 g\n1 m; 30 g", "The pieces are 300 cm long together"),
    ],
)
def test_what_cannot_be_is_told_and_nothing_changes(
    dialog: WeighDialog, document: OpenPlan, text: str, words: str
) -> None:
    before = document.plan
    type_rows(dialog, text)
    assert dialog.message.text().startswith(words)
    assert not dialog.take.isEnabled()
    assert document.plan is before


def test_what_the_plan_has_stands_there_to_be_changed(document: OpenPlan, qtbot: QtBot) -> None:
    document.edit("", partial(set_fibre, mass_marks=(MassMark(0.5, 0.52),)))
    pane = shown(InputsPane(document), qtbot, 320, 700)
    QTest.mouseClick(pane.measure["pieces"], Qt.MouseButton.LeftButton)
    assert pane.weighing.isVisible()
    assert pane.weighing.rows.toPlainText() == "2 m; 52 g\n2 m; 48 g"
    pane.weighing.close()
