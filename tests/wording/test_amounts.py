"""If these fail, "12 and 38" is not what gets painted."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from studio_gui.domain.errors import InvalidPlan
from studio_gui.wording.amounts import parse_amounts, shown_amounts
from studio_gui.wording.translation import ENGLISH, Tongue


@pytest.mark.parametrize(
    ("text", "amounts"),
    [
        ("12 + 38", (12.0, 38.0)),
        ("12+38", (12.0, 38.0)),
        ("12 and 38", (12.0, 38.0)),
        ("  12  +  38  ", (12.0, 38.0)),
        ("12 ml + 38 ml", (12.0, 38.0)),
        ("12ml+38ml", (12.0, 38.0)),
        ("12 + 38 ml", (12.0, 38.0)),
        ("12,5 + 37,5", (12.5, 37.5)),
        ("50", (50.0,)),
        ("0 + 50", (0.0, 50.0)),
        ("1 + 2 + 3 + 4", (1.0, 2.0, 3.0, 4.0)),
        ("0.05 l + 10", (50.0, 10.0)),
        ("٣ + ٤", (3.0, 4.0)),
    ],
)
def test_amounts_are_read_as_painters_say_them(text: str, amounts: tuple[float, ...]) -> None:
    assert parse_amounts(text, ENGLISH) == amounts


def test_bare_amounts_are_millilitres_in_every_system_of_units() -> None:
    assert parse_amounts("12 + 38", Tongue("us", is_english=True)) == (12.0, 38.0)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", "nothing-typed-in"),
        ("  ", "nothing-typed-in"),
        ("12 ++ 38", "empty-amount"),
        ("12 +", "empty-amount"),
        ("+ 38", "empty-amount"),
        ("+", "empty-amount"),
        ("12 + -38", "negative-amount"),
        ("-12 + 38", "negative-amount"),
        ("12 - 38", "not-a-number"),
        ("12 & 38", "not-a-number"),
        ("12 + x", "not-a-number"),
        ("12 + nan", "not-a-number"),
        ("12 + 1e999", "not-a-number"),
        ("9**9**9 + 1", "not-a-number"),
        ("12 + 38 g", "wrong-kind-of-unit"),
        ("12 + 38 ml ml", "unknown-unit"),
        ("1,234 + 5", "ambiguous-number"),
        ("12 + 2000000", "out-of-range"),
        ("+".join("1" * 31), "too-many"),
        ("1 + " * 3_000, "too-long-to-read"),
    ],
)
def test_a_line_that_cannot_be_painted_is_refused(text: str, code: str) -> None:
    with pytest.raises(InvalidPlan) as caught:
        parse_amounts(text, ENGLISH)
    assert caught.value.code == code


@pytest.mark.parametrize(
    ("amounts", "text"),
    [
        ((12.0, 38.0), "12 + 38"),
        ((12.5, 37.5), "12.5 + 37.5"),
        ((14.175, 4.0), "14.18 + 4"),
        ((), ""),
        ((0.0,), "0"),
    ],
)
def test_amounts_are_shown_with_the_decimals_they_need(amounts: tuple[float, ...], text: str) -> None:
    assert shown_amounts(amounts, ENGLISH) == text


@pytest.mark.usefixtures("any_locale")
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.just(0.0) | st.floats(0.005, 10_000.0), min_size=1, max_size=30))
def test_what_is_shown_reads_back_to_two_decimals(amounts: list[float]) -> None:
    back = parse_amounts(shown_amounts(amounts))
    assert back == pytest.approx(amounts, abs=0.0050001)
    assert shown_amounts(back) == shown_amounts(amounts)


@given(st.text(max_size=80) | st.text("0123456789.,+- mland", max_size=60))
def test_no_text_gives_anything_but_amounts_or_a_refusal(text: str) -> None:
    try:
        amounts = parse_amounts(text, ENGLISH)
    except InvalidPlan as problem:
        assert problem.code  # noqa: PT017  (either outcome is right)
    else:
        assert amounts
        assert min(amounts) >= 0.0
