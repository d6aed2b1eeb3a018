"""The yarn page: what the roving becomes, how it is spun, and what comes of it.

The rule of this module: pictures stand above, words beneath; whatever has no room on the first page goes on
in columns on the next. Figures are those of one roving, as on the screen.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from studio_gui.domain.spinning.swatch import KnittedRows
from studio_gui.domain.strip import strip_runs
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.drawing.sheets.flow import flowed
from studio_gui.drawing.sheets.lane import Lane
from studio_gui.drawing.sheets.page import Box, Mark, Page, Picture, Rule, Words
from studio_gui.drawing.sheets.paper import MARGIN_MM
from studio_gui.drawing.sheets.sheet_head import page_name
from studio_gui.drawing.sheets.type import line_mm, shortened, width_mm, wrapped
from studio_gui.drawing.sheets.yarn_facts import yarn_entries
from studio_gui.drawing.sheets.yarn_pictures import (
    HAIR_ROOM_MM,
    STRIP_ROOM_MM,
    YarnPictures,
)
from studio_gui.wording.knit_words import no_swatch, swatch_line
from studio_gui.wording.naming import one_line
from studio_gui.wording.quantities import ROVING_LENGTH, shown
from studio_gui.wording.section_table import set_line
from studio_gui.wording.spinning import structure_name
from studio_gui.wording.translation import translate
from studio_gui.wording.yarn_words import solid_words, yarn_length

TITLE_PT, NAME_PT, LETTER_PT, TEXT_PT, SMALL_PT = 24.0, 14.0, (14.0, 10.0), 12.0, 11.0
TEXTS_PT = (12.0, 11.0, 10.5)
_LOT_MM, _PAGE_MM, _LONGEST_TITLE = 60.0, 40.0, 300
_NAMES_MM, _APART_MM, _COLUMNS_APART_MM = 34.0, 2.5, 7.0
STRIP_MM, YARN_MM, MAP_MM = 11.0, 19.0, 13.5
_SWATCH_SHARE = 0.4
_COLUMNS = 3


def yarn_pages(sheet: Worksheet, choices: Choices) -> tuple[Page, ...]:
    """Return the yarn page, and what has no room on it on further ones."""
    return _YarnSheet(sheet, choices.paper.landscape()).pages()


@dataclass(frozen=True)
class _YarnSheet:
    sheet: Worksheet
    paper: Box

    def pages(self) -> tuple[Page, ...]:
        first = [*self._pictures()]
        texts = self._texts()
        count = max(texts, default=0) + 1
        found = []
        for number in range(count):
            marks = [*self._head(number, count), *(first if number == 0 else ()), *texts.get(number, ())]
            found.append(
                Page(self.paper, tuple(marks), page_name(translate("Sheets", "Yarn"), number + 1, count))
            )
        return tuple(found)

    def _texts(self) -> dict[int, list[Mark]]:
        """Return the words by page: a little smaller where all of them then fit on the first."""
        entries = tuple(yarn_entries(self.sheet))
        for size in TEXTS_PT:
            found = flowed(entries, self._columns(), size)
            if max(found) == 0:
                return found
        return flowed(entries, self._columns(), TEXTS_PT[0])

    @property
    def _inner(self) -> Box:
        return self.paper.inset(MARGIN_MM)

    # -- head ----------------------------------------------------------------------------------------------

    @cached_property
    def _about(self) -> tuple[str, ...]:
        plan = self.sheet.plan
        structure = structure_name(plan.yarn.structure, folded=plan.lay.passes > 1)
        return wrapped(f"{structure} · {set_line(self.sheet)}", self._inner.width - _PAGE_MM, NAME_PT)

    @property
    def _head_height(self) -> float:
        return line_mm(TITLE_PT) + len(self._about) * line_mm(NAME_PT) + 2.0

    def _head(self, number: int, count: int) -> Iterator[Mark]:
        inner, height = self._inner, line_mm(TITLE_PT)
        title = Box(inner.x, inner.y, inner.width - _LOT_MM - 5.0, height)
        words = shortened(one_line(self.sheet.plan.title, _LONGEST_TITLE), title.width, TITLE_PT, bold=True)
        yield Words(title, (words,), TITLE_PT, bold=True)
        lot = translate("YarnSheet", "Lot")
        width = width_mm(lot, NAME_PT) + 0.1
        x = inner.right - _LOT_MM
        yield Words(Box(x, inner.y, width, height), (lot,), NAME_PT)
        foot = inner.y + height / 2.0 + 0.32 * line_mm(NAME_PT)
        yield Rule(x + width + 3.0, foot, inner.right, foot, 0.25)
        y = inner.y + height
        box = Box(inner.x, y, inner.width - _PAGE_MM, len(self._about) * line_mm(NAME_PT))
        yield Words(box, self._about, NAME_PT)
        box = Box(inner.right - _PAGE_MM, y, _PAGE_MM, line_mm(NAME_PT))
        yield Words(
            box,
            (page_name(translate("Sheets", "Yarn"), number + 1, count),),
            TEXT_PT,
            bold=True,
            align="right",
        )
        y = inner.y + self._head_height - 0.6
        yield Rule(inner.x, y, inner.right, y, 0.6)

    # -- pictures ------------------------------------------------------------------------------------------

    @cached_property
    def _rows(self) -> tuple[Box, Box, Box]:
        """Where strip, yarn and map lie."""
        inner = self._inner
        x, width = inner.x + _NAMES_MM, inner.width - _NAMES_MM
        folds = line_mm(SMALL_PT) if self.sheet.plan.lay.fold_positions_m else 0.0
        strip = Box(x, inner.y + self._head_height + 2.0 + folds, width, STRIP_MM)
        yarn = Box(x, strip.bottom + line_mm(LETTER_PT[0]) + _APART_MM, width, YARN_MM)
        return strip, yarn, Box(x, yarn.bottom + _APART_MM, width, MAP_MM)

    @property
    def _below(self) -> Box:
        """What the pictures leave of the first page."""
        top, inner = self._rows[2].bottom + 3.0, self._inner
        return Box(inner.x, top, inner.width, inner.bottom - top)

    def _pictures(self) -> Iterator[Mark]:
        pictures, yarn = YarnPictures(self.sheet), self.sheet.yarn
        strip, twisted, mapped = self._rows
        box = Box(strip.x, strip.y - STRIP_ROOM_MM, strip.width, strip.height + 2.0 * STRIP_ROOM_MM)
        yield Picture(box, pictures.strip)
        yield from self._strip_letters(strip)
        yield from _named(
            strip, translate("YarnSheet", "Strip"), shown(ROVING_LENGTH, self.sheet.plan.fibre.length_m)
        )
        names = [translate("YarnSheet", "Yarn"), yarn_length(yarn)]
        rows = KnittedRows(yarn)
        if yarn.laid_m > 0.0:
            names.append(translate("YarnSheet", "twist not to scale"))
        yield from _named(twisted, *names)
        if yarn.laid_m <= 0.0:
            yield Words(twisted, wrapped(no_swatch(rows), twisted.width, NAME_PT), NAME_PT)
            return
        box = Box(twisted.x, twisted.y - HAIR_ROOM_MM, twisted.width, twisted.height + 2.0 * HAIR_ROOM_MM)
        yield Picture(box, pictures.yarn)
        yield from _named(mapped, translate("YarnSheet", "Map"), solid_words(yarn))
        yield Picture(mapped, pictures.map)
        yield from self._swatch(pictures, rows)

    def _strip_letters(self, strip: Box) -> Iterator[Mark]:
        """Yield letters beneath the runs that have room for them, with ticks between, and folds above."""
        plan = self.sheet.plan
        scale = strip.width / plan.fibre.length_m
        lane = Lane(Box(strip.x, strip.bottom + 0.8, strip.width, line_mm(LETTER_PT[0])))
        for run in strip_runs(plan):
            left, right = strip.x + run.start_m * scale, strip.x + run.end_m * scale
            letter = one_line(plan.liquor(plan.sections[run.section_index].liquor_id).letter)
            fits = (size for size in LETTER_PT if width_mm(letter, size, bold=True) <= right - left - 0.8)
            size = next(fits, None)
            words = size and lane.about((left + right) / 2.0, letter, size, bold=True)
            if words:
                yield words
                if left > strip.x:
                    yield Rule(left, strip.bottom + 1.6, left, strip.bottom + 5.2, 0.25)
        fold = translate("YarnSheet", "fold")
        above = Lane(Box(strip.x, strip.y - line_mm(SMALL_PT) - 0.8, strip.width, line_mm(SMALL_PT)))
        for place_m in plan.lay.fold_positions_m:
            x = strip.x + place_m * scale
            yield Rule(x, strip.y - line_mm(SMALL_PT), x, strip.y + STRIP_MM, 0.3, dash_mm=1.0)
            words = above.beside(x, fold, (SMALL_PT,))
            if words is not None:
                yield words

    def _swatch(self, pictures: YarnPictures, rows: KnittedRows) -> Iterator[Mark]:
        below = self._below
        width = _SWATCH_SHARE * below.width
        heading = Box(below.x, below.y, width, line_mm(NAME_PT))
        yield Words(heading, (translate("YarnSheet", "Knitted swatch"),), NAME_PT, bold=True)
        told = swatch_line(rows)
        if rows.rows and not pictures.swatch_shows_all(width, below.height):
            framed = translate("YarnSheet", "The frame at the right: which of all rows are drawn.")
            told = f"{told}. {framed}"
        lines = wrapped(told, width, TEXT_PT)
        said = Box(below.x, heading.bottom, width, len(lines) * line_mm(TEXT_PT))
        yield Words(said, lines, TEXT_PT)
        if rows.rows:
            top = said.bottom + 1.5
            yield Picture(Box(below.x, top, width, below.bottom - top), pictures.swatch)

    # -- words ---------------------------------------------------------------------------------------------

    def _columns(self) -> Iterator[tuple[int, Box]]:
        """Yield the columns of words: two beside the swatch, then three on every page."""
        below, inner = self._below, self._inner
        if self.sheet.yarn.laid_m > 0.0:
            x = below.x + _SWATCH_SHARE * below.width + _COLUMNS_APART_MM
            yield from ((0, box) for box in _split(Box(x, below.y, below.right - x, below.height), 2))
        else:
            yield from ((0, box) for box in _split(below, _COLUMNS))
        top = inner.y + self._head_height + 2.0
        whole = Box(inner.x, top, inner.width, inner.bottom - top)
        page = 1
        while True:
            yield from ((page, box) for box in _split(whole, _COLUMNS))
            page += 1


def _split(box: Box, count: int) -> Iterator[Box]:
    width = (box.width - (count - 1) * _COLUMNS_APART_MM) / count
    for number in range(count):
        yield Box(box.x + number * (width + _COLUMNS_APART_MM), box.y, width, box.height)


def _named(row: Box, *words: str) -> Iterator[Mark]:
    """Yield what a picture is called, with its figures, left of its middle."""
    sizes = [NAME_PT, TEXT_PT, SMALL_PT][: len(words)]
    height = sum(line_mm(size) for size in sizes)
    y = row.y + (row.height - height) / 2.0
    for number, (size, said) in enumerate(zip(sizes, words, strict=True)):
        box = Box(row.x - _NAMES_MM, y, _NAMES_MM - 3.0, line_mm(size))
        line = shortened(said, box.width, size, bold=number == 0)
        yield Words(box, (line,), size, bold=number == 0)
        y = box.bottom
