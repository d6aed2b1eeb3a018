"""What a colour lacks to be another one.

The rule of this module: what is missing is told as light, depth or one hue, whichever an eye would miss most.
Hues go by their CIELAB angle; where one ends and the next begins is our choice.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.spaces import Array

Lack = Literal[
    "light",
    "depth",
    "red",
    "orange",
    "yellow",
    "yellow-green",
    "green",
    "turquoise",
    "blue",
    "violet",
    "magenta",
]

#: Where each hue ends, degrees; magenta goes on to where red begins.
_HUE_ENDS: tuple[tuple[float, Lack], ...] = (
    (10.0, "magenta"),
    (45.0, "red"),
    (70.0, "orange"),
    (105.0, "yellow"),
    (130.0, "yellow-green"),
    (170.0, "green"),
    (225.0, "turquoise"),
    (290.0, "blue"),
    (325.0, "violet"),
    (360.0, "magenta"),
)

#: CIEDE2000 within which a wanted colour counts as reached, our choice: beside one another they look alike.
REACHED = 2.0


@dataclass(frozen=True, slots=True)
class Shortfall:
    """How far, CIEDE2000, and what is missing most."""

    difference: float
    lack: Lack


def hue_of(green_to_red: float, blue_to_yellow: float) -> Lack:
    """Return the hue that a direction in the plane of a* and b* is called by.

    >>> hue_of(1.0, 0.5), hue_of(-1.0, 0.2), hue_of(0.0, -1.0)
    ('red', 'green', 'blue')
    """
    angle = float(np.degrees(np.arctan2(blue_to_yellow, green_to_red))) % 360.0
    return next((hue for end, hue in _HUE_ENDS if angle < end), "magenta")


def shortfall(wanted_lab: Array, reached_lab: Array) -> Shortfall:
    """Return what the reached colour, Lab (3,), lacks of the wanted one.

    >>> shortfall(np.array([60.0, 10.0, 60.0]), np.array([60.0, 10.0, 20.0])).lack
    'yellow'
    """
    same_lightness = np.array([reached_lab[0], wanted_lab[1], wanted_lab[2]])
    of_lightness = float(ciede2000(same_lightness, wanted_lab))
    of_hue = float(ciede2000(same_lightness, reached_lab))
    difference = float(ciede2000(wanted_lab, reached_lab))
    if of_lightness > of_hue:
        return Shortfall(difference, "light" if wanted_lab[0] > reached_lab[0] else "depth")
    red, yellow = (wanted_lab - reached_lab)[1:].tolist()
    return Shortfall(difference, hue_of(red, yellow))
