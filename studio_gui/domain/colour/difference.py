"""How different two colours look.

The rule of this module: a colour difference in this program is CIEDE2000 with all three weights 1. It ranks
large steps, it does not measure them.

Source: G. Sharma, W. Wu, E. N. Dalal, "The CIEDE2000 Color-Difference Formula: Implementation Notes,
Supplementary Test Data, and Mathematical Observations", Color Research and Application 30(1), 2005,
doi 10.1002/col.20070. Equation numbers below are theirs.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.colour.spaces import Array

#: Times the straight line that the way through a step of a fade may come to; our choice: painted fades come
#: to 1.0 to 1.1, plain colours beside one another to 1.15 and more.
LONGEST_WAY = 1.1

_GREY_RADIUS_7 = 25.0**7


def _chroma_weight(chroma: Array) -> Array:
    """The share of chroma to the seventh power that both the grey correction and the rotation use."""
    seventh = chroma**7
    return np.sqrt(seventh / (seventh + _GREY_RADIUS_7))


def _short_turn(turn: Array) -> Array:
    """A turn of hue in degrees the short way round, equation 10; half a turn keeps its sense."""
    return turn - 360.0 * np.sign(turn) * (np.abs(turn) > 180.0)


def _mean_hue(hue_a: Array, hue_b: Array, either_grey: Array) -> Array:
    """Mean of two hues in degrees the short way round, equation 14; their sum when one colour has no hue."""
    total = hue_a + hue_b
    round_the_back = np.where(total < 360.0, total + 360.0, total - 360.0)
    mean = 0.5 * np.where(np.abs(hue_a - hue_b) <= 180.0, total, round_the_back)
    return np.where(either_grey, total, mean)


def ciede2000(lab_a: Array, lab_b: Array) -> Array:
    """Return the CIEDE2000 difference, shape (...), of Lab colours, shapes (..., 3) that broadcast.

    >>> a, b = np.array([50.0, 2.6772, -79.7751]), np.array([50.0, 0.0, -82.7485])
    >>> round(float(ciede2000(a, b)), 4)
    2.0425
    """
    lightness_a, red_a, yellow_a = np.moveaxis(np.asarray(lab_a), -1, 0)
    lightness_b, red_b, yellow_b = np.moveaxis(np.asarray(lab_b), -1, 0)

    # Equations 2 to 7: near grey the a* axis is stretched.
    mean_plain_chroma = 0.5 * (np.hypot(red_a, yellow_a) + np.hypot(red_b, yellow_b))
    stretch = 1.0 + 0.5 * (1.0 - _chroma_weight(mean_plain_chroma))
    chroma_a, chroma_b = np.hypot(red_a * stretch, yellow_a), np.hypot(red_b * stretch, yellow_b)
    hue_a = np.degrees(np.arctan2(yellow_a, red_a * stretch)) % 360.0
    hue_b = np.degrees(np.arctan2(yellow_b, red_b * stretch)) % 360.0
    either_grey = chroma_a * chroma_b == 0.0

    # Equations 8 to 11: the three differences; a colour without hue has no hue difference.
    turn = _short_turn(hue_b - hue_a)
    hue_step = 2.0 * np.sqrt(chroma_a * chroma_b) * np.sin(np.radians(turn) / 2.0)
    mean_chroma = 0.5 * (chroma_a + chroma_b)
    mean_hue = _mean_hue(hue_a, hue_b, either_grey)

    # Equations 15 to 21: what a step of lightness, chroma and hue weighs at this place.
    tone = (
        1.0
        - 0.17 * np.cos(np.radians(mean_hue - 30.0))
        + 0.24 * np.cos(np.radians(2.0 * mean_hue))
        + 0.32 * np.cos(np.radians(3.0 * mean_hue + 6.0))
        - 0.20 * np.cos(np.radians(4.0 * mean_hue - 63.0))
    )
    from_mid_grey = (0.5 * (lightness_a + lightness_b) - 50.0) ** 2
    lightness_weight = 1.0 + 0.015 * from_mid_grey / np.sqrt(20.0 + from_mid_grey)
    lightness_term = (lightness_b - lightness_a) / lightness_weight
    chroma_term = (chroma_b - chroma_a) / (1.0 + 0.045 * mean_chroma)
    hue_term = hue_step / (1.0 + 0.015 * mean_chroma * tone)
    blue_turn = 60.0 * np.exp(-(((mean_hue - 275.0) / 25.0) ** 2))
    rotation = -2.0 * _chroma_weight(mean_chroma) * np.sin(np.radians(blue_turn))

    # Equation 22; rounding may leave the sum a hair below zero.
    squared: Array = lightness_term**2 + chroma_term**2 + hue_term**2 + rotation * chroma_term * hue_term
    difference: Array = np.sqrt(np.maximum(squared, 0.0))
    return difference


def lies_between(before: Array, here: Array, after: Array) -> NDArray[np.bool_]:
    """Tell of Lab colours, shapes (..., 3), whether each is a step on the way from one to another.

    It is where the way through it is at most `LONGEST_WAY` times the straight line in CIELAB.

    >>> one, other = np.array([20.0, 0.0, 0.0]), np.array([80.0, 0.0, 0.0])
    >>> bool(lies_between(one, np.array([50.0, 9.0, 0.0]), other))
    True
    >>> bool(lies_between(one, np.array([50.0, 40.0, 0.0]), other))
    False
    """
    through = np.linalg.norm(here - before, axis=-1) + np.linalg.norm(after - here, axis=-1)
    between: NDArray[np.bool_] = through <= LONGEST_WAY * np.linalg.norm(after - before, axis=-1)
    return between
