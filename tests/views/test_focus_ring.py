"""If these fail, somebody who works by keyboard does not see where the keys go."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QAbstractItemView, QApplication, QScrollArea, QTabBar, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.drawing.look import contrast
from studio_gui.views.main_window import MainWindow
from tests.views.test_readable import PALETTES
from tests.views.whole_window import stops, whole_window


@pytest.fixture
def window(qtbot: QtBot, tmp_path: Path) -> MainWindow:
    return whole_window(qtbot, tmp_path)


def seen(widget: QWidget) -> list[tuple[QColor, QPoint]]:
    """The colours along the inner edge of what is drawn at a widget, ring and all."""
    window = widget.window()
    place = QRect(widget.mapTo(window, QPoint(0, 0)), widget.size()).adjusted(-2, -2, 2, 2) & window.rect()
    image = window.grab(place).toImage()
    return [
        (image.pixelColor(x, y), QPoint(x, y))
        for x in range(0, image.width(), 2)
        for y in (*range(4), *range(image.height() - 4, image.height()))
    ]


def takes_keys(widget: QWidget, pane: QWidget) -> bool:
    by_tab = bool(widget.focusPolicy() & Qt.FocusPolicy.TabFocus)
    return by_tab and widget.isEnabled() and widget.isVisibleTo(pane)


def test_tab_comes_to_everything_and_the_ring_is_always_there(window: MainWindow) -> None:
    met = 0
    for one in stops(window):
        if isinstance(one, QTabBar) and one.visibleRegion().isEmpty():
            continue  # Qt keeps the tabs of panes that stood one behind the other before
        met += 1
        assert not isinstance(one, QScrollArea), "it shows nothing of its own"
        QApplication.processEvents()
        ring = window.focus_ring
        if one is window.canvas:
            assert ring.widget() is None
            continue
        assert ring.widget() is one
        assert ring.isVisible(), one
        corner = ring.mapFromGlobal(one.mapToGlobal(QPoint(0, 0)))
        assert ring.rect().contains(QRect(corner, one.size())), one
        assert not one.visibleRegion().isEmpty(), one
    assert met > 50


def test_a_pane_behind_another_comes_forward_with_the_focus(window: MainWindow) -> None:
    window.resize(1000, 700)
    window.docks.arrange()  # in one column, as tabs
    QApplication.processEvents()
    for pane in (window.panes.inputs, window.panes.stocks, window.panes.section):
        field = next(one for one in pane.findChildren(QWidget) if takes_keys(one, pane))
        field.setFocus(Qt.FocusReason.TabFocusReason)
        QApplication.processEvents()
        assert not field.visibleRegion().isEmpty(), field.accessibleName()


@pytest.mark.parametrize("name", PALETTES)
def test_the_ring_stands_out_in_both_palettes(window: MainWindow, qapp: QApplication, name: str) -> None:
    before = QPalette(qapp.palette())
    qapp.setPalette(PALETTES[name])
    try:
        panes = window.panes
        for one in (panes.table.view, panes.section.name, panes.stocks.findChildren(QAbstractItemView)[0]):
            one.setFocus()  # from behind another pane it comes forward, and may find other room
            QApplication.processEvents()
            window.canvas.setFocus()
            plain = seen(one)
            one.setFocus(Qt.FocusReason.TabFocusReason)
            QApplication.processEvents()
            changed = [
                place
                for (old, place), (new, _) in zip(plain, seen(one), strict=True)
                if contrast(old, new) >= 3.0
            ]
            assert len(changed) >= len(plain) / 8, one
    finally:
        qapp.setPalette(before)


def test_the_cell_that_keys_go_to_has_a_ring_of_its_own(window: MainWindow) -> None:
    view = window.panes.table.view
    for column in (0, 1, 10):  # one for each way of painting cells
        index = view.model().index(2, column)
        view.clearFocus()
        view.setCurrentIndex(index)
        place = view.visualRect(index)
        plain = view.viewport().grab(place).toImage()
        view.setFocus(Qt.FocusReason.TabFocusReason)
        QApplication.processEvents()
        ringed = view.viewport().grab(place).toImage()
        along = [
            contrast(plain.pixelColor(x, 1), ringed.pixelColor(x, 1)) for x in range(4, plain.width() - 4)
        ]
        assert sum(one >= 3.0 for one in along) >= len(along) / 2, column


def test_the_ring_goes_with_the_focus_to_another_window(window: MainWindow, qtbot: QtBot) -> None:
    other = QWidget()
    other.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    qtbot.addWidget(other)
    window.panes.section.name.setFocus()
    with qtbot.waitExposed(other):
        other.show()
    other.activateWindow()
    other.setFocus()
    qtbot.waitUntil(lambda: QApplication.focusWidget() is other)
    assert window.focus_ring.widget() is None
