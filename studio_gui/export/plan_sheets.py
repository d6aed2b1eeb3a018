"""The printed sheets of a plan as files.

The rule of this module: a PDF has every sheet, page by page, for who chose nothing; SVG and PNG have the
section map alone, on one sheet as long as it needs to be. All are laid out in the bundled font.
"""

from __future__ import annotations

from studio_gui.domain.errors import FileProblem
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.sheets.book import pages_of
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.drawing.sheets.page import Page
from studio_gui.drawing.sheets.section_map import section_map_sheet
from studio_gui.export.sheet_files import MM_PER_INCH, pdf_of, png_of, svg_of
from studio_gui.wording.section_table import picture_words

#: Of a section map as PNG: as fine as somebody looks at it on a screen.
DOTS_PER_INCH = 150
#: Where letters can still be read.
LEAST_DOTS_PER_INCH = 96
#: Qt paints on no longer picture.
LONGEST_PX = 30_000
#: A picture of this many pixels takes 160 MB while it is made.
MOST_PX = 40_000_000


def sheets_pdf(sheet: Worksheet) -> bytes:
    """Return all sheets of a plan as PDF; `FileProblem` ``picture-failed`` when Qt cannot draw them."""
    with lent_font():
        pages = pages_of(sheet, Choices())
    return pdf_of(pages, sheet.plan.title)


def section_map_svg(sheet: Worksheet) -> bytes:
    """Return the section map as SVG; `FileProblem` ``picture-failed`` when Qt cannot draw it."""
    return svg_of(_long_sheet(sheet), sheet.plan.title, picture_words(sheet))


def section_map_png(sheet: Worksheet) -> bytes:
    """Return the section map as PNG, coarser where it is very long.

    Raises
    ------
    FileProblem
        ``picture-too-large`` for a lay of so many sections that none could be read; ``picture-failed``.
    """
    page = _long_sheet(sheet)
    height, area = page.paper.height / MM_PER_INCH, page.paper.width * page.paper.height / MM_PER_INCH**2
    dots_per_inch = int(min(DOTS_PER_INCH, LONGEST_PX / height, (MOST_PX / area) ** 0.5))
    if dots_per_inch < LEAST_DOTS_PER_INCH:
        raise FileProblem("picture-too-large", sections=len(sheet.figures))
    return png_of(page, sheet.plan.title, dots_per_inch)


def _long_sheet(sheet: Worksheet) -> Page:
    with lent_font():
        return section_map_sheet(sheet, Choices())
