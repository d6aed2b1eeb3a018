"""If these fail, a typed ladder is read as another one, or a comma is guessed at."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.errors import InvalidPlan
from studio_gui.wording.ladders import parse_ladder
from studio_gui.wording.sentences import refusal
from studio_gui.wording.translation import ENGLISH

QUARTERS = ((12.0, 36.0), (24.0, 24.0), (36.0, 12.0), (48.0, 0.0))


@pytest.mark.parametrize(
    "text",
    [
        "12+36, 24+24, 36+12, 48+0",
        "12 + 36; 24 + 24; 36 + 12; 48 + 0",
        "12+36;24+24;36+12;48+0;",
        "12+36\n24+24\n36+12\n48+0\n",
        "12+36,\n24+24,\n\n36+12, 48+0,",
        "12 and 36, 24 and 24; 36+12 ml, 48+0",
        "12+36\uff1b24+24\u060c36+12\uff0c48+0",
    ],
)
def test_steps_stand_apart_in_every_way_a_painter_writes_them(text: str) -> None:
    assert parse_ladder(text, ENGLISH) == QUARTERS


@pytest.mark.parametrize(
    ("text", "steps"),
    [
        ("12,5+36, 24+24,5", ((12.5, 36.0), (24.0, 24.5))),
        ("12,5+36; 24,25+24", ((12.5, 36.0), (24.25, 24.0))),
        ("12.5+36, 24.5+24", ((12.5, 36.0), (24.5, 24.0))),
        ("12,5+36,5", ((12.5, 36.5),)),
        ("12,5; 24,5", ((12.5,), (24.5,))),
        ("12,5, 24,5", ((12.5,), (24.5,))),
        ("1+2+3, 4+5+6", ((1.0, 2.0, 3.0), (4.0, 5.0, 6.0))),
        ("12, 24, 36", ((12.0,), (24.0,), (36.0,))),
    ],
)
def test_a_comma_between_digits_is_a_decimal_comma(text: str, steps: tuple[tuple[float, ...], ...]) -> None:
    assert parse_ladder(text, ENGLISH) == steps


@pytest.mark.parametrize("text", ["12+36,24+24", "12+36,24+24,36+12,48+0", "12+36,24+24, 36+12", "12,24"])
def test_a_comma_that_could_end_a_step_is_asked_about(text: str) -> None:
    with pytest.raises(InvalidPlan) as problem:
        parse_ladder(text, ENGLISH)
    assert problem.value.code == "comma-between-steps"


def test_the_question_names_the_place_and_both_ways_out() -> None:
    with pytest.raises(InvalidPlan) as problem:
        parse_ladder("12+36,24+24", ENGLISH)
    assert refusal(problem.value, tongue=ENGLISH) == (
        "“36,24” can be one number, or the end of a step and the start of the next. Put a space after a comma"
        " between steps, or write the number as 36.24."
    )


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", "nothing-typed-in"),
        (" \n ; ", "nothing-typed-in"),
        ("12+36, , 24+24", "step-missing"),
        ("; 12+36", "step-missing"),
        ("12+, 24+24", "empty-amount"),
        ("12+much, 24+24", "not-a-number"),
        ("12+-3, 24+24", "negative-amount"),
        ("12 g+36, 24+24", "wrong-kind-of-unit"),
        ("12+36, " * 1_000, "too-long-to-read"),
    ],
)
def test_what_cannot_be_read_is_refused_with_its_reason(text: str, code: str) -> None:
    with pytest.raises(InvalidPlan) as problem:
        parse_ladder(text, ENGLISH)
    assert problem.value.code == code


AMOUNTS = st.integers(0, 9_999).map(lambda tenths: tenths / 10.0)


@given(
    st.integers(1, 4).flatmap(
        lambda stocks: st.lists(
            st.lists(AMOUNTS, min_size=stocks, max_size=stocks).map(tuple), min_size=1, max_size=12
        )
    ),
    st.sampled_from([", ", "; ", ";", "\n", ",\n"]),
)
def test_what_is_written_out_is_read_back(steps: list[tuple[float, ...]], between: str) -> None:
    text = between.join(" + ".join(str(amount) for amount in step) for step in steps)
    assert parse_ladder(text, ENGLISH) == tuple(steps)
