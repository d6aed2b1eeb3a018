"""If these fail, somebody cannot read the screen."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QColor, QPalette

from studio_gui.drawing.look import DARK, LIGHT, Look, contrast, look_for

TEXT_PAIRS = [
    ("text", "table"),
    ("secondary", "table"),
    ("under", "table"),
    ("over", "table"),
    ("tape_figures", "tape"),
    ("ink", "paper"),
    ("ink_secondary", "paper"),
]
GRAPHIC_PAIRS = [("film_edge", "table"), ("handle", "table"), ("handle", "film"), ("peg_lines", "peg")]


def ratio(look: Look, pair: tuple[str, str]) -> float:
    return contrast(getattr(look, pair[0]), getattr(look, pair[1]))


@pytest.mark.parametrize("look", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("pair", TEXT_PAIRS, ids="-on-".join)
def test_text_keeps_four_and_a_half_to_one(look: Look, pair: tuple[str, str]) -> None:
    assert ratio(look, pair) >= 4.5


@pytest.mark.parametrize("look", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("pair", GRAPHIC_PAIRS, ids="-on-".join)
def test_graphics_keep_three_to_one(look: Look, pair: tuple[str, str]) -> None:
    assert ratio(look, pair) >= 3.0


def test_contrast_of_black_on_white() -> None:
    # WCAG 2.2: the ratio ranges from 1 to 21.
    assert contrast(QColor("black"), QColor("white")) == pytest.approx(21.0)
    assert contrast(QColor("#777777"), QColor("#777777")) == pytest.approx(1.0)


def test_the_look_follows_the_palette() -> None:
    palette = QPalette()
    for window, text, expected in (("#ffffff", "#000000", LIGHT), ("#202020", "#ffffff", DARK)):
        palette.setColor(QPalette.ColorRole.Window, QColor(window))
        palette.setColor(QPalette.ColorRole.WindowText, QColor(text))
        assert look_for(palette) is expected
