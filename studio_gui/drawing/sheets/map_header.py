"""Head of a section map: title, what is painted, a line for the lot.

The rule of this module: a title is in full on the first page, as large as there is room for; the pages after
it have it on one line. What belongs to the sheet as a whole, such as the side it is for, stands here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeAlias

from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.sheets.page import Box, Mark, Rule, Words
from studio_gui.drawing.sheets.type import line_mm, shortened, width_mm, wrapped
from studio_gui.drawing.sheets.wool_on_sheet import rovings_drawn
from studio_gui.wording.naming import one_line
from studio_gui.wording.section_table import errors_line, set_line
from studio_gui.wording.translation import translate

TITLE_PT, SMALLER_TITLE_PT, TEXT_PT = 28.0, 20.0, 16.0
LOT_MM = 62.0
_GAP_MM = 8.0
_MOST_TITLE_LINES = 5
_RULE_MM = 1.2
_LONGEST = 1_000

#: Words, and whether they are bold.
_Piece: TypeAlias = tuple[str, bool]


@dataclass(frozen=True)
class MapHeader:
    """What stands above the lay, in `inner`: where the page may be printed on."""

    sheet: Worksheet
    inner: Box
    mirrored: bool

    @property
    def height(self) -> float:
        """Height on the first page, mm, the rule beneath it included."""
        lines, size = self._title
        more = len(self._more_lines) + (0 if self._on_one_line else len(self._second_lines))
        return len(lines) * line_mm(size) + more * line_mm(TEXT_PT) + _RULE_MM

    @property
    def short_height(self) -> float:
        """Height on the pages after it, mm."""
        return line_mm(SMALLER_TITLE_PT) + len(self._more_lines) * line_mm(TEXT_PT) + _RULE_MM

    def marks(self) -> Iterator[Mark]:
        """Yield the head of the first page."""
        inner = self.inner
        lines, size = self._title
        height = len(lines) * line_mm(size)
        yield Words(Box(inner.x, inner.y, self._title_width, height), lines, size, bold=True)
        yield from self._lot(line_mm(size))
        y = inner.y + height
        if self._on_one_line:
            x = inner.right - LOT_MM - _GAP_MM - _width(self._pieces)
            yield from _in_a_line(self._pieces, Box(x, inner.y, 0.0, height))
        else:
            for pieces in self._second_lines:
                yield from _in_a_line(pieces, Box(inner.x, y, 0.0, line_mm(TEXT_PT)))
                y += line_mm(TEXT_PT)
        yield from self._more(y)

    def short_marks(self) -> Iterator[Mark]:
        """Yield the head of the pages after it."""
        inner, height = self.inner, line_mm(SMALLER_TITLE_PT)
        tag = tuple(piece for piece in self._pieces if piece[1])
        width = inner.width - LOT_MM - _GAP_MM
        if tag:
            width -= _width(tag) + _GAP_MM
            yield from _in_a_line(tag, Box(inner.x + width + _GAP_MM, inner.y, 0.0, height))
        title = shortened(self._words, width, SMALLER_TITLE_PT, bold=True)
        yield Words(Box(inner.x, inner.y, width, height), (title,), SMALLER_TITLE_PT, bold=True)
        yield from self._lot(height)
        yield from self._more(inner.y + height)

    @cached_property
    def _words(self) -> str:
        return one_line(self.sheet.plan.title, _LONGEST)

    @cached_property
    def _pieces(self) -> tuple[_Piece, ...]:
        """The side that the map is for, in bold, and what is painted."""
        plan, line = self.sheet.plan, set_line(self.sheet)
        drawn = rovings_drawn(plan)
        if drawn < plan.fibre.rovings:
            words = translate("SectionMap", "{line}; {drawn} rovings drawn")
            line = words.format(line=line, drawn=drawn)
        plain: tuple[_Piece, ...] = ((line, False),)
        if not self.mirrored:
            return plain
        side = (translate("SectionMap", "seen from the other side"), True)
        if self._is_room_beside_title(plain) and not self._is_room_beside_title((side, *plain)):
            return (side,)  # rather than a line more than the painter's own map has
        return (side, *plain)

    @cached_property
    def _second_lines(self) -> tuple[tuple[_Piece, ...], ...]:
        """The lines under the title, where it has one to itself."""
        if _width(self._pieces) <= self.inner.width:
            return (self._pieces,)
        return tuple(
            ((line, bold),)
            for words, bold in self._pieces
            for line in wrapped(words, self.inner.width, TEXT_PT, bold=bold)
        )

    @cached_property
    def _more_lines(self) -> tuple[str, ...]:
        """Lines in bold of what the painter has to know before the first drop."""
        return wrapped(errors_line(self.sheet), self.inner.width, TEXT_PT, bold=True)

    @cached_property
    def _on_one_line(self) -> bool:
        """Whether what is painted fits beside the title."""
        return self._is_room_beside_title(self._pieces)

    def _is_room_beside_title(self, pieces: Sequence[_Piece]) -> bool:
        needed = width_mm(self._words, TITLE_PT, bold=True) + _width(pieces)
        return needed + 2.0 * _GAP_MM + LOT_MM <= self.inner.width

    @cached_property
    def _title_width(self) -> float:
        if self._on_one_line:
            return width_mm(self._words, TITLE_PT, bold=True) + 0.1
        return self.inner.width - LOT_MM - _GAP_MM

    @cached_property
    def _title(self) -> tuple[tuple[str, ...], float]:
        """Lines and size of the title."""
        width = self._title_width
        lines: tuple[str, ...] = ()
        for size, most in ((TITLE_PT, 1), (SMALLER_TITLE_PT, 2), (TEXT_PT, _MOST_TITLE_LINES)):
            lines = wrapped(self._words, width, size, bold=True) or ("",)
            if len(lines) <= most:
                return lines, size
        kept = lines[: _MOST_TITLE_LINES - 1]
        rest = shortened(" ".join(lines[len(kept) :]), width, TEXT_PT, bold=True)
        return (*kept, rest), TEXT_PT

    def _lot(self, height: float) -> Iterator[Mark]:
        right, y = self.inner.right, self.inner.y
        words = translate("SectionMap", "Lot")
        width = width_mm(words, TEXT_PT)
        yield Words(Box(right - LOT_MM, y, width, height), (words,), TEXT_PT)
        foot = y + height / 2.0 + line_mm(TEXT_PT) * 0.32
        yield Rule(right - LOT_MM + width + 3.0, foot, right, foot, 0.25)

    def _more(self, y: float) -> Iterator[Mark]:
        if self._more_lines:
            height = len(self._more_lines) * line_mm(TEXT_PT)
            box = Box(self.inner.x, y, self.inner.width, height)
            yield Words(box, self._more_lines, TEXT_PT, bold=True)
            y += height
        yield Rule(self.inner.x, y + _RULE_MM / 2.0, self.inner.right, y + _RULE_MM / 2.0, 0.6)


def _width(pieces: Sequence[_Piece]) -> float:
    widths = [width_mm(words, TEXT_PT, bold=bold) for words, bold in pieces]
    return sum(widths) + _GAP_MM * (len(widths) - 1)


def _in_a_line(pieces: Sequence[_Piece], line: Box) -> Iterator[Mark]:
    x = line.x
    for words, bold in pieces:
        width = width_mm(words, TEXT_PT, bold=bold)
        yield Words(Box(x, line.y, width, line.height), (words,), TEXT_PT, bold)
        x += width + _GAP_MM
