"""A list of lengths as it comes from a spreadsheet, a text or a table of this program.

The rule of this module: one length to a line or cell, with or without its unit; bare ones have the unit of
the list's heading, or the one that lengths on the lay are shown in. Of a whole table that was copied here,
the column of lengths is read.
"""

from __future__ import annotations

import re

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.plan import MOST_SECTIONS
from studio_gui.wording.numbers import check_length
from studio_gui.wording.quantities import LAY_LENGTH, parse
from studio_gui.wording.translation import TRANSLATED, Tongue
from studio_gui.wording.units import symbols

LONGEST_LIST = 200_000

_BETWEEN = re.compile(r"[\n\t;]")


def length_heading(tongue: Tongue = TRANSLATED) -> str:
    """Return the heading of a column of lengths, with its unit: "length, cm"."""
    return tongue.translate("Lengths", "length, {0}").format(LAY_LENGTH.shown_in(tongue)[0])


def parse_lengths(text: str, tongue: Tongue = TRANSLATED) -> tuple[float, ...]:
    r"""Return the lengths (m, in their order) in `text`: lines, or cells between tabs or semicolons.

    Raises
    ------
    InvalidPlan
        ``nothing-typed-in``, ``too-many``, ``too-long-to-read``; for the first that is no length, as
        `studio_gui.wording.quantities.parse`.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> parse_lengths("80 cm; 0,8 m; 31.5 in", ENGLISH)
    (0.8, 0.8, 0.8001)
    >>> parse_lengths("length, mm\n300\n450", ENGLISH)
    (0.3, 0.45)
    """
    check_length(text, LONGEST_LIST)
    cells = [cell.strip() for cell in _BETWEEN.split(_column(text.replace("\r\n", "\n"), tongue))]
    cells = [cell for cell in cells if cell]
    unit = _heading_unit(cells[0]) if cells else ""
    if unit:
        cells = cells[1:]
    if not cells:
        raise InvalidPlan("nothing-typed-in")
    if len(cells) > MOST_SECTIONS:
        raise InvalidPlan("too-many", field="sections", count=len(cells), most=MOST_SECTIONS)
    return tuple(parse(LAY_LENGTH, _with_unit(cell, unit), "boundary_m", tongue) for cell in cells)


def _column(text: str, tongue: Tongue) -> str:
    """Return the column of lengths, with its heading, of a table that was copied here; else `text`."""
    rows = [line.split("\t") for line in text.split("\n") if line.strip()]
    place = (
        next((at for at, cell in enumerate(rows[0]) if cell == length_heading(tongue)), -1) if rows else -1
    )
    if place < 0:
        return text
    return "\n".join(row[place] for row in rows if place < len(row))


def _heading_unit(cell: str) -> str:
    """Return the unit of length that a heading ends with, "" for what is no heading."""
    if any(character.isdigit() for character in cell):
        return ""
    last = cell.replace("(", " ").replace(")", " ").split()[-1:]
    return last[0] if last and last[0] in symbols("length") else ""


def _with_unit(cell: str, unit: str) -> str:
    return f"{cell} {unit}" if unit and not any(character.isalpha() for character in cell) else cell
