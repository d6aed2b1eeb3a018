"""Columns of the section map: how wide each is, and which of its arrangements a plan needs.

The rule of this module: columns stand alike on every page of a map. Figures are as large as fit; names have
what is left, and go above the figures where that is too little. Tick boxes, one to a roving, stand beside the
figures, beneath them, or, for very many rovings, give way to one field for a tally.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

from studio_gui.drawing.sheets.page import Align, Box
from studio_gui.drawing.sheets.type import width_mm, wrapped
from studio_gui.wording.section_table import SectionTable
from studio_gui.wording.translation import translate

TEXT_PT = 16.0
#: Sizes of the ml of the set and of what comes after it, the best first; the last two for huge amounts only.
ML_PT = ((34.0, 30.0), (30.0, 28.0), (28.0, 28.0), (20.0, 20.0), (16.0, 16.0))
_READABLE = 3
#: With more sections the largest size makes rows too high for a page of eight.
_MOST_AT_LARGEST = 6
SLIP_COLUMN_MM = 15.0
LEAST_NAME_MM = 45.0
GAP_MM = 5.0
BOX_MM, BOX_PITCH_MM = 12.0, 15.0
#: Rovings that have a box each: as many as stand side by side on Letter.
MOST_TICKED = 16

Ticks = Literal["beside", "beneath", "tally"]


@dataclass(frozen=True, slots=True)
class Column:
    """One column of figures: its heading broken into lines, where it ends, mm, and its type."""

    heading: tuple[str, ...]
    cells: tuple[str, ...]
    total: str
    size_pt: float
    bold: bool
    width: float
    right: float = 0.0
    align: Align = "right"


@dataclass(frozen=True)
class Columns:
    """All columns of a map in `inner`: where the page may be printed on.

    `stacked` when the places, lengths and grams stand under the name instead of beside it; `name_width` is
    the room that a name has.
    """

    inner: Box
    table: SectionTable
    rovings: int
    stacked: bool
    name_width: float
    small: tuple[Column, ...]
    ml: tuple[Column, ...]
    ticks: Ticks

    @property
    def name_x(self) -> float:
        """Where names begin, mm."""
        return self.inner.x + SLIP_COLUMN_MM

    @property
    def heading_lines(self) -> int:
        """Lines that the highest heading takes."""
        return max(len(column.heading) for column in (*self.small, *self.ml))

    def box_x(self, number: int) -> float:
        """Return where the tick box of roving `number` (from 0) begins, mm."""
        first = self.name_x
        if self.ticks == "beside":
            first = self.inner.right - (self.rovings - 1) * BOX_PITCH_MM - BOX_MM
        return first + number * BOX_PITCH_MM


def all_sections() -> str:
    """Return what the totals are called; they stand under names or, stacked, under the places."""
    return translate("SectionMap", "All sections")


def fitting_columns(table: SectionTable, rovings: int, inner: Box) -> list[Columns]:
    """Return the arrangements that fit into `inner`, the handsomer first: beside each other, and stacked."""
    fitting: list[Columns] = []
    for choice in _arrangements(len(table), rovings):
        columns = _arranged(table, rovings, inner, choice)
        if fitting and (columns.stacked == fitting[0].stacked or columns.ticks != fitting[0].ticks):
            continue
        if columns.name_width >= _least_name(columns):
            fitting.append(columns)
            if columns.stacked or len(fitting) == 2:
                break
    return fitting or [columns]


class _Arrangement(NamedTuple):
    stacked: bool
    ticks: Ticks
    sizes: tuple[float, float]
    broken: bool  # headings, where they are wider than their figures


def _arrangements(sections: int, rovings: int) -> Iterator[_Arrangement]:
    places: tuple[Ticks, ...] = ("beside", "beneath") if rovings <= MOST_TICKED else ("tally",)
    first = 0 if sections <= _MOST_AT_LARGEST else 1
    for readable in (ML_PT[first:_READABLE], ML_PT[_READABLE:]):
        for ticks in places:
            for stacked in (False, True):
                for broken in (False, True):
                    for sizes in readable:
                        yield _Arrangement(stacked, ticks, sizes, broken)


def _least_name(columns: Columns) -> float:
    if columns.stacked:
        return _sum_of_widths(columns.small)
    return LEAST_NAME_MM


def _sum_of_widths(columns: Sequence[Column]) -> float:
    return sum(column.width for column in columns) + GAP_MM * max(len(columns) - 1, 0)


def _arranged(table: SectionTable, rovings: int, inner: Box, choice: _Arrangement) -> Columns:
    stacked, ticks = choice.stacked, choice.ticks
    small = tuple(_small_columns(table, broken=choice.broken))
    ml = tuple(_ml_columns(table, rovings, choice))
    right = inner.right
    if ticks == "beside":
        right -= (rovings - 1) * BOX_PITCH_MM + BOX_MM + GAP_MM
    ml, right = _set_from_the_right(ml, right)
    if not stacked:
        small, right = _set_from_the_right(small, right)
    name_x = inner.x + SLIP_COLUMN_MM
    if stacked:
        small = _set_from_the_left((replace(small[0], align="left"), *small[1:]), name_x)
    return Columns(inner, table, rovings, stacked, right - name_x, small, ml, ticks)


def _set_from_the_right(columns: Sequence[Column], right: float) -> tuple[tuple[Column, ...], float]:
    """Return the columns placed so that the last one ends at `right`, and where the one before would end."""
    placed: list[Column] = []
    for column in reversed(columns):
        placed.append(replace(column, right=right))
        right -= column.width + GAP_MM
    return tuple(reversed(placed)), right


def _set_from_the_left(columns: Sequence[Column], left: float) -> tuple[Column, ...]:
    placed: list[Column] = []
    for column in columns:
        placed.append(replace(column, right=left + column.width))
        left += column.width + GAP_MM
    return tuple(placed)


def _small_columns(table: SectionTable, *, broken: bool) -> Iterator[Column]:
    spans = tuple(
        translate("SectionMap", "{0} to {1}").format(table.places[row], table.places[row + 1])
        for row in range(len(table))
    )
    places = _column(translate("SectionMap", "From, to"), spans, "", TEXT_PT, broken=broken)
    yield replace(places, width=max(places.width, width_mm(all_sections(), TEXT_PT)))
    for figures in (table.lengths, table.grams):
        yield _column(figures.symbol, figures.cells, figures.total, TEXT_PT, broken=broken)


def _ml_columns(table: SectionTable, rovings: int, choice: _Arrangement) -> Iterator[Column]:
    unit = table.set_ml.symbol
    set_pt, each_pt = choice.sizes
    all_of_them = translate("SectionMap", "{unit}, all\u00a0{rovings}").format(unit=unit, rovings=rovings)
    columns = [(unit if table.each_ml is None else all_of_them, table.set_ml, set_pt)]
    if table.each_ml is not None:
        columns.append((translate("SectionMap", "{unit} each").format(unit=unit), table.each_ml, each_pt))
    if table.strand_ml is not None:
        heading = translate("SectionMap", "{unit} a strand").format(unit=unit)
        columns.append((heading, table.strand_ml, each_pt))
    for heading, figures, size_pt in columns:
        yield _column(heading, figures.cells, figures.total, size_pt, broken=choice.broken, bold=True)


def _column(
    heading: str, cells: tuple[str, ...], total: str, size_pt: float, *, broken: bool, bold: bool = False
) -> Column:
    longest = sorted({*cells, total}, key=len)[-8:]  # figures are all alike wide, signs narrower
    widest = max(width_mm(cell, size_pt, bold=bold) for cell in longest)
    lines: tuple[str, ...] = (heading,)
    if broken:
        lines = wrapped(heading, max(widest, _widest_word(heading), _two_lines(heading)), TEXT_PT)
    width = max(widest, *(width_mm(line, TEXT_PT) for line in lines))
    return Column(lines, cells, total, size_pt, bold, width)


def _widest_word(heading: str) -> float:
    return max(width_mm(word, TEXT_PT) for word in heading.split())


def _two_lines(heading: str) -> float:
    """Return the width in which a heading takes two lines at most."""
    words = heading.split()
    return min(
        max(width_mm(" ".join(words[:cut]), TEXT_PT), width_mm(" ".join(words[cut:]), TEXT_PT))
        for cut in range(1, len(words) + 1)
    )
