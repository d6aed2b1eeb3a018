"""Pieces of a roving as they were weighed, and its thickness here and there, as text: one row each.

The rule of this module: a row is two quantities, set apart by a tab, a semicolon or a space after the first
one's unit: "1.5 m 39 g", "150 cm; 39", or two columns of a spreadsheet. A bare number has the unit that is
shown.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from studio_gui.domain.errors import InvalidPlan, RovingLayError
from studio_gui.storage.strict_json import quoted
from studio_gui.wording.numbers import check_length
from studio_gui.wording.quantities import (
    MASS,
    ROVING_LENGTH,
    TOP_DENSITY,
    Kind,
    parse_quantity,
    shown_briefly,
)
from studio_gui.wording.translation import TRANSLATED, Tongue

LONGEST_ROW = 80
MOST_ROWS = 200

_APART = re.compile(r"\s*[\t;]\s*|(?<=[^\W\d_])\s+(?=[\d+\-.,])|(?<=\d)\s+(?=\d)")


@dataclass(frozen=True, slots=True)
class Weighed:
    """How rows are read: what their first and second quantities are."""

    first: Kind
    second: Kind


PIECES = Weighed(ROVING_LENGTH, MASS)
THICKNESS = Weighed(ROVING_LENGTH, TOP_DENSITY)


class RowProblem(Exception):
    """What is wrong in a row, counted from 1."""

    def __init__(self, row: int, problem: RovingLayError) -> None:
        super().__init__(row, problem)
        self.row = row
        self.problem = problem


def parse_rows(how: Weighed, text: str, tongue: Tongue = TRANSLATED) -> tuple[tuple[float, float], ...]:
    r"""Return the rows of `text` in the plan's units; empty rows are passed over.

    Raises
    ------
    RowProblem
        With the `InvalidPlan` of the first row that cannot be read: ``not-two-quantities``, or as
        `studio_gui.wording.quantities.parse_quantity`; ``too-many`` rows.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> parse_rows(PIECES, "1.5 m 39 g\n150 cm; 38.5", ENGLISH)
    ((1.5, 39.0), (1.5, 38.5))
    """
    rows = []
    filled = [(number, row) for number, row in enumerate(text.splitlines(), start=1) if row.strip()]
    for number, row in filled[:MOST_ROWS]:
        try:
            rows.append(_parse_row(how, row.strip(), tongue))
        except InvalidPlan as problem:
            raise RowProblem(number, problem) from problem
    if len(filled) > MOST_ROWS:
        too_many = InvalidPlan("too-many", field="mass_marks", count=len(filled), most=MOST_ROWS)
        raise RowProblem(filled[MOST_ROWS][0], too_many)
    return tuple(rows)


def _parse_row(how: Weighed, row: str, tongue: Tongue) -> tuple[float, float]:
    check_length(row, LONGEST_ROW)
    parts = _APART.split(row)
    if len(parts) != 2:
        raise InvalidPlan("not-two-quantities", value=quoted(row))
    return parse_quantity(how.first, parts[0], tongue), parse_quantity(how.second, parts[1], tongue)


def rows_told(how: Weighed, rows: Iterable[tuple[float, float]], tongue: Tongue = TRANSLATED) -> str:
    r"""Return rows as they can be typed.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> rows_told(PIECES, [(3.0, 78.0), (3.0, 72.0)], ENGLISH)
    '3 m; 78 g\n3 m; 72 g'
    """
    return "\n".join(
        f"{shown_briefly(how.first, first, tongue)}; {shown_briefly(how.second, second, tongue)}"
        for first, second in rows
    )
