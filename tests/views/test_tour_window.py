"""If these fail, the look around lacks its pictures, or cannot be left."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.paths import resources_dir
from studio_gui.views.help_menu import HelpMenu
from studio_gui.views.tour_window import TourWindow, tour


@pytest.fixture
def window(qtbot: QtBot) -> Iterator[TourWindow]:
    behind = QWidget()
    qtbot.addWidget(behind)
    behind.show()
    window = TourWindow(behind)
    window.show()
    yield window
    behind.close()


def test_every_picture_is_there(window: TourWindow) -> None:
    for _, words, picture in tour():
        assert words
        assert not QImage(str(resources_dir() / "help" / picture)).isNull()
        assert picture in window.text.toHtml()
    assert window.text.document().size().height() > 2000.0  # the pictures have their room


def test_no_picture_is_shipped_that_nobody_sees() -> None:
    readme = Path(resources_dir().parent, "README.md").read_text(encoding="utf-8")
    seen = {picture for _, _, picture in tour()}
    assert len([picture for picture in seen if picture.startswith("print-")]) >= 5
    for path in (resources_dir() / "help").glob("*.png"):
        assert path.name in seen or path.name in readme


def test_it_can_be_read_by_keys_and_left(window: TourWindow) -> None:
    bar = window.text.verticalScrollBar()
    window.text.setFocus()
    QTest.keyClick(window.text, Qt.Key.Key_PageDown)
    assert bar.value() > 0
    QTest.keyClick(window, Qt.Key.Key_Escape)
    assert not window.isVisible()


def test_words_come_anew_with_the_language(window: TourWindow) -> None:
    window.text.clear()
    QApplication.sendEvent(window, QEvent(QEvent.Type.LanguageChange))
    assert "barber-pole" in window.text.toPlainText()


def test_the_menu_shows_it_once(qtbot: QtBot) -> None:
    behind = QWidget()
    qtbot.addWidget(behind)
    behind.show()
    menu = HelpMenu(behind, tuple)
    menu.tour_action.trigger()
    menu.tour_action.trigger()
    assert len(behind.findChildren(TourWindow)) == 1
