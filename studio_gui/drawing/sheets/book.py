"""The sheets that a plan has on paper, in the order in which they are printed.

The rule of this module: a new sheet is one function from worksheet and choices to pages, listed here; preview
and files go through `pages_of`. The font has to be lent (`lent_font`) meanwhile.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.sheets.cards import card_pages
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.drawing.sheets.page import Page
from studio_gui.drawing.sheets.section_map import section_map_pages
from studio_gui.drawing.sheets.stocks_sheet import stock_pages
from studio_gui.drawing.sheets.tape import tape_pages
from studio_gui.drawing.sheets.timetable_sheet import timetable_pages
from studio_gui.drawing.sheets.yarn_sheet import yarn_pages
from studio_gui.wording.translation import translate


@dataclass(frozen=True, slots=True)
class Sheet:
    """One kind of sheet.

    `key` is what it is remembered by, `title` what it is called, in the language of the program. `pages` lays
    it out; a plan that has nothing for it has no pages.
    """

    key: str
    title: Callable[[], str]
    pages: Callable[[Worksheet, Choices], tuple[Page, ...]]


SHEETS: tuple[Sheet, ...] = (
    Sheet("section-map", lambda: translate("Sheets", "Section map"), section_map_pages),
    Sheet("liquor-cards", lambda: translate("Sheets", "Liquor cards"), card_pages),
    Sheet("stocks", lambda: translate("Sheets", "Stocks to make"), stock_pages),
    Sheet("timetable", lambda: translate("Sheets", "Timetable"), timetable_pages),
    Sheet("tape", lambda: translate("Sheets", "Tape to lie under the film"), tape_pages),
    Sheet("yarn", lambda: translate("Sheets", "Yarn"), yarn_pages),
)


def wanted_sheets(choices: Choices) -> tuple[Sheet, ...]:
    """Return the sheets that are not left out, in their order."""
    return tuple(sheet for sheet in SHEETS if sheet.key not in choices.left_out)


def pages_of(worksheet: Worksheet, choices: Choices) -> tuple[Page, ...]:
    """Return the pages of all sheets that are wanted and that the plan has something for."""
    return tuple(page for sheet in wanted_sheets(choices) for page in sheet.pages(worksheet, choices))
