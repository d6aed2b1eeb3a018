"""If these fail, a time of day is read or said wrongly, and wool is steamed at night."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QLocale

from studio_gui.domain.errors import InvalidPlan
from studio_gui.wording.times import parse_clock, shown_clock, shown_duration, shown_time
from studio_gui.wording.translation import ENGLISH


@pytest.mark.parametrize(
    ("typed", "minutes"),
    [
        ("0:00", 0.0),
        ("23:59", 1439.0),
        ("9", 540.0),
        ("9h", 540.0),
        ("9 h 15", 555.0),
        ("9.30", 570.0),
        ("2pm", 840.0),
        ("12 am", 0.0),
        ("12:05 p.m.", 725.0),
        ("1430", 870.0),
        ("٩:٣٠", 570.0),
        ("", None),
    ],
)
def test_a_time_is_read_as_on_any_clock(typed: str, minutes: float | None) -> None:
    assert parse_clock(typed) == minutes


@pytest.mark.parametrize("typed", ["24:00", "9:60", "13 pm", "0 am", "noon", "-3", "9:3", "2460", "9:30:00"])
def test_what_is_no_time_is_refused(typed: str) -> None:
    with pytest.raises(InvalidPlan, match="not-a-time-of-day"):
        parse_clock(typed)


def test_a_long_text_is_not_read() -> None:
    with pytest.raises(InvalidPlan, match="too-long-to-read"):
        parse_clock("9" * 30)


@given(st.integers(0, 1439), st.sampled_from(["en_US", "en_GB", "de_DE", "fi_FI", "C"]))
def test_what_is_said_can_be_typed(minutes: int, name: str) -> None:
    QLocale.setDefault(QLocale(name))
    try:
        assert parse_clock(shown_clock(float(minutes))) == float(minutes)
    finally:
        QLocale.setDefault(QLocale.c())


def test_the_day_is_named_where_it_is_not_the_first() -> None:
    assert shown_time(1439.4, ENGLISH) == "23:59"
    assert shown_time(1440.0, ENGLISH) == "00:00, day 2"


def test_a_length_of_time_is_said_in_hours_and_minutes() -> None:
    assert [shown_duration(minutes, ENGLISH) for minutes in (59.6, 60.0, 61.0, 1440.0)] == [
        "1 h",
        "1 h",
        "1 h 1 min",
        "24 h",
    ]
