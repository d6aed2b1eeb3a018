"""Times of day and lengths of time, as they are said and typed.

The rule of this module: a time of day is typed as on any clock (9:30, 14.00, 2 pm) and said as the locale
says it; the day is named wherever it is not the first.
"""

from __future__ import annotations

import re
import unicodedata

from PySide6.QtCore import QLocale, QTime

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.timetable import MINUTES_A_DAY
from studio_gui.storage.strict_json import quoted
from studio_gui.wording.numbers import check_length, shown_number
from studio_gui.wording.translation import TRANSLATED, Tongue

LONGEST_TIME = 20
_HALF_A_DAY_H = 12

_TIME = re.compile(r"(\d{1,2})(?:\s*[:.h]\s*(\d{2})|h)?\s*([ap])?\.?(?:m\.?)?", re.ASCII)
_FOUR_FIGURES = re.compile(r"(\d{2})(\d{2})()", re.ASCII)


def shown_duration(minutes: float, tongue: Tongue = TRANSLATED) -> str:
    """Return a length of time, to the minute.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> [shown_duration(minutes, ENGLISH) for minutes in (0.0, 45.0, 90.0, 720.0)]
    ['0 min', '45 min', '1 h 30 min', '12 h']
    """
    hours, rest = divmod(round(minutes), 60)
    words = []
    if hours:
        words.append(tongue.translate("Times", "{0} h").format(shown_number(hours, 0, tongue)))
    if rest or not hours:
        words.append(tongue.translate("Times", "{0} min").format(shown_number(rest, 0, tongue)))
    return " ".join(words)


def shown_clock(minutes: float, tongue: Tongue = TRANSLATED) -> str:
    """Return a time of day, so many minutes after midnight, as the locale writes it.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> shown_clock(570.0, ENGLISH)
    '09:30'
    """
    hour, minute = divmod(round(minutes) % MINUTES_A_DAY, 60)
    time = QTime(hour, minute)
    if tongue.locale.language() == QLocale.Language.C:  # which would say the seconds too
        return str(time.toString("HH:mm"))
    return str(tongue.locale.toString(time, QLocale.FormatType.ShortFormat))


def shown_time(minutes: float, tongue: Tongue = TRANSLATED) -> str:
    """Return a time of day, so many minutes after the midnight before the first day, with a later day.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> [shown_time(minutes, ENGLISH) for minutes in (570.0, 1500.0, 2940.0)]
    ['09:30', '01:00, day 2', '01:00, day 3']
    """
    day = round(minutes) // MINUTES_A_DAY + 1
    clock = shown_clock(minutes, tongue)
    if day == 1:
        return clock
    return tongue.translate("Times", "{clock}, day {day}").format(
        clock=clock, day=shown_number(day, 0, tongue)
    )


def parse_clock(text: str) -> float | None:
    """Return the time of day that is typed in `text`, minutes after midnight; None for an empty one.

    Raises
    ------
    InvalidPlan
        ``too-long-to-read``, ``not-a-time-of-day``.

    >>> [parse_clock(text) for text in ("9:30", "14.05", "2 pm", "0915", " ")]
    [570.0, 845.0, 840.0, 555.0, None]
    """
    check_length(text, LONGEST_TIME)
    plain = "".join(_western(character) for character in text).strip().casefold()
    if not plain:
        return None
    found = _FOUR_FIGURES.fullmatch(plain) or _TIME.fullmatch(plain)
    if found is None:
        raise InvalidPlan("not-a-time-of-day", value=quoted(text.strip()))
    hour, minute, half = int(found[1]), int(found[2] or 0), found[3]
    if half and 1 <= hour <= _HALF_A_DAY_H:
        hour = hour % _HALF_A_DAY_H + (_HALF_A_DAY_H if half == "p" else 0)
    elif half:
        hour = -1
    if not 0 <= hour <= 23 or minute > 59:
        raise InvalidPlan("not-a-time-of-day", value=quoted(text.strip()))
    return float(60 * hour + minute)


def _western(character: str) -> str:
    """Return a digit of any script as 0 to 9, any space as a plain one, and all else as it is."""
    if character.isspace():
        return " "
    digit = unicodedata.decimal(character, None)
    return character if digit is None else str(digit)
