"""The sheets that a plan has on paper, in the order in which they are printed.

The rule of this module: a new sheet is one function from worksheet and choices to pages, listed here; preview
and files go through `pages_of`. What shows predicted colours says so in its margin. The font has to be lent
(`lent_font`) meanwhile.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.sheets.cards import card_pages
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.drawing.sheets.page import Box, Page, Words
from studio_gui.drawing.sheets.paper import MARGIN_MM
from studio_gui.drawing.sheets.section_map import section_map_pages
from studio_gui.drawing.sheets.stocks_sheet import stock_pages
from studio_gui.drawing.sheets.tape import tape_pages
from studio_gui.drawing.sheets.timetable_sheet import timetable_pages
from studio_gui.drawing.sheets.type import line_mm
from studio_gui.drawing.sheets.yarn_sheet import yarn_pages
from studio_gui.wording.fade_words import indicative_words
from studio_gui.wording.translation import translate

LABEL_PT = 8.0
LABEL_GAP_MM = 0.6


@dataclass(frozen=True, slots=True)
class Sheet:
    """One kind of sheet.

    `key` is what it is remembered by, `title` what it is called, in the language of the program. `pages` lays
    it out; a plan that has nothing for it has no pages. `is_coloured` where it shows predicted colours.
    """

    key: str
    title: Callable[[], str]
    pages: Callable[[Worksheet, Choices], tuple[Page, ...]]
    is_coloured: bool = False


SHEETS: tuple[Sheet, ...] = (
    Sheet("section-map", lambda: translate("Sheets", "Section map"), section_map_pages, True),
    Sheet("liquor-cards", lambda: translate("Sheets", "Liquor cards"), card_pages, True),
    Sheet("stocks", lambda: translate("Sheets", "Stocks to make"), stock_pages),
    Sheet("timetable", lambda: translate("Sheets", "Timetable"), timetable_pages),
    Sheet("tape", lambda: translate("Sheets", "Tape to lie under the film"), tape_pages),
    Sheet("yarn", lambda: translate("Sheets", "Yarn"), yarn_pages, True),
)


def wanted_sheets(choices: Choices) -> tuple[Sheet, ...]:
    """Return the sheets that are not left out, in their order."""
    return tuple(sheet for sheet in SHEETS if sheet.key not in choices.left_out)


def pages_of(worksheet: Worksheet, choices: Choices) -> tuple[Page, ...]:
    """Return the pages of all sheets that are wanted and that the plan has something for."""
    return tuple(
        _labelled(page) if sheet.is_coloured else page
        for sheet in wanted_sheets(choices)
        for page in sheet.pages(worksheet, choices)
    )


def _labelled(page: Page) -> Page:
    """Return the page with a small line in its lower margin that its colours are indicative."""
    line = Box(
        page.paper.x + MARGIN_MM,
        page.paper.bottom - MARGIN_MM + LABEL_GAP_MM,
        page.paper.width - 2.0 * MARGIN_MM,
        line_mm(LABEL_PT),
    )
    return replace(page, marks=(*page.marks, Words(line, (indicative_words(),), LABEL_PT, align="right")))
