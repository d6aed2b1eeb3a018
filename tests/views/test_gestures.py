"""If these fail, what is dragged on the lay is not what comes of it, or a drag cannot be taken back."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QNativeGestureEvent, QPointingDevice
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from studio_gui.domain.edits.boundaries import lengths_m, set_gap
from studio_gui.domain.edits.folds import move_fold
from studio_gui.domain.edits.inputs import set_fibre
from studio_gui.domain.edits.sections import set_locked
from studio_gui.domain.errors import RovingLayError
from studio_gui.domain.yarn import Knitting, Stripe, Yarn
from studio_gui.drawing.lay_layout import ItemKind
from tests.drawing.plans import plain_plan
from tests.views.lay_hand import ALT, CONTROL, LEFT, NONE, SHIFT, Hand, at_canvas

PRESS, MOVE, RELEASE = (
    QEvent.Type.MouseButtonPress,
    QEvent.Type.MouseMove,
    QEvent.Type.MouseButtonRelease,
)


@pytest.fixture
def hand(qtbot: QtBot) -> Hand:
    return at_canvas(qtbot, plain_plan(4))


def drag_item(
    hand: Hand, kind: ItemKind, index: int, by_px: float, modifiers: Qt.KeyboardModifier = NONE
) -> QPointF:
    """Take an item by its grip and pull it; return where the pointer is. The button is still down."""
    item = hand.canvas.lay.item(kind, index)
    point = item.rect.center() if kind == "section" else item.slip.center()
    hand.send(PRESS, point)
    for part in (0.3, 0.7, 1.0):
        hand.send(MOVE, point + QPointF(by_px * part, 0.0), modifiers)
    return point + QPointF(by_px, 0.0)


def order(hand: Hand) -> list[str]:
    return [section.id for section in hand.document.plan.sections]


def shown_order(hand: Hand) -> list[str]:
    return [section.id for section in hand.document.sheet.plan.sections]


# -- sections ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("index", "sections", "wanted"),
    [
        (0, 1.0, ["s2", "s1", "s3", "s4"]),
        (0, 3.0, ["s2", "s3", "s4", "s1"]),
        (3, -1.0, ["s1", "s2", "s4", "s3"]),
        (3, -3.0, ["s4", "s1", "s2", "s3"]),
        (1, 0.3, ["s1", "s2", "s3", "s4"]),
    ],
)
def test_a_dragged_section_changes_places(hand: Hand, index: int, sections: float, wanted: list[str]) -> None:
    point = drag_item(hand, "section", index, sections * hand.canvas.lay.px_per_m)
    assert shown_order(hand) == wanted
    assert order(hand) == ["s1", "s2", "s3", "s4"], "nothing is done before the button is up"
    hand.send(RELEASE, point)
    assert order(hand) == wanted
    assert lengths_m(hand.document.plan) == pytest.approx((1.0, 1.0, 1.0, 1.0))
    moved = wanted != ["s1", "s2", "s3", "s4"]
    assert hand.document.undo_stack.count() == int(moved)
    assert hand.canvas.focused == ("section", order(hand).index(f"s{index + 1}"))
    hand.document.undo_stack.undo()
    assert order(hand) == ["s1", "s2", "s3", "s4"]


def test_selected_neighbours_go_together(hand: Hand) -> None:
    QTest.mouseClick(hand.canvas, LEFT, NONE, hand.middle("section", 0))
    QTest.mouseClick(hand.canvas, LEFT, SHIFT, hand.middle("section", 1))
    hand.send(RELEASE, drag_item(hand, "section", 1, 2.0 * hand.canvas.lay.px_per_m))
    assert order(hand) == ["s3", "s4", "s1", "s2"]
    assert hand.chosen() == ("s1", "s2")


def test_a_click_on_one_of_several_selected_leaves_that_one(hand: Hand) -> None:
    QTest.mouseClick(hand.canvas, LEFT, NONE, hand.middle("section", 0))
    QTest.mouseClick(hand.canvas, LEFT, SHIFT, hand.middle("section", 2))
    QTest.mouseClick(hand.canvas, LEFT, NONE, hand.middle("section", 1))
    assert hand.chosen() == ("s2",)


def test_a_tremble_is_no_drag(hand: Hand) -> None:
    point = hand.canvas.lay.item("section", 1).rect.center()
    hand.send(PRESS, point)
    hand.send(MOVE, point + QPointF(2.0, 1.0))
    assert not hand.canvas.is_dragging
    hand.send(RELEASE, point + QPointF(2.0, 1.0))
    assert hand.document.undo_stack.count() == 0


def test_esc_puts_a_section_back(hand: Hand) -> None:
    point = drag_item(hand, "section", 0, 2.0 * hand.canvas.lay.px_per_m)
    hand.key(Qt.Key.Key_Escape)
    assert shown_order(hand) == ["s1", "s2", "s3", "s4"]
    hand.send(RELEASE, point)
    assert hand.document.undo_stack.count() == 0


def test_what_is_locked_does_not_give_way_and_says_why(hand: Hand, qtbot: QtBot) -> None:
    hand.document.replace(set_locked(plain_plan(4), ["s2"], locked=True))
    with qtbot.waitSignal(hand.document.refused) as heard:
        hand.send(RELEASE, drag_item(hand, "section", 0, 2.0 * hand.canvas.lay.px_per_m))
    error = heard.args[0]
    assert isinstance(error, RovingLayError)
    assert error.code == "section-locked"
    assert order(hand) == ["s1", "s2", "s3", "s4"]


def test_put_down_where_it_cannot_lie_a_section_goes_back(hand: Hand) -> None:
    hand.document.replace(set_locked(plain_plan(5), ["s4"], locked=True))
    refused: list[object] = []
    hand.document.refused.connect(refused.append)
    # over s2 and s3, where it may lie, and on past the locked one, where it may not
    point = drag_item(hand, "section", 0, 4.0 * hand.canvas.lay.px_per_m * 4.0 / 5.0)
    assert shown_order(hand) == ["s1", "s2", "s3", "s4", "s5"]
    hand.send(RELEASE, point)
    assert order(hand) == ["s1", "s2", "s3", "s4", "s5"]
    assert hand.document.undo_stack.count() == 0
    assert len(refused) == 1, "the reason is given once"


def test_a_shift_drag_says_why_nothing_follows(hand: Hand, qtbot: QtBot) -> None:
    hand.document.replace(set_locked(plain_plan(4), ["s4"], locked=True))
    with qtbot.waitSignal(hand.document.refused) as heard:
        hand.drag(0, 0.3, SHIFT)
    assert heard.args[0].code == "boundary-locked"
    assert hand.places() == [1.0, 2.0, 3.0]


def test_the_only_section_has_nowhere_to_go(qtbot: QtBot) -> None:
    hand = at_canvas(qtbot, plain_plan(1))
    drag_item(hand, "section", 0, 200.0)
    assert not hand.canvas.is_dragging


# -- gaps -------------------------------------------------------------------------------------------------


def gaps(hand: Hand) -> list[float]:
    return [boundary.gap_m for boundary in hand.document.plan.boundaries]


@pytest.mark.parametrize("gap_m", [0.1, -0.1])
def test_a_gap_opens_to_the_right_and_overlaps_to_the_left(hand: Hand, gap_m: float) -> None:
    by_px = gap_m / 2.0 * hand.canvas.lay.px_per_m
    hand.send(RELEASE, drag_item(hand, "gap", 1, by_px))
    assert gaps(hand) == pytest.approx([0.0, gap_m, 0.0])
    assert hand.places() == [1.0, 2.0, 3.0]
    hand.send(RELEASE, drag_item(hand, "gap", 1, -by_px))
    assert gaps(hand) == [0.0, 0.0, 0.0]
    assert hand.document.undo_stack.count() == 2


def test_a_gap_leaves_its_neighbours_something_to_paint(hand: Hand) -> None:
    hand.send(RELEASE, drag_item(hand, "gap", 0, 900.0))
    assert 0.9 < gaps(hand)[0] <= 1.0
    hand.send(RELEASE, drag_item(hand, "gap", 0, -900.0))
    assert gaps(hand)[0] == pytest.approx(-1.0)


def test_alt_lets_go_of_the_steps_of_a_gap(hand: Hand) -> None:
    hand.send(RELEASE, drag_item(hand, "gap", 1, 7.0, ALT))
    assert gaps(hand)[1] == pytest.approx(14.0 / hand.canvas.lay.px_per_m)


# -- folds ------------------------------------------------------------------------------------------------


@pytest.fixture
def folded(qtbot: QtBot) -> Hand:
    return at_canvas(qtbot, plain_plan(4, passes=2))


@pytest.mark.parametrize(("by_m", "lay_m"), [(0.04, 2.04), (-0.04, 2.04)])
def test_a_dragged_fold_makes_unequal_legs(folded: Hand, by_m: float, lay_m: float) -> None:
    scale = folded.canvas.lay.px_per_m
    start_x = folded.canvas.lay.strands[0].rect.left()
    point = drag_item(folded, "fold", 0, by_m * scale, ALT)
    assert folded.canvas.lay.px_per_m == scale, "the film keeps its scale while the fold is held"
    assert folded.canvas.lay.strands[0].rect.left() == pytest.approx(start_x, abs=1.0)
    folded.send(RELEASE, point)
    assert folded.document.plan.lay.fold_positions_m == pytest.approx((2.0 + by_m,))
    assert folded.document.plan.lay_length_m == pytest.approx(lay_m)
    assert folded.canvas.view.is_fitted
    folded.document.undo_stack.undo()
    assert folded.document.plan.lay.fold_positions_m == (2.0,)


def test_a_fold_is_drawn_to_legs_of_equal_length(folded: Hand) -> None:
    folded.document.replace(move_fold(plain_plan(4, passes=2), 0, 2.1))
    folded.send(RELEASE, drag_item(folded, "fold", 0, -0.1 * folded.canvas.lay.px_per_m + 3.0))
    assert folded.document.plan.lay.fold_positions_m == pytest.approx((2.0,))


def test_a_fold_stops_at_the_last_boundary(folded: Hand) -> None:
    folded.send(RELEASE, drag_item(folded, "fold", 0, -900.0, ALT))
    assert folded.document.plan.lay.fold_positions_m[0] > 1.5


def test_esc_puts_a_fold_back(folded: Hand) -> None:
    before = folded.document.plan
    drag_item(folded, "fold", 0, 60.0, ALT)
    folded.key(Qt.Key.Key_Escape)
    assert folded.document.sheet.plan is before
    assert folded.canvas.view.is_fitted


def guide_of(hand: Hand) -> str | None:
    """Return what the guide of the thing in the hand says."""
    assert hand.canvas.gesture is not None
    return hand.canvas.gesture.guide.words if hand.canvas.gesture.guide else None


# -- marks ------------------------------------------------------------------------------------------------


def test_a_boundary_rests_where_wanted_stripes_meet_and_the_guide_says_which(qtbot: QtBot) -> None:
    stripes = (Stripe("q1", 293.0), Stripe("q3", 100.0))  # 250 rows of 1 m to a metre of roving
    yarn = Yarn(structure="single", knitting=Knitting(row_m=1.0), stripes=stripes)
    hand = at_canvas(qtbot, replace(plain_plan(4), yarn=yarn))
    wanted_px = (293.0 / 250.0 - 1.0) * hand.canvas.lay.px_per_m + 3.0
    point = drag_item(hand, "boundary", 0, wanted_px)
    assert guide_of(hand) == "stripes A | C"
    hand.send(RELEASE, point)
    assert hand.places()[0] == pytest.approx(293.0 / 250.0, abs=1e-9)
    assert hand.document.undo_stack.count() == 1


def test_a_boundary_rests_on_the_mirror_of_another_and_the_guide_says_so(hand: Hand) -> None:
    hand.drag(0, -0.237, ALT)
    mirror_m = 4.0 - hand.places()[0]
    point = hand.take(2)
    wanted_px = (mirror_m - 3.0) * hand.canvas.lay.px_per_m + 3.0
    hand.send(MOVE, point + QPointF(wanted_px, 0.0))
    assert guide_of(hand) == "mirrors A | B"
    assert hand.shown_places()[2] == pytest.approx(mirror_m, abs=1e-9)
    hand.send(MOVE, point + QPointF(wanted_px, 0.0), ALT)
    assert guide_of(hand) is None
    assert hand.shown_places()[2] != pytest.approx(mirror_m, abs=1e-9)


# -- looking ----------------------------------------------------------------------------------------------


def test_the_wheel_zooms_at_the_pointer(hand: Hand) -> None:
    layout = hand.canvas.lay
    point = QPointF(layout.x(1.3), layout.film.center().y())
    hand.wheel(point, hand_turn(600))
    assert hand.canvas.lay.px_per_m > 2.0 * layout.px_per_m
    assert hand.canvas.lay.x(1.3) == pytest.approx(point.x(), abs=0.01)
    hand.wheel(point, hand_turn(-2400))
    assert hand.canvas.view.is_fitted


def hand_turn(eighths: int, sideways: int = 0) -> QPoint:
    return QPoint(sideways, eighths)


def test_sideways_and_shift_move_along_the_film(hand: Hand) -> None:
    point = hand.canvas.lay.film.center()
    hand.wheel(point, hand_turn(600))
    left_m = hand.canvas.view.left_m
    hand.wheel(point, hand_turn(0, -120))
    assert hand.canvas.view.left_m > left_m
    hand.wheel(point, hand_turn(120), SHIFT)
    assert hand.canvas.view.left_m == pytest.approx(left_m)


@pytest.mark.parametrize("way", ["middle button", "space bar"])
def test_the_film_can_be_pulled_along(hand: Hand, way: str) -> None:
    point = hand.canvas.lay.film.center()
    hand.wheel(point, hand_turn(600))
    place_m = hand.canvas.lay.lay_m(point.x())
    if way == "space bar":
        QTest.keyPress(hand.canvas, Qt.Key.Key_Space)
    button = LEFT if way == "space bar" else Qt.MouseButton.MiddleButton
    hand.send(PRESS, point, button=button)
    hand.send(MOVE, point + QPointF(-50.0, 0.0), button=button)
    assert hand.canvas.lay.lay_m(point.x() - 50.0) == pytest.approx(place_m)
    hand.send(RELEASE, point + QPointF(-50.0, 0.0), button=button)
    QTest.keyRelease(hand.canvas, Qt.Key.Key_Space)
    assert hand.document.undo_stack.count() == 0
    assert not hand.canvas.is_dragging


def test_the_overview_brings_a_place_into_sight(hand: Hand) -> None:
    hand.wheel(hand.canvas.lay.film.center(), hand_turn(900))
    box = hand.canvas.lay.overview
    point = QPointF(box.right() - 2.0, box.center().y())
    hand.send(PRESS, point)
    assert hand.canvas.lay.x(4.0) < hand.canvas.lay.pane.right()
    hand.send(MOVE, QPointF(box.left() + 2.0, box.center().y()))
    assert hand.canvas.lay.x(0.0) > hand.canvas.lay.pane.left()
    hand.send(RELEASE, point)


def test_a_drag_at_the_edge_runs_the_film_along(hand: Hand, qtbot: QtBot) -> None:
    hand.wheel(QPointF(hand.canvas.lay.x(1.0), 200.0), hand_turn(900))
    point = hand.take(0)
    hand.send(MOVE, QPointF(hand.canvas.lay.pane.right() - 2.0, point.y()))
    left_m, place_m = hand.canvas.view.left_m, hand.shown_places()[0]
    qtbot.waitUntil(lambda: hand.canvas.view.left_m > left_m + 0.05)
    assert hand.shown_places()[0] > place_m + 0.04
    hand.key(Qt.Key.Key_Escape)
    left_m = hand.canvas.view.left_m
    qtbot.wait(60)
    assert hand.canvas.view.left_m == left_m, "it stands still once nothing is held"


def test_control_click_and_shift_click_do_not_lift_before_they_move(hand: Hand) -> None:
    QTest.mouseClick(hand.canvas, LEFT, CONTROL, hand.middle("section", 2))
    assert hand.chosen() == ("s1", "s3")
    assert hand.document.undo_stack.count() == 0


def test_the_gap_of_an_overlap_shows_both_colours(hand: Hand) -> None:
    plain = hand.canvas.grab().toImage()
    hand.document.replace(set_gap(plain_plan(4), 1, -0.2))
    assert hand.canvas.grab().toImage() != plain


# -- fingers ----------------------------------------------------------------------------------------------


def test_control_lets_go_where_the_desktop_keeps_alt(hand: Hand) -> None:
    hand.drag(1, 0.1234, CONTROL)
    assert hand.places()[1] == pytest.approx(2.1234, abs=2.0 / hand.canvas.lay.px_per_m)
    assert hand.places()[1] != pytest.approx(2.12, abs=1e-6)


def test_a_finger_drags_a_boundary(hand: Hand) -> None:
    finger = QTest.createTouchDevice()
    point = hand.peg(1).toPoint()
    touch = QTest.touchEvent(hand.canvas, finger)
    touch.press(0, point, hand.canvas).commit()
    for part in (20, 40, 60):
        touch = QTest.touchEvent(hand.canvas, finger)
        touch.move(0, point + QPoint(part, 0), hand.canvas).commit()
    assert hand.canvas.is_dragging
    touch = QTest.touchEvent(hand.canvas, finger)
    touch.release(0, point + QPoint(60, 0), hand.canvas).commit()
    assert hand.places()[1] == pytest.approx(2.0 + 60.0 / hand.canvas.lay.px_per_m, abs=0.011)
    assert hand.document.undo_stack.count() == 1


def test_two_fingers_on_a_touchpad_zoom_where_they_are(hand: Hand) -> None:
    point = QPointF(hand.canvas.lay.x(3.0), hand.canvas.lay.film.center().y())
    for _ in range(4):
        pinch = QNativeGestureEvent(
            Qt.NativeGestureType.ZoomNativeGesture,
            QPointingDevice.primaryPointingDevice(),
            2,
            point,
            point,
            QPointF(hand.canvas.mapToGlobal(point.toPoint())),
            0.25,
            QPointF(),
        )
        QApplication.sendEvent(hand.canvas, pinch)
    assert hand.canvas.lay.px_per_m > 2.0 * (960.0 / 4.2)
    assert hand.canvas.lay.x(3.0) == pytest.approx(point.x(), abs=0.01)


def test_a_plan_edited_to_absurdity_still_answers(qtbot: QtBot) -> None:
    hand = at_canvas(qtbot, plain_plan(90, length_m=0.1))
    assert hand.document.edit("Weigh", partial(set_fibre, mass_g=5000.0))
    with qtbot.waitSignal(hand.document.refused) as heard:
        hand.document.edit("Shorten", partial(set_fibre, length_m=0.02))
    assert heard.args[0].code == "out-of-range", "a roving of 2 cm is none"
    assert {check.code for check in hand.document.sheet.checks} >= {"section-unpaintable"}
    hand.canvas.looks.zoom(1e6)
    hand.canvas.focus_item("boundary", 45)
    before_m = hand.places()[45]
    point = hand.take(45)
    hand.send(RELEASE, hand.pull(point, 0.0001, ALT), ALT)
    assert hand.places()[45] == pytest.approx(before_m + 0.0001, abs=1e-5)
