"""If these fail, buttons of a narrow pane are cut, or lie over one another."""

from __future__ import annotations

from itertools import pairwise

import pytest
import shiboken6
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


@pytest.mark.usefixtures("qapp")
def test_what_a_layout_held_is_freed_with_it() -> None:
    holder = QWidget()
    first = placed(holder, 600, to_the_right=False)[0]
    flow = holder.layout()
    assert flow is not None
    gone, *items = [flow.itemAt(index) for index in range(flow.count())]
    shiboken6.delete(first)
    assert flow.count() == len(items) == 2, "a widget that ends leaves the layout"
    assert gone not in items
    shiboken6.delete(holder)
    assert not any(shiboken6.isValid(item) for item in items)
