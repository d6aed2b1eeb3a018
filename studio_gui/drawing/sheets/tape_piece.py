"""A piece of the tape on its sheet of paper: what is where, mm.

The rule of this module: a millimetre of lay is a millimetre of paper. What is drawn goes on over the strip
that the next piece is glued on; words keep to the piece.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from studio_gui.drawing.sheets.lane import Lane
from studio_gui.drawing.sheets.page import Box
from studio_gui.drawing.sheets.tape_film import SAME_MM, Piece, TapeFilm

# Lower edges of ticks, places, notes, letters, colours and letters of narrow sections, from the tape's top.
TICKS_MM, PLACES_MM, NOTES_MM, LETTERS_MM, BAR_MM, BENEATH_MM = 6.0, 13.7, 19.7, 35.2, 41.6, 46.2
BAR_TOP_MM = 35.6
#: Heights of the marks of one leg, and of the line that says which piece it is.
LANE_MM, INFO_MM = 6.0, 5.6


def tape_height(film: TapeFilm) -> float:
    """Return how high a tape is, mm."""
    return BENEATH_MM + len(film.leg_lanes) * LANE_MM + INFO_MM


@dataclass(frozen=True)
class TapePiece:
    """A piece whose place `piece.start_mm` lies at (`left`, `top`) on the paper.

    `strip_mm` of the tape go on behind its end; the line at its foot may take `room_mm`.
    """

    film: TapeFilm
    piece: Piece
    left: float
    top: float
    strip_mm: float
    room_mm: float

    @property
    def foot(self) -> float:
        """Where the last line of the piece begins."""
        return self.top + tape_height(self.film) - INFO_MM

    @property
    def bottom(self) -> float:
        """The lower edge of the tape."""
        return self.foot + INFO_MM

    @property
    def right(self) -> float:
        """Where the piece ends and its strip begins."""
        return self.x(self.piece.end_mm)

    @cached_property
    def seen_mm(self) -> tuple[float, float]:
        """From where to where the tape is drawn: the piece and its strip, as far as there is film."""
        low, high = self.film.ends_mm
        end = self.piece.end_mm + (0.0 if self.piece.is_last else self.strip_mm)
        return max(self.piece.start_mm, low), min(end, high)

    def x(self, place_mm: float) -> float:
        """Return where a place on the lay is on the paper."""
        return self.left + place_mm - self.piece.start_mm

    def sees(self, place_mm: float) -> bool:
        """Whether a line at a place is drawn here."""
        return self.seen_mm[0] - SAME_MM <= place_mm <= self.seen_mm[1] + SAME_MM

    def names(self, place_mm: float) -> bool:
        """Whether the words of a place stand on this piece: each stands on one."""
        end = self.piece.end_mm + (SAME_MM if self.piece.is_last else -SAME_MM)
        return self.piece.start_mm - SAME_MM <= place_mm < end

    def band(self, start_mm: float, end_mm: float) -> Box | None:
        """Return the box of a stretch in the bar of colours; None where nothing of it is seen."""
        low, high = max(start_mm, self.seen_mm[0]), min(end_mm, self.seen_mm[1])
        if high - low < SAME_MM:
            return None
        return Box(self.x(low), self.top + BAR_TOP_MM, high - low, BAR_MM - BAR_TOP_MM)

    def lane(self, top_mm: float, bottom_mm: float) -> Lane:
        """Return a lane for words between two heights, which the lines of the film run through."""
        box = Box(self.left, self.top + top_mm, self.right - self.left, bottom_mm - top_mm)
        return Lane(box, (self.x(place) for place in self.film.lines_mm))
