"""What is written on a piece of tape: places, letters, notes, and marks of legs.

The rule of this module: words touch no other and are crossed by no line. A place is written once, a section's
letter on every piece that shows much of it.
"""

from __future__ import annotations

from collections.abc import Iterator

from studio_gui.drawing.ruler import ruler_unit_m
from studio_gui.drawing.sheets.lane import Lane
from studio_gui.drawing.sheets.page import WHITE, Align, Box, Frame, Mark, Rule, Shape, Words
from studio_gui.drawing.sheets.tape_film import SAME_MM, LegLane
from studio_gui.drawing.sheets.tape_ground import ticks
from studio_gui.drawing.sheets.tape_piece import (
    BAR_MM,
    BENEATH_MM,
    LANE_MM,
    LETTERS_MM,
    NOTES_MM,
    PLACES_MM,
    TICKS_MM,
    TapePiece,
)
from studio_gui.drawing.sheets.type import line_mm, shortened, width_mm, wrapped
from studio_gui.wording.naming import one_line
from studio_gui.wording.numbers import shown_number_briefly
from studio_gui.wording.tape_words import (
    extra_words,
    film_end_words,
    gap_words,
    place_words,
    turn_words,
)

PLACE_PT, NOTE_PT, LETTER_PT = (18.0, 14.0, 10.0), (14.0, 11.0), (36.0, 28.0, 20.0, 14.0, 10.0)
FIGURE_PT, NAME_PT, SMALL_PT = 14.0, 14.0, 10.0
_FIGURE_COLOUR = "#444444"
_RIGHT_FIRST: tuple[Align, ...] = ("left", "right")
_LEFT_FIRST: tuple[Align, ...] = ("right", "left")
#: A section has its letter on every piece that shows this much of it, and on the one that shows most, mm.
MUCH_MM = 40.0
#: On a roll a section has its letter again about every so much, mm.
AGAIN_MM = 400.0
_LEAST_NAME_MM, _MOST_NAME_MM = 14.0, 80.0
_SLIP_MM = 13.5
_ARROW_MM, _TURN_MM = 9.0, 5.4
_LONGEST_NAME = 300


def label_marks(at: TapePiece) -> Iterator[Mark]:
    """Yield all words of a piece with what belongs to them."""
    yield from _places(at)
    yield from _notes(at)
    yield from _letters(at)
    for number, lane in enumerate(at.film.leg_lanes):
        yield from _leg(at, lane, at.top + BENEATH_MM + number * LANE_MM)


def _places(at: TapePiece) -> Iterator[Mark]:
    """Yield the places of all edges, and between them the figures of the ruler."""
    lane, written = at.lane(TICKS_MM, PLACES_MM), set()
    last = at.film.edges_mm[-1]
    for place in filter(at.names, at.film.edges_mm):
        sides = _LEFT_FIRST if place == last else _RIGHT_FIRST
        words = lane.beside(at.x(place), place_words(place / 1000.0), PLACE_PT, bold=True, sides=sides)
        if words is not None:
            written.add(round(place, 1))
            yield words
    unit_mm = 1000.0 * ruler_unit_m()
    for place, _, is_figure in ticks(at):
        if is_figure and at.names(place) and round(place, 1) not in written:
            figure = shown_number_briefly(place / unit_mm, 0)
            words = lane.beside(at.x(place), figure, (FIGURE_PT,), sides=("left",), colour=_FIGURE_COLOUR)
            if words is not None:
                yield words


def _notes(at: TapePiece) -> Iterator[Mark]:
    """Yield what the roving does at its start, folds and end, where film ends, and gaps and overlaps."""
    film, lane = at.film, at.lane(PLACES_MM, NOTES_MM)
    low, high = film.ends_mm
    notes = [
        (place, turn_words(here, len(film.plan.lay.fold_positions_m)), _outwards(at, place))
        for place, here in film.turns.items()
    ]
    if film.extra_mm > SAME_MM:
        notes += [(low, film_end_words(), _RIGHT_FIRST), (high, film_end_words(), _LEFT_FIRST)]
    notes += [
        (1000.0 * boundary.position_m, gap_words(boundary.gap_m), _RIGHT_FIRST)
        for boundary in film.plan.boundaries
        if boundary.gap_m
    ]
    for place, words, sides in notes:
        if at.names(place):
            written = lane.beside(at.x(place), words, NOTE_PT, sides=sides)
            if written is not None:
                yield written


def _outwards(at: TapePiece, place_mm: float) -> tuple[Align, ...]:
    """Return the sides for a word, the one beyond the end of the lay first."""
    return _LEFT_FIRST if place_mm < at.film.edges_mm[-1] / 2.0 else _RIGHT_FIRST


def _letters(at: TapePiece) -> Iterator[Mark]:
    """Yield letter and name of every section, of narrow ones beneath, and what film beyond the lay is."""
    film, plan = at.film, at.film.plan
    beneath = at.lane(BAR_MM, BENEATH_MM)
    for index, start, end in film.sections_within(at.piece.start_mm, at.piece.end_mm):
        if end - start < min(MUCH_MM, film.painted_mm(index) / 2.0) - SAME_MM:
            continue
        section = plan.sections[index]
        letter = one_line(plan.liquor(section.liquor_id).letter)
        box = Box(at.x(start), at.top + NOTES_MM, end - start, LETTERS_MM - NOTES_MM)
        size = next((size for size in LETTER_PT if _slip_width(letter, size) <= box.width - 2.8), None)
        if size is not None:
            many = max(round(box.width / AGAIN_MM), 1)
            for number in range(many):
                part = Box(box.x + number * box.width / many, box.y, box.width / many, box.height)
                yield from _named(part, letter, one_line(section.name, _LONGEST_NAME), size)
            continue
        words = beneath.about(box.x + box.width / 2.0, letter, SMALL_PT, bold=True)
        if words is not None:
            yield words
    for place, here in film.turns.items():
        if at.names(place):
            yield from _turns(at, beneath, place, {(turn.kind, turn.forward) for _, turn in here})
    yield from _extra(at)


def _slip_width(letter: str, size_pt: float) -> float:
    return max(width_mm(letter, size_pt, bold=True) + 2.0, 0.3 * size_pt)


def _named(box: Box, letter: str, name: str, size_pt: float) -> Iterator[Mark]:
    """Yield the slip with a letter, and the name beside it where there is room, in the middle of `box`."""
    width = _slip_width(letter, size_pt)
    room = min(box.width - width - 6.0, _MOST_NAME_MM)
    lines = _name_lines(name, room) if room >= _LEAST_NAME_MM else ()
    beside = max((width_mm(line, NAME_PT) for line in lines), default=0.0)
    left = box.x + (box.width - width - (beside + 2.5 if lines else 0.0)) / 2.0
    high = min(_SLIP_MM, 0.45 * size_pt)
    middle = box.y + box.height / 2.0
    yield Frame(Box(left, middle - high / 2.0, width, high), 0.5, 1.2, fill=WHITE)
    height = line_mm(size_pt)
    yield Words(
        Box(left, middle - height / 2.0, width, height), (letter,), size_pt, bold=True, align="centre"
    )
    if lines:
        height = len(lines) * line_mm(NAME_PT)
        yield Words(Box(left + width + 2.5, middle - height / 2.0, beside + 0.01, height), lines, NAME_PT)


def _name_lines(name: str, room_mm: float) -> tuple[str, ...]:
    """Return a name on at most two lines."""
    lines = wrapped(name, room_mm, NAME_PT)
    if len(lines) <= 2:
        return lines
    return lines[0], shortened(" ".join(lines[1:]), room_mm, NAME_PT)


def _turns(at: TapePiece, beneath: Lane, place_mm: float, here: set[tuple[str, bool]]) -> Iterator[Mark]:
    """Yield, where no letter stands, an arrow behind the start, and a hook before the line of a fold."""
    x, top, bottom = at.x(place_mm), at.top + BAR_MM + 1.3, at.top + BENEATH_MM - 0.2
    if ("start", True) in here and beneath.keeps(x, x + _TURN_MM):
        yield Shape(((x + 0.4, top), (x + _TURN_MM, (top + bottom) / 2.0), (x + 0.4, bottom)))
    for way, forward in ((-_TURN_MM, True), (_TURN_MM, False)):
        if ("fold", forward) in here and beneath.keeps(min(x, x + way), max(x, x + way)):
            yield Rule(x, top, x, bottom, 0.6)
            for y in (top + 0.3, bottom - 0.3):
                yield Rule(x, y, x + way, y, 0.6)


def _extra(at: TapePiece) -> Iterator[Mark]:
    """Yield what film beyond the lay is called, in the middle of what is shown of it, and a large arrow."""
    film = at.film
    low, high = film.ends_mm
    for start, end in ((low, 0.0), (film.edges_mm[-1], high)):
        left, right = max(start, at.piece.start_mm), min(end, at.piece.end_mm)
        box = Box(at.x(left), at.top + NOTES_MM, right - left, LETTERS_MM - NOTES_MM)
        starts = any(turn.kind == "start" for _, turn in film.turns.get(end, ()))
        if starts and at.names(end) and box.width >= _ARROW_MM + 4.0:
            middle = box.y + box.height / 2.0
            x = at.x(end)
            yield Shape(((x - _ARROW_MM, middle - 5.0), (x - 1.5, middle), (x - _ARROW_MM, middle + 5.0)))
            box = Box(box.x, box.y, box.width - _ARROW_MM, box.height)
        words = extra_words(film.extra_mm / 1000.0)
        if width_mm(words, NAME_PT) <= box.width - 2.0:
            yield Words(box, (words,), NAME_PT, align="centre")


def _leg(at: TapePiece, leg: LegLane, top: float) -> Iterator[Mark]:
    """Yield where one leg is marked, with the letters on both sides of each mark, and whose marks it has."""
    foot = top + LANE_MM
    low, high = at.seen_mm
    here = [(index, mark) for index, mark in enumerate(leg.marks_mm) if at.sees(mark)]
    yield Rule(at.x(low), foot, at.x(high), foot, 0.15)
    lane = Lane(Box(at.left, top, at.right - at.left, LANE_MM), [at.x(mark) for _, mark in here])
    whose = _whose(at, lane, leg.name)
    if whose is not None:
        yield whose
    plan = at.film.plan
    letters = [one_line(plan.liquor(section.liquor_id).letter) for section in plan.sections]
    for index, mark in here:
        x = at.x(mark)
        yield Rule(x, top + 0.6, x, foot, 0.5)
        if at.names(mark):
            both = f"{letters[index]}/{letters[index + 1]}"
            words = lane.beside(x, f"{both}  {place_words(mark / 1000.0)}", (SMALL_PT,))
            words = words or lane.beside(x, both, (SMALL_PT,))
            if words is not None:
                yield words


def _whose(at: TapePiece, lane: Lane, name: str) -> Words | None:
    """Return the name of a lane, at the piece's start or wherever it has room first."""
    step = (at.right - at.left) / 8.0
    tried = (lane.beside(at.left + number * step, name, (SMALL_PT,), sides=("left",)) for number in range(8))
    return next((words for words in tried if words is not None), None)
