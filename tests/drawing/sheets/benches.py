"""Plans for the sheets of the bench: many jars, long names, odd graduations."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pypdfium2

from studio_gui.domain.edits.inputs import set_bench
from studio_gui.domain.fibre import Fibre, Lay
from studio_gui.domain.liquors import Liquor, Part
from studio_gui.domain.plan import Plan
from studio_gui.domain.sections import Boundary, Section
from studio_gui.domain.worksheet import Worksheet, worksheet
from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.drawing.sheets.page import Page
from studio_gui.drawing.sheets.paper import Paper
from studio_gui.export.sheet_files import pdf_of
from tests.drawing.plans import plain_plan

#: Names of every kind a painter may type; the last ones are as long as they may be.
NAMES = (
    "Slate",
    "",
    "Slate, quarter let-down",
    "Фьорд",
    "藍と茜",
    "أزرق البحر",
    "ไคร้ามาตรฐาน",
    "🐑🌊",
    "Slate " * 50,
    "W" * 300,
    "藍" * 300,
    "﷽" * 300,
)


def bench_plan(jars: int, name: str = "", **bench: float | None) -> Plan:
    """Return a plan of so many jars that take turns with three stocks, all called `name` if there is one."""
    plan = plain_plan(jars)
    liquors = tuple(
        Liquor(
            f"q{number}",
            f"J{number}" if jars > 26 else chr(64 + number),
            name or f"Jar {number}",
            parts=(Part("k1", 10.0 + number), Part("k2", 30.0 + number / 2.0), Part("k3", 20.0)),
        )
        for number in range(1, jars + 1)
    )
    sections = tuple(
        Section(f"s{number}", name or f"Stretch {number}", f"q{number}") for number in range(1, jars + 1)
    )
    stocks = tuple(replace(stock, name=name or stock.name) for stock in plan.stocks)
    made = Plan(
        title=name or "Bench",
        fibre=Fibre(100.0, 4.0, 4),
        lay=Lay(),
        stocks=stocks,
        liquors=liquors,
        sections=sections,
        boundaries=tuple(Boundary(4.0 * number / jars) for number in range(1, jars)),
    )
    return set_bench(made, **bench)


def laid_out(
    pages: Callable[[Worksheet, Choices], tuple[Page, ...]], plan: Plan, paper: Paper
) -> tuple[Page, ...]:
    """Return the pages of a sheet, with the font that they are laid out in."""
    with lent_font():
        return pages(worksheet(plan), Choices(paper))


def words_on(page: Page) -> list[str]:
    """Return all lines of a page."""
    return [line for words in page.words() for line in words.lines]


def read_back(pages: tuple[Page, ...]) -> str:
    """Return the text that a reader finds in the PDF of the pages."""
    document = pypdfium2.PdfDocument(pdf_of(pages, "sheets"))
    return "\n".join(page.get_textpage().get_text_bounded() for page in document)
