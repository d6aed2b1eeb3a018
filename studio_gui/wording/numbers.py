"""Numbers as they are shown and typed.

The rule of this module: what is shown has fixed decimals and no group separators; what is typed may have a
decimal comma or point whatever the locale, and digits of any script. A sign that could be decimal or group
("1,234") is refused, never guessed at, unless it is the locale's own decimal sign.
"""

from __future__ import annotations

import math
import re
import unicodedata
from decimal import ROUND_HALF_UP, Decimal

from studio_gui.domain.errors import InvalidPlan
from studio_gui.storage.strict_json import quoted
from studio_gui.wording.translation import TRANSLATED, Tongue

LONGEST_NUMBER = 40
LARGEST_NUMBER = 1e12
MOST_DECIMALS = 6

#: Up to here a float tells steps of the last decimal shown from ties between them.
FAR_FROM_DUST = 1e8

#: What is shown for a number that is not known (nan).
UNKNOWN = "–"

_ARABIC_DECIMAL, _ARABIC_GROUP = "\u066b", "\u066c"
_SIGNS = {"+": 1.0, "-": -1.0, "\u2212": -1.0, "\u2013": -1.0}
#: Marks that some locales put around a minus sign; they change no number.
_DIRECTION_MARKS = str.maketrans("", "", "\u200e\u200f\u061c")
_BODY = re.compile(rf"(?=[^0-9]*[0-9])[0-9., {_ARABIC_DECIMAL}{_ARABIC_GROUP}]+")
_GROUPED = re.compile(r"[0-9]{1,3}(?: [0-9]{3})+")
_COULD_BE_GROUPED = re.compile(r"[1-9][0-9]{0,2}[.,][0-9]{3}")


def shown_number(value: float, decimals: int, tongue: Tongue = TRANSLATED) -> str:
    """Return `value` with exactly `decimals` decimals, rounded as by hand: a tie goes away from zero.

    Never "-0.0"; `UNKNOWN` for nan. From `LARGEST_NUMBER` on, which none may be, with a power of ten.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> shown_number(1234.5, 2, ENGLISH), shown_number(22.25, 1, ENGLISH), shown_number(-0.01, 1, ENGLISH)
    ('1234.50', '22.3', '0.0')
    >>> shown_number(1e300, 2, ENGLISH)
    '1e+300'
    """
    if math.isnan(value):
        return UNKNOWN
    if abs(value) >= LARGEST_NUMBER:
        return str(tongue.locale.toString(value, "g", MOST_DECIMALS))
    return str(tongue.locale.toString(_rounded(value, decimals), "f", decimals))


def shown_number_briefly(value: float, most_decimals: int, tongue: Tongue = TRANSLATED) -> str:
    """Return `value` with as many decimals as it needs, at most `most_decimals`.

    A value too small for these is given more, so that something never reads as nothing.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> [shown_number_briefly(value, 1, ENGLISH) for value in (80.0, 13.52, 0.037)]
    ['80', '13.5', '0.04']
    """
    while value and _rounded(value, most_decimals) == 0.0 and most_decimals < MOST_DECIMALS:
        most_decimals += 1
    decimals = len(f"{_rounded(value, most_decimals):.{most_decimals}f}".partition(".")[2].rstrip("0"))
    return shown_number(value, decimals, tongue)


def _rounded(value: float, decimals: int) -> float:
    size = abs(value)
    if size >= LARGEST_NUMBER:
        return value
    steps = size * 10.0**decimals
    if steps < FAR_FROM_DUST and abs(steps % 1.0 - 0.5) > 1e-6:  # no tie to decide, as with most numbers
        return math.copysign(math.floor(steps + 0.5) / 10.0**decimals, value) + 0.0
    # 15 digits are what a float holds for sure: the dust behind them must not decide a tie
    digits = Decimal(f"{value:.15g}").quantize(Decimal(1).scaleb(-decimals), ROUND_HALF_UP)
    return float(digits) + 0.0  # adding 0.0 makes -0.0 plain


def parse_number(text: str, tongue: Tongue = TRANSLATED) -> float:
    """Return the number typed in `text`: at most `LONGEST_NUMBER` characters, below `LARGEST_NUMBER`.

    Raises
    ------
    InvalidPlan
        ``nothing-typed-in``, ``too-long-to-read``, ``not-a-number``, ``number-too-large``, or
        ``ambiguous-number`` with both readings.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> parse_number("12,5", ENGLISH), parse_number("1.234,5", ENGLISH), parse_number("\u2212.5", ENGLISH)
    (12.5, 1234.5, -0.5)
    """
    check_length(text, LONGEST_NUMBER)
    body = "".join(_western(character) for character in text.translate(_DIRECTION_MARKS)).strip()
    if not body:
        raise InvalidPlan("nothing-typed-in")
    sign = _SIGNS.get(body[0], 0.0)
    if sign:
        body = body[1:].strip()
    if not _BODY.fullmatch(body):
        raise InvalidPlan("not-a-number", value=quoted(text.strip()))
    value = (sign or 1.0) * float(_plain(body, text, tongue))
    if abs(value) >= LARGEST_NUMBER:
        raise InvalidPlan("number-too-large", value=quoted(text.strip()))
    return value


def check_length(text: str, longest: int) -> None:
    """Refuse, as ``too-long-to-read``, a typed text of more than `longest` characters."""
    if len(text) > longest:
        raise InvalidPlan("too-long-to-read", length=len(text), longest=longest)


def _western(character: str) -> str:
    """Return a digit of any script as 0 to 9, any space as a plain one, and all else as it is."""
    if character.isspace():
        return " "
    digit = unicodedata.decimal(character, None)
    return character if digit is None else str(digit)


def _plain(body: str, text: str, tongue: Tongue) -> str:
    """Return `body` with a decimal point and nothing else but digits."""
    decimal = _decimal_sign(body, text, tongue)
    whole, _, fraction = body.partition(decimal) if decimal else (body, "", "")
    for group in (".", ",", _ARABIC_GROUP):
        whole = whole.replace(group, " ")
    if (" " in whole and not _GROUPED.fullmatch(whole)) or not f"0{fraction}".isdigit():
        raise InvalidPlan("not-a-number", value=quoted(text.strip()))
    return f"{whole.replace(' ', '') or '0'}.{fraction or '0'}"


def _decimal_sign(body: str, text: str, tongue: Tongue) -> str:
    """Return the sign that is decimal in `body`, "" where none is."""
    if _ARABIC_DECIMAL in body:
        return _ARABIC_DECIMAL
    signs = [character for character in body if character in ".,"]
    if not signs:
        return ""
    last = signs[-1]
    if signs.count(last) > 1:
        return ""
    if _COULD_BE_GROUPED.fullmatch(body) and last != tongue.locale.decimalPoint():
        whole, _, fraction = body.partition(last)
        raise InvalidPlan(
            "ambiguous-number",
            value=quoted(text.strip()),
            whole=shown_number(float(whole + fraction), 0, tongue),
            fraction=shown_number(float(f"{whole}.{fraction}"), 3, tongue),
        )
    return last
