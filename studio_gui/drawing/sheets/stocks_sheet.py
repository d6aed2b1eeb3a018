"""Stocks to make: how much of each, what goes in, and in which order.

The rule of this module: bottles stand in the order of work; what is weighed and measured is the largest, what
the jars need of it beside it. What to mind before anything is opened stands above the table, the other
cautions at the work that they belong to.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from studio_gui.domain.bottles import Bottle
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.sheets.blocks import (
    FIGURE_PT,
    TEXT_PT,
    TICK_MM,
    Block,
    fitted,
    in_pages,
    rule,
    space,
    stacked,
    text,
    tick_box,
    warning,
)
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.drawing.sheets.page import Box, Mark, Page, Words
from studio_gui.drawing.sheets.paper import MARGIN_MM
from studio_gui.drawing.sheets.sheet_head import page_name, sheet_head
from studio_gui.drawing.sheets.type import line_mm, width_mm
from studio_gui.wording.bench_words import bottle_warnings, measured_ml, powder, stock_kind, volume_made
from studio_gui.wording.naming import one_line
from studio_gui.wording.translation import translate
from studio_gui.wording.work_words import safety_words, stock_work

_GAP_MM = 7.0
_NUMBER_MM = 9.0
_LONGEST = 1_000
#: The least that the names of stocks have; below it they stand on lines of their own.
_NAME_MM = 38.0


def stock_pages(sheet: Worksheet, choices: Choices) -> tuple[Page, ...]:
    """Return the stocks to make with the order of work; nothing where no jar needs any."""
    if not sheet.bottles:
        return ()
    paper = choices.paper.portrait()
    inner = paper.inset(MARGIN_MM)
    table = _Table(sheet, inner.width)
    title = translate("Sheets", "Stocks to make")
    head = sheet_head(sheet, title, inner.width)
    first, *then = _work(sheet, inner.width)
    top = stacked([head, space(2.0)])
    safety = stacked([rule(inner.width, 0.2), space(1.6), text(safety_words(), inner.width, bold=True)])
    pages = in_pages(
        [first, table.headings, *table.rows(), space(4.0), *then, safety], inner.height - top.height
    )
    return tuple(
        Page(
            paper,
            stacked([top, *blocks]).at(inner.x, inner.y),
            page_name(title, number, len(pages)),
        )
        for number, blocks in enumerate(pages, start=1)
    )


@dataclass(frozen=True)
class _Column:
    """A column of figures by its right edge, mm."""

    right: float
    width: float
    heading: tuple[str, ...]
    cells: tuple[str, ...]
    size_pt: float
    bold: bool


@dataclass(frozen=True)
class _Table:
    sheet: Worksheet
    width: float

    @cached_property
    def columns(self) -> tuple[_Column, ...]:
        """What is needed, what is made, what is weighed, from the left; as large as there is room for."""
        sizes = (FIGURE_PT, 24.0, 20.0, TEXT_PT)
        for size_pt in sizes:
            columns = self._columns(size_pt)
            if columns[0].right - columns[0].width >= self.name_x or size_pt == sizes[-1]:
                break
        return columns

    def _columns(self, figure_pt: float) -> tuple[_Column, ...]:
        plan, bottles = self.sheet.plan, self.sheet.bottles
        ml, grams = translate("Stocks", "ml"), translate("Stocks", "g")
        wanted = (
            (translate("Stocks", "needed"), ml, [measured_ml(one.need_ml, plan) for one in bottles]),
            (translate("Stocks", "make"), ml, [volume_made(one) for one in bottles]),
            (translate("Stocks", "dye"), grams, [powder(one.dye_g) for one in bottles]),
            (translate("Stocks", "citric acid"), grams, [powder(one.acid_g) for one in bottles]),
        )
        found: list[_Column] = []
        right = self.width
        for name, unit, cells in reversed(wanted):
            is_need = len(found) == len(wanted) - 1
            size_pt = TEXT_PT if is_need else figure_pt
            widest = max(width_mm(cell, size_pt, bold=not is_need) for cell in cells)
            width = max(widest, *(width_mm(word, TEXT_PT) for word in (*name.split(), unit)))
            lines = (*fitted(name, width, TEXT_PT), unit)
            found.append(_Column(right, width, lines, tuple(cells), size_pt, not is_need))
            right -= width + _GAP_MM
        return tuple(reversed(found))

    @property
    def name_x(self) -> float:
        return _NUMBER_MM + TICK_MM + 3.0

    @cached_property
    def room(self) -> float:
        """Width beside the figures, mm."""
        return self.columns[0].right - self.columns[0].width - _GAP_MM - self.name_x

    @cached_property
    def headings(self) -> Block:
        lines = max(len(column.heading) for column in self.columns)
        height = lines * line_mm(TEXT_PT)
        marks: list[Mark] = []
        for column in self.columns:
            own = len(column.heading) * line_mm(TEXT_PT)
            box = Box(column.right - column.width, height - own, column.width, own)
            marks.append(Words(box, column.heading, TEXT_PT, align="right"))
        return stacked([Block(height, tuple(marks)), rule(self.width)])

    def rows(self) -> Iterator[Block]:
        for place, bottle in enumerate(self.sheet.bottles):
            yield self._row(place, bottle)

    def _row(self, place: int, bottle: Bottle) -> Block:
        plan = self.sheet.plan
        stock = plan.stock(bottle.stock_id)
        room = self.room if self.room >= _NAME_MM else self.width - self.name_x
        words = stacked(
            [text(one_line(stock.name, _LONGEST), room, bold=True), text(stock_kind(stock), room)]
        )
        figures = self._figures(place)
        marks: list[Mark] = []
        if room > self.room:
            above, beside = words.height, figures.height
            height = above + beside
            marks += words.at(self.name_x, 0.0)
        else:
            height = beside = max(words.height, figures.height) + 3.0
            above = 0.0
            marks += words.at(self.name_x, (height - words.height) / 2.0)
        marks += figures.at(0.0, above + (beside - figures.height) / 2.0)
        number = translate("Stocks", "{0}.").format(place + 1)
        marks.append(Words(Box(0.0, 0.0, _NUMBER_MM, height), (number,), TEXT_PT, bold=True))
        marks.append(tick_box(_NUMBER_MM, (height - TICK_MM) / 2.0))
        amiss = [warning(said, self.width) for said in bottle_warnings(plan, bottle)]
        return stacked([Block(height, tuple(marks)), *amiss, rule(self.width, 0.2)])

    def _figures(self, place: int) -> Block:
        height = line_mm(FIGURE_PT)
        return Block(
            height,
            tuple(
                Words(
                    Box(column.right - column.width, 0.0, column.width, height),
                    (column.cells[place],),
                    column.size_pt,
                    column.bold,
                    "right",
                )
                for column in self.columns
            ),
        )


def _work(sheet: Worksheet, width: float) -> Iterator[Block]:
    """Yield the order of work, a block a piece of it."""
    pieces = stock_work(sheet)
    wide = max(width_mm(piece.name, TEXT_PT, bold=True) for piece in pieces) + 4.0
    wide = min(wide, width / 3.0)
    for piece in pieces:
        words = text(piece.words, width - wide)
        name = text(piece.name, wide - 1.0, bold=True)
        yield Block(max(words.height, name.height) + 2.4, (*name.marks, *words.at(wide, 0.0)))
