"""If these fail, what stands on the scale's slip is read as something else."""

from __future__ import annotations

import pytest

from studio_gui.wording.translation import ENGLISH, Tongue
from studio_gui.wording.weighed import MOST_ROWS, PIECES, THICKNESS, RowProblem, parse_rows, rows_told

US = Tongue("us", is_english=True)


@pytest.mark.parametrize(
    "row", ["1.5 m 39 g", "1.5 m; 39 g", "150 cm;39", "1.5\t39", "1.5 39", "1.5m 39g", " 1.5 ; 39 "]
)
def test_a_piece_is_a_length_and_a_weight_however_they_are_set_apart(row: str) -> None:
    assert parse_rows(PIECES, row, ENGLISH) == ((1.5, 39.0),)


def test_thickness_is_weight_by_length_and_empty_rows_are_passed_over() -> None:
    assert parse_rows(THICKNESS, "0 m 26 g/m\n\n1.5 m; 25 g/m\n", ENGLISH) == ((0.0, 26.0), (1.5, 25.0))


def test_bare_numbers_are_in_the_units_shown() -> None:
    ((length_m, mass_g),) = parse_rows(PIECES, "2; 1", US)
    assert (length_m, mass_g) == pytest.approx((1.8288, 28.3495), rel=1e-4)


@pytest.mark.parametrize(
    ("text", "row", "code"),
    [
        ("1.5 m; 39 g\n1.5 m", 2, "not-two-quantities"),
        ("1 m; 2 g; 3 g", 1, "not-two-quantities"),
        ("1.5 m; 39 cm", 1, "wrong-kind-of-unit"),
        ("x; y", 1, "not-a-number"),
        ("1; 2\n" * (MOST_ROWS + 1), MOST_ROWS + 1, "too-many"),
        ("9" * 100 + "; 1", 1, "too-long-to-read"),
    ],
)
def test_the_row_that_cannot_be_read_is_named(text: str, row: int, code: str) -> None:
    with pytest.raises(RowProblem) as caught:
        parse_rows(PIECES, text, ENGLISH)
    assert (caught.value.row, caught.value.problem.code) == (row, code)


def test_rows_are_told_as_they_can_be_typed() -> None:
    rows = ((1.25, 30.5), (2.75, 69.5))
    assert parse_rows(PIECES, rows_told(PIECES, rows, ENGLISH), ENGLISH) == rows
