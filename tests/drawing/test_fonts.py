"""What is kept of fonts is what Qt says of them, on every device."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QFontMetricsF, QImage, QPainter

from studio_gui.drawing.fonts import forget_fonts, lettering

WORDS = "Ä 46.0 cm"


def _image(dots_per_inch: float) -> QImage:
    image = QImage(40, 40, QImage.Format.Format_RGB32)
    image.setDotsPerMeterX(round(dots_per_inch / 0.0254))
    image.setDotsPerMeterY(round(dots_per_inch / 0.0254))
    return image


@pytest.mark.parametrize("bold", [False, True])
def test_letters_are_as_wide_on_every_device_as_they_are_drawn_there(bold: bool) -> None:
    for dots_per_inch in (96.0, 300.0, 96.0):
        image = _image(dots_per_inch)
        painter = QPainter(image)
        try:
            letters = lettering(painter, 0.85, bold=bold)
            painter.setFont(letters.font)
            drawn = QFontMetricsF(painter.font()).horizontalAdvance(WORDS)
        finally:
            painter.end()
        assert letters.width(WORDS) == letters.width(WORDS) == pytest.approx(drawn)
        assert letters.font.bold() is bold


def test_words_are_shortened_only_where_they_have_no_room() -> None:
    image = _image(96.0)
    painter = QPainter(image)
    try:
        letters = lettering(painter, 1.0)
    finally:
        painter.end()
    assert letters.elided(WORDS, letters.width(WORDS)) == WORDS
    shortened = letters.elided(WORDS, letters.width(WORDS) - 1.0)
    assert shortened.endswith("…")
    assert letters.width(shortened) < letters.width(WORDS)


def test_a_font_is_kept_until_fonts_are_forgotten() -> None:
    image = _image(96.0)
    painter = QPainter(image)
    try:
        letters = lettering(painter, 1.0)
        assert lettering(painter, 1.0) is letters
        forget_fonts()
        assert lettering(painter, 1.0) is not letters
    finally:
        painter.end()
