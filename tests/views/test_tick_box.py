"""If these fail, an empty check box cannot be seen in one of the palettes."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QApplication, QStyle, QStyleOptionButton
from pytestqt.qtbot import QtBot

from studio_gui.drawing.look import contrast
from studio_gui.views.tick_box import RadioButton, TickBox
from tests.views.keys import shown


@pytest.mark.parametrize("ground", ["#efefef", "#2f3033"])
@pytest.mark.parametrize(
    ("make", "part"),
    [
        (TickBox, QStyle.SubElement.SE_CheckBoxIndicator),
        (lambda: RadioButton("Paint"), QStyle.SubElement.SE_RadioButtonIndicator),
    ],
    ids=["check box", "radio button"],
)
def test_the_edge_of_an_empty_box_stands_out(
    make: Callable[[], TickBox | RadioButton],
    part: QStyle.SubElement,
    ground: str,
    qtbot: QtBot,
    qapp: QApplication,
) -> None:
    before, style = qapp.palette(), qapp.style().objectName()
    try:
        qapp.setStyle("Fusion")
        box = shown(make(), qtbot, 120, 40)
        qapp.setPalette(QPalette(QColor("#3a3b3f"), QColor(ground)))
        qapp.processEvents()
        option = QStyleOptionButton()
        box.initStyleOption(option)
        place = box.style().subElementRect(part, option, box)
        picture = box.grab().toImage()
        row = [picture.pixelColor(x, place.center().y()) for x in range(place.left(), place.right() + 1)]
        assert max(contrast(colour, QColor(ground)) for colour in row) >= 3.0
    finally:
        qapp.setStyle(style)
        qapp.setPalette(before)
