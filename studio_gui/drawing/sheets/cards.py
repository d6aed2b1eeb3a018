"""Liquor cards: one for each jar, to be cut out and stood beside it.

The rule of this module: a card says what is measured into one jar, in the largest type on it, and says by
itself of which plan it is. Cards stand in rows of two with lines to cut along; one that is too large for
that has the width of the sheet, and one too long for a sheet goes on on the next.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from studio_gui.domain.cards import Card, Measured
from studio_gui.domain.colour.spaces import hex_from_srgb
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.sheets.blocks import (
    FIGURE_PT,
    HEADING_PT,
    TEXT_PT,
    Block,
    fitted,
    in_pages,
    largest_pt,
    line_to_write_on,
    on_one_line,
    rule,
    space,
    stacked,
    text,
    tick_box,
    warning,
)
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.drawing.sheets.page import WHITE, Box, Frame, Mark, Page, Rule, Words
from studio_gui.drawing.sheets.paper import MARGIN_MM
from studio_gui.drawing.sheets.sheet_head import page_name
from studio_gui.drawing.sheets.type import line_mm, width_mm
from studio_gui.wording.bench_words import (
    alike_warning,
    amount_warning,
    dose_words,
    jar_error,
    jar_number,
    jar_use,
    measured_ml,
    painted_with,
)
from studio_gui.wording.naming import one_line
from studio_gui.wording.translation import translate

LETTER_PT = 54.0
_SLIP_MM, _BAND_MM = 26.0, 5.0
#: White around what stands on a card.
_EDGE_MM = 4.0
_GAP_MM = 3.0
_CARD_TICK_MM = 8.0
#: A narrow card has room for so many lines of a name, a figure so wide, and so much of the sheet.
_NARROW_LINES, _NARROW_FIGURE_MM, _NARROW_SHARE = 4, 36.0, 0.65
_LONGEST = 1_000


def card_pages(sheet: Worksheet, choices: Choices) -> tuple[Page, ...]:
    """Return the cards of all jars, several to a page."""
    paper = choices.paper.portrait()
    inner = paper.inset(MARGIN_MM)
    pages = in_pages(list(_rows(sheet, inner)), inner.height)
    return tuple(_page(paper, inner, page, number, len(pages)) for number, page in enumerate(pages, start=1))


@dataclass(frozen=True)
class _CardRow:
    """Cards side by side, as high as the highest; `halved` where each has half the width of the sheet."""

    cards: tuple[Block, ...]
    halved: bool

    @property
    def height(self) -> float:
        return max(card.height for card in self.cards)


def _rows(sheet: Worksheet, inner: Box) -> Iterator[_CardRow]:
    waiting: list[Block] = []
    for card in sheet.cards:
        narrow = _CardLayout(sheet, card, inner.width / 2.0)
        halved = narrow.is_narrow(inner.height)
        if halved:
            waiting.append(narrow.whole)
            if len(waiting) == 1:
                continue
        if waiting:
            yield _CardRow(tuple(waiting), halved=True)
            waiting = []
        if not halved:
            wide = _CardLayout(sheet, card, inner.width)
            yield from (_CardRow((part,), halved=False) for part in wide.parts(inner.height))
    if waiting:
        yield _CardRow(tuple(waiting), halved=True)


def _page(paper: Box, inner: Box, rows: Sequence[_CardRow], number: int, count: int) -> Page:
    marks: list[Mark] = []
    y = inner.y
    for row in rows:
        for place, card in enumerate(row.cards):
            marks += card.at(inner.x + place * inner.width / 2.0, y)
        if row.halved:
            middle = inner.x + inner.width / 2.0
            marks.append(_cut(middle, y, middle, y + row.height))
        y += row.height
        marks.append(_cut(inner.x, y, inner.right, y))
    return Page(paper, tuple(marks), page_name(translate("Sheets", "Liquor cards"), number, count))


def _cut(x1: float, y1: float, x2: float, y2: float) -> Rule:
    return Rule(x1, y1, x2, y2, 0.2, dash_mm=2.0)


@dataclass(frozen=True)
class _CardLayout:
    sheet: Worksheet
    card: Card
    outer: float

    @property
    def width(self) -> float:
        return self.outer - 2.0 * _EDGE_MM

    @cached_property
    def figure(self) -> float:
        """Width of the column of millilitres, mm."""
        return max(width_mm(words, FIGURE_PT, bold=True) for words in self._figures())

    @cached_property
    def name(self) -> float:
        """Width of the names of stocks, mm."""
        return self.width - _CARD_TICK_MM - self.figure - 2.0 * _GAP_MM

    def is_narrow(self, sheet_height: float) -> bool:
        """Whether the card reads well at half the width of the sheet."""
        if self.figure > _NARROW_FIGURE_MM or self.whole.height > _NARROW_SHARE * sheet_height:
            return False
        names = [self._stock_name(amount) for amount in self.card.amounts]
        lines = [fitted(name, self.name, TEXT_PT) for name in names]
        return all(len(one) <= _NARROW_LINES for one in lines)

    @cached_property
    def whole(self) -> Block:
        """The card in one piece."""
        return self._edged([self._head(), *self._rows(), *self._foot()])

    def parts(self, most: float) -> Iterator[Block]:
        """Yield the card in pieces no higher than `most`, each with the head of the jar."""
        head = self._head()
        room = most - head.height - 2.0 * _EDGE_MM
        for part in in_pages([*self._rows(), *self._foot()], room):
            yield self._edged([head, *part])

    def _edged(self, blocks: Sequence[Block]) -> Block:
        inside = stacked(blocks)
        return Block(inside.height + 2.0 * _EDGE_MM, inside.at(_EDGE_MM, _EDGE_MM))

    def _figures(self) -> Iterator[str]:
        plan = self.sheet.plan
        yield measured_ml(self.card.total_ml, plan)
        yield from (measured_ml(amount.measured_ml, plan) for amount in self.card.amounts)

    # -- head ----------------------------------------------------------------------------------------------

    def _head(self) -> Block:
        plan, card = self.sheet.plan, self.card
        room = self.width - _SLIP_MM - _GAP_MM
        liquor = one_line(plan.liquor(card.jar.liquor_id).name, _LONGEST)
        words = stacked(
            [
                text(liquor, room, HEADING_PT, bold=True),
                text(jar_number(card), room, bold=True),
                text(painted_with(plan, card), room),
            ]
        )
        height = max(_SLIP_MM, words.height)
        marks = [*self._slip(), *words.at(_SLIP_MM + _GAP_MM, (height - words.height) / 2.0)]
        return stacked([Block(height, tuple(marks)), space(2.0), self._headings(), rule(self.width)])

    def _slip(self) -> Iterator[Mark]:
        """Yield the letter on its slip, with a band of the colour that the jar gives."""
        plan, slip = self.sheet.plan, Box(0.0, 0.0, _SLIP_MM, _SLIP_MM)
        ids = [liquor.id for liquor in plan.liquors]
        colour = self.sheet.liquor_colours.srgb[ids.index(self.card.jar.liquor_id)]
        yield Frame(slip, 0.6, 2.0, fill=WHITE)
        band = Box(2.0, _SLIP_MM - _BAND_MM - 1.6, _SLIP_MM - 4.0, _BAND_MM)
        yield Frame(band, 0.2, 0.6, fill=hex_from_srgb(colour))
        letter = one_line(plan.liquor(self.card.jar.liquor_id).letter)
        room = _SLIP_MM - 2.0
        size = min(largest_pt(letter, room, LETTER_PT, bold=True), 17.0 / line_mm(1.0))
        said = on_one_line(letter, room, size, bold=True)
        yield Words(Box(1.0, 0.8, room, band.y - 1.0), (said,), size, True, "centre")

    def _headings(self) -> Block:
        height = line_mm(TEXT_PT)
        words = translate("Cards", "ml")
        wide = max(width_mm(words, TEXT_PT), self.figure)
        lines = fitted(translate("Cards", "Measure"), self.width - wide - _GAP_MM, TEXT_PT, most_lines=1)
        return Block(
            height,
            (
                Words(Box(0.0, 0.0, self.width - wide - _GAP_MM, height), lines, TEXT_PT),
                Words(Box(self.width - wide, 0.0, wide, height), (words,), TEXT_PT, align="right"),
            ),
        )

    # -- rows ----------------------------------------------------------------------------------------------

    def _rows(self) -> Iterator[Block]:
        for amount in self.card.amounts:
            figure = measured_ml(amount.measured_ml, self.sheet.plan)
            row, amiss = self._row(self._stock_name(amount), figure, ticked=True), amount_warning(amount)
            said = [warning(amiss, self.width)] if amiss else []
            yield stacked([row, *said, rule(self.width, 0.2)])

    def _row(self, name: str, figure: str, *, ticked: bool) -> Block:
        start = _CARD_TICK_MM + _GAP_MM if ticked else 0.0
        lines = fitted(
            name, self.name + (0.0 if ticked else _CARD_TICK_MM + _GAP_MM), TEXT_PT, bold=not ticked
        )
        height = max(line_mm(FIGURE_PT), len(lines) * line_mm(TEXT_PT)) + 0.8
        marks: list[Mark] = []
        if ticked:
            marks.append(tick_box(0.0, (height - _CARD_TICK_MM) / 2.0, _CARD_TICK_MM))
        room = self.width - self.figure - _GAP_MM - start
        marks.append(Words(Box(start, 0.0, room, height), lines, TEXT_PT, bold=not ticked))
        box = Box(self.width - self.figure, 0.0, self.figure, height)
        marks.append(Words(box, (figure,), FIGURE_PT, bold=True, align="right"))
        return Block(height, tuple(marks))

    def _stock_name(self, amount: Measured) -> str:
        return one_line(self.sheet.plan.stock(amount.stock_id).name, _LONGEST)

    # -- foot ----------------------------------------------------------------------------------------------

    def _foot(self) -> Iterator[Block]:
        plan, card = self.sheet.plan, self.card
        total = self._row(translate("Cards", "In all"), measured_ml(card.total_ml, plan), ticked=False)
        use, error = text(jar_use(plan, card), self.width), text(jar_error(card), self.width)
        alike = alike_warning(plan, card)
        said = [warning(alike, self.width)] if alike else []
        yield stacked([rule(self.width), total, use, error, *said])
        yield from (text(dose_words(plan, dose), self.width) for dose in card.doses)
        yield stacked([space(2.0), self._lot()])

    def _lot(self) -> Block:
        """Return of which plan the card is, and a line for the lot."""
        half = (self.width - _GAP_MM) / 2.0
        height = line_mm(TEXT_PT)
        title = on_one_line(one_line(self.sheet.plan.title, _LONGEST), half, TEXT_PT)
        lot = line_to_write_on(translate("Cards", "Lot"), half)
        marks = [Words(Box(0.0, 0.0, half, height), (title,), TEXT_PT)] if title else []
        return Block(height, (*marks, *lot.at(half + _GAP_MM, 0.0)))
