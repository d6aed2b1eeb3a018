"""If these fail, somebody cannot read the panes: WCAG 2.2, 1.4.3 asks for 4.5 to 1."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QSpinBox, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.drawing.look import contrast, look_for, mixed
from studio_gui.views import appearance
from studio_gui.views.labels import Tone
from studio_gui.views.readable import edge_fields, keep_readable, mended
from tests.views.keys import shown

Role = QPalette.ColorRole


def palette_of(window: str, base: str, text: str) -> QPalette:
    """A palette as common styles make them: one blue for what is selected, half text for what is asked."""
    palette = QPalette(QColor(window))
    for role, colour in (
        (Role.Window, window),
        (Role.Base, base),
        (Role.AlternateBase, mixed(QColor(base), QColor(window), 0.5).name()),
        (Role.WindowText, text),
        (Role.Text, text),
        (Role.Highlight, "#308cc6"),
        (Role.HighlightedText, "#ffffff"),
    ):
        palette.setColor(role, QColor(colour))
    asked = QColor(text)
    asked.setAlpha(128)
    palette.setColor(Role.PlaceholderText, asked)
    return palette


PALETTES = {
    "light": palette_of("#efefef", "#ffffff", "#000000"),
    "dark": palette_of("#323232", "#242424", "#f0f0f0"),
    "own light": appearance.palette_of("light"),
    "own dark": appearance.palette_of("dark"),
}
TONES: tuple[Tone, ...] = ("text", "secondary", "under", "over")


@pytest.mark.parametrize("name", PALETTES)
@pytest.mark.parametrize("tone", TONES)
def test_toned_labels_can_be_read_on_every_ground(name: str, tone: Tone) -> None:
    palette = PALETTES[name]
    colour: QColor = getattr(look_for(palette), tone)
    for ground in (Role.Window, Role.Base, Role.AlternateBase):
        assert contrast(colour, palette.color(ground)) >= 4.5, ground.name


@pytest.mark.parametrize("name", PALETTES)
def test_edges_of_swatches_show_on_every_ground(name: str) -> None:
    palette = PALETTES[name]
    for ground in (Role.Window, Role.Base, Role.AlternateBase):
        assert contrast(look_for(palette).film_edge, palette.color(ground)) >= 3.0, ground.name


@pytest.mark.parametrize("name", PALETTES)
def test_what_is_selected_and_what_is_asked_can_be_read(name: str) -> None:
    palette = PALETTES[name]
    better = mended(palette).resolve(palette)
    for group in (QPalette.ColorGroup.Active, QPalette.ColorGroup.Inactive):
        chosen = better.color(group, Role.Highlight), better.color(group, Role.HighlightedText)
        asked, base = better.color(group, Role.PlaceholderText), better.color(group, Role.Base)
        assert contrast(*chosen) >= 4.5
        assert contrast(mixed(base, QColor(asked.rgb()), asked.alphaF()), base) >= 4.5
        assert better.color(group, Role.Window) == palette.color(group, Role.Window)


def test_what_can_be_read_is_left_alone() -> None:
    palette = palette_of("#efefef", "#ffffff", "#000000")
    palette.setColor(Role.Highlight, QColor("#1f4f7f"))
    palette.setColor(Role.PlaceholderText, QColor("#555555"))
    assert mended(palette).resolve(palette) == palette


def test_dark_text_on_what_is_selected_wants_a_paler_ground() -> None:
    palette = palette_of("#efefef", "#ffffff", "#000000")
    palette.setColor(Role.HighlightedText, QColor("#000000"))
    palette.setColor(Role.Highlight, QColor("#705050"))
    better = mended(palette)
    assert contrast(better.color(Role.Highlight), QColor("#000000")) >= 4.5


def test_the_program_keeps_its_palette_readable(qapp: QApplication) -> None:
    before = QPalette(qapp.palette())
    try:
        keep_readable(qapp)
        for _ in range(2):
            now = qapp.palette()
            assert contrast(now.color(Role.Highlight), now.color(Role.HighlightedText)) >= 4.5
            qapp.setPalette(QPalette())
            qapp.styleHints().colorSchemeChanged.emit(Qt.ColorScheme.Light)
        qapp.setPalette(PALETTES["dark"])
        qapp.styleHints().colorSchemeChanged.emit(Qt.ColorScheme.Light)
        assert qapp.palette().color(Role.Highlight) == PALETTES["dark"].color(Role.Highlight), "it was chosen"
    finally:
        qapp.styleHints().colorSchemeChanged.disconnect()
        qapp.setPalette(before)


@pytest.mark.parametrize("name", PALETTES)
@pytest.mark.parametrize("make", [QLineEdit, QComboBox, QSpinBox])
def test_the_edge_of_a_field_stands_out(
    make: type[QWidget], name: str, qtbot: QtBot, qapp: QApplication
) -> None:
    before, style = qapp.palette(), qapp.style().objectName()
    try:
        qapp.setStyle("Fusion")
        qapp.setPalette(PALETTES[name])
        edge_fields(qapp)
        around = QWidget()
        around.resize(160, 60)
        field = make(around)
        field.setGeometry(20, 15, 120, 28)
        shown(around, qtbot, 160, 60)
        around.setFocus()
        picture, middle = around.grab().toImage(), field.geometry().center().y()
        ground = QColor(PALETTES[name].color(Role.Window))
        assert picture.pixelColor(10, middle) == ground
        for side in (range(18, 24), range(136, 142)):
            assert max(contrast(picture.pixelColor(x, middle), ground) for x in side) >= 3.0
    finally:
        qapp.setStyle(style)
        qapp.setPalette(before)


def test_the_fields_of_other_styles_are_left_alone(qapp: QApplication) -> None:
    before, style = qapp.palette(), qapp.style().objectName()
    try:
        qapp.setStyle("Windows")
        qapp.setPalette(PALETTES["light"])
        edge_fields(qapp)
        assert QLineEdit().palette().color(Role.Window) == qapp.palette().color(Role.Window)
    finally:
        qapp.setStyle(style)
        qapp.setPalette(before)
