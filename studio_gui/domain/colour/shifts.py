"""How one colour differs from another, in the words that colours are asked for with.

The rule of this module: what was asked for is told whole; besides it only what an eye can notice, which is
taken as `NOTICEABLE` in CIE Lab (CIE 15:2018, 8.2.1); our choice.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from studio_gui.domain.colour.spaces import Array

Direction = Literal["lighter", "deeper", "redder", "greener", "yellower", "bluer"]
Word = Literal["lighter", "deeper", "redder", "greener", "yellower", "bluer", "duller", "more vivid"]

#: Axis of Lab and sense of each direction.
AXES: dict[Direction, tuple[int, float]] = {
    "lighter": (0, 1.0),
    "deeper": (0, -1.0),
    "redder": (1, 1.0),
    "greener": (1, -1.0),
    "yellower": (2, 1.0),
    "bluer": (2, -1.0),
}
NOTICEABLE = 1.0
#: A colour with less chroma than this has hardly a hue, and any that it gets is a change; our choice.
_GREY_CHROMA = 10.0
_LEAST_CHROMA = 1e-9


@dataclass(frozen=True, slots=True)
class Shift:
    """A change of colour in CIE Lab.

    Parameters
    ----------
    asked
        How far it goes in the direction that was asked for.
    besides
        What else changes noticeably, and by how much.
    """

    asked: float
    besides: tuple[tuple[Word, float], ...]


def hue_change(before: Array, after: Array) -> Array:
    """Return how far colours, Lab (..., 3), leave the hue of another, (3,); of a grey also its chroma.

    >>> red = np.array([40.0, 30.0, 0.0])
    >>> hue_change(red, np.array([[50.0, 20.0, 0.0], [50.0, 20.0, 3.0]])).tolist()
    [0.0, 3.0]
    """
    chroma, along, aside = _by_hue(before, after)
    is_grey = max(1.0 - chroma / _GREY_CHROMA, 0.0)
    changed: Array = np.hypot(np.linalg.norm(aside, axis=-1), (along - chroma) * is_grey)
    return changed


def shift(before: Array, after: Array, direction: Direction) -> Shift:
    """Return how `after` differs from `before`, Lab (3,), where `direction` was asked for.

    >>> shift(np.array([40.0, 30.0, 0.0]), np.array([42.0, 28.5, 1.4]), "lighter")
    Shift(asked=2.0, besides=(('yellower', 1.4), ('duller', 1.5)))
    """
    axis, sense = AXES[direction]
    move = after - before
    if axis == 0:
        chroma, along, aside = _by_hue(before, after)
        gain = float(along) - chroma
        sideways = int(np.abs(aside).argmax())
        found = [_towards(1 + sideways, float(np.sign(aside[sideways]) * np.linalg.norm(aside)))]
        found.append(("more vivid" if gain > 0.0 else "duller", abs(gain)))
    else:
        found = [_towards(other, float(move[other])) for other in range(3) if other != axis]
    besides = tuple((word, round(by, 9)) for word, by in found if by > NOTICEABLE)
    return Shift(round(sense * float(move[axis]), 9), besides)


def _by_hue(before: Array, after: Array) -> tuple[float, Array, Array]:
    """Return chroma before; of `after` the part along that hue, and the part aside of it, (..., 2)."""
    chroma = float(np.linalg.norm(before[1:]))
    hue = before[1:] / max(chroma, _LEAST_CHROMA)
    along = after[..., 1:] @ hue
    return chroma, along, after[..., 1:] - along[..., np.newaxis] * hue


def _towards(axis: int, by: float) -> tuple[Word, float]:
    words = {sense: word for word, (its_axis, sense) in AXES.items() if its_axis == axis}
    return words[1.0 if by > 0.0 else -1.0], abs(by)
