"""The lay on a sheet: wool to scale on its film, letters on paper above it, places beneath it.

The rule of this module: everything stands at one scale between millimetres of paper and metres of lay. Labels
that have no room at their place stand beside it, with a line to it; nothing is written on wool and no letter
is left out.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from studio_gui.domain.colour.spaces import hex_from_srgb
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.sheets.page import WHITE, Box, Frame, Mark, Picture, Rule, Shape, Words
from studio_gui.drawing.sheets.spread import spread
from studio_gui.drawing.sheets.type import line_mm, shortened, width_mm
from studio_gui.drawing.sheets.wool_on_sheet import WoolOnSheet, strands_on_sheet
from studio_gui.wording.section_table import SectionTable
from studio_gui.wording.translation import translate

LETTER_PT, TEXT_PT = 20.0, 16.0
SLIP_MM, WIDEST_SLIP_MM = 9.0, 30.0
#: From the film's upper edge to the wool: a slip, and room for the lines from slips that moved.
SLIP_ROOM_MM = SLIP_MM + 3.2
FOOT_MM = 0.8
PLACES_MM = 8.0
#: From the film's end to the wool's: at an end of the lay there is an arrow, else the wool goes on.
END_MM, GOES_ON_MM = 8.0, 8.0
TICK_MM = 1.5
_GAP_MM = 1.5
_MOVED_MM = 0.6


@dataclass(frozen=True)
class LayStrip:
    """The sections `which` of a lay in `box`, seen from the painter's side or, `mirrored`, from the other."""

    sheet: Worksheet
    table: SectionTable
    box: Box
    which: range
    mirrored: bool

    @property
    def film(self) -> Box:
        """The film with slips and wool, without the places beneath it."""
        return Box(self.box.x, self.box.y, self.box.width, self.box.height - PLACES_MM)

    @cached_property
    def wool(self) -> WoolOnSheet:
        """The strands on the film."""
        film = self.film
        box = Box(film.x, film.y + SLIP_ROOM_MM, film.width, max(film.height - SLIP_ROOM_MM - FOOT_MM, 1.0))
        edges_m = self.sheet.plan.edges_m
        return strands_on_sheet(
            self.sheet,
            box,
            (edges_m[self.which.start], edges_m[self.which.stop]),
            (
                END_MM if self.which.start == 0 else GOES_ON_MM,
                END_MM if self.which.stop == len(self.table) else GOES_ON_MM,
            ),
            mirrored=self.mirrored,
        )

    def marks(self) -> Iterator[Mark]:
        """Yield all marks, the film first."""
        yield Picture(self.wool.box, self.wool.paint)
        yield from self._edges()
        yield Frame(self.film, 0.3, 1.0)
        if self.which.start == 0:
            yield from self._arrows()
        yield from self._slips()
        yield from self._places()

    def _edges(self) -> Iterator[Mark]:
        film, count = self.film, len(self.table)
        for edge in range(self.which.start, self.which.stop + 1):
            x = self.wool.x(self.sheet.plan.edges_m[edge])
            if edge in (0, count):
                yield Rule(x, film.y, x, film.bottom, 0.2, dash_mm=1.2)
                continue
            yield Rule(x, self.wool.box.y, x, self.wool.box.bottom, 1.2, colour=WHITE)
            yield Rule(x, film.y, x, film.bottom + TICK_MM, 0.5)

    def _arrows(self) -> Iterator[Mark]:
        """Yield an arrow where each roving begins."""
        inwards = -1.0 if self.mirrored else 1.0
        tail = self.film.right - 0.8 if self.mirrored else self.film.x + 0.8
        for middle, height in self.wool.beginnings:
            half = min(max(0.36 * height, 0.8), 2.0)
            corners = (tail, middle - half), (tail + inwards * 1.7 * half, middle), (tail, middle + half)
            yield Shape(corners)

    def _slips(self) -> Iterator[Mark]:
        film = self.film
        rows = list(reversed(self.which)) if self.mirrored else list(self.which)
        letters = [
            shortened(self.table.letters[row], WIDEST_SLIP_MM - 4.0, LETTER_PT, bold=True) for row in rows
        ]
        widths = [max(width_mm(letter, LETTER_PT, bold=True) + 4.0, 10.0) for letter in letters]
        edges_m = self.sheet.plan.edges_m
        wanted = [self.wool.x((edges_m[row] + edges_m[row + 1]) / 2.0) for row in rows]
        middles = spread(wanted, widths, film.x + 1.0, film.right - 1.0, _GAP_MM)
        for place, middle in zip(wanted, middles, strict=True):
            if abs(place - middle) > _MOVED_MM:
                yield Rule(middle, film.y + 1.5 + SLIP_MM, place, self.wool.box.y + 1.0, 0.25)
        for row, letter, middle, width in zip(rows, letters, middles, widths, strict=True):
            slip = Box(middle - width / 2.0, film.y + 1.5, width, SLIP_MM)
            yield Frame(slip, 0.45, 1.0, fill=WHITE)
            yield colour_band(self.sheet, row, slip)
            yield Words(
                Box(slip.x + 0.5, slip.y, width - 1.0, SLIP_MM - 0.5), (letter,), LETTER_PT, True, "centre"
            )

    def _places(self) -> Iterator[Mark]:
        """Yield the places of all edges; what begins and ends the lay is said beside its ends."""
        edges = list(range(self.which.start, self.which.stop + 1))
        if self.mirrored:
            edges.reverse()
        labels = [self._label(edge) for edge in edges]
        ticks = [self.wool.x(self.sheet.plan.edges_m[edge]) for edge in edges]
        wanted = [tick + label.off_centre for tick, label in zip(ticks, labels, strict=True)]
        left, right = self.box.x, self.box.right
        middles = spread(wanted, [label.width for label in labels], left, right, 2.0)
        top = self.film.bottom + TICK_MM
        height = line_mm(TEXT_PT)
        for tick, label, middle in zip(ticks, labels, middles, strict=True):
            x = middle - label.width / 2.0
            figure = x + label.figure_at
            if abs(figure - tick) > _MOVED_MM and label.moves:
                yield Rule(tick, self.film.bottom, figure, top + 0.6, 0.25)
            for words, bold in label.pieces:
                width = width_mm(words, TEXT_PT, bold=bold)
                yield Words(Box(x, self.box.bottom - height, width, height), (words,), TEXT_PT, bold)
                x += width + _APART_MM

    def _label(self, edge: int) -> _Label:
        figure = self.table.places[edge]
        before: tuple[str, ...] = ()
        after: tuple[str, ...] = ()
        if edge == 0:
            after = (translate("SectionMap", "start here"),)
        if edge == len(self.table):
            after = (self.table.lengths.symbol,)
            if self.sheet.plan.lay.passes > 1:
                before = (translate("SectionMap", "fold"),)
        if self.mirrored and edge == 0:
            before, after = after, ()
        if self.mirrored and edge == len(self.table):
            before, after = (), (*after, *before)
        return _Label(before, figure, after, moves=0 < edge < len(self.table))


_APART_MM = 1.6


@dataclass(frozen=True)
class _Label:
    """A figure with words before and after it; `moves` where a line shows what it belongs to."""

    before: tuple[str, ...]
    figure: str
    after: tuple[str, ...]
    moves: bool

    @cached_property
    def pieces(self) -> tuple[tuple[str, bool], ...]:
        """All words in their order, and whether they are bold."""
        return (
            *((words, False) for words in self.before),
            (self.figure, True),
            *((words, False) for words in self.after),
        )

    @cached_property
    def width(self) -> float:
        """Width of all words, mm."""
        return _width(self.pieces)

    @cached_property
    def figure_at(self) -> float:
        """From the left edge to the middle of the figure, mm."""
        before = _width(tuple((words, False) for words in self.before))
        return before + (_APART_MM if before else 0.0) + width_mm(self.figure, TEXT_PT, bold=True) / 2.0

    @property
    def off_centre(self) -> float:
        """From the middle of the figure to the middle of all words, mm."""
        return self.width / 2.0 - self.figure_at


def _width(pieces: tuple[tuple[str, bool], ...]) -> float:
    return sum(width_mm(words, TEXT_PT, bold=bold) for words, bold in pieces) + _APART_MM * max(
        len(pieces) - 1, 0
    )


def colour_band(sheet: Worksheet, row: int, slip: Box) -> Frame:
    """Return the band in a section's predicted colour along the foot of its slip."""
    colour = hex_from_srgb(sheet.colours.srgb[row])
    return Frame(Box(slip.x + 0.8, slip.bottom - 2.0, slip.width - 1.6, 1.3), 0.0, fill=colour)
