"""If these fail, a look in greys shows colour, or leaves greys behind in prints and figures."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.document.bench_models import BottleModel
from studio_gui.domain.worksheet import worksheet
from studio_gui.views.main_window import MainWindow
from tests.views.whole_window import whole_window


@pytest.fixture
def window(qtbot: QtBot, tmp_path: Path) -> MainWindow:
    return whole_window(qtbot, tmp_path)


def hues(widget: QWidget) -> int:
    """How many pixels of a widget have a clear hue."""
    image: QImage = widget.grab().toImage()
    colours = (
        image.pixelColor(x, y) for x in range(0, image.width(), 3) for y in range(0, image.height(), 3)
    )
    return sum(
        max(one.red(), one.green(), one.blue()) - min(one.red(), one.green(), one.blue()) > 60
        for one in colours
    )


def test_greys_by_key_take_the_hue_from_wool_and_yarn_and_give_it_back(window: MainWindow) -> None:
    document, seen = window.document, (window.canvas, window.panes.strip)
    before = [hues(widget) for widget in seen]
    window.canvas.setFocus()

    QTest.keyClick(window, Qt.Key.Key_G, Qt.KeyboardModifier.ControlModifier)
    QApplication.processEvents()

    assert window.view_commands.grey.isChecked()
    assert document.sheet.in_grey
    assert [hues(widget) < 0.2 * had for widget, had in zip(seen, before, strict=True)] == [True, True]
    assert not document.is_modified

    window.view_commands.grey.trigger()
    QApplication.processEvents()
    assert [hues(widget) for widget in seen] == pytest.approx(before, rel=0.1)


def test_dots_of_stocks_and_liquors_lose_their_hue_too(window: MainWindow) -> None:
    window.view_commands.grey.trigger()
    QApplication.processEvents()
    panes = window.panes
    models = [panes.stocks.stocks, panes.stocks.liquors, BottleModel(window.document, window)]
    colours = [
        colour
        for model in models
        for row in range(model.rowCount())
        for column in range(model.columnCount())
        if isinstance(colour := model.index(row, column).data(Qt.ItemDataRole.DecorationRole), QColor)
        and colour.alpha()
    ]
    assert len(colours) > len(window.document.plan.dyes)
    assert [colour.name() for colour in colours if colour.hslSaturation()] == []
    dots = [grid.swatch.grab().toImage().pixelColor(7, 7) for grid in panes.section.editor.grid.rows]
    assert max(dot.hslSaturation() for dot in dots if dot.alpha()) < 12


def test_greys_stay_while_the_plan_changes_and_figures_go_by_the_colours(window: MainWindow) -> None:
    document = window.document
    window.view_commands.grey.trigger()
    solid = worksheet(document.plan).yarn.solid_share

    sheet = worksheet(document.plan, document.sheet)

    assert sheet.in_grey
    assert sheet.yarn.solid_share == solid
    assert (sheet.colours.srgb[:, 0] == sheet.colours.srgb[:, 2]).all()
    assert not worksheet(document.plan).in_grey
