"""If these fail, dragging moves something else than the wool under the pointer, or leaves traces."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QContextMenuEvent, QPalette
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from studio_gui.domain.edits.sections import change_section, set_locked
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.plan import Plan
from tests.drawing.plans import plain_plan
from tests.views.lay_hand import ALT, CONTROL, LEFT, NONE, SHIFT, Hand, at_canvas


@pytest.fixture
def hand(qtbot: QtBot) -> Hand:
    return at_canvas(qtbot, plain_plan(4))


def reset(hand: Hand, plan: Plan) -> None:
    hand.document.replace(plan)


@pytest.mark.parametrize("by_m", [-0.3, 0.3])
def test_a_plain_drag_trades_length_between_neighbours(hand: Hand, by_m: float) -> None:
    hand.drag(1, by_m)
    assert hand.places() == pytest.approx([1.0, 2.0 + by_m, 3.0])
    assert hand.document.undo_stack.count() == 1
    assert hand.document.undo_stack.undoText() == "Move boundary B | C"


@pytest.mark.parametrize("by_m", [-0.3, 0.3])
def test_a_shift_drag_moves_all_that_follows(hand: Hand, by_m: float) -> None:
    hand.drag(1, by_m, SHIFT)
    assert hand.places() == pytest.approx([1.0, 2.0 + by_m, 3.0 + by_m])


def test_a_drag_snaps_to_the_ruler_and_alt_lets_go(hand: Hand) -> None:
    hand.drag(1, 0.1234)
    assert hand.places()[1] == pytest.approx(2.12)
    hand.document.undo_stack.undo()
    hand.drag(1, 0.1234, ALT)
    assert hand.places()[1] == pytest.approx(2.1234, abs=2.0 / hand.canvas.lay.px_per_m)
    assert hand.places()[1] != pytest.approx(2.12, abs=1e-6)


def test_while_dragging_the_figures_follow_and_nothing_is_pushed(hand: Hand) -> None:
    point = hand.take(1)
    hand.pull(point, 0.2)
    assert hand.canvas.is_dragging
    assert hand.shown_places()[1] == pytest.approx(2.2)
    assert hand.document.sheet.figures.fibre_g.tolist() == pytest.approx([25.0, 30.0, 20.0, 25.0])
    assert hand.places()[1] == 2.0
    assert hand.document.undo_stack.count() == 0


def test_esc_puts_everything_back(hand: Hand) -> None:
    before = hand.document.plan
    point = hand.pull(hand.take(1), 0.2)
    QTest.keyClick(hand.canvas, Qt.Key.Key_Escape)
    assert hand.document.sheet.plan is before
    hand.send(QEvent.Type.MouseButtonRelease, point)
    assert hand.document.plan is before
    assert hand.document.undo_stack.count() == 0


def test_a_drag_out_and_back_leaves_the_plan_clean(hand: Hand) -> None:
    point = hand.pull(hand.take(1), 0.2)
    hand.send(QEvent.Type.MouseButtonRelease, hand.pull(point, -0.2))
    assert hand.document.undo_stack.count() == 0
    assert not hand.document.is_modified


def test_a_drag_stops_at_the_neighbour(hand: Hand) -> None:
    hand.drag(1, 9.0)
    assert hand.places() == pytest.approx([1.0, 3.0 - 0.001, 3.0])
    hand.drag(1, -9.0)
    assert hand.places() == pytest.approx([1.0, 1.0 + 0.001, 3.0])


def test_undo_takes_the_whole_drag_back(hand: Hand) -> None:
    before = hand.document.plan
    hand.drag(0, 0.25)
    hand.document.undo_stack.undo()
    assert hand.document.plan is before


def test_a_locked_boundary_does_not_move_and_says_why(hand: Hand, qtbot: QtBot) -> None:
    reset(hand, set_locked(plain_plan(4), ["s2"], locked=True))
    with qtbot.waitSignal(hand.document.refused) as heard:
        hand.drag(1, 0.3)
    error = heard.args[0]
    assert isinstance(error, RovingLayError)
    assert error.code == "boundary-locked"
    assert hand.places() == [1.0, 2.0, 3.0]


def test_a_shift_drag_stays_when_something_locked_would_follow(hand: Hand) -> None:
    reset(hand, set_locked(plain_plan(4), ["s4"], locked=True))
    hand.drag(0, 0.3, SHIFT)
    assert hand.places() == [1.0, 2.0, 3.0]


def test_a_click_selects_and_modifiers_extend(hand: Hand) -> None:
    QTest.mouseClick(hand.canvas, LEFT, NONE, hand.middle("section", 2))
    assert hand.chosen() == ("s3",)
    QTest.mouseClick(hand.canvas, LEFT, CONTROL, hand.middle("section", 0))
    assert hand.chosen() == ("s1", "s3")
    QTest.mouseClick(hand.canvas, LEFT, CONTROL, hand.middle("section", 0))
    assert hand.chosen() == ("s3",)
    QTest.mouseClick(hand.canvas, LEFT, SHIFT, hand.middle("section", 0))
    assert hand.chosen() == ("s1", "s2", "s3")


def test_a_double_click_splits_at_the_pointer(hand: Hand) -> None:
    layout = hand.canvas.lay
    point = QPointF(layout.x(1.4), layout.film.center().y())
    hand.send(QEvent.Type.MouseButtonDblClick, point)
    assert hand.places() == pytest.approx([1.0, 1.4, 2.0, 3.0])
    assert hand.document.undo_stack.undoText() == "Split section"


def test_the_pointer_tells_what_can_be_dragged(hand: Hand, qtbot: QtBot) -> None:
    with qtbot.waitSignal(hand.canvas.hinted) as heard:
        QTest.mouseMove(hand.canvas, hand.peg(1).toPoint())
    assert "Shift" in heard.args[0]
    assert hand.canvas.cursor().shape() == Qt.CursorShape.SplitHCursor
    with qtbot.waitSignal(hand.canvas.hinted):
        QTest.mouseMove(hand.canvas, hand.middle("section", 0))
    assert hand.canvas.cursor().shape() == Qt.CursorShape.OpenHandCursor
    QTest.mouseMove(hand.canvas, hand.peg(1).toPoint())
    with qtbot.waitSignal(hand.canvas.hinted) as heard:
        QApplication.sendEvent(hand.canvas, QEvent(QEvent.Type.Leave))
    assert heard.args == [""]


def test_a_locked_boundary_is_hinted_as_such(hand: Hand, qtbot: QtBot) -> None:
    reset(hand, set_locked(plain_plan(4), ["s2"], locked=True))
    QTest.mouseMove(hand.canvas, hand.middle("section", 0))
    with qtbot.waitSignal(hand.canvas.hinted) as heard:
        QTest.mouseMove(hand.canvas, hand.peg(1).toPoint())
    assert "locked" in heard.args[0]


def test_tab_walks_sections_and_boundaries(hand: Hand) -> None:
    QTest.mouseClick(hand.canvas, LEFT, NONE, hand.middle("section", 0))
    QTest.keyClick(hand.canvas, Qt.Key.Key_Tab)
    QTest.keyClick(hand.canvas, Qt.Key.Key_Right)
    assert hand.places()[0] == pytest.approx(1.001)
    QTest.keyClick(hand.canvas, Qt.Key.Key_Left, SHIFT)
    assert hand.places()[0] == pytest.approx(0.991)
    QTest.keyClick(hand.canvas, Qt.Key.Key_Tab)
    assert hand.chosen() == ("s2",)
    QTest.keyClick(hand.canvas, Qt.Key.Key_Backtab)
    QTest.keyClick(hand.canvas, Qt.Key.Key_Backtab)
    assert hand.chosen() == ("s1",)


def test_arrows_walk_sections(hand: Hand) -> None:
    QTest.mouseClick(hand.canvas, LEFT, NONE, hand.middle("section", 1))
    QTest.keyClick(hand.canvas, Qt.Key.Key_Right)
    assert hand.chosen() == ("s3",)
    for _ in range(5):
        QTest.keyClick(hand.canvas, Qt.Key.Key_Right)
    assert hand.chosen() == ("s4",)
    QTest.keyClick(hand.canvas, Qt.Key.Key_Left)
    assert hand.chosen() == ("s3",)


def test_delete_merges(hand: Hand) -> None:
    QTest.mouseClick(hand.canvas, LEFT, NONE, hand.middle("section", 0))
    QTest.keyClick(hand.canvas, Qt.Key.Key_Delete)
    assert len(hand.document.plan.sections) == 4, "the first section has none before it"
    QTest.keyClick(hand.canvas, Qt.Key.Key_Tab)
    QTest.keyClick(hand.canvas, Qt.Key.Key_Delete)
    assert [section.id for section in hand.document.plan.sections] == ["s1", "s3", "s4"]
    QTest.mouseClick(hand.canvas, LEFT, NONE, hand.middle("section", 2))
    QTest.keyClick(hand.canvas, Qt.Key.Key_Delete)
    assert [section.id for section in hand.document.plan.sections] == ["s1", "s3"]


def test_the_keyboard_leaves_a_drag_alone(hand: Hand) -> None:
    point = hand.pull(hand.take(1), 0.2)
    QTest.keyClick(hand.canvas, Qt.Key.Key_Delete)
    QTest.keyClick(hand.canvas, Qt.Key.Key_Right)
    hand.send(QEvent.Type.MouseButtonRelease, point)
    assert hand.places() == pytest.approx([1.0, 2.2, 3.0])


@pytest.mark.parametrize("reason", [QContextMenuEvent.Reason.Mouse, QContextMenuEvent.Reason.Keyboard])
def test_a_context_menu_selects_what_it_speaks_of(
    hand: Hand, qtbot: QtBot, reason: QContextMenuEvent.Reason
) -> None:
    QTest.mouseClick(hand.canvas, LEFT, NONE, hand.middle("section", 1))
    wanted = 1 if reason == QContextMenuEvent.Reason.Keyboard else 2
    point = hand.middle("section", wanted)
    with qtbot.waitSignal(hand.canvas.menu_wanted) as heard:
        QApplication.sendEvent(hand.canvas, QContextMenuEvent(reason, point, hand.canvas.mapToGlobal(point)))
    assert heard.args[2] == pytest.approx(0.5 + wanted, abs=0.01)
    assert hand.chosen() == (f"s{wanted + 1}",)


def test_the_canvas_follows_language_and_palette(hand: Hand) -> None:
    before = hand.canvas.grab().toImage()
    palette = QPalette(hand.canvas.palette())
    palette.setColor(QPalette.ColorRole.Window, Qt.GlobalColor.black)
    palette.setColor(QPalette.ColorRole.WindowText, Qt.GlobalColor.white)
    hand.canvas.setPalette(palette)
    assert hand.canvas.grab().toImage() != before
    hand.canvas.setAccessibleName("")
    QApplication.sendEvent(hand.canvas, QEvent(QEvent.Type.LanguageChange))
    assert hand.canvas.accessibleName() == "Lay"


def test_a_drag_of_a_fixed_volume_shows_its_wetness(hand: Hand) -> None:
    reset(hand, change_section(plain_plan(4), "s2", fixed_ml=60.0))
    hand.pull(hand.take(1), 0.5)
    figures = hand.document.sheet.figures
    assert figures.liquid_ml[1] == 60.0
    assert figures.applied_ml_per_g[1] == pytest.approx(60.0 / 37.5)
    image = hand.canvas.grab().toImage()
    QTest.keyClick(hand.canvas, Qt.Key.Key_Escape)
    assert hand.canvas.grab().toImage() != image, "the tag is gone with the drag"
