"""The dyes at hand on one fibre: what colour any doses of them give.

The rule of this module: a dose is of a dye, not of a bottle. Bottles with the same dye, strong and weak, add
up to one dose before it is coloured, and what a dye does not take up is not seen.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from studio_gui.domain.colour.fit import DyeCurve
from studio_gui.domain.colour.mixing import predicted_lab
from studio_gui.domain.colour.spaces import Array


@dataclass(frozen=True, slots=True, eq=False)
class Palette:
    """Dyes on a fibre.

    Parameters
    ----------
    curves
        The d dyes, each once.
    take_up_pct_owf
        What the wool takes up of each at most, shape (d,).
    undyed_srgb
        Colour of the undyed fibre, ``#rrggbb``.
    """

    curves: tuple[DyeCurve, ...]
    take_up_pct_owf: Array
    undyed_srgb: str

    def lab(self, doses_pct_owf: Array) -> Array:
        """Return CIE Lab, shape (..., 3), of doses on the fibre in % owf, shape (..., d); indicative.

        >>> Palette((), np.zeros(0), "#ffffff").lab(np.zeros((2, 1, 0))).round(2).tolist()
        [[[100.0, 0.0, 0.0]], [[100.0, 0.0, 0.0]]]
        """
        taken = np.minimum(doses_pct_owf, self.take_up_pct_owf)
        places = taken.shape[:-1]
        rows = taken.reshape(math.prod(places), len(self.curves))
        return predicted_lab(rows, self.curves, self.undyed_srgb).reshape(*places, 3)


def dyes_of_bottles(curves: Sequence[DyeCurve]) -> tuple[int, ...]:
    """Return which dye is in each bottle, counted from 0 in the order of the first bottle of each.

    Bottles hold the same dye where they have the same swatches, and so the same curve.

    >>> from studio_gui.domain.colour.fit import dye_curve
    >>> from studio_gui.domain.colour.swatches import Swatch
    >>> blue, red = (dye_curve((Swatch(1.0, colour, "#f2ebdc"),)) for colour in ("#2a5d8f", "#a03030"))
    >>> dyes_of_bottles([blue, red, blue])
    (0, 1, 0)
    """
    seen: dict[tuple[float, bytes, bool], int] = {}
    return tuple(seen.setdefault(_what_it_absorbs(curve), len(seen)) for curve in curves)


def doses_of_dyes(doses_of_bottles: Array, dye_of: Sequence[int], dyes: int) -> Array:
    """Return the doses of so many dyes, (..., dyes), of doses by bottle, (..., b), and the dye in each.

    >>> doses_of_dyes(np.array([[0.5, 0.2, 0.25]]), (0, 1, 0), 2).tolist()
    [[0.75, 0.2]]
    """
    sums = np.zeros((len(dye_of), dyes))
    sums[np.arange(len(dye_of)), list(dye_of)] = 1.0
    doses: Array = doses_of_bottles @ sums
    return doses


def _what_it_absorbs(curve: DyeCurve) -> tuple[float, bytes, bool]:
    """Return by what a dye is known; swatches that are equal are fitted to the last bit alike."""
    return curve.exponent, curve.unit_k_over_s.tobytes(), curve.excess is None
