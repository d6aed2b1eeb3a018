"""If these fail, somebody recovers the older of two copies."""

from __future__ import annotations

from datetime import UTC, datetime

from PySide6.QtCore import QLocale

from studio_gui.wording.moments import moment_of, moment_words
from studio_gui.wording.numbers import UNKNOWN
from studio_gui.wording.translation import ENGLISH, Tongue


def test_a_moment_is_told_by_the_reader_s_calendar_and_clock() -> None:
    moment = datetime(2026, 11, 26, 14, 5, tzinfo=UTC)
    local = moment.astimezone()
    words = moment_words(moment, ENGLISH)
    assert f"{local:%d} November 2026" in words
    assert words.endswith(f"{local:%H:%M}")
    assert moment_words(None) == UNKNOWN


def test_a_moment_follows_the_locale_of_the_program() -> None:
    moment = datetime(2026, 11, 26, 12, 0, tzinfo=UTC)
    before = QLocale()
    QLocale.setDefault(QLocale("de_DE"))
    try:
        assert "November 2026" in moment_words(moment, Tongue())
        assert "26." in moment_words(moment, Tongue())
    finally:
        QLocale.setDefault(before)


def test_what_is_no_moment_is_none() -> None:
    for text in ("", "yesterday", "2026-11-26", "2026-11-26T10:00:00"):
        assert moment_of(text) is None
    assert moment_of("2026-11-26T10:00:00+02:00") == datetime(2026, 11, 26, 8, tzinfo=UTC)
