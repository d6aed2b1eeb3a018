"""Amounts as painters say them: "12 and 38".

The rule of this module: a line of amounts is millilitres with plus signs between, one to a stock, in the
order of the liquor's stocks. Bare numbers are millilitres in every system of units, as syringes are.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.liquors import MOST_STOCKS_IN_LIQUOR
from studio_gui.domain.ranges import checked
from studio_gui.storage.strict_json import quoted
from studio_gui.wording.numbers import check_length, shown_number_briefly
from studio_gui.wording.quantities import VOLUME, parse_quantity
from studio_gui.wording.translation import TRANSLATED, Tongue

LONGEST_AMOUNTS = 400

_BETWEEN = re.compile(r"[+\uff0b]|\band\b", re.IGNORECASE)


def parse_amounts(text: str, tongue: Tongue = TRANSLATED) -> tuple[float, ...]:
    """Return the amounts (ml, 0 or more) typed in `text`: "12 + 38", "12+38 ml", "12 and 38".

    Raises
    ------
    InvalidPlan
        ``nothing-typed-in``, ``empty-amount``, ``negative-amount``, ``too-many``, ``out-of-range``, and as
        `studio_gui.wording.quantities.parse`.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> parse_amounts("12 + 38", ENGLISH), parse_amounts("12,5 ml", ENGLISH)
    ((12.0, 38.0), (12.5,))
    """
    check_length(text, LONGEST_AMOUNTS)
    if not text.strip():
        raise InvalidPlan("nothing-typed-in")
    terms = amount_terms(text)
    if len(terms) > MOST_STOCKS_IN_LIQUOR:
        raise InvalidPlan("too-many", field="parts", count=len(terms), most=MOST_STOCKS_IN_LIQUOR)
    return tuple(_amount(term, text, tongue) for term in terms)


def amount_terms(text: str) -> list[str]:
    """Return what stands between the plus signs of `text`.

    >>> amount_terms("12 and 38")
    ['12 ', ' 38']
    """
    return _BETWEEN.split(text)


def shown_amounts(amounts_ml: Iterable[float], tongue: Tongue = TRANSLATED, *, most_decimals: int = 2) -> str:
    """Return the line of amounts, each with no more decimals than it needs.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> shown_amounts((12.0, 37.5), ENGLISH)
    '12 + 37.5'
    """
    return " + ".join(shown_number_briefly(amount, most_decimals, tongue) for amount in amounts_ml)


def _amount(term: str, text: str, tongue: Tongue) -> float:
    if not term.strip():
        raise InvalidPlan("empty-amount", value=quoted(text.strip()))
    value = parse_quantity(VOLUME, term, Tongue("metric", tongue.is_english))
    if value < 0.0:
        raise InvalidPlan("negative-amount", value=value)
    return checked("fixed_ml", value)


def shown_total(amounts_ml: Iterable[float], tongue: Tongue = TRANSLATED) -> str:
    """Return the sum of a line of amounts in millilitres, as the line is, in every system of units.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> shown_total((12.0, 38.0), ENGLISH)
    '50 ml'
    """
    return f"{shown_number_briefly(sum(amounts_ml), 1, tongue)} {VOLUME.metric}"
