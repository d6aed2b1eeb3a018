"""The rule for text in a plan: short, printable, and encodable.

Names may be in any script, with emoji; control characters and lone surrogates are refused because no file
or print can carry them.
"""

from __future__ import annotations

import unicodedata

from studio_gui.domain.errors import InvalidPlan

NAME_MAX = 300
ID_MAX = 64
LETTER_MAX = 3


def checked_text(field: str, value: str, longest: int, *, may_be_empty: bool = True) -> str:
    """Return `value` when it is text of at most `longest` characters without control characters.

    Raises
    ------
    InvalidPlan
        ``not-text``, ``text-empty``, ``text-too-long`` or ``text-unprintable``.

    >>> checked_text("title", "Two Shores", 300)
    'Two Shores'
    """
    if not isinstance(value, str):
        raise InvalidPlan("not-text", field=field, value=str(value))
    if not value.strip() and not may_be_empty:
        raise InvalidPlan("text-empty", field=field)
    if len(value) > longest:
        raise InvalidPlan("text-too-long", field=field, length=len(value), longest=longest)
    if any(unicodedata.category(character) in ("Cc", "Cs") for character in value):
        raise InvalidPlan("text-unprintable", field=field)
    return value
