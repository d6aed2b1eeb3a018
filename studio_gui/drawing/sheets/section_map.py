"""The section map: where each section lies and what is painted on it, to read at arm's length.

The rule of this module: it says nothing that the worksheet does not; figures of one column have one unit and
fixed decimals.
"""

from __future__ import annotations

from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.drawing.sheets.page import Box, Mark, Page, Words
from studio_gui.drawing.sheets.paper import MARGIN_MM
from studio_gui.drawing.sheets.type import line_mm, shortened
from studio_gui.wording.quantities import VOLUME, shown
from studio_gui.wording.translation import translate

TITLE_PT, TEXT_PT = 28.0, 16.0
ROW_MM = 14.5
ROWS_A_PAGE = 8


def section_map_pages(sheet: Worksheet, choices: Choices) -> tuple[Page, ...]:
    """Return the pages of the section map, at most `ROWS_A_PAGE` sections on each."""
    count = len(sheet.figures)
    return tuple(
        _page(sheet, choices, range(first, min(first + ROWS_A_PAGE, count)))
        for first in range(0, count, ROWS_A_PAGE)
    )


def _page(sheet: Worksheet, choices: Choices, which: range) -> Page:
    paper = choices.paper.landscape()
    inner = paper.inset(MARGIN_MM)
    title = Box(inner.x, inner.y, inner.width, line_mm(TITLE_PT))
    marks: list[Mark] = [
        Words(
            title,
            (shortened(sheet.plan.title, title.width, TITLE_PT, bold=True),),
            TITLE_PT,
            bold=True,
        )
    ]
    plan, figures = sheet.plan, sheet.figures
    for row, index in enumerate(which):
        letter = plan.liquors[figures.liquor_index[index]].letter
        y = title.bottom + 4.0 + row * ROW_MM
        name = Box(inner.x, y, inner.width / 2.0, ROW_MM)
        ml = Box(name.right, y, inner.width / 2.0, ROW_MM)
        words = shortened(f"{letter} {plan.sections[index].name}", name.width, TEXT_PT)
        marks.append(Words(name, (words,), TEXT_PT))
        marks.append(Words(ml, (shown(VOLUME, float(figures.liquid_ml[index])),), TEXT_PT, align="right"))
    return Page(paper, tuple(marks), translate("Sheets", "Section map"))
