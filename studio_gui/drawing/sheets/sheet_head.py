"""The head of a sheet of the bench: what it is, of which plan, and a line for the lot.

The rule of this module: a sheet that lies about by itself says where it belongs; a title too long for its
line is cut there, for the section map has it in full.
"""

from __future__ import annotations

from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.sheets.blocks import (
    TEXT_PT,
    TITLE_PT,
    Block,
    largest_pt,
    line_to_write_on,
    on_one_line,
    rule,
    space,
    stacked,
)
from studio_gui.drawing.sheets.page import Box, Words
from studio_gui.drawing.sheets.type import line_mm
from studio_gui.wording.naming import one_line
from studio_gui.wording.translation import translate

LOT_MM = 62.0
_GAP_MM = 8.0
_LONGEST = 1_000


def sheet_head(sheet: Worksheet, name: str, width: float) -> Block:
    """Return the head of a sheet called `name`, with the rule beneath it."""
    room, height = width - LOT_MM - _GAP_MM, line_mm(TITLE_PT)
    size = largest_pt(name, room, TITLE_PT, bold=True)
    lines = (on_one_line(name, room, size, bold=True),)
    lot = line_to_write_on(translate("Sheets", "Lot"), LOT_MM)
    top = Block(
        height,
        (
            Words(Box(0.0, 0.0, room, height), lines, size, bold=True),
            *lot.at(width - LOT_MM, (height - lot.height) / 2.0),
        ),
    )
    title = on_one_line(one_line(sheet.plan.title, _LONGEST), width, TEXT_PT)
    words = Words(Box(0.0, 0.0, width, line_mm(TEXT_PT)), (title,), TEXT_PT)
    under = Block(line_mm(TEXT_PT), (words,)) if title else space(0.0)
    return stacked([top, under, space(1.0), rule(width)])


def page_name(name: str, number: int, count: int) -> str:
    """Return what a page is called in a list of pages."""
    if count == 1:
        return name
    words = translate("Sheets", "{sheet}, {number} of {count}")
    return words.format(sheet=name, number=number, count=count)
