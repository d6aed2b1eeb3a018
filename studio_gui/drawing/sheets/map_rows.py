"""Rows of the section map: one section each, as high as its words need.

The rule of this module: names and notes are wrapped in full, never cut, at the size of all text; only a name
too long for a whole page is set smaller until it fits. Rows know their height before they are placed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.sheets.lay_strip import colour_band
from studio_gui.drawing.sheets.map_columns import BOX_MM, GAP_MM, TEXT_PT, Column, Columns
from studio_gui.drawing.sheets.page import WHITE, Box, Frame, Mark, Words
from studio_gui.drawing.sheets.type import line_mm, shortened, width_mm, wrapped
from studio_gui.wording.translation import translate

LEAST_BAND_MM, MOST_BAND_MM = 13.6, 20.0
LETTER_PT = 22.0
STRAND_PT = 28.0
_SLIP_MM = 12.0
#: The number of a strand.
_PLACE_MM = 9.0
_EDGE_MM = 0.7
#: Sizes of words that do not fit on a page at the size of all text.
_SMALLER_PT = (TEXT_PT, 12.0, 9.0, 6.0)


@dataclass(frozen=True)
class Row:
    """Section `index`, laid out in its columns.

    `above` are the lines of a name too long for its column, `beside` the bold lines of the name and, plain,
    what else fits under it; `below` all other notes. `text_pt` is the size of what stands above and below.
    """

    sheet: Worksheet
    columns: Columns
    index: int
    above: tuple[str, ...] = ()
    name: tuple[str, ...] = ()
    beside: tuple[str, ...] = ()
    below: tuple[str, ...] = ()
    text_pt: float = TEXT_PT
    strands: tuple[tuple[str, ...], ...] = field(default=())

    @property
    def band(self) -> float:
        """Least height of the line with the figures, mm."""
        lines = 2 if self.columns.stacked else len(self.name) + len(self.beside)
        return max(
            LEAST_BAND_MM, lines * line_mm(TEXT_PT), *(line_mm(column.size_pt) for column in self.columns.ml)
        )

    @property
    def can_grow(self) -> float:
        """Height that would do the row good, mm."""
        return max(MOST_BAND_MM - self.band, 0.0)

    @property
    def height(self) -> float:
        """Least height of the row, mm."""
        height = self.band + len(self.strands) * line_mm(STRAND_PT)
        height += (len(self.above) + len(self.below)) * line_mm(self.text_pt)
        return height + (0.0 if self.columns.ticks == "beside" else BOX_MM + 2.0 * _EDGE_MM)

    def marks(self, y: float, grown: float) -> Iterator[Mark]:
        """Yield the row's marks from `y` downwards, `grown` mm higher than it has to be."""
        columns, table = self.columns, self.columns.table
        line, wide = line_mm(self.text_pt), columns.inner.right - columns.name_x
        band_height = self.band + grown
        if self.above or self.below or self.strands:  # which stay together
            y, band_height = y + grown / 2.0, self.band
        slip_y = y + _EDGE_MM if self.above else y + (band_height - _SLIP_MM) / 2.0
        yield from _slip(self.sheet, table.letters[self.index], self.index, columns.inner.x, slip_y)
        if self.above:
            box = Box(columns.name_x, y, wide, len(self.above) * line)
            yield Words(box, self.above, self.text_pt, bold=True)
            y += box.height
        band = Box(columns.name_x, y, columns.name_width, band_height)
        yield from self._band_marks(band)
        if columns.ticks == "beside":
            yield from _boxes(columns, y + (band.height - BOX_MM) / 2.0)
        y = band.bottom
        if self.below:
            yield Words(Box(columns.name_x, y, wide, len(self.below) * line), self.below, self.text_pt)
            y += len(self.below) * line
        first = 1
        for strand_line in self.strands:
            yield from _strand_marks(strand_line, first, columns, y)
            first += len(strand_line)
            y += line_mm(STRAND_PT)
        if columns.ticks != "beside":
            yield from _boxes(columns, y + _EDGE_MM)

    def _band_marks(self, band: Box) -> Iterator[Mark]:
        columns, line = self.columns, line_mm(TEXT_PT)
        if columns.stacked:
            y = band.y + band.height / 2.0 - line
            yield from self._name_line(Box(band.x, y, band.width, line))
            small = Box(0.0, y + line, 0.0, line)
        else:
            y = band.y + (band.height - (len(self.name) + len(self.beside)) * line) / 2.0
            for words, bold in ((self.name, True), (self.beside, False)):
                if words:
                    yield Words(Box(band.x, y, band.width, len(words) * line), words, TEXT_PT, bold)
                    y += len(words) * line
            small = band
        for column in columns.small:
            yield cell(column, column.cells[self.index], small)
        for column in columns.ml:
            yield cell(column, column.cells[self.index], band)

    def _name_line(self, line: Box) -> Iterator[Words]:
        """Yield the name and, behind it, what else fits on its line."""
        x = line.x
        for words, bold in ((self.name, True), (self.beside, False)):
            if words:
                width = width_mm(words[0], TEXT_PT, bold=bold)
                yield Words(Box(x, line.y, width, line.height), words, TEXT_PT, bold)
                x += width + GAP_MM


def map_rows(sheet: Worksheet, columns: Columns, most_mm: float) -> list[Row]:
    """Return the rows of all sections, none higher than `most_mm`."""
    return [_row(sheet, columns, index, most_mm) for index in range(len(columns.table))]


def cell(column: Column, words: str, line: Box) -> Words:
    """Return one figure of a column, in the height of `line`."""
    box = Box(column.right - column.width, line.y, column.width, line.height)
    return Words(box, (words,), column.size_pt, column.bold, column.align)


def _row(sheet: Worksheet, columns: Columns, index: int, most_mm: float) -> Row:
    for size_pt in _SMALLER_PT:
        row = _row_of_size(sheet, columns, index, size_pt)
        if row.height <= most_mm:
            return row
    return _cut(row, most_mm)


def _row_of_size(sheet: Worksheet, columns: Columns, index: int, text_pt: float) -> Row:
    table, width = columns.table, columns.name_width
    wide = columns.inner.right - columns.name_x
    name = wrapped(table.names[index] or table.liquors[index], width, TEXT_PT, bold=True)
    extras = [table.liquors[index]] if table.names[index] and table.liquors[index] else []
    extras += table.notes[index]
    above: tuple[str, ...] = ()
    if len(name) > (1 if columns.stacked else 2):
        whole = table.names[index] or table.liquors[index]
        name, above = (), wrapped(whole, wide, text_pt, bold=True)
    beside, left = _beside(name, extras, columns)
    below = wrapped("; ".join(left), wide, text_pt)
    return Row(sheet, columns, index, above, name, beside, below, text_pt, _strand_lines(columns, index))


def _beside(
    name: tuple[str, ...], extras: Sequence[str], columns: Columns
) -> tuple[tuple[str, ...], Sequence[str]]:
    """Return the line of extras that fits under a name or, stacked, behind it, and which are left over."""
    room = columns.name_width
    if columns.stacked:
        room -= width_mm(name[0], TEXT_PT, bold=True) + GAP_MM if name else 0.0
    elif len(name) > 1:
        return (), extras
    for count in range(len(extras), 0, -1):
        line = "; ".join(extras[:count])
        if width_mm(line, TEXT_PT) <= room:
            return (line,), extras[count:]
    return (), extras


def _cut(row: Row, most_mm: float) -> Row:
    """Return a row of absurdly wide letters with as many lines as a page has, the last one shortened."""
    spare = int((most_mm - row.height) / line_mm(row.text_pt)) - 1
    wide = row.columns.inner.right - row.columns.name_x
    above, below = list(row.above), list(row.below)
    for lines, bold in ((below, False), (above, True)):
        fewer = max(len(lines) + spare, 1) if lines else 0
        spare += len(lines) - fewer
        if fewer < len(lines):
            lines[fewer - 1 :] = [shortened(" ".join(lines[fewer - 1 :]), wide, row.text_pt, bold=bold)]
    return Row(
        row.sheet,
        row.columns,
        row.index,
        tuple(above),
        row.name,
        row.beside,
        tuple(below),
        row.text_pt,
        row.strands,
    )


def _slip(sheet: Worksheet, letter: str, index: int, x: float, y: float) -> Iterator[Mark]:
    slip = Box(x, y, _SLIP_MM, _SLIP_MM)
    yield Frame(slip, 0.5, 1.2, fill=WHITE)
    yield colour_band(sheet, index, slip)
    size = LETTER_PT
    while size > TEXT_PT and width_mm(letter, size, bold=True) > _SLIP_MM - 1.0:
        size -= 1.0
    said = shortened(letter, _SLIP_MM - 1.0, size, bold=True)
    yield Words(Box(x + 0.5, y + 0.4, _SLIP_MM - 1.0, _SLIP_MM - 2.6), (said,), size, True, "centre")


def _boxes(columns: Columns, y: float) -> Iterator[Mark]:
    if columns.ticks == "tally":
        line = Box(columns.name_x, y, columns.inner.right - columns.name_x, BOX_MM)
        words = translate("SectionMap", "tally of {0} rovings").format(columns.rovings)
        width = width_mm(words, TEXT_PT)
        yield Words(Box(line.x, y, width, BOX_MM), (words,), TEXT_PT)
        yield Frame(Box(line.x + width + 3.0, y, line.width - width - 3.0, BOX_MM), 0.4, 1.0)
        return
    for number in range(columns.rovings):
        yield Frame(Box(columns.box_x(number), y, BOX_MM, BOX_MM), 0.4, 1.0)


def _strand_lines(columns: Columns, index: int) -> tuple[tuple[str, ...], ...]:
    """Return the amounts of strands that differ, line by line."""
    strands = columns.table.strands_ml
    if not strands:
        return ()
    cells = [column.cells[index] for column in strands]
    room = columns.inner.right - columns.name_x - _strand_label(columns)[1]
    in_a_line = max(int(room / _strand_cell(columns)), 1)
    return tuple(tuple(cells[first : first + in_a_line]) for first in range(0, len(cells), in_a_line))


def _strand_label(columns: Columns) -> tuple[str, float]:
    words = translate("SectionMap", "{unit} a strand").format(unit=columns.table.set_ml.symbol)
    return words, width_mm(words, TEXT_PT) + GAP_MM


def _strand_cell(columns: Columns) -> float:
    widest = max((cell for column in columns.table.strands_ml for cell in column.cells), key=len)
    return width_mm(widest, STRAND_PT, bold=True) + _PLACE_MM + 1.0 + GAP_MM


def _strand_marks(cells: Sequence[str], first: int, columns: Columns, y: float) -> Iterator[Mark]:
    words, width = _strand_label(columns)
    height = line_mm(STRAND_PT)
    yield Words(Box(columns.name_x, y, width, height), (words,), TEXT_PT)
    for number, amount in enumerate(cells):
        x = columns.name_x + width + number * _strand_cell(columns)
        place = translate("SectionMap", "{0}:").format(first + number)
        yield Words(Box(x, y, _PLACE_MM, height), (place,), TEXT_PT, align="right")
        box = Box(x + _PLACE_MM + 1.0, y, _strand_cell(columns) - _PLACE_MM - 1.0 - GAP_MM, height)
        yield Words(box, (amount,), STRAND_PT, bold=True)
