"""If these fail, a typed number is read as another one, or junk gets past the field it was typed in."""

from __future__ import annotations

import math
from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from studio_gui.domain.errors import InvalidPlan
from studio_gui.wording.numbers import (
    LONGEST_NUMBER,
    UNKNOWN,
    parse_number,
    shown_number,
    shown_number_briefly,
)
from studio_gui.wording.translation import ENGLISH, TRANSLATED

HOSTILE = [
    "9**9**9",
    "1e999",
    "-1e999",
    "1e3",
    "nan",
    "NaN",
    "inf",
    "-Infinity",
    "0x10",
    "1_000",
    "",
    " ",
    "\u200e",
    "+",
    "-",
    "--1",
    "1-2",
    "1+2",
    ".",
    ",",
    ".,",
    "1..2",
    "1,2,3",
    "12 38",
    "1,23,456",
    "1.2.3,4",
    "²",
    "½",
    "一",
    "Ⅳ",
    "12\x00",
    "\ud800",
    "__import__('os')",
    "9" * 41,
    "9" * 10_000,
    "9" * 13,
    "1 2\n3",
]


def refused(text: str) -> InvalidPlan:
    with pytest.raises(InvalidPlan) as caught:
        parse_number(text, ENGLISH)
    return caught.value


@pytest.mark.parametrize("text", HOSTILE)
def test_junk_is_refused_with_a_code(text: str) -> None:
    assert refused(text).code in {"nothing-typed-in", "too-long-to-read", "not-a-number", "number-too-large"}


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("12", 12.0),
        ("12.5", 12.5),
        ("12,5", 12.5),
        (" 12.5 ", 12.5),
        (".5", 0.5),
        ("5.", 5.0),
        (",5", 0.5),
        ("+3", 3.0),
        ("-3", -3.0),
        ("\u22123", -3.0),
        ("\u20133", -3.0),
        ("- 3", -3.0),
        ("1.234,5", 1234.5),
        ("1,234.5", 1234.5),
        ("1 234,5", 1234.5),
        ("1\u2009234,5", 1234.5),
        ("1\u202f234", 1234.0),
        ("1\u00a0234,567", 1234.567),
        ("1,234,567", 1234567.0),
        ("1.234.567,8", 1234567.8),
        ("0,125", 0.125),
        ("0.125", 0.125),
        ("1234,567", 1234.567),
        ("12,3456", 12.3456),
        ("٣", 3.0),
        ("\u0661\u0662\u066b\u0665", 12.5),
        ("\u0661\u066c\u0662\u0663\u0664\u066b\u0665", 1234.5),
        ("१२.५", 12.5),
        ("\u061c-٣", -3.0),
        ("\u200e\u2212۳", -3.0),
        ("999999999999.9", 999999999999.9),
    ],
)
def test_a_number_is_read_however_it_is_typed(text: str, value: float) -> None:
    assert parse_number(text, ENGLISH) == value


def test_a_sign_that_could_be_decimal_or_group_is_refused_with_both_readings() -> None:
    problem = refused("1,234")
    assert problem.code == "ambiguous-number"
    assert (problem.params["whole"], problem.params["fraction"]) == ("1234", "1.234")
    assert parse_number("1234", ENGLISH) == 1234.0
    assert parse_number("1.234", ENGLISH) == 1.234


@pytest.mark.usefixtures("any_locale")
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.floats(-1e6, 1e6), st.integers(0, 4))
def test_what_is_shown_reads_back_to_its_decimals_in_every_locale(value: float, decimals: int) -> None:
    shown = shown_number(value, decimals, TRANSLATED)
    assert len(shown) <= LONGEST_NUMBER
    assert abs(parse_number(shown) - value) <= 0.5 * 10.0**-decimals * (1.0 + 1e-9) + 1e-15 * abs(value)
    assert shown_number(parse_number(shown), decimals, TRANSLATED) == shown


@pytest.mark.usefixtures("any_locale")
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.text(max_size=50) | st.text("0123456789.,+-−  \u2009\u066b\u066c٣eE", max_size=45))
def test_no_text_gives_anything_but_a_finite_number_or_a_refusal(text: str) -> None:
    try:
        value = parse_number(text)
    except InvalidPlan as problem:
        assert problem.code  # noqa: PT017  (either outcome is right)
    else:
        assert math.isfinite(value)
        assert abs(value) < 1e12


@pytest.mark.usefixtures("any_locale")
def test_both_readings_that_a_refusal_offers_can_be_typed() -> None:
    for text in ("1,234", "1.234", "12,345"):
        try:
            parse_number(text)
        except InvalidPlan as problem:
            whole, fraction = str(problem.params["whole"]), str(problem.params["fraction"])
            assert parse_number(whole) == 1000 * parse_number(fraction)


@pytest.mark.parametrize(
    ("value", "said"),
    [(22.25, "22.3"), (22.249999999999996, "22.3"), (-22.25, "-22.3"), (0.05, "0.1"), (22.2499, "22.2")],
)
def test_a_tie_is_rounded_as_by_hand_and_dust_does_not_decide_it(value: float, said: str) -> None:
    assert shown_number(value, 1, ENGLISH) == said


def test_a_number_too_large_to_round_is_shown_all_the_same() -> None:
    assert shown_number(1e300, 1, ENGLISH).startswith("1")
    assert shown_number(math.inf, 1, ENGLISH) == "inf"


def test_nothing_below_zero_is_shown_as_minus_nothing() -> None:
    assert shown_number(-0.04, 1, ENGLISH) == "0.0"
    assert shown_number(-0.0, 0, ENGLISH) == "0"


def test_an_unknown_number_is_shown_as_a_dash() -> None:
    assert shown_number(math.nan, 1, ENGLISH) == UNKNOWN
    assert shown_number_briefly(math.nan, 1, ENGLISH) == UNKNOWN


@pytest.mark.parametrize(
    ("value", "said"),
    [
        (80.0, "80"),
        (13.52, "13.5"),
        (13.04, "13"),
        (0.0, "0"),
        (0.04, "0.04"),
        (-0.004, "-0.004"),
        (1e-9, "0"),
    ],
)
def test_a_brief_number_has_the_decimals_it_needs_and_something_is_never_nothing(
    value: float, said: str
) -> None:
    assert shown_number_briefly(value, 1, ENGLISH) == said


@given(st.floats(-1e11, 1e11) | st.integers(-(10**7), 10**7).map(lambda n: n / 2000.0), st.integers(0, 6))
def test_a_number_is_rounded_as_its_15_digits_are_by_hand(value: float, decimals: int) -> None:
    by_hand = Decimal(f"{value:.15g}").quantize(Decimal(1).scaleb(-decimals), ROUND_HALF_UP)
    assert float(shown_number(value, decimals, ENGLISH)) == float(by_hand)
