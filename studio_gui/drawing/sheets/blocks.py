"""Blocks: parts of a sheet that know their height before they are placed.

The rule of this module: a block is laid out from its own corner and moved to where there is room; words are
wrapped in full, and cut only where they are longer than any bench would want.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Protocol, TypeVar

from studio_gui.drawing.sheets.page import BLACK, WHITE, Box, Frame, Mark, Rule, Shape, Words
from studio_gui.drawing.sheets.type import line_mm, shortened, width_mm, wrapped

TITLE_PT, HEADING_PT, TEXT_PT, FIGURE_PT = 28.0, 20.0, 16.0, 28.0
TICK_MM = 10.0
#: More lines than this no name needs that was meant to be read.
MOST_LINES = 16
_SIGN_MM = 5.6


@dataclass(frozen=True)
class Block:
    """Marks laid out from the corner (0, 0), `height` mm high."""

    height: float
    marks: tuple[Mark, ...] = ()

    def at(self, x: float, y: float) -> tuple[Mark, ...]:
        """Return the marks with the block's corner at a place on the sheet, mm."""
        return tuple(moved(mark, x, y) for mark in self.marks)


def moved(mark: Mark, x: float, y: float) -> Mark:
    """Return a mark moved right by `x` and down by `y`, mm.

    >>> moved(Rule(0.0, 1.0, 5.0, 1.0), 10.0, 20.0)
    Rule(x1=10.0, y1=21.0, x2=15.0, y2=21.0, width_mm=0.3, dash_mm=0.0, colour='#000000')
    """
    if isinstance(mark, Rule):
        return replace(mark, x1=mark.x1 + x, y1=mark.y1 + y, x2=mark.x2 + x, y2=mark.y2 + y)
    if isinstance(mark, Shape):
        return replace(mark, corners=tuple((left + x, top + y) for left, top in mark.corners))
    return replace(mark, box=replace(mark.box, x=mark.box.x + x, y=mark.box.y + y))


def stacked(blocks: Iterable[Block]) -> Block:
    """Return blocks under one another as one."""
    y = 0.0
    marks: list[Mark] = []
    for block in blocks:
        marks += block.at(0.0, y)
        y += block.height
    return Block(y, tuple(marks))


def space(height: float) -> Block:
    """Return nothing, so high."""
    return Block(height)


def rule(width: float, thick_mm: float = 0.6) -> Block:
    """Return a line across, with its own thickness of room."""
    return Block(thick_mm, (Rule(0.0, thick_mm / 2.0, width, thick_mm / 2.0, thick_mm),))


def fitted(
    words: str, width: float, size_pt: float, *, bold: bool = False, most_lines: int = MOST_LINES
) -> tuple[str, ...]:
    """Return the words in lines no wider than `width`; what is more than `most_lines` ends in an ellipsis."""
    lines = wrapped(words, width, size_pt, bold=bold)
    if len(lines) > most_lines:
        rest = " ".join(lines[most_lines - 1 :])
        lines = (*lines[: most_lines - 1], shortened(rest, width, size_pt, bold=bold))
    return tuple(on_one_line(line, width, size_pt, bold=bold) for line in lines)


def on_one_line(words: str, width: float, size_pt: float, *, bold: bool = False) -> str:
    """Return the words, cut with an ellipsis only where they are wider than `width`."""
    fits = width_mm(words, size_pt, bold=bold) <= width + 1e-9
    return words if fits else shortened(words, width, size_pt, bold=bold)


def text(words: str, width: float, size_pt: float = TEXT_PT, *, bold: bool = False) -> Block:
    """Return a paragraph; no words, no height."""
    lines = fitted(words, width, size_pt, bold=bold)
    if not lines:
        return Block(0.0)
    height = len(lines) * line_mm(size_pt)
    return Block(height, (Words(Box(0.0, 0.0, width, height), lines, size_pt, bold),))


def warning(words: str, width: float) -> Block:
    """Return a sentence in bold behind a black sign, to be seen without colour."""
    line = line_mm(TEXT_PT)
    body = text(words, width - _SIGN_MM - 2.0, bold=True)
    sign = Box(0.0, 0.0, _SIGN_MM, line)
    return Block(
        body.height + 1.2,
        (
            Frame(sign, 0.0, 0.8, fill=BLACK),
            Words(sign, ("!",), TEXT_PT, bold=True, align="centre", colour=WHITE),
            *body.at(_SIGN_MM + 2.0, 0.0),
        ),
    )


def tick_box(x: float, y: float, side: float = TICK_MM) -> Frame:
    """Return a box to tick."""
    return Frame(Box(x, y, side, side), 0.4, 1.0)


def line_to_write_on(words: str, width: float, size_pt: float = TEXT_PT) -> Block:
    """Return words and, behind them, a line to write on."""
    height, wide = line_mm(size_pt), width_mm(words, size_pt)
    foot = height * 0.82
    return Block(
        height,
        (
            Words(Box(0.0, 0.0, wide, height), (words,), size_pt),
            Rule(wide + 3.0, foot, width, foot, 0.25),
        ),
    )


def largest_pt(words: str, width: float, most_pt: float, *, bold: bool = False) -> float:
    """Return the size, no more than `most_pt` and no less than that of all text, at which words fit."""
    wide = width_mm(words, most_pt, bold=bold)
    return most_pt if wide <= width else max(most_pt * width / wide, TEXT_PT)


class _High(Protocol):
    @property
    def height(self) -> float:
        """How high it is, mm."""


_B = TypeVar("_B", bound=_High)


def in_pages(blocks: Sequence[_B], room: float) -> list[list[_B]]:
    """Return blocks page by page, as many on each as fit into `room`, at least one."""
    pages: list[list[_B]] = []
    left = 0.0
    for block in blocks:
        if not pages or block.height > left + 1e-6:
            pages.append([])
            left = room
        pages[-1].append(block)
        left -= block.height
    return pages
