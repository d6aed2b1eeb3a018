"""If these fail, a pasted list is read in other units than it is written in, or half of it only."""

from __future__ import annotations

import pytest

from studio_gui.domain.errors import InvalidPlan
from studio_gui.wording.lengths import LONGEST_LIST, length_heading, parse_lengths
from studio_gui.wording.translation import ENGLISH, Tongue

US = Tongue("us", is_english=True)


@pytest.mark.parametrize(
    ("text", "lengths_m"),
    [
        ("80\n40\n60\n", (0.8, 0.4, 0.6)),
        ("80 cm\r\n0,8 m\r\n31.5 in\r\n", (0.8, 0.8, 0.8001)),
        ("80\t40\t60", (0.8, 0.4, 0.6)),
        ("80; 40 ;; 0.6m", (0.8, 0.4, 0.6)),
        ("cm\n80\n40", (0.8, 0.4)),
        ("Length (m)\n0.8\n0,4", (0.8, 0.4)),
        ("length, in\n10\n254 mm", (0.254, 0.254)),
    ],
)
def test_lines_tabs_and_semicolons_with_units_or_without(text: str, lengths_m: tuple[float, ...]) -> None:
    assert parse_lengths(text, ENGLISH) == pytest.approx(lengths_m)


def test_bare_numbers_have_the_unit_of_the_screen() -> None:
    assert parse_lengths("10; 20", US) == pytest.approx((0.254, 0.508))


def test_of_a_table_the_column_of_lengths_is_read() -> None:
    text = f"Section\tfrom, cm\t{length_heading(ENGLISH)}\tg\nCalm\t0\t80\t20\nFlood\t80\t40\t10\nshort row\n"
    assert parse_lengths(text, ENGLISH) == pytest.approx((0.8, 0.4))


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", "nothing-typed-in"),
        (" \n\t;", "nothing-typed-in"),
        ("cm", "nothing-typed-in"),
        ("80\nlong\n40", "not-a-number"),
        ("80\n3 g", "wrong-kind-of-unit"),
        ("80\n-4", "out-of-range"),
        ("1\n" * 2001, "too-many"),
        ("1" * (LONGEST_LIST + 1), "too-long-to-read"),
        ("=1+1", "not-a-number"),
    ],
)
def test_what_is_no_list_of_lengths_is_refused(text: str, code: str) -> None:
    with pytest.raises(InvalidPlan) as refused:
        parse_lengths(text, ENGLISH)
    assert refused.value.code == code
