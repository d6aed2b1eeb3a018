"""If these fail, a measured colour is read as another one, or taken for what it is not without a word."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.spaces import lab_from_hex
from studio_gui.domain.errors import InvalidPlan
from studio_gui.wording.colours import TypedColour, parse_colour, shown_lab
from studio_gui.wording.translation import ENGLISH

# L 52.1, a 34, b -12 in D65 and 2 degrees, converted to sRGB by colour-science 0.4.7
VIOLET = "#ab6692"


@pytest.mark.parametrize(
    "text",
    [
        "52.1 34 -12",
        " 52.1  34  \u221212 ",
        "52,1 34 -12",
        "52.1, 34, -12",
        "52,1; 34; -12",
        "L 52.1 a 34 b -12",
        "L*=52.1 a*=34 b*=-12",
        "l: 52.1, a: 34, b: -12",
        "L52.1 a34 b-12",
        "Lab 52.1 34 -12",
        "CIE L*a*b*: 52.1 34 -12",
        "lab(52.1 34 -12)",
    ],
)
def test_lab_may_be_typed_in_many_ways(text: str) -> None:
    assert parse_colour(text, "srgb", ENGLISH) == TypedColour(VIOLET, is_nearest=False)


@pytest.mark.parametrize("text", ["#3a6ea5", "3A6EA5", " #3A6ea5 "])
def test_a_screen_colour_with_or_without_its_sign(text: str) -> None:
    assert parse_colour(text, "srgb", ENGLISH) == TypedColour("#3a6ea5")


def test_a_colour_no_screen_shows_is_marked_as_the_nearest() -> None:
    assert parse_colour("50 -100 0", "srgb", ENGLISH).is_nearest
    assert parse_colour("100 0 0", "srgb", ENGLISH) == TypedColour("#ffffff")


def test_what_is_meant_is_the_lab_that_was_typed_and_not_what_a_screen_makes_of_it() -> None:
    assert parse_colour("50 -100 0", "srgb", ENGLISH).lab.tolist() == [50.0, -100.0, 0.0]
    assert parse_colour("52,1 34 -12", "srgb", ENGLISH).lab.tolist() == [52.1, 34.0, -12.0]
    assert parse_colour("#3a6ea5", "srgb", ENGLISH).lab.tolist() == lab_from_hex("#3a6ea5").tolist()


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", "nothing-typed-in"),
        ("blue", "not-a-swatch-colour"),
        ("#12345", "not-a-swatch-colour"),
        ("#1234567", "not-a-swatch-colour"),
        ("52.1 34", "not-a-swatch-colour"),
        ("52.1 34 -12 4", "not-a-swatch-colour"),
        ("52.1 34 x", "not-a-swatch-colour"),
        ("52.1 34 nan", "not-a-swatch-colour"),
        ("120 34 -12", "out-of-range"),
        ("-1 34 -12", "out-of-range"),
        ("52 300 -12", "out-of-range"),
        ("52 34 -300", "out-of-range"),
        ("52 1,234 5", "ambiguous-number"),
        ("1" * 81, "too-long-to-read"),
    ],
)
def test_what_is_no_colour_is_refused(text: str, code: str) -> None:
    with pytest.raises(InvalidPlan) as caught:
        parse_colour(text, "srgb", ENGLISH)
    assert caught.value.code == code


@given(st.integers(0, 0xFFFFFF))
def test_a_colour_told_in_lab_reads_back_as_itself(number: int) -> None:
    srgb = f"#{number:06x}"
    back = parse_colour(shown_lab(srgb, ENGLISH), "srgb", ENGLISH).srgb
    assert float(ciede2000(lab_from_hex(srgb), lab_from_hex(back))) < 0.6, "one decimal is what it is told to"


@given(st.floats(0.0, 100.0), st.floats(-120.0, 120.0), st.floats(-120.0, 120.0))
def test_only_colours_outside_are_said_to_be_the_nearest(lightness: float, a: float, b: float) -> None:
    typed = parse_colour(f"{lightness:.4f} {a:.4f} {b:.4f}".replace("-0.0000", "0"), "srgb", ENGLISH)
    apart = float(np.linalg.norm(lab_from_hex(typed.srgb) - (lightness, a, b)))
    if apart > 5.0:
        assert typed.is_nearest
    if not typed.is_nearest:
        assert apart < 5.0


@given(st.text(max_size=90) | st.text("0123456789abLl*.,;:=+- #", max_size=40))
def test_no_text_gives_anything_but_a_colour_or_a_refusal(text: str) -> None:
    try:
        typed = parse_colour(text, "srgb", ENGLISH)
    except InvalidPlan as problem:
        assert problem.code  # noqa: PT017  (either outcome is right)
    else:
        assert len(typed.srgb) == 7
