"""Type on a sheet: its width is that of the print, and no letter is lost where a line breaks."""

from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtWidgets import QApplication

from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.sheets.type import line_mm, shortened, width_mm, wrapped


@pytest.fixture(autouse=True, scope="module")
def _font(qapp: QApplication) -> Iterator[None]:
    assert isinstance(qapp, QApplication)
    with lent_font():
        yield


def test_a_figure_is_as_wide_as_the_font_says() -> None:
    # Noto Sans: every figure is 0.572 em wide; 36 pt are half an inch, 12.7 mm.
    assert width_mm("0", 36.0) == pytest.approx(0.572 * 12.7, abs=0.01)
    assert width_mm("1284", 36.0) == pytest.approx(4 * 0.572 * 12.7, abs=0.05)
    assert line_mm(36.0) == pytest.approx(1.2 * 12.7)


@given(st.text(st.sampled_from("abM iW é"), max_size=60), st.floats(8.0, 60.0))
def test_lines_keep_to_the_width_and_lose_nothing(words: str, most_mm: float) -> None:
    lines = wrapped(words, most_mm, 16.0)
    assert "".join(lines).replace(" ", "") == "".join(words.split())
    for line in lines:
        assert width_mm(line, 16.0) <= most_mm


def test_words_break_between_words_where_they_can() -> None:
    wide = width_mm("Slate, quarter", 16.0) + 0.1
    assert wrapped("Slate, quarter let-down", wide, 16.0) == ("Slate, quarter", "let-down")


def test_a_width_of_nothing_still_ends() -> None:
    assert wrapped("wool", 0.0, 16.0) == ("w", "o", "o", "l")


def test_what_is_too_wide_ends_in_an_ellipsis() -> None:
    assert shortened("Slate, quarter let-down", 30.0, 16.0).endswith("…")
    assert width_mm(shortened("Slate, quarter let-down", 30.0, 16.0), 16.0) <= 30.0
    assert shortened("Slate", 30.0, 16.0) == "Slate"


def test_letters_keep_their_marks_and_emoji_their_parts_where_a_word_is_cut() -> None:
    for letter in ("a\u0301", "\U0001f469\U0001f3fd\u200d\U0001f3a8"):
        lines = wrapped(letter * 30, 60.0, 16.0)
        assert "".join(lines) == letter * 30
        assert all(line.startswith(letter) for line in lines)


@pytest.mark.parametrize("letter", ["\U0001f3fb" * 300, "W" + "\u0903" * 300])
def test_a_letter_with_hundreds_of_marks_is_cut_all_the_same(letter: str) -> None:
    lines = wrapped(letter, 60.0, 16.0)
    assert "".join(lines) == letter
    for line in (*lines, shortened(letter, 60.0, 16.0)):
        assert width_mm(line, 16.0) <= 60.0


def test_words_that_belong_together_are_not_parted() -> None:
    assert wrapped("ml, all\u00a04", width_mm("ml, all", 16.0) + 0.1, 16.0) == ("ml,", "all\u00a04")
