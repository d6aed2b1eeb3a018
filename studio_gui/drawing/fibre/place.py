"""Where strands lie in a picture: all that the fibre maps depend on.

The rule of this module: lengths are device pixels from the picture's left upper corner, y downwards. Strands
may start and end far outside the picture.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby, pairwise

#: Thinner strands, in px of the screen's scale, are drawn as plain tubes.
LEAST_FIBRE_HEIGHT = 10.0


@dataclass(frozen=True, slots=True)
class StrandPlace:
    """One leg of a roving: from `left` to `right`, turns included; `forward` when it runs to the right."""

    roving: int
    left: float
    right: float
    top: float
    height: float
    forward: bool

    @property
    def middle(self) -> float:
        """Row of the strand's middle."""
        return self.top + self.height / 2.0

    @property
    def end(self) -> float:
        """Column in which the leg ends as the roving runs."""
        return self.right if self.forward else self.left


@dataclass(frozen=True, slots=True)
class FibrePlace:
    """A picture of `width` by `height` px and the strands in it, roving by roving, pass by pass.

    `extra_px` is the extra film beyond each end of the lay, in which free ends may fray. `wicking_px` is the
    wicking width.
    """

    width: int
    height: int
    device_pixel_ratio: float
    strands: tuple[StrandPlace, ...]
    extra_px: float
    wicking_px: float


@dataclass(frozen=True, slots=True)
class LegPiece:
    """The straight part of a strand, `left` to `right`; `start_s` px of wool lie before its first end."""

    roving: int
    left: float
    right: float
    middle: float
    height: float
    forward: bool
    start_s: float
    frays_before: bool
    frays_after: bool
    bends_before: bool
    bends_after: bool

    @property
    def end_s(self) -> float:
        """Px of wool before the piece's last end."""
        return self.start_s + self.right - self.left


@dataclass(frozen=True, slots=True)
class TurnPiece:
    """The half ring in which a strand turns to the next, to the right of column `x` or to the left of it."""

    roving: int
    x: float
    middle: float
    radius: float
    height: float
    rightwards: bool
    start_s: float

    @property
    def length(self) -> float:
        """Px of wool along the middle of the turn."""
        return math.pi * self.radius


Piece = LegPiece | TurnPiece


def pieces(place: FibrePlace) -> Iterator[Piece]:
    """Yield the legs and turns of every roving in the order in which the wool runs."""
    for _, legs in groupby(place.strands, key=lambda strand: strand.roving):
        yield from _roving_pieces(tuple(legs))


def _roving_pieces(legs: tuple[StrandPlace, ...]) -> Iterator[Piece]:
    turns = [_turn_x(before, after) for before, after in pairwise(legs)]
    run = 0.0
    for number, leg in enumerate(legs):
        first, last = number == 0, number + 1 == len(legs)
        near = (leg.left if leg.forward else leg.right) if first else turns[number - 1]
        far = leg.end if last else turns[number]
        left, right = (near, far) if leg.forward else (far, near)
        piece = LegPiece(
            roving=leg.roving,
            left=left,
            right=right,
            middle=leg.middle,
            height=leg.height,
            forward=leg.forward,
            start_s=run,
            frays_before=first,
            frays_after=last,
            bends_before=not first,
            bends_after=not last,
        )
        yield piece
        run = piece.end_s
        if not last:
            after = legs[number + 1]
            turn = TurnPiece(
                roving=leg.roving,
                x=far,
                middle=(leg.middle + after.middle) / 2.0,
                radius=(after.middle - leg.middle) / 2.0,
                height=leg.height,
                rightwards=leg.forward,
                start_s=run,
            )
            yield turn
            run += turn.length


def _turn_x(before: StrandPlace, after: StrandPlace) -> float:
    """Return the column of a bend's middle: a fold's outermost wool lies where the leg ends.

    Legs shorter than their turns are not turned inside out: the turn then reaches beyond the fold.
    """
    outer = (after.middle - before.middle + before.height) / 2.0
    middles = [(leg.left + leg.right) / 2.0 for leg in (before, after)]
    if before.forward:
        return max(before.end - outer, *middles)
    return min(before.end + outer, *middles)
