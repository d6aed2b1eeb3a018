"""Where a roving starts, turns and ends on the film.

The rule of this module: places are read off the legs as they lie, m along the lay; several turns may share
one place, in spinning order.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from studio_gui.domain.fibre import Fibre, Lay
from studio_gui.domain.geometry import legs

TurnKind = Literal["start", "fold", "end"]


@dataclass(frozen=True, slots=True)
class Turn:
    """A place on the lay, m, and what the roving does there; folds bulge `forward` along the lay or back."""

    lay_m: float
    kind: TurnKind
    forward: bool


def turns(fibre: Fibre, lay: Lay) -> tuple[Turn, ...]:
    """Return start, folds and end of one roving, in spinning order.

    >>> [(turn.lay_m, turn.kind) for turn in turns(Fibre(150.0, 6.0), Lay((3.0,)))]
    [(0.0, 'start'), (3.0, 'fold'), (0.0, 'end')]
    """
    passes = legs(fibre, lay)
    first, last = passes[0], passes[-1]
    folds = (
        Turn(leg.lay_high_m if leg.forward else leg.lay_low_m, "fold", leg.forward) for leg in passes[:-1]
    )
    end = Turn(last.lay_high_m if last.forward else last.lay_low_m, "end", last.forward)
    return (Turn(first.lay_low_m, "start", True), *folds, end)
