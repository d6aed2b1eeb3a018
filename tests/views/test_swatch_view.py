"""If these fail, the swatch does not follow the plan, or its rows cannot be reached."""

from __future__ import annotations

from functools import partial

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.stripes import set_knitting
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.yarn import Knitting
from studio_gui.drawing.knit.pictures import SwatchLayout
from studio_gui.views.swatch_view import SwatchView
from tests.views.keys import shown, steps, type_into


@pytest.fixture
def view(document: OpenPlan, qtbot: QtBot) -> SwatchView:
    return shown(SwatchView(document), qtbot, 900, 260)


def layout(view: SwatchView) -> SwatchLayout:
    laid_out = view.swatch.laid_out
    assert laid_out is not None
    return laid_out


def turn_wheel(view: SwatchView, by: int) -> None:
    point = QPointF(view.swatch.rect().center())
    there = QPointF(view.swatch.mapToGlobal(point.toPoint()))
    none = (Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier, Qt.ScrollPhase.NoScrollPhase, False)
    QApplication.sendEvent(view.swatch, QWheelEvent(point, there, QPoint(), QPoint(0, by), *none))


def test_width_and_yarn_of_a_row_are_typed(view: SwatchView, document: OpenPlan) -> None:
    type_into(view.fields["knitted_width_m"], "40 cm")
    assert document.plan.yarn.knitting.metres_a_row == pytest.approx(1.2)
    type_into(view.fields["row_m"], "2")
    assert document.plan.yarn.knitting == Knitting(width_m=0.4, row_m=2.0)
    assert "One row takes 2.00 m" in view.swatch.line()
    type_into(view.fields["row_m"], "")
    assert document.plan.yarn.knitting == Knitting(width_m=0.4)
    assert view.fields["row_m"].text() == "1.20 m"
    assert len(steps(document)) == 3


def test_a_width_that_cannot_be_knitted_is_refused_at_the_field(view: SwatchView, document: OpenPlan) -> None:
    type_into(view.fields["knitted_width_m"], "0")
    assert view.fields["knitted_width_m"].message.isVisible()
    assert document.plan.yarn.knitting.width_m == 0.5
    assert steps(document) == []


def test_in_the_round_is_ticked_and_undone(view: SwatchView, document: OpenPlan) -> None:
    QTest.keyClick(view.in_the_round, Qt.Key.Key_Space)
    assert document.plan.yarn.knitting == Knitting(in_the_round=True)
    assert layout(view).place.in_the_round
    document.undo_stack.undo()
    QApplication.processEvents()
    assert not view.in_the_round.isChecked()
    assert len(steps(document)) == 1


def test_rows_are_reached_by_wheel_keys_and_bar(view: SwatchView) -> None:
    assert layout(view).first_row == 0
    assert view.bar.isVisible()
    turn_wheel(view, 120)
    assert layout(view).first_row == 4
    assert view.bar.value() == 4
    turn_wheel(view, -120)
    assert layout(view).first_row == 0
    QTest.keyClick(view.swatch, Qt.Key.Key_Up)
    assert layout(view).first_row == 2
    QTest.keyClick(view.swatch, Qt.Key.Key_PageUp)
    assert layout(view).first_row > 2
    QTest.keyClick(view.swatch, Qt.Key.Key_End)
    end = layout(view)
    assert end.first_row + end.place.rows == end.total
    assert view.bar.value() == view.bar.maximum()
    QTest.keyClick(view.swatch, Qt.Key.Key_Home)
    assert layout(view).first_row == 0
    here = layout(view)
    assert here.overview is not None
    QTest.mouseClick(view.swatch, Qt.MouseButton.LeftButton, pos=here.overview.center().toPoint())
    middle = layout(view).first_row + layout(view).place.rows / 2.0
    assert middle == pytest.approx(here.total / 2.0, abs=4.0)
    view.bar.setValue(7)
    assert layout(view).first_row == 6


def test_a_swatch_that_fits_needs_no_bar(view: SwatchView, document: OpenPlan) -> None:
    document.edit("", partial(set_knitting, row_m=100.0))
    QApplication.processEvents()
    assert not view.bar.isVisible()
    assert layout(view).place.rows == layout(view).total


def test_fewer_rows_show_from_where_there_are_some(view: SwatchView, document: OpenPlan) -> None:
    QTest.keyClick(view.swatch, Qt.Key.Key_End)
    document.edit("", partial(set_knitting, row_m=20.0))
    QApplication.processEvents()
    here = layout(view)
    assert here.first_row + here.place.rows <= here.total


def test_what_is_under_the_pointer_is_told_in_rows(view: SwatchView) -> None:
    fabric = layout(view).fabric
    QTest.mouseMove(view.swatch, fabric.center().toPoint())
    assert "solid for" in view.swatch.line() or "barber-pole for" in view.swatch.line()
    assert "Row " in view.swatch.line()
    QTest.mouseMove(view.swatch, QPoint(3, 3))
    assert "Row " not in view.swatch.line()


def test_stitches_come_when_nobody_waits(document: OpenPlan, qtbot: QtBot) -> None:
    view = SwatchView(document)
    with qtbot.waitSignal(view.swatch.knitting.done, timeout=20_000):
        shown(view, qtbot, 900, 260)
    assert len(set(bytes(view.swatch.grab().toImage().constBits()))) > 60, "there are many shades in it"


def test_a_yarn_without_a_row_says_why(view: SwatchView, document: OpenPlan, qtbot: QtBot) -> None:
    document.edit("", partial(set_yarn, structure="rovings", offsets_m=(9e4,)))
    qtbot.waitUntil(lambda: "no yarn" in view.swatch.accessibleDescription())
    assert view.swatch.laid_out is None
    assert not view.bar.isVisible()
    QTest.keyClick(view.swatch, Qt.Key.Key_Up)
    turn_wheel(view, 120)
    view.swatch.grab()
    document.undo_stack.undo()
    QApplication.processEvents()
    assert layout(view).total > 0
