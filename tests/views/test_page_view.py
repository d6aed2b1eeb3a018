"""If these fail, a preview shows another page than will be printed, or cannot be moved through by keys."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QColor, QImage, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from studio_gui.drawing.sheets.page import Box, Frame, Page, Words
from studio_gui.drawing.sheets.paper import A4
from studio_gui.views.page_view import MOST_TILES, MOST_ZOOM, PageView

COLOURS = ("#ff0000", "#00ff00", "#0000ff")


def page(colour: str, paper: Box) -> Page:
    """A page with a field of one colour in its upper half, and words in the lower."""
    half = Box(0.0, 0.0, paper.width, paper.height / 2.0)
    words = Words(Box(20.0, paper.height - 30.0, 100.0, 20.0), (f"page {colour}",), 16.0)
    return Page(paper, (Frame(half, 0.0, fill=colour), words), colour)


@pytest.fixture
def view(qtbot: QtBot) -> PageView:
    view = PageView()
    qtbot.addWidget(view)
    view.resize(500, 400)
    view.show()
    view.show_pages(tuple(page(colour, A4.landscape()) for colour in COLOURS))
    view.setFocus()
    return view


def seen(view: PageView, qtbot: QtBot) -> QImage:
    view.viewport().repaint()
    qtbot.waitUntil(lambda: view.is_painted)
    return view.viewport().grab().toImage()


def colour_at(image: QImage, x_share: float, y_share: float) -> str:
    return QColor(image.pixel(round(x_share * image.width()), round(y_share * image.height()))).name()


def test_the_whole_page_is_seen_on_white_with_room_around(view: PageView, qtbot: QtBot) -> None:
    image = seen(view, qtbot)
    assert colour_at(image, 0.5, 0.4) == "#ff0000"
    assert colour_at(image, 0.5, 0.6) == "#ffffff"
    assert colour_at(image, 0.005, 0.5) not in ("#ff0000", "#ffffff")
    assert (view.horizontalScrollBar().maximum(), view.verticalScrollBar().maximum()) == (0, 0)


def test_page_keys_turn_pages_and_stop_at_both_ends(view: PageView, qtbot: QtBot) -> None:
    turned: list[int] = []
    view.turned.connect(turned.append)
    for key, index in (
        (Qt.Key.Key_PageUp, 0),
        (Qt.Key.Key_PageDown, 1),
        (Qt.Key.Key_PageDown, 2),
        (Qt.Key.Key_PageDown, 2),
        (Qt.Key.Key_Home, 0),
        (Qt.Key.Key_End, 2),
        (Qt.Key.Key_PageUp, 1),
    ):
        QTest.keyClick(view, key)
        assert view.index == index
    assert colour_at(seen(view, qtbot), 0.5, 0.4) == "#00ff00"
    assert turned[-1] == 1


def test_page_down_moves_along_a_large_page_before_it_turns(view: PageView) -> None:
    view.set_zoom(1.0)
    assert view.verticalScrollBar().maximum() > 0
    QTest.keyClick(view, Qt.Key.Key_PageDown)
    assert (view.index, view.verticalScrollBar().value() > 0) == (0, True)
    while view.verticalScrollBar().value() < view.verticalScrollBar().maximum():
        QTest.keyClick(view, Qt.Key.Key_PageDown)
    QTest.keyClick(view, Qt.Key.Key_PageDown)
    assert (view.index, view.verticalScrollBar().value()) == (1, 0)


def test_the_width_of_a_page_can_be_seen_and_its_true_size(view: PageView) -> None:
    view.resize(500, 250)
    whole = view.factor
    view.set_zoom("width")
    assert view.factor > whole
    assert view.horizontalScrollBar().maximum() == 0
    view.set_zoom(1.0)
    assert view.horizontalScrollBar().maximum() == round(297.0 / 25.4 * 96.0) + 32 - view.viewport().width()
    view.set_zoom(1000.0)
    assert view.factor == MOST_ZOOM


def test_plus_and_minus_and_the_wheel_zoom(view: PageView) -> None:
    before = view.factor
    QTest.keyClick(view, Qt.Key.Key_Plus)
    assert view.factor == pytest.approx(1.25 * before)
    QTest.keyClick(view, Qt.Key.Key_Minus)
    assert view.factor == pytest.approx(before)
    wheel(view, 1, Qt.KeyboardModifier.ControlModifier)
    assert view.factor == pytest.approx(1.25 * before)


def test_the_wheel_turns_pages_that_are_seen_whole(view: PageView) -> None:
    wheel(view, -1)
    assert view.index == 1
    wheel(view, 1)
    assert view.index == 0
    view.set_zoom(1.0)
    wheel(view, -1)
    assert (view.index, view.verticalScrollBar().value() > 0) == (0, True)


def wheel(view: PageView, notches: int, keys: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    middle = QPointF(view.viewport().rect().center())
    event = QWheelEvent(
        middle,
        view.viewport().mapToGlobal(middle),
        QPoint(),
        QPoint(0, 120 * notches),
        Qt.MouseButton.NoButton,
        keys,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(view.viewport(), event)


def test_a_roll_longer_than_any_picture_can_be_looked_along(view: PageView, qtbot: QtBot) -> None:
    view.show_pages((page("#00ff00", Box(0.0, 0.0, 60.0, 9000.0)),))
    view.set_zoom(3.0)
    bar = view.verticalScrollBar()
    for share in (0.0, 0.25, 0.49):
        bar.setValue(round(share * bar.maximum()))
        assert colour_at(seen(view, qtbot), 0.5, 0.5) == "#00ff00"
    bar.setValue(round(0.75 * bar.maximum()))
    assert colour_at(seen(view, qtbot), 0.5, 0.5) == "#ffffff"
    assert len(view._tiles) <= MOST_TILES


def test_without_pages_it_says_so(view: PageView, qtbot: QtBot) -> None:
    view.show_pages(())
    assert view.is_painted
    assert view.index == 0
    QTest.keyClick(view, Qt.Key.Key_End)
    seen(view, qtbot)


def test_a_page_is_read_out(view: PageView) -> None:
    assert view.accessibleDescription() == "#ff0000; page #ff0000"
    QTest.keyClick(view, Qt.Key.Key_PageDown)
    assert view.accessibleDescription() == "#00ff00; page #00ff00"
