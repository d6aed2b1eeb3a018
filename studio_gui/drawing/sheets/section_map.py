"""The section map: where each section lies and what is painted on it, to read at arm's length.

The rule of this module: it says nothing that the worksheet does not, black on white, amounts the largest. Its
pages have one layout; each shows the stretch of lay that its rows speak of. For files there is one sheet, as
long as it needs to be.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal

from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.drawing.sheets.lay_strip import FOOT_MM, PLACES_MM, SLIP_ROOM_MM, LayStrip
from studio_gui.drawing.sheets.map_columns import BOX_MM, TEXT_PT, Columns, all_sections, fitting_columns
from studio_gui.drawing.sheets.map_header import MapHeader
from studio_gui.drawing.sheets.map_rows import Row, cell, map_rows
from studio_gui.drawing.sheets.overview import OVERVIEW_MM, overview
from studio_gui.drawing.sheets.page import Box, Mark, Page, Rule, Words
from studio_gui.drawing.sheets.paper import MARGIN_MM
from studio_gui.drawing.sheets.type import line_mm, width_mm
from studio_gui.drawing.sheets.wool_on_sheet import wool_heights
from studio_gui.wording.section_table import SectionTable, section_table
from studio_gui.wording.translation import translate

ROWS_A_PAGE = 8
_TOTAL_PT = 28.0
_GAP_MM = 1.6
_TOTALS_MM = 12.4


def section_map_pages(sheet: Worksheet, choices: Choices) -> tuple[Page, ...]:
    """Return the pages of the section map, then, if it is wanted, those for who stands opposite."""
    layout = _map_layout(sheet, choices)
    pages = layout.pages()
    if choices.mirrored:
        pages += replace(layout, mirrored=True).pages()
    return pages


def section_map_sheet(sheet: Worksheet, choices: Choices) -> Page:
    """Return the whole section map on one sheet, as long as it needs to be."""
    return _map_layout(sheet, choices).long_sheet()


def _map_layout(sheet: Worksheet, choices: Choices) -> _MapLayout:
    """Return the layout that needs the fewest pages; of several, the handsomest."""
    table, paper = section_table(sheet), choices.paper.landscape()
    arrangements = fitting_columns(table, sheet.plan.fibre.rovings, paper.inset(MARGIN_MM))
    layouts = [_MapLayout(sheet, paper, False, table, columns) for columns in arrangements]
    return min(layouts, key=lambda layout: len(layout.runs))


@dataclass(frozen=True)
class _MapLayout:
    sheet: Worksheet
    paper: Box
    mirrored: bool
    table: SectionTable
    columns: Columns

    @cached_property
    def inner(self) -> Box:
        return self.paper.inset(MARGIN_MM)

    @cached_property
    def header(self) -> MapHeader:
        return MapHeader(self.sheet, self.inner, mirrored=self.mirrored)

    @cached_property
    def _plain_header(self) -> MapHeader:
        """The head of the painter's own map: both sides have the same sections on a page."""
        return replace(self.header, mirrored=False)

    @cached_property
    def headings(self) -> float:
        """Height of the headings of the table, mm."""
        numbers = line_mm(TEXT_PT) if self.columns.ticks == "beneath" else 0.0
        return self.columns.heading_lines * line_mm(TEXT_PT) + numbers + 1.0

    @cached_property
    def film_heights(self) -> tuple[float, float]:
        """Least and greatest height of the film with its places, mm."""
        least, most = wool_heights(self.sheet.plan)
        fixed = SLIP_ROOM_MM + FOOT_MM + PLACES_MM
        return fixed + least, fixed + most

    @cached_property
    def numbered(self) -> Literal["right", "left", "beneath"]:
        """Where the number of the sheet stands: on either side of the totals, or beneath them."""
        width, columns = width_mm(_number_words(100, 100), TEXT_PT) + _GAP_MM, self.columns
        if self.inner.right - width > columns.ml[-1].right:
            return "right"
        free = columns.small[0].right - columns.small[0].width - self.inner.x
        return "left" if not columns.stacked and width < free else "beneath"

    @property
    def foot(self) -> float:
        """Height of what stands beneath the rows, mm."""
        return _TOTALS_MM + (line_mm(TEXT_PT) if self.numbered == "beneath" else 0.0)

    def room(self, first: bool, many: bool) -> float:
        """Height that rows have on a page, mm."""
        header = self._plain_header.height if first else self._plain_header.short_height
        film = self.film_heights[0] + (OVERVIEW_MM if many else 0.0)
        return self.inner.height - header - film - self.headings - self.foot - 3.0 * _GAP_MM

    @cached_property
    def rows(self) -> list[Row]:
        return map_rows(self.sheet, self.columns, min(self.room(True, True), self.room(False, True)))

    # -- pages ---------------------------------------------------------------------------------------------

    def pages(self) -> tuple[Page, ...]:
        runs = self.runs
        many = len(runs) > 1
        spare = min(
            self.room(run.start == 0, many) - sum(row.height for row in self.rows[run.start : run.stop])
            for run in runs
        )
        film = min(self.film_heights[0] + 0.55 * spare, self.film_heights[1])
        film -= max(self.header.height - self._plain_header.height, 0.0)
        return tuple(self._page(run, number, len(runs), film) for number, run in enumerate(runs))

    @cached_property
    def runs(self) -> list[range]:
        """Return which sections each page has: as few pages as can be, and about as many sections on each."""
        runs = self._filled(ROWS_A_PAGE, many=False)
        if len(runs) == 1:
            return runs
        runs = self._filled(ROWS_A_PAGE, many=True)
        for most in range(math.ceil(len(self.rows) / len(runs)), ROWS_A_PAGE):
            even = self._filled(most, many=True)
            if len(even) == len(runs):
                return even
        return runs

    def _filled(self, most: int, *, many: bool) -> list[range]:
        runs, first, left = [], 0, self.room(True, many)
        for index, row in enumerate(self.rows):
            if index > first and (index - first == most or row.height > left + 1e-6):
                runs.append(range(first, index))
                first, left = index, self.room(False, many)
            left -= row.height
        return [*runs, range(first, len(self.rows))]

    def _page(self, which: range, number: int, count: int, film: float) -> Page:
        header = self.header.height if number == 0 else self.header.short_height
        marks = list(self.header.marks() if number == 0 else self.header.short_marks())
        y = self.inner.y + header + _GAP_MM
        if count > 1:
            strip = Box(self.inner.x, y, self.inner.width, OVERVIEW_MM - _GAP_MM)
            marks += overview(self.sheet, strip, which, mirrored=self.mirrored)
            y += OVERVIEW_MM
        block, bottom = self._block(which, y, film, self._growth(which, number == 0, count > 1, film))
        marks += block
        foot = Box(self.inner.x, bottom, self.inner.width, _TOTALS_MM)
        if which.stop == len(self.rows):
            marks += self._totals(foot)
        marks += self._numbering(foot, number + 1, count, last=which.stop == len(self.rows))
        title = translate("Sheets", "Section map")
        if self.mirrored:
            title = translate("Sheets", "Section map, other side")
        name = translate("Sheets", "{sheet}, {number} of {count}") if count > 1 else "{sheet}"
        return Page(self.paper, tuple(marks), name.format(sheet=title, number=number + 1, count=count))

    def _growth(self, which: range, first: bool, many: bool, film: float) -> float:
        """Return how much of what each row could grow a page has room for, 0 to 1."""
        rows = self.rows[which.start : which.stop]
        wish = sum(row.can_grow for row in rows)
        left = (
            self.room(first, many) - sum(row.height for row in rows) - max(film - self.film_heights[0], 0.0)
        )
        return min(max(left / wish, 0.0), 1.0) if wish else 0.0

    def long_sheet(self) -> Page:
        marks: list[Mark] = list(self.header.marks())
        y = self.inner.y + self.header.height + _GAP_MM
        film = min(self.film_heights[0] + 15.0, self.film_heights[1])
        count = len(self.rows)
        blocks = math.ceil(count / ROWS_A_PAGE)
        for number in range(blocks):
            which = range(number * count // blocks, (number + 1) * count // blocks)
            block, y = self._block(which, y, film, 0.5)
            marks += block
            if number + 1 < blocks:
                y += 3.0 * _GAP_MM
        marks += self._totals(Box(self.inner.x, y, self.inner.width, _TOTALS_MM))
        paper = Box(0.0, 0.0, self.paper.width, y + _TOTALS_MM + MARGIN_MM)
        return Page(paper, tuple(marks), translate("Sheets", "Section map"))

    # -- parts of a page -----------------------------------------------------------------------------------

    def _block(self, which: range, y: float, film: float, growth: float) -> tuple[list[Mark], float]:
        """Return a stretch of lay with its part of the table, from `y` downwards, and where it ends, mm."""
        box = Box(self.inner.x, y, self.inner.width, film)
        marks = list(LayStrip(self.sheet, self.table, box, which, self.mirrored).marks())
        y = box.bottom + _GAP_MM
        marks += self._heading_marks(y)
        y += self.headings
        left, right = self.inner.x, self.inner.right
        marks.append(Rule(left, y, right, y, 0.6))
        rows = self.rows[which.start : which.stop]
        for row in rows:
            grown = growth * row.can_grow
            marks += row.marks(y, grown)
            y += row.height + grown
            marks.append(Rule(left, y, right, y, 0.6 if row is rows[-1] else 0.2))
        return marks, y

    def _heading_marks(self, y: float) -> Iterator[Mark]:
        columns, line = self.columns, line_mm(TEXT_PT)
        height = columns.heading_lines * line
        if not columns.stacked:
            box = Box(columns.name_x, y + height - line, columns.name_width, line)
            yield Words(box, (translate("SectionMap", "Section"),), TEXT_PT)
        for column in (*columns.small, *columns.ml):
            lines = len(column.heading) * line
            box = Box(column.right - column.width, y + height - lines, column.width, lines)
            yield Words(box, column.heading, TEXT_PT, align=column.align)
        if columns.ticks == "tally":
            return
        numbers_y = y + height if columns.ticks == "beneath" else y + height - line
        for number in range(columns.rovings):
            box = Box(columns.box_x(number), numbers_y, BOX_MM, line)
            yield Words(box, (str(number + 1),), TEXT_PT, bold=True, align="centre")

    def _totals(self, foot: Box) -> Iterator[Mark]:
        columns = self.columns
        for column in (*columns.small, *columns.ml):
            if column.total:
                yield cell(replace(column, size_pt=min(column.size_pt, _TOTAL_PT)), column.total, foot)
        words = all_sections()
        width = width_mm(words, TEXT_PT)
        x = columns.small[0].right - width if self.numbered == "left" else columns.name_x
        yield Words(Box(x, foot.y, width, foot.height), (words,), TEXT_PT)

    def _numbering(self, foot: Box, number: int, count: int, *, last: bool) -> Iterator[Mark]:
        words = _number_words(number, count)
        width = width_mm(words, TEXT_PT)
        box = Box(foot.right - width, foot.y, width, foot.height)
        if last and self.numbered == "left":
            box = Box(foot.x, foot.y, width, foot.height)
        elif last and self.numbered == "beneath":
            box = Box(box.x, foot.bottom, width, line_mm(TEXT_PT))
        yield Words(box, (words,), TEXT_PT)


def _number_words(number: int, count: int) -> str:
    return translate("Sheets", "sheet {number} of {count}").format(number=number, count=count)
