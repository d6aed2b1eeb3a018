"""Two colours beside each other, in figures.

The rule of this module: everything is told of the second against the first, from their CIE Lab.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.grades import grey_scale_grade
from studio_gui.domain.colour.spaces import LEAST_CHROMA_FOR_HUE, Array, lab_from_hex


@dataclass(frozen=True, slots=True)
class Comparison:
    """How the second colour differs from the first.

    Parameters
    ----------
    difference
        CIEDE2000.
    grade
        Step of the grey scale for change in colour, "5" to "1".
    lighter, more_vivid
        Steps of L* and of chroma C*, above 0 where the second is lighter or more vivid.
    hue_turn_deg
        Turn of hue from the first to the second the short way, -180 to 180 degrees; None where either is a
        grey, which has none.
    """

    difference: float
    grade: str
    lighter: float
    more_vivid: float
    hue_turn_deg: float | None


def compare(first_srgb: str, second_srgb: str) -> Comparison:
    """Return the comparison of two colours, ``#rrggbb``.

    >>> same = compare("#336699", "#336699")
    >>> same.difference, same.grade
    (0.0, '5')
    """
    return compare_labs(lab_from_hex(first_srgb), lab_from_hex(second_srgb))


def compare_labs(first: Array, second: Array) -> Comparison:
    """Return the comparison of two colours, each CIE Lab (3,), which no screen need show.

    Source of the pair: G. Sharma, W. Wu, E. N. Dalal, Color Research and Application 30(1), 2005, table 1.

    >>> round(compare_labs(np.array([50.0, 2.6772, -79.7751]), np.array([50.0, 0.0, -82.7485])).difference, 4)
    2.0425
    """
    chromas = [float(np.hypot(lab[1], lab[2])) for lab in (first, second)]
    hues = [float(np.degrees(np.arctan2(lab[2], lab[1]))) for lab in (first, second)]
    has_hues = min(chromas) >= LEAST_CHROMA_FOR_HUE
    return Comparison(
        difference=float(ciede2000(first, second)),
        grade=grey_scale_grade(first, second),
        lighter=float(second[0] - first[0]),
        more_vivid=chromas[1] - chromas[0],
        hue_turn_deg=(hues[1] - hues[0] + 180.0) % 360.0 - 180.0 if has_hues else None,
    )
