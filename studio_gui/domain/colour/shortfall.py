"""What a colour lacks to be another one.

The rule of this module: what is missing is told as light, depth or one hue, whichever an eye would miss most.
Hues go by their CIELAB angle; where one ends and the next begins is our choice. What a far colour lacks is
told by IPT: depth, or the hue of the wanted colour itself.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.ipt import ipt_from_lab
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

#: The same in IPT: where these angles of CIELAB lie for L* 60, chroma 40, in whole degrees.
_HUE_ENDS_IN_IPT: tuple[tuple[float, Lack], ...] = tuple(
    (end, hue)
    for end, (_, hue) in zip(
        (14.0, 43.0, 64.0, 97.0, 122.0, 172.0, 222.0, 265.0, 319.0, 360.0), _HUE_ENDS, strict=True
    )
)

#: Chroma from which a colour is called by its hue, our choice.
LEAST_CHROMA_FOR_NAME = 10.0

#: CIEDE2000 within which a wanted colour counts as reached, our choice: beside one another they look alike.
REACHED = 2.0


@dataclass(frozen=True, slots=True)
class Shortfall:
    """How far, CIEDE2000, and what is missing most; `hue` is the wanted colour's own, where another."""

    difference: float
    lack: Lack
    hue: Lack | None = None


def hue_of(green_to_red: float, blue_to_yellow: float) -> Lack:
    """Return the hue that a direction in the plane of a* and b* is called by.

    >>> hue_of(1.0, 0.5), hue_of(-1.0, 0.2), hue_of(0.0, -1.0)
    ('red', 'green', 'blue')
    """
    return _named(_HUE_ENDS, green_to_red, blue_to_yellow)


def hue_in_ipt(lab: Array) -> Lack:
    """Return the hue that a colour, Lab (3,), is called by in IPT.

    A vivid blue is one here, where its CIELAB angle is that of a violet.

    >>> hue_in_ipt(np.array([32.3, 79.2, -107.9])), hue_of(79.2, -107.9)
    ('blue', 'violet')
    """
    _, green_to_red, blue_to_yellow = ipt_from_lab(lab).tolist()
    return _named(_HUE_ENDS_IN_IPT, green_to_red, blue_to_yellow)


def _named(ends: tuple[tuple[float, Lack], ...], green_to_red: float, blue_to_yellow: float) -> Lack:
    angle = float(np.degrees(np.arctan2(blue_to_yellow, green_to_red))) % 360.0
    return next((hue for end, hue in ends if angle < end), "magenta")


def shortfall(wanted_lab: Array, reached_lab: Array) -> Shortfall:
    """Return what the reached colour, Lab (3,), lacks of the wanted one.

    >>> shortfall(np.array([60.0, 10.0, 60.0]), np.array([60.0, 10.0, 20.0])).lack
    'yellow'
    >>> dusty_red = shortfall(np.array([55.0, 30.0, 20.0]), np.array([55.0, 32.0, 34.0]))
    >>> dusty_red.lack, dusty_red.hue
    ('blue', 'red')
    """
    same_lightness = np.array([reached_lab[0], wanted_lab[1], wanted_lab[2]])
    of_lightness = float(ciede2000(same_lightness, wanted_lab))
    of_hue = float(ciede2000(same_lightness, reached_lab))
    difference = float(ciede2000(wanted_lab, reached_lab))
    if of_lightness > of_hue:
        return Shortfall(difference, "light" if wanted_lab[0] > reached_lab[0] else "depth")
    lack = hue_of(*(wanted_lab - reached_lab)[1:].tolist())
    own = hue_of(*wanted_lab[1:].tolist())
    has_hue = float(np.hypot(wanted_lab[1], wanted_lab[2])) >= LEAST_CHROMA_FOR_NAME
    return Shortfall(difference, lack, own if has_hue and own != lack else None)


def lack_of_far(wanted_lab: Array, reached_lab: Array) -> Lack:
    """Return what the reached colour, Lab (3,), lacks of a wanted one that is far: depth, or its hue.

    A colour with much chroma that is too light lacks a clear dye of its hue, not light.

    >>> lack_of_far(np.array([60.3, 98.2, -60.8]), np.array([60.0, -3.0, -4.0]))
    'magenta'
    """
    deeper, red, yellow = (ipt_from_lab(reached_lab) - ipt_from_lab(wanted_lab)).tolist()
    return "depth" if deeper > np.hypot(red, yellow) else hue_in_ipt(wanted_lab)
