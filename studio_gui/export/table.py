"""The section table as CSV: one row a section, for spreadsheets.

The rule of this module: a clean rectangle that any spreadsheet opens as it is. RFC 4180, a header with units,
decimal points, an empty cell for a number that is not known. UTF-8 with a byte order mark, without which the
most used spreadsheet misreads every name that is not plain English. Twelve significant digits, so that no
cell shows the dust of binary fractions; the section map has them all.

No text runs as a formula: where one would begin, at the start of a cell or behind a semicolon (which is the
separator in half the world's spreadsheets), an apostrophe goes before it.
"""

from __future__ import annotations

import csv
import io
import math
import re
from collections import Counter
from collections.abc import Iterator, Sequence

from studio_gui.domain.colour.spaces import hex_from_srgb
from studio_gui.domain.stocks import Stock
from studio_gui.domain.worksheet import Worksheet

SIGNIFICANT_DIGITS = 12

# Full-width signs count: some spreadsheets take them for the plain ones.
_FORMULA = re.compile(r"(^|;)(\s*)([=+\-@＝＋－＠])")  # noqa: RUF001  (they are meant)

_Column = tuple[str, Sequence[str | float]]


def table_bytes(sheet: Worksheet) -> bytes:
    """Return the section table of a worksheet: ml for the whole set, places in m along the lay."""
    headers, columns = zip(*_columns(sheet), strict=True)
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    for row in (headers, *zip(*columns, strict=True)):
        writer.writerow(_cell(value) for value in row)
    return text.getvalue().encode("utf-8-sig")


def harmless(text: str) -> str:
    """Return `text` with an apostrophe wherever a spreadsheet would begin a formula.

    >>> harmless("=1+1"), harmless("Slate - deep"), harmless("Slate; -deep")
    ("'=1+1", 'Slate - deep', "Slate; '-deep")
    """
    return _FORMULA.sub(r"\1\2'\3", text)


def _columns(sheet: Worksheet) -> Iterator[_Column]:
    plan, figures = sheet.plan, sheet.figures
    liquors = [plan.liquors[column] for column in figures.liquor_index.tolist()]
    yield "section", list(range(1, len(figures) + 1))
    yield "name", [section.name for section in plan.sections]
    yield "letter", [liquor.letter for liquor in liquors]
    yield "liquor", [liquor.name for liquor in liquors]
    yield "start (m)", figures.edges_m[:-1].tolist()
    yield "end (m)", figures.edges_m[1:].tolist()
    yield "length (m)", [figures.length_m(index) for index in range(len(figures))]
    gaps_m = [*(boundary.gap_m for boundary in plan.boundaries), 0.0]
    yield "gap after (m)", [abs(max(gap_m, 0.0)) for gap_m in gaps_m]
    yield "overlap after (m)", [abs(min(gap_m, 0.0)) for gap_m in gaps_m]
    yield "locked", ["yes" if section.locked else "no" for section in plan.sections]
    yield "fibre (g)", figures.fibre_g.tolist()
    yield "liquid", [section.liquid_mode for section in plan.sections]
    yield "liquid (ml)", figures.liquid_ml.tolist()
    yield "liquid per roving (ml)", figures.liquid_ml_per_roving.tolist()
    yield "second pass (ml)", [section.second_pass_ml for section in plan.sections]
    yield "wiped (ml)", figures.wiped_ml.tolist()
    yield from _stock_columns(sheet)
    yield "acid (% owf)", figures.acid_pct_owf.tolist()
    yield "applied (ml/g)", figures.applied_ml_per_g.tolist()
    yield "held (ml/g)", figures.held_ml_per_g.tolist()
    yield "free (ml)", figures.free_ml.tolist()
    yield "saturation", [figures.saturation(index) for index in range(len(figures))]
    yield "colour", [hex_from_srgb(srgb) for srgb in sheet.colours.srgb]


def _stock_columns(sheet: Worksheet) -> Iterator[_Column]:
    """Yield ml of every stock that is used, then the depth of every dye that is."""
    plan, figures = sheet.plan, sheet.figures
    used = {stock.id for stock, is_used in zip(plan.stocks, figures.used_stocks, strict=True) if is_used}
    for column, stock in enumerate(plan.stocks):
        if stock.id in used:
            yield f"ml of {_name(sheet, stock)}", figures.amounts_ml[:, column].tolist()
    for column, dye in enumerate(plan.dyes):
        if dye.id in used:
            yield f"% owf of {_name(sheet, dye)}", figures.depth_pct_owf[:, column].tolist()


def _name(sheet: Worksheet, stock: Stock) -> str:
    """Return a stock's name, with its id where bottles share the name: headers must differ."""
    shared = Counter(one.name for one in sheet.plan.stocks)[stock.name] > 1
    return f"{stock.name} [{stock.id}]" if shared else stock.name


def _cell(value: str | float) -> str:
    if isinstance(value, str):
        return harmless(value)
    return "" if math.isnan(value) else f"{value:.{SIGNIFICANT_DIGITS}g}"
