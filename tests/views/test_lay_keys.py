"""If these fail, something that the mouse can do on the lay is out of reach of the keyboard."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.sections import set_locked
from studio_gui.domain.errors import RovingLayError
from studio_gui.drawing.lay_layout import ItemKind
from studio_gui.views.place_entry import PlaceEntry
from tests.drawing.plans import plain_plan
from tests.views.lay_hand import ALT, CONTROL, NONE, SHIFT, Hand, at_canvas

Key = Qt.Key


@pytest.fixture
def hand(qtbot: QtBot) -> Hand:
    return at_canvas(qtbot, plain_plan(4))


def go_to(hand: Hand, kind: ItemKind, index: int) -> None:
    """Walk to an item as somebody without a mouse would."""
    hand.canvas.setFocus()
    hand.key(Key.Key_Home, CONTROL)
    for _ in range(100):
        if hand.canvas.focused == (kind, index):
            return
        hand.key(Key.Key_Tab)
    pytest.fail(f"{kind} {index} is not reached")


def order(hand: Hand) -> list[str]:
    return [section.id for section in hand.document.plan.sections]


def gaps(hand: Hand) -> list[float]:
    return [boundary.gap_m for boundary in hand.document.plan.boundaries]


def entry(hand: Hand) -> PlaceEntry:
    """Return the field that is open on the lay."""
    field = hand.canvas.findChild(PlaceEntry)
    assert isinstance(field, PlaceEntry)
    assert field.isVisible()
    assert QApplication.focusWidget() is field.field
    return field


# -- arrows -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "modifiers", "by_m"),
    [
        (Key.Key_Left, NONE, -0.001),
        (Key.Key_Right, NONE, 0.001),
        (Key.Key_Left, SHIFT, -0.01),
        (Key.Key_Right, SHIFT, 0.01),
    ],
)
def test_arrows_move_a_boundary(hand: Hand, key: Qt.Key, modifiers: Qt.KeyboardModifier, by_m: float) -> None:
    go_to(hand, "boundary", 1)
    hand.key(key, modifiers)
    assert hand.places() == pytest.approx([1.0, 2.0 + by_m, 3.0])
    hand.document.undo_stack.undo()
    assert hand.places() == [1.0, 2.0, 3.0]


def test_alt_takes_all_that_follows_along(hand: Hand) -> None:
    go_to(hand, "boundary", 1)
    hand.key(Key.Key_Right, ALT)
    hand.key(Key.Key_Right, ALT | SHIFT)
    assert hand.places() == pytest.approx([1.0, 2.011, 3.011])


def test_control_opens_and_closes_a_gap(hand: Hand) -> None:
    go_to(hand, "boundary", 1)
    hand.key(Key.Key_Right, CONTROL | SHIFT)
    hand.key(Key.Key_Left, CONTROL)
    assert gaps(hand) == pytest.approx([0.0, 0.009, 0.0])
    assert hand.places() == [1.0, 2.0, 3.0]


def test_control_changes_places_of_sections(hand: Hand) -> None:
    go_to(hand, "section", 1)
    hand.key(Key.Key_Right, CONTROL)
    assert order(hand) == ["s1", "s3", "s2", "s4"]
    assert hand.canvas.focused == ("section", 2)
    hand.key(Key.Key_Left, CONTROL)
    hand.key(Key.Key_Left, CONTROL)
    assert order(hand) == ["s2", "s1", "s3", "s4"]
    assert hand.chosen() == ("s2",)


def test_shift_selects_along(hand: Hand) -> None:
    go_to(hand, "section", 0)
    hand.key(Key.Key_Right, SHIFT)
    hand.key(Key.Key_Right, SHIFT)
    assert hand.chosen() == ("s1", "s2", "s3")
    hand.key(Key.Key_Delete)
    assert order(hand) == ["s1", "s4"]


def test_control_space_adds_and_takes_away_and_control_a_takes_all(hand: Hand) -> None:
    go_to(hand, "section", 2)
    hand.key(Key.Key_A, CONTROL)
    assert hand.chosen() == ("s1", "s2", "s3", "s4")
    hand.key(Key.Key_Space, CONTROL)
    assert hand.chosen() == ("s1", "s2", "s4")
    hand.key(Key.Key_Space, CONTROL)
    assert set(hand.chosen()) == {"s1", "s2", "s3", "s4"}


def test_arrows_move_a_fold(qtbot: QtBot) -> None:
    hand = at_canvas(qtbot, plain_plan(4, passes=2))
    go_to(hand, "fold", 0)
    hand.key(Key.Key_Right, SHIFT)
    assert hand.document.plan.lay.fold_positions_m == pytest.approx((2.01,))
    hand.key(Key.Key_End)
    assert hand.document.plan.lay.fold_positions_m == pytest.approx((3.99,))


# -- ends -------------------------------------------------------------------------------------------------


def test_home_and_end_move_a_boundary_as_far_as_it_goes(hand: Hand) -> None:
    go_to(hand, "boundary", 1)
    hand.key(Key.Key_Home)
    assert hand.places() == pytest.approx([1.0, 1.001, 3.0])
    hand.key(Key.Key_End)
    assert hand.places() == pytest.approx([1.0, 2.999, 3.0])
    hand.document.undo_stack.undo()
    hand.document.undo_stack.undo()
    assert hand.places() == [1.0, 2.0, 3.0]


def test_home_and_end_go_to_the_far_sections(hand: Hand) -> None:
    go_to(hand, "section", 1)
    hand.key(Key.Key_End)
    assert hand.chosen() == ("s4",)
    hand.key(Key.Key_Home)
    assert hand.chosen() == ("s1",)


def test_a_locked_boundary_says_why_it_stays(hand: Hand, qtbot: QtBot) -> None:
    hand.document.replace(set_locked(plain_plan(4), ["s2"], locked=True))
    go_to(hand, "boundary", 1)
    for key in (Key.Key_Right, Key.Key_End):
        with qtbot.waitSignal(hand.document.refused) as heard:
            hand.key(key)
        assert isinstance(heard.args[0], RovingLayError)
    assert hand.places() == [1.0, 2.0, 3.0]


# -- exact places -----------------------------------------------------------------------------------------


def test_a_typed_place_is_exact(hand: Hand) -> None:
    go_to(hand, "boundary", 1)
    QTest.keyClicks(hand.canvas, "1")
    field = entry(hand)
    QTest.keyClicks(field.field, "83.25")
    QTest.keyClick(field.field, Key.Key_Return)
    assert hand.places() == pytest.approx([1.0, 1.8325, 3.0])
    assert not field.isVisible()
    assert QApplication.focusWidget() is hand.canvas
    assert hand.canvas.focused == ("boundary", 1), "the keys go on with what was placed"
    assert hand.document.undo_stack.undoText() == "Move boundary B | C"


@pytest.mark.parametrize("typed", ["72 in", "6 ft", "1.8288 m"])
def test_any_unit_may_be_typed(hand: Hand, typed: str) -> None:
    go_to(hand, "boundary", 1)
    hand.key(Key.Key_Return)
    QTest.keyClicks(entry(hand).field, typed)
    QTest.keyClick(entry(hand).field, Key.Key_Enter)
    assert hand.places()[1] == pytest.approx(1.8288)


@pytest.mark.parametrize(
    ("typed", "word"), [("390", "room"), ("nan", "number"), ("5 g", "cm"), ("-1", "possible")]
)
def test_what_cannot_be_is_said_at_the_field_and_nothing_moves(hand: Hand, typed: str, word: str) -> None:
    go_to(hand, "boundary", 1)
    hand.key(Key.Key_F2)
    field = entry(hand)
    QTest.keyClicks(field.field, typed)
    QTest.keyClick(field.field, Key.Key_Return)
    assert word in field.field.message.text()
    assert field.isVisible()
    assert hand.places() == [1.0, 2.0, 3.0]
    QTest.keyClick(field.field, Key.Key_Escape)
    assert not field.isVisible()
    assert QApplication.focusWidget() is hand.canvas
    assert hand.canvas.focused == ("boundary", 1)


def test_the_whole_of_what_is_said_has_room(hand: Hand) -> None:
    go_to(hand, "boundary", 1)
    hand.key(Key.Key_F2)
    field = entry(hand)
    QTest.keyClicks(field.field, "390")
    QTest.keyClick(field.field, Key.Key_Return)
    message = field.field.message
    assert message.height() >= message.heightForWidth(message.width())
    assert message.y() >= field.field.y() + field.field.height()
    assert field.rect().contains(message.geometry())
    assert field.name.height() >= field.name.heightForWidth(field.name.width())


def test_the_length_of_a_section_can_be_typed(hand: Hand) -> None:
    go_to(hand, "section", 1)
    QTest.keyClicks(hand.canvas, "8")
    QTest.keyClicks(entry(hand).field, "0")
    QTest.keyClick(entry(hand).field, Key.Key_Return)
    assert hand.places() == pytest.approx([1.0, 1.8, 3.0])


def test_gap_and_fold_can_be_typed(qtbot: QtBot) -> None:
    hand = at_canvas(qtbot, plain_plan(4, passes=2))
    hand.canvas.type_place("gap", 0)
    QTest.keyClicks(entry(hand).field, "2.5")
    QTest.keyClick(entry(hand).field, Key.Key_Return)
    assert gaps(hand) == pytest.approx([0.025, 0.0, 0.0])
    hand.canvas.type_place("fold", 0)
    QTest.keyClicks(entry(hand).field, "204")
    QTest.keyClick(entry(hand).field, Key.Key_Return)
    assert hand.document.plan.lay.fold_positions_m == pytest.approx((2.04,))


def test_the_field_stays_inside_a_zoomed_canvas(hand: Hand) -> None:
    go_to(hand, "boundary", 2)
    hand.canvas.looks.zoom(6.0)
    hand.canvas.focus_item("boundary", 2)
    hand.key(Key.Key_Return)
    assert hand.canvas.rect().contains(entry(hand).geometry())


def test_the_keyboard_brings_what_it_goes_to_into_sight(hand: Hand) -> None:
    hand.canvas.looks.zoom(5.0)
    go_to(hand, "boundary", 0)
    layout = hand.canvas.lay
    assert layout.pane.left() <= layout.item("boundary", 0).rect.center().x() <= layout.pane.right()
    go_to(hand, "section", 3)
    layout = hand.canvas.lay
    assert layout.pane.left() <= layout.item("section", 3).rect.left() <= layout.pane.right()


def test_the_focus_goes_with_its_section(hand: Hand) -> None:
    go_to(hand, "section", 1)
    hand.key(Key.Key_Right, CONTROL)
    hand.document.undo_stack.undo()
    assert order(hand) == ["s1", "s2", "s3", "s4"]
    assert hand.canvas.focused == ("section", 1)


def test_shift_f10_asks_for_the_menu(hand: Hand, qtbot: QtBot) -> None:
    go_to(hand, "boundary", 2)
    with qtbot.waitSignal(hand.canvas.menu_wanted) as heard:
        hand.key(Key.Key_F10, SHIFT)
    assert heard.args[1] == hand.canvas.lay.item("boundary", 2)


def test_a_canvas_of_its_own_document(qtbot: QtBot) -> None:
    hand = at_canvas(qtbot, plain_plan(1))
    assert isinstance(hand.document, OpenPlan)
    hand.key(Key.Key_Delete)
    hand.key(Key.Key_Right)
    hand.key(Key.Key_Right, CONTROL)
    assert hand.document.undo_stack.count() == 0
