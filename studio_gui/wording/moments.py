"""When something happened, as somebody reads it off a calendar and a clock.

The rule of this module: moments are kept with their time zone and shown in that of the reader, to the minute.
"""

from __future__ import annotations

from datetime import datetime

from PySide6.QtCore import QDateTime, QLocale

from studio_gui.wording.numbers import UNKNOWN
from studio_gui.wording.translation import TRANSLATED, Tongue


def moment_words(moment: datetime | None, tongue: Tongue = TRANSLATED) -> str:
    """Return a moment in words: "26 November 2026, 14:05"."""
    if moment is None:
        return UNKNOWN
    local = QDateTime.fromSecsSinceEpoch(int(moment.timestamp()))
    locale = tongue.locale
    if locale.language() == QLocale.Language.C:  # its own way is that of programs
        locale = QLocale(QLocale.Language.English, QLocale.Country.UnitedKingdom)
    date = locale.toString(local.date(), QLocale.FormatType.LongFormat)
    return f"{date}, {locale.toString(local.time(), QLocale.FormatType.ShortFormat)}"


def moment_of(text: str) -> datetime | None:
    """Return the moment that is written as in ISO 8601 with a time zone, None where it is not.

    >>> moment_of("2026-11-26T14:05:00+00:00").year, moment_of("yesterday")
    (2026, None)
    """
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        return None
    return moment if moment.tzinfo is not None else None
