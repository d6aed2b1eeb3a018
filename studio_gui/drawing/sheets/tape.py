"""The tape that lies under the film, at true scale, on sheets or on a roll.

The rule of this module: a page has as many pieces beneath each other as fit, and what a page needs besides:
title, lot, a line to check its scale with, and how pieces are joined. A roll has one piece as long as the
film, or as few as a page of a PDF can hold.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.drawing.sheets.page import Box, Mark, Page, Rule, Words
from studio_gui.drawing.sheets.paper import MARGIN_MM, Paper
from studio_gui.drawing.sheets.sheet_head import page_name
from studio_gui.drawing.sheets.tape_film import Piece, TapeFilm
from studio_gui.drawing.sheets.tape_ground import ground_marks
from studio_gui.drawing.sheets.tape_joins import join_marks
from studio_gui.drawing.sheets.tape_labels import label_marks
from studio_gui.drawing.sheets.tape_piece import TapePiece, tape_height
from studio_gui.drawing.sheets.type import line_mm, shortened, width_mm, wrapped
from studio_gui.wording.naming import one_line
from studio_gui.wording.tape_words import (
    about_words,
    check_words,
    joining_words,
    legs_words,
    page_words,
)
from studio_gui.wording.translation import translate

CHECK_MM = 100.0
#: The strip that the next piece is glued on, mm.
LEAST_STRIP_MM, STRIP_MM = 9.0, 15.0
#: The longest page of a PDF: 14,400 units of 1/72 inch (ISO 32000-1:2008, Annex C.2).
MOST_PAGE_MM = 5080.0
ROLL_MARGIN_MM = 4.0
TITLE_PT, TEXT_PT, ROLL_PT = 20.0, 12.0, 14.0
SMALLER_TITLE_PT = (16.0, 12.0)
_BETWEEN_ROWS_MM = 2.0
_LOT_MM = 60.0
_LONGEST_TITLE = 300
_FOOT_MM = 6.5
_PAGE_MM = 38.0
#: By how much a piece may be longer than its share: its ends are whole units, the first before the film.
STEP_ROOM_MM = 51.0
_LEAST_ROLL_MM, _ROLL_TITLE_MM = 260.0, 160.0


def tape_pages(sheet: Worksheet, choices: Choices) -> tuple[Page, ...]:
    """Return the tape in pieces on pages of the paper that is chosen, or on a roll."""
    film = TapeFilm(sheet)
    return _roll_pages(film) if choices.tape_on_a_roll else _paper_pages(film, choices.paper)


def _paper_pages(film: TapeFilm, paper: Paper) -> tuple[Page, ...]:
    box = paper.landscape()
    inner = box.inset(MARGIN_MM)
    pieces = film.pieces(inner.width - LEAST_STRIP_MM)
    step = pieces[0].step_mm
    lines = _head_lines(film, pieces, inner.width - _PAGE_MM)
    head = line_mm(TITLE_PT) + len(lines) * line_mm(TEXT_PT) + 2.0
    row = tape_height(film) + _BETWEEN_ROWS_MM
    rows = max(math.floor((inner.height - head - _FOOT_MM) / row), 1)
    strip = min(STRIP_MM, inner.width - step)
    left = inner.x + (inner.width - step - strip) / 2.0
    shared = [pieces[first : first + rows] for first in range(0, len(pieces), rows)]
    found = []
    for number, here in enumerate(shared, start=1):
        marks = [*_head(film, inner, lines, page_words(number, len(shared))), *_check(inner.x, inner.bottom)]
        for place, piece in enumerate(here):
            marks += _tape(TapePiece(film, piece, left, inner.y + head + place * row, strip, step))
        found.append(Page(box, tuple(marks), page_name(translate("Sheets", "Tape"), number, len(shared))))
    return tuple(found)


def _roll_pages(film: TapeFilm) -> tuple[Page, ...]:
    most = MOST_PAGE_MM - 2.0 * ROLL_MARGIN_MM
    length = film.ends_mm[1] - film.ends_mm[0] + STEP_ROOM_MM
    count = 1 if length <= most else math.ceil(length / (most - STRIP_MM - STEP_ROOM_MM))
    pieces = film.pieces(length / count + STEP_ROOM_MM)
    top = ROLL_MARGIN_MM + line_mm(ROLL_PT) + 1.0
    height = top + tape_height(film) + 1.0 + _FOOT_MM + ROLL_MARGIN_MM
    found = []
    for piece in pieces:
        strip = 0.0 if piece.is_last else STRIP_MM
        length = max(piece.end_mm - piece.start_mm + strip, _LEAST_ROLL_MM)
        box = Box(0.0, 0.0, length + 2.0 * ROLL_MARGIN_MM, height)
        inner = box.inset(ROLL_MARGIN_MM)
        marks = [*_roll_head(film, piece, inner), *_check(inner.x, inner.bottom)]
        marks += _tape(TapePiece(film, piece, inner.x, top, strip, length))
        found.append(
            Page(box, tuple(marks), page_name(translate("Sheets", "Tape"), piece.number, piece.count))
        )
    return tuple(found)


def _tape(at: TapePiece) -> Iterator[Mark]:
    yield from ground_marks(at)
    yield from label_marks(at)
    yield from join_marks(at)


# -- head and foot -------------------------------------------------------------------------------------------


def _head_lines(film: TapeFilm, pieces: Sequence[Piece], width: float) -> tuple[str, ...]:
    """Return what a page says of the tape."""
    said = [about_words(film.length_m)]
    if len(pieces) > 1:
        said.append(joining_words())
    if film.leg_lanes:
        said.append(legs_words())
    return tuple(line for words in said for line in wrapped(words, width, TEXT_PT))


def _head(film: TapeFilm, inner: Box, lines: Sequence[str], page: str) -> Iterator[Mark]:
    """Yield title, lot, which page it is, and what is said of the tape."""
    height = line_mm(TITLE_PT)
    yield _title(film, Box(inner.x, inner.y, inner.width - _LOT_MM - 5.0, height), TITLE_PT)
    yield from _lot(inner.right - _LOT_MM, inner.y, height)
    y, line = inner.y + height, line_mm(TEXT_PT)
    yield Words(Box(inner.x, y, inner.width - _PAGE_MM, len(lines) * line), tuple(lines), TEXT_PT)
    box = Box(inner.right - _PAGE_MM, y, _PAGE_MM, line)
    yield Words(box, (page,), TEXT_PT, bold=True, align="right")


def _roll_head(film: TapeFilm, piece: Piece, inner: Box) -> Iterator[Mark]:
    """Yield the same on one line, as far as it has room."""
    height = line_mm(ROLL_PT)
    box = Box(inner.x, inner.y, min(inner.width - _LOT_MM - 5.0, _ROLL_TITLE_MM), height)
    yield _title(film, box, ROLL_PT)
    yield from _lot(box.right + 5.0, inner.y, height)
    x = box.right + 5.0 + _LOT_MM + 8.0
    said = [about_words(film.length_m)]
    if piece.count > 1:
        said = [page_words(piece.number, piece.count), *said, joining_words()]
    if film.leg_lanes:
        said.append(legs_words())
    for words in said:
        width = width_mm(words, TEXT_PT) + 0.1
        if x + width <= inner.right:
            yield Words(Box(x, inner.y, width, height), (words,), TEXT_PT)
            x += width + 8.0


def _title(film: TapeFilm, box: Box, size_pt: float) -> Words:
    title = one_line(film.plan.title, _LONGEST_TITLE)
    smaller = (size for size in (size_pt, *SMALLER_TITLE_PT) if width_mm(title, size, bold=True) <= box.width)
    size_pt = next(smaller, SMALLER_TITLE_PT[-1])
    return Words(box, (shortened(title, box.width, size_pt, bold=True),), size_pt, bold=True)


def _lot(x: float, y: float, height: float) -> Iterator[Mark]:
    words = translate("Tape", "Lot")
    width = width_mm(words, ROLL_PT) + 0.1
    yield Words(Box(x, y, width, height), (words,), ROLL_PT)
    foot = y + height / 2.0 + 0.32 * line_mm(ROLL_PT)
    yield Rule(x + width + 3.0, foot, x + _LOT_MM, foot, 0.25)


def _check(x: float, bottom: float) -> Iterator[Mark]:
    """Yield a line of 100 mm between two short ones, and what it is for."""
    y = bottom - _FOOT_MM / 2.0 + 1.0
    yield Rule(x, y, x + CHECK_MM, y, 0.4)
    for end in (x, x + CHECK_MM):
        yield Rule(end, y - 2.0, end, y + 2.0, 0.4)
    words = check_words()
    width = width_mm(words, TEXT_PT) + 0.1
    yield Words(
        Box(x + CHECK_MM + 4.0, y - line_mm(TEXT_PT) / 2.0, width, line_mm(TEXT_PT)), (words,), TEXT_PT
    )
