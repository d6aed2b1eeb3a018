"""If these fail, a digit of a recipe is out of sight, and it reads as another recipe."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QFontMetricsF
from pytestqt.qtbot import QtBot

from studio_gui.views.amounts_field import FRAME_PX, AmountsField


@pytest.mark.parametrize(
    "amounts",
    [(12.0, 38.0), (120.5, 60.25, 192.75), (1204.55, 1360.25, 1192.75)],
    ids=["two", "three", "long"],
)
@pytest.mark.parametrize("width", [180, 240, 400])
def test_the_whole_line_is_in_sight(qtbot: QtBot, amounts: tuple[float, ...], width: int) -> None:
    field = AmountsField()
    qtbot.addWidget(field)
    field.resize(width, 36)
    field.show()
    field.set_amounts(amounts, ["Blue", "Red", "Acid water"][: len(amounts)])
    drawn = QFontMetricsF(field.font()).horizontalAdvance(field.text())
    assert drawn <= width - FRAME_PX


def test_it_is_large_again_once_there_is_room(qtbot: QtBot) -> None:
    field = AmountsField()
    qtbot.addWidget(field)
    field.resize(160, 36)
    field.show()
    field.set_amounts((120.5, 60.25, 192.75), ["Blue", "Red", "Acid water"])
    small = field.font().pointSizeF()
    field.resize(500, 36)
    assert field.font().pointSizeF() > small


def test_what_lies_under_it_stays_where_it_is(qtbot: QtBot) -> None:
    field = AmountsField()
    qtbot.addWidget(field)
    field.set_usual_font(field.font())
    field.resize(160, field.height())
    field.show()
    field.set_amounts((12.0, 38.0), ["Blue", "Acid water"])
    large, height = field.font().pointSizeF(), field.height()
    field.set_amounts((1204.55, 1360.25, 1192.75), ["Blue", "Red", "Acid water"])
    assert field.font().pointSizeF() < large
    assert field.height() == field.minimumHeight() == field.maximumHeight() == height
