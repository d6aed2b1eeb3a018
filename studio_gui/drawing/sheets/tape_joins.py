"""What joins pieces of tape, and what each says of itself at its foot.

The rule of this module: both sides of a join carry one number and the halves of one diamond, which is whole
again once the next piece lies on the strip.
"""

from __future__ import annotations

from collections.abc import Iterator

from studio_gui.drawing.sheets.page import Box, Frame, Mark, Rule, Shape, Words
from studio_gui.drawing.sheets.tape_piece import BAR_MM, INFO_MM, TapePiece
from studio_gui.drawing.sheets.type import line_mm, shortened, width_mm
from studio_gui.wording.naming import one_line
from studio_gui.wording.numbers import shown_number
from studio_gui.wording.tape_words import glue_words, piece_words

INFO_PT, GLUE_PT = 12.0, 9.0
_DIAMOND_MM = 2.2
_BUBBLE_MM = 5.2
_LONGEST_TITLE = 300


def join_marks(at: TapePiece) -> Iterator[Mark]:
    """Yield cut lines, join lines with their numbers, and the line at the foot."""
    piece = at.piece
    left, right = at.left, at.right
    if piece.number > 1:
        yield Rule(left, at.top, left, at.bottom, 0.25)
        yield from _join(at, left, piece.number - 1, left + _DIAMOND_MM + 0.4)
        left += _DIAMOND_MM + _bubble_width(piece.number - 1) + 2.0
    if not piece.is_last:
        yield Rule(right, at.top, right, at.bottom, 0.25, dash_mm=1.5)
        width = _bubble_width(piece.number)
        yield from _join(at, right, piece.number, right - _DIAMOND_MM - 0.4 - width)
        yield from _strip(at)
    yield from _foot(at, left)
    end = right if piece.is_last else right + at.strip_mm
    yield Rule(at.left, at.bottom, max(end, at.left), at.bottom, 0.2, dash_mm=2.0)


def _bubble_width(number: int) -> float:
    return max(width_mm(shown_number(number, 0), INFO_PT, bold=True) + 2.0, _BUBBLE_MM)


def _join(at: TapePiece, x: float, number: int, bubble_left: float) -> Iterator[Mark]:
    """Yield the diamond on a join line, and the number of the join in its bubble."""
    middle = at.foot + INFO_MM / 2.0
    yield Shape(
        (
            (x - _DIAMOND_MM, middle),
            (x, middle - _DIAMOND_MM),
            (x + _DIAMOND_MM, middle),
            (x, middle + _DIAMOND_MM),
        )
    )
    words, width = shown_number(number, 0), _bubble_width(number)
    bubble = Box(bubble_left, middle - _BUBBLE_MM / 2.0, width, _BUBBLE_MM)
    yield Frame(bubble, 0.3, _BUBBLE_MM / 2.0)
    yield Words(bubble, (words,), INFO_PT, bold=True, align="centre")


def _strip(at: TapePiece) -> Iterator[Mark]:
    """Yield the word on the strip that is glued, between the bar of colours and the foot."""
    words = glue_words()
    height = line_mm(GLUE_PT)
    if width_mm(words, GLUE_PT) <= at.strip_mm - 1.0:
        box = Box(at.right + 0.5, at.top + BAR_MM + 0.7, at.strip_mm - 1.0, height)
        yield Words(box, (words,), GLUE_PT, align="centre")


def _foot(at: TapePiece, left: float) -> Iterator[Mark]:
    """Yield which piece this is and from where to where, and the title as far as there is room."""
    piece, film = at.piece, at.film
    right = min(at.right - 1.0, at.left + at.room_mm)
    if not piece.is_last:
        right = at.right - _DIAMOND_MM - _bubble_width(piece.number) - 1.6
    words = piece_words(piece.number, piece.count, piece.start_mm / 1000.0, piece.end_mm / 1000.0)
    x = left + (1.0 if piece.number > 1 else 0.0)
    width = width_mm(words, INFO_PT, bold=True) + 0.1
    yield Words(Box(x, at.foot, width, INFO_MM), (words,), INFO_PT, bold=True)
    room = right - x - width - 5.0
    title = shortened(one_line(film.plan.title, _LONGEST_TITLE), room, INFO_PT) if room > 10.0 else ""
    if title:
        yield Words(Box(x + width + 5.0, at.foot, room, INFO_MM), (title,), INFO_PT, align="right")
