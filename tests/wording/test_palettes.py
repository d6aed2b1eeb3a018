"""If these fail, colours that were typed in a row are taken for others, or for fewer."""

from __future__ import annotations

import pytest

from studio_gui.domain.edits.matching import MOST_COLOURS
from studio_gui.domain.errors import InvalidPlan
from studio_gui.wording.palettes import outside_screen_words, parse_palette
from studio_gui.wording.translation import ENGLISH


@pytest.mark.parametrize(
    ("text", "colours"),
    [
        ("", []),
        ("  ", []),
        ("#5d7a4a", ["#5d7a4a"]),
        ("5D7A4A", ["#5d7a4a"]),
        ("#5d7a4a #c08a50,#8aa0b8;#ffffff", ["#5d7a4a", "#c08a50", "#8aa0b8", "#ffffff"]),
        ("100 0 0; #5d7a4a", ["#ffffff", "#5d7a4a"]),
        ("#5d7a4a;", ["#5d7a4a"]),
        (" #5d7a4a#c08a50 ;; #ffffff ", ["#5d7a4a", "#c08a50", "#ffffff"]),
    ],
)
def test_colours_stand_apart(text: str, colours: list[str]) -> None:
    assert [one.srgb for one in parse_palette(text, ENGLISH)] == colours


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("green; #5d7a4a", "not-a-swatch-colour"),
        ("120 0 0", "out-of-range"),
        ("#5d7a4a; " * (MOST_COLOURS - 1) + "#2c", "not-a-swatch-colour"),  # and said before the day ends
        ("#5d7a4a " * (MOST_COLOURS + 1), "too-many"),
        ("#5d7a4a " * 300, "too-long-to-read"),
    ],
)
def test_what_is_no_colour_is_said(text: str, code: str) -> None:
    with pytest.raises(InvalidPlan) as refusal:
        parse_palette(text, ENGLISH)
    assert refusal.value.code == code


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("#5d7a4a; 50 0 0", ""),
        ("50 -100 0", "This colour is outside sRGB. It is matched as typed; #00"),
        ("#5d7a4a; 50 -100 0", "Colour 2 is outside sRGB. It is matched as typed;"),
        ("50 90 -90; #5d7a4a; 50 -100 0", "Colours 1, 3 are outside sRGB. They are matched as typed;"),
    ],
)
def test_colours_that_no_screen_shows_are_told(text: str, words: str) -> None:
    said = outside_screen_words(parse_palette(text, ENGLISH), ENGLISH)
    assert said.startswith(words)
    assert bool(said) == bool(words)
