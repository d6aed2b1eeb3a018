"""If these fail, buttons of a narrow pane are cut, or lie over one another."""

from __future__ import annotations

from itertools import pairwise

import pytest
from PySide6.QtWidgets import QPushButton, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.views.flow import FlowLayout


@pytest.fixture
def holder(qtbot: QtBot) -> QWidget:
    holder = QWidget()
    qtbot.addWidget(holder)
    return holder


def placed(holder: QWidget, width: int, *, to_the_right: bool) -> list[QPushButton]:
    flow = FlowLayout(holder, spacing=4, to_the_right=to_the_right)
    buttons = [QPushButton(words) for words in ("Dye", "Let-down", "Remove")]
    for button in buttons:
        flow.addWidget(button)
    holder.resize(width, flow.heightForWidth(width))
    flow.activate()
    return buttons


@pytest.mark.parametrize("to_the_right", [False, True])
@pytest.mark.parametrize("width", [600, 200, 100])
def test_buttons_keep_their_width_and_their_place(holder: QWidget, width: int, to_the_right: bool) -> None:
    buttons = placed(holder, width, to_the_right=to_the_right)
    for button in buttons:
        assert button.width() >= min(button.sizeHint().width(), width)
        assert 0 <= button.x() <= button.x() + button.width() <= width
    for one, other in pairwise(buttons):
        assert other.y() > one.y() or other.x() > one.x() + one.width()


def test_rows_stand_at_the_right_where_they_are_to(holder: QWidget) -> None:
    last = placed(holder, 600, to_the_right=True)[-1]
    assert last.x() + last.width() == 600
