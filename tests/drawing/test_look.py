"""If these fail, somebody cannot read the screen.

The limits are those of WCAG 2.2, success criteria 1.4.3 (text) and 1.4.11 (graphics). Areas that only lie
behind something are in no list: the tape, the film and the soak are told by their edges, figures and waves.
"""

from __future__ import annotations

from itertools import product

import pytest
from PySide6.QtGui import QColor, QPalette

from studio_gui.drawing.gauges import HALF_CONTRAST_LUMINANCE
from studio_gui.drawing.look import DARK, LIGHT, Look, contrast, look_for, mixed
from studio_gui.drawing.pegs import RESTING_THREAD

TEXT_PAIRS = [
    # figures under the gauges, axis, what tapes count from
    ("text", "table"),
    ("secondary", "table"),
    ("under", "table"),
    ("over", "table"),
    # tapes
    ("tape_figures", "tape"),
    ("tape_figures", "tape_tens"),
    # slips, live tags, widths of gaps, the start
    ("ink", "paper"),
    ("ink_secondary", "paper"),
    # the fold's word
    ("secondary", "film"),
]
GRAPHIC_PAIRS = [
    # edges of film, slips, troughs and overview
    ("film_edge", "table"),
    ("film_edge", "film"),
    ("film_edge", "paper"),
    ("film_edge", "fibre"),
    # focus ring, threads, snap guides, grips, selection; rings of slips show against the film around them
    ("handle", "table"),
    ("handle", "film"),
    ("handle", "tape"),
    ("handle", "tape_tens"),
    ("handle", "peg"),
    # pegs on tape and film, their grooves and bars
    ("peg_lines", "peg"),
    ("peg_lines", "tape"),
    ("peg_lines", "tape_tens"),
    ("peg_lines", "film"),
    ("peg_lines", "table"),
    # ghost of a dragged boundary, brackets of gaps
    ("text", "film"),
    # dry sections on the film, hatched gauges
    ("under", "film"),
    ("under", "fibre"),
    # levels, core marks and walls of the gauges
    ("surface", "table"),
    ("surface", "fibre"),
    ("surface", "soak"),
    ("waves", "soak"),
    # the pad of wiped sections
    ("text", "table"),
    ("secondary", "fibre"),
]


def ratio(look: Look, pair: tuple[str, str]) -> float:
    return contrast(getattr(look, pair[0]), getattr(look, pair[1]))


def inks(look: Look) -> list[tuple[QColor, QColor]]:
    """What is drawn on filled marks and notes, as `marks` and `grips` choose it."""
    fills = (look.handle, look.under, look.over)
    return [(look.paper if fill.lightness() < 140 else look.ink, fill) for fill in fills]


def laid_over(colour: QColor, ground: QColor) -> QColor:
    return mixed(ground, QColor(colour.rgb()), colour.alphaF())


WOOLS = [QColor(*rgb) for rgb in product(range(0, 256, 51), repeat=3)]


@pytest.mark.parametrize("look", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("pair", TEXT_PAIRS, ids="-on-".join)
def test_text_keeps_four_and_a_half_to_one(look: Look, pair: tuple[str, str]) -> None:
    assert ratio(look, pair) >= 4.5


@pytest.mark.parametrize("look", [LIGHT, DARK], ids=["light", "dark"])
def test_what_stands_on_filled_marks_can_be_read(look: Look) -> None:
    assert [contrast(*pair) >= 4.5 for pair in inks(look)] == [True] * 3


@pytest.mark.parametrize("look", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("pair", GRAPHIC_PAIRS, ids="-on-".join)
def test_graphics_keep_three_to_one(look: Look, pair: tuple[str, str]) -> None:
    assert ratio(look, pair) >= 3.0


def test_a_thread_shows_on_any_wool() -> None:
    for wool in WOOLS:
        seen = [contrast(laid_over(line, wool), wool) for line in RESTING_THREAD]
        assert max(seen) >= 3.0, wool.name()


def test_marks_on_liquor_are_black_or_white_whichever_shows() -> None:
    # A colour is pale when its contrast with black, (L + 0.05) / 0.05, says that its luminance L is high.
    black, white = QColor("black"), QColor("white")
    for liquor in WOOLS:
        is_pale = contrast(liquor, black) * 0.05 - 0.05 > HALF_CONTRAST_LUMINANCE
        assert contrast(black if is_pale else white, liquor) >= 4.5, liquor.name()


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
