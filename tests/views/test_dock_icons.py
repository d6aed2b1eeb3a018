"""If these fail, the buttons that float and close a pane cannot be seen in the dark."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QImage, QPalette
from PySide6.QtWidgets import QAbstractButton, QDockWidget, QMainWindow
from pytestqt.qtbot import QtBot

from studio_gui.document.preferences import Appearance
from studio_gui.drawing.look import contrast
from studio_gui.views.appearance import palette_of
from studio_gui.views.dock_icons import CLOSE, FLOAT, DockIcons


def most_contrast(dock: QDockWidget, name: str) -> float:
    """Return how far the strongest pixel of a button's icon stands out from the title bar."""
    button = dock.findChild(QAbstractButton, name)
    assert button is not None
    image: QImage = button.icon().pixmap(16, 16).toImage()
    ground = dock.palette().color(QPalette.ColorRole.Window)
    pixels = [image.pixelColor(x, y) for x in range(image.width()) for y in range(image.height())]
    solid = [QColor(pixel.red(), pixel.green(), pixel.blue()) for pixel in pixels if pixel.alpha() > 200]
    return max(contrast(pixel, ground) for pixel in solid)


@pytest.mark.parametrize("appearance", ["light", "dark"])
@pytest.mark.parametrize("name", [CLOSE, FLOAT])
def test_the_buttons_stand_out_and_stay_so_when_a_pane_floats(
    qtbot: QtBot, appearance: Appearance, name: str
) -> None:
    window, dock = QMainWindow(), QDockWidget("Checks")
    qtbot.addWidget(window)
    window.addDockWidget(Qt.DockWidgetArea.LeftDockWidgetArea, dock)
    DockIcons(dock)
    window.setPalette(palette_of(appearance))
    with qtbot.waitExposed(window):
        window.show()
    assert most_contrast(dock, name) > 4.5
    dock.setFloating(True)
    assert most_contrast(dock, name) > 4.5
