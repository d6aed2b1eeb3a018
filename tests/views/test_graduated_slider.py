"""If these fail, a slider jumps past graduations, leaves no way back, or settles twice."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from studio_gui.views.graduated_slider import GraduatedSlider
from tests.views.keys import ESC, shown

LEFT = Qt.MouseButton.LeftButton
Key = Qt.Key


class Hand:
    """A slider from 0 to 62.5 ml in whole ml, and all it says."""

    def __init__(self, qtbot: QtBot) -> None:
        self.slider = shown(GraduatedSlider(), qtbot, 400, 30)
        self.slider.show_amount(37.5, 62.5, 1.0)
        self.slider.setFocus()
        self.moves: list[float] = []
        self.ends: list[str] = []
        self.slider.moved.connect(self.moves.append)
        self.slider.settled.connect(lambda: self.ends.append("settled"))
        self.slider.dropped.connect(lambda: self.ends.append("dropped"))

    def at(self, share: float) -> QPoint:
        return QPoint(round(share * self.slider.width()), self.slider.height() // 2)


@pytest.fixture
def hand(qtbot: QtBot) -> Hand:
    return Hand(qtbot)


@pytest.mark.parametrize(
    ("key", "amount"),
    [
        (Key.Key_Right, 38.0),
        (Key.Key_Up, 38.0),
        (Key.Key_Left, 37.0),
        (Key.Key_Down, 37.0),
        (Key.Key_PageUp, 47.0),
        (Key.Key_PageDown, 28.0),
        (Key.Key_Home, 0.0),
        (Key.Key_End, 62.5),
    ],
)
def test_keys_go_by_graduations_and_one_key_is_one_gesture(key: Qt.Key, amount: float, hand: Hand) -> None:
    QTest.keyClick(hand.slider, key)
    assert (hand.moves, hand.ends) == ([amount], ["settled"])


def test_a_held_key_is_one_gesture_and_stops_at_the_end(hand: Hand) -> None:
    for _ in range(30):
        QTest.keyPress(hand.slider, Key.Key_Right)
    assert hand.ends == []
    QTest.keyRelease(hand.slider, Key.Key_Right)
    assert (hand.moves[0], hand.moves[-1], hand.ends) == (38.0, 62.5, ["settled"])
    assert len(hand.moves) == 26


def test_in_a_language_from_the_right_the_arrows_turn_round(hand: Hand) -> None:
    hand.slider.setLayoutDirection(Qt.LayoutDirection.RightToLeft)
    QTest.keyClick(hand.slider, Key.Key_Left)
    assert hand.moves == [38.0]


def test_the_mouse_takes_it_from_end_to_end_and_lets_go_once(hand: Hand) -> None:
    QTest.mousePress(hand.slider, LEFT, pos=hand.at(0.6))
    for share in (0.5, 0.25, -0.2, 1.2):
        QTest.mouseMove(hand.slider, hand.at(share))
    assert hand.ends == []
    assert all(amount == round(amount) for amount in hand.moves[:-1]), "by whole graduations"
    assert hand.moves[-2:] == [0.0, 62.5], "the ends are reached, on a graduation or not"
    QTest.mouseRelease(hand.slider, LEFT, pos=hand.at(1.0))
    assert hand.ends == ["settled"]


def test_a_click_beside_the_handle_goes_there(hand: Hand) -> None:
    QTest.mouseClick(hand.slider, LEFT, pos=hand.at(0.2))
    assert hand.moves == [pytest.approx(12.5, abs=1.5)]
    assert hand.ends == ["settled"]


def test_esc_ends_a_drag_and_the_mouse_moves_nothing_more(hand: Hand) -> None:
    QTest.mousePress(hand.slider, LEFT, pos=hand.at(0.6))
    QTest.mouseMove(hand.slider, hand.at(0.9))
    QTest.keyClick(hand.slider, ESC)
    count = len(hand.moves)
    QTest.mouseMove(hand.slider, hand.at(0.2))
    QTest.mouseRelease(hand.slider, LEFT, pos=hand.at(0.2))
    assert (len(hand.moves), hand.ends) == (count, ["dropped"])


def test_other_buttons_and_keys_are_somebody_elses(hand: Hand) -> None:
    QTest.mouseClick(hand.slider, Qt.MouseButton.RightButton, pos=hand.at(0.2))
    for key in (ESC, Key.Key_A):
        QTest.keyClick(hand.slider, key)
    assert (hand.moves, hand.ends) == ([], [])


def test_while_the_mouse_holds_it_keys_do_nothing(hand: Hand) -> None:
    QTest.mousePress(hand.slider, LEFT, pos=hand.at(0.6))
    moves = len(hand.moves)
    QTest.keyClick(hand.slider, Key.Key_Right)
    assert (len(hand.moves), hand.ends) == (moves, [])
    QTest.mouseRelease(hand.slider, LEFT, pos=hand.at(0.6))


def test_leaving_the_slider_with_a_key_down_settles_it(hand: Hand) -> None:
    QTest.keyPress(hand.slider, Key.Key_Right)
    hand.slider.clearFocus()
    QTest.keyRelease(hand.slider, Key.Key_Right)
    assert hand.ends == ["settled"]


def test_a_screen_reader_can_set_it(hand: Hand) -> None:
    value = QAccessible.queryAccessibleInterface(hand.slider).valueInterface()
    value.setCurrentValue(2000)
    assert (hand.moves, hand.ends) == ([12.5], ["settled"])


def test_with_nothing_to_share_it_stands_at_0(hand: Hand) -> None:
    hand.slider.show_amount(0.0, 0.0, 1.0)
    assert (hand.slider.value(), hand.slider.amount, hand.slider.highest) == (0, 0.0, 0.0)
