"""A film as its tape shows it: all places in millimetres from the start of the lay.

The rule of this module: a tape has the places of the plan and no others; nothing here knows of paper.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from studio_gui.domain.geometry import film_length_m
from studio_gui.domain.legs import leg_marks, marks_apart
from studio_gui.domain.plan import Plan
from studio_gui.domain.turns import Turn, turns
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.ruler import CENTIMETRE_M, ruler_unit_m
from studio_gui.wording.tape_words import lane_words

#: More lanes of marks than this are not printed strand by strand, but for the mean of the rovings.
MOST_LANES = 6
#: Places nearer than this are one, mm.
SAME_MM = 0.05
# Pieces are so many whole centimetres long, or whole inches, so that their ends are easy to check.
_ROUND_CENTIMETRES = 5


@dataclass(frozen=True, slots=True)
class LegLane:
    """The marks of one leg, mm from its outer end, which lies at the start of the lay."""

    name: str
    marks_mm: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of tape on one sheet, mm; pieces count from 1, and all but the last are `step_mm` long."""

    number: int
    count: int
    start_mm: float
    end_mm: float
    step_mm: float

    @property
    def is_last(self) -> bool:
        """Whether the tape ends with it."""
        return self.number == self.count


@dataclass(frozen=True)
class TapeFilm:
    """The film of a worksheet."""

    sheet: Worksheet

    @property
    def plan(self) -> Plan:
        """The plan of the worksheet."""
        return self.sheet.plan

    @cached_property
    def edges_mm(self) -> tuple[float, ...]:
        """Where sections start and end."""
        return tuple(1000.0 * edge_m for edge_m in self.plan.edges_m)

    @property
    def extra_mm(self) -> float:
        """Film beyond each end of the lay."""
        return 500.0 * self.plan.lay.overhang_m

    @property
    def ends_mm(self) -> tuple[float, float]:
        """Where the film starts and ends."""
        return -self.extra_mm, self.edges_mm[-1] + self.extra_mm

    @property
    def length_m(self) -> float:
        """Film to cut, m."""
        return film_length_m(self.plan.fibre, self.plan.lay)

    @cached_property
    def turns(self) -> dict[float, list[tuple[int, Turn]]]:
        """What the roving does where: turns with their number, by place."""
        found: dict[float, list[tuple[int, Turn]]] = {}
        for number, turn in enumerate(turns(self.plan.fibre, self.plan.lay)):
            place = 1000.0 * turn.lay_m
            same = next((one for one in found if abs(one - place) < SAME_MM), place)
            found.setdefault(same, []).append((number, turn))
        return found

    @cached_property
    def lines_mm(self) -> tuple[float, ...]:
        """Every place with an upright line of its own, rising."""
        places = sorted((*self.edges_mm, *self.turns, *self.ends_mm))
        return tuple(
            place for number, place in enumerate(places) if number == 0 or place - places[number - 1] > 1e-6
        )

    @cached_property
    def leg_lanes(self) -> tuple[LegLane, ...]:
        """The marks of every leg, strand by strand if there are few; none where all legs agree."""
        plan = self.plan
        if plan.lay.matching != "by weight" or not plan.boundaries:
            return ()
        passes, rovings = plan.lay.passes, plan.fibre.rovings
        each = bool(plan.fibre.measured) and passes * rovings <= MOST_LANES
        marks = [leg_marks(plan, roving) for roving in range(rovings)] if each else [leg_marks(plan)]
        if not marks_apart(np.concatenate(marks)).any():
            return ()
        return tuple(
            LegLane(
                lane_words(roving + 1 if each else None, leg + 1),
                tuple(1000.0 * mark for mark in of_leg.tolist()),
            )
            for roving, of_roving in enumerate(marks)
            for leg, of_leg in enumerate(of_roving)
        )

    def pieces(self, most_mm: float) -> tuple[Piece, ...]:
        """Return the tape in pieces of at most `most_mm`, all alike but the last, from a whole unit on."""
        unit_m = ruler_unit_m()
        unit_mm = 1000.0 * unit_m
        round_mm = _ROUND_CENTIMETRES * unit_mm if unit_m == CENTIMETRE_M else unit_mm
        low, high = self.ends_mm
        first = math.floor(low / unit_mm + 1e-6) * unit_mm
        step = math.floor(most_mm / round_mm + 1e-6) * round_mm
        count = max(math.ceil((high - first) / step - 1e-6), 1)
        return tuple(
            Piece(number + 1, count, first + number * step, min(first + (number + 1) * step, high), step)
            for number in range(count)
        )

    def painted_mm(self, index: int) -> float:
        """Return how long a section is without its shares of gaps."""
        start, end = self.edges_mm[index : index + 2]
        return end - start - 1000.0 * sum(self.plan.half_gaps_m[index : index + 2])

    def sections_within(self, low_mm: float, high_mm: float) -> Iterator[tuple[int, float, float]]:
        """Yield number, start and end of what is painted of every section between two places."""
        gaps, edges = self.plan.half_gaps_m, self.edges_mm
        first = max(bisect_right(edges, low_mm) - 1, 0)
        for index in range(first, min(bisect_left(edges, high_mm), len(edges) - 1)):
            start = max(self.edges_mm[index] + 1000.0 * gaps[index], low_mm)
            end = min(self.edges_mm[index + 1] - 1000.0 * gaps[index + 1], high_mm)
            if end - start > SAME_MM:
                yield index, start, end
