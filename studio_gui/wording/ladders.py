"""Ladders as they are typed: "12+36, 24+24, 36+12, 48+0".

The rule of this module: steps stand apart by a semicolon, a new line, or a comma with a space after it; a
comma right between two digits is a decimal sign. Where it could as well be the end of a step, it is refused,
never guessed at.
"""

from __future__ import annotations

import re

from studio_gui.domain.errors import InvalidPlan
from studio_gui.storage.strict_json import quoted
from studio_gui.wording.amounts import amount_terms, parse_amounts
from studio_gui.wording.numbers import check_length
from studio_gui.wording.translation import TRANSLATED, Tongue

LONGEST_LADDER = 2_000

#: Semicolons and full commas of several scripts never stand in a number.
_SURE = r";\uff1b\u061b\uff0c\u3001\u060c"
_BETWEEN_STEPS = re.compile(rf"[{_SURE}]|,(?=\s|$)")
_ANY_COMMA = re.compile(rf"[{_SURE},]")
_TIGHT = re.compile(r"\d+,\d+")


def parse_ladder(text: str, tongue: Tongue = TRANSLATED) -> tuple[tuple[float, ...], ...]:
    """Return the amounts (ml, 0 or more) of each step typed in `text`, in order.

    Raises
    ------
    InvalidPlan
        ``nothing-typed-in``; ``too-long-to-read``; ``step-missing`` between two signs;
        ``comma-between-steps`` where a comma can be read two ways; as
        `studio_gui.wording.amounts.parse_amounts`.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> parse_ladder("12+36, 24+24; 36,5+12", ENGLISH)
    ((12.0, 36.0), (24.0, 24.0), (36.5, 12.0))
    """
    check_length(text, LONGEST_LADDER)
    steps = _cut(_BETWEEN_STEPS, text)
    if not steps:
        raise InvalidPlan("nothing-typed-in")
    _refuse_two_readings(text, steps)
    for number, step in enumerate(steps, start=1):
        if not step.strip():
            raise InvalidPlan("step-missing", step=number)
    return tuple(parse_amounts(step, tongue) for step in steps)


def _refuse_two_readings(text: str, steps: list[str]) -> None:
    """Refuse a comma between digits that could end a step: where steps cut at every comma are all alike."""
    tight = _TIGHT.search(text)
    if tight is None:
        return
    counts = {len(amount_terms(step)) for step in _cut(_ANY_COMMA, text)}
    if len(counts) == 1 and (counts != {1} or len(steps) == 1):
        raise InvalidPlan(
            "comma-between-steps", value=quoted(tight[0]), number=quoted(tight[0].replace(",", "."))
        )


def _cut(between: re.Pattern[str], text: str) -> list[str]:
    """Return the steps of every line, without the blank ones that a sign at the end of a line leaves."""
    steps: list[str] = []
    for line in text.splitlines():
        pieces = between.split(line)
        while pieces and not pieces[-1].strip():
            pieces.pop()
        steps += pieces
    return steps
