"""If these fail, somebody is told another number of lengths than was found, or not what was lost."""

from __future__ import annotations

import pytest

from studio_gui.wording.pasted import lengths_do_not_fit, lengths_taken, not_taken, sections_could_be_made
from studio_gui.wording.translation import ENGLISH


def test_the_factor_is_said_where_there_is_one() -> None:
    assert lengths_taken(5, 1.0, ENGLISH) == "Lengths taken as they are: 5."
    assert lengths_taken(5, 1.0 + 1e-7, ENGLISH) == "Lengths taken as they are: 5."
    assert lengths_taken(5, 20.0 / 21.0, ENGLISH) == (
        "Lengths taken: 5, each multiplied by 0.9524 to fill the place they are for."
    )


def test_what_was_found_and_what_is_needed() -> None:
    assert lengths_do_not_fit(7, 5, 1, ENGLISH) == "Lengths found: 7. Needed: 5, one for each section."
    assert lengths_do_not_fit(7, 5, 2, ENGLISH) == (
        "Lengths found: 7. Needed: 2 for the chosen sections, 5 for all."
    )


def test_what_making_sections_would_do() -> None:
    assert "begins anew" in sections_could_be_made(7, 5, ENGLISH)
    assert "the last 2 are taken out" in sections_could_be_made(3, 5, ENGLISH)


@pytest.mark.parametrize(
    ("typed", "sentence", "said"),
    [
        ("80", "C Kelp is locked.", "C Kelp is locked. “80” was not taken."),
        ("long", "“long” is not a number.", "“long” is not a number."),
        ("", "C Kelp is locked.", "C Kelp is locked."),
        ("two\nlines", "No.", "No. “two lines” was not taken."),
    ],
)
def test_what_was_typed_is_quoted_once(typed: str, sentence: str, said: str) -> None:
    assert not_taken(typed, sentence, ENGLISH) == said
