"""Text in columns: what has no room in one goes on in the next, and on the next page.

The rule of this module: a line is never cut in two, a heading never stands alone at a column's foot, and no
word is lost: what is too wide is wrapped.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from studio_gui.drawing.sheets.page import Box, Frame, Mark, Words
from studio_gui.drawing.sheets.type import line_mm, width_mm, wrapped

#: By how much headings are larger.
HEADING_PT = 2.0
_ABOVE_HEADING_MM, _BELOW_HEADING_MM, _BELOW_LINE_MM = 3.0, 0.8, 0.7
_CHIP_MM, _BESIDE_CHIP_MM, _APART_MM = 3.4, 1.8, 3.0


@dataclass(frozen=True, slots=True)
class Entry:
    """A heading, a sentence, or a name with its figure at the right; `colours` stand before it as a chip."""

    words: str
    figure: str = ""
    is_heading: bool = False
    colours: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Set:
    """An entry set for a width: lines at the left, and the figure's lines, beside or beneath them."""

    entry: Entry
    lines: tuple[str, ...]
    figure: tuple[str, ...]
    beneath: bool
    text_pt: float

    @property
    def size_pt(self) -> float:
        return self.text_pt + HEADING_PT if self.entry.is_heading else self.text_pt

    @property
    def height(self) -> float:
        rows = len(self.lines) + len(self.figure) if self.beneath else max(len(self.lines), len(self.figure))
        return rows * line_mm(self.size_pt) + (_BELOW_HEADING_MM if self.entry.is_heading else _BELOW_LINE_MM)

    def marks(self, x: float, y: float, width: float) -> Iterator[Mark]:
        line = line_mm(self.size_pt)
        indent = _indent(self.entry)
        if self.entry.colours:
            chip = Box(x, y + (line - _CHIP_MM) / 2.0, _CHIP_MM, _CHIP_MM)
            yield from _chip(chip, self.entry.colours)
        figure = max((width_mm(one, self.text_pt, bold=True) for one in self.figure), default=0.0) + 0.01
        room = width - indent if self.beneath or not self.figure else width - indent - figure
        box = Box(x + indent, y, room, len(self.lines) * line)
        yield Words(box, self.lines, self.size_pt, bold=self.entry.is_heading)
        if self.figure:
            y += box.height if self.beneath else 0.0
            box = Box(x + width - figure, y, figure, len(self.figure) * line)
            yield Words(box, self.figure, self.text_pt, bold=True, align="right")


def flowed(
    entries: Iterable[Entry], columns: Iterator[tuple[int, Box]], text_pt: float
) -> dict[int, list[Mark]]:
    """Return the marks of entries by page; `columns` yields page and box of one column after another.

    Columns have to be wide enough for a word and high enough for an entry.
    """
    found: dict[int, list[Mark]] = {}
    page, box = next(columns)
    y = box.y
    for group in _groups(entries):
        parts = [_set(entry, box.width, text_pt) for entry in group]
        above = _ABOVE_HEADING_MM if group[0].is_heading and y > box.y else 0.0
        if y + above + sum(part.height for part in parts) > box.bottom + 1e-6:
            page, box = next(columns)
            y, above = box.y, 0.0
            parts = [_set(entry, box.width, text_pt) for entry in group]
        y += above
        for part in parts:
            found.setdefault(page, []).extend(part.marks(box.x, y, box.width))
            y += part.height
    return found


def _groups(entries: Iterable[Entry]) -> Iterator[Sequence[Entry]]:
    """Yield entries one by one, a heading together with what follows it."""
    waiting: list[Entry] = []
    for entry in entries:
        waiting.append(entry)
        if not entry.is_heading:
            yield tuple(waiting)
            waiting = []


def _set(entry: Entry, width: float, text_pt: float) -> _Set:
    room = width - _indent(entry)
    if not entry.figure:
        size = text_pt + HEADING_PT if entry.is_heading else text_pt
        lines = wrapped(entry.words, room, size, bold=entry.is_heading)
        return _Set(entry, lines, (), False, text_pt)
    beside = room - width_mm(entry.figure, text_pt, bold=True) - _APART_MM
    if beside >= min(width_mm(entry.words, text_pt), 0.3 * width):
        return _Set(entry, wrapped(entry.words, beside, text_pt), (entry.figure,), False, text_pt)
    figure = wrapped(entry.figure, width, text_pt, bold=True)
    return _Set(entry, wrapped(entry.words, room, text_pt), figure, True, text_pt)


def _indent(entry: Entry) -> float:
    return _CHIP_MM + _BESIDE_CHIP_MM if entry.colours else 0.0


def _chip(box: Box, colours: Sequence[str]) -> Iterator[Mark]:
    """Yield colours side by side, the first strand's at the left."""
    part = box.width / len(colours)
    for number, colour in enumerate(colours):
        yield Frame(Box(box.x + number * part, box.y, part, box.height), 0.0, fill=colour)
    yield Frame(box, 0.2)
