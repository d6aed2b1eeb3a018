"""The grade that the grey scale gives a change of colour.

The rule of this module: the scale has nine steps, each a CIELAB difference between two greys; the grade of
two colours is that of the step nearest to their own CIELAB difference. A grade is given by eye, so this one
is indicative.

Source of the steps: ISO 105-A02:1993 (EN 20105-A02:1994), Textiles, Tests for colour fastness, Grey scale
for assessing change in colour, 2.4.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from studio_gui.domain.colour.spaces import Array
from studio_gui.domain.ranges import exceeds

#: Grade and its CIELAB difference, from no change down.
GREY_SCALE: tuple[tuple[str, float], ...] = (
    ("5", 0.0),
    ("4-5", 0.8),
    ("4", 1.7),
    ("3-4", 2.5),
    ("3", 3.4),
    ("2-3", 4.8),
    ("2", 6.8),
    ("1-2", 9.6),
    ("1", 13.6),
)


def cielab_difference(lab_a: Array, lab_b: Array) -> float:
    """Return the distance of two colours, shape (3,), in CIE Lab (CIE 15:2018, 8.2.1.3).

    >>> cielab_difference(np.array([50.0, 3.0, 0.0]), np.array([50.0, 0.0, 4.0]))
    5.0
    """
    return float(np.linalg.norm(lab_a - lab_b))


def grey_scale_grade(lab_a: Array, lab_b: Array) -> str:
    """Return the grade, "5" (no change) to "1", of two colours, shape (3,); halfway is the worse one.

    >>> grey_scale_grade(np.array([50.0, 0.0, 0.0]), np.array([52.0, 0.0, 0.0]))
    '4'
    """
    difference = cielab_difference(lab_a, lab_b)
    grade = GREY_SCALE[0][0]
    for (_, better), (name, worse) in pairwise(GREY_SCALE):
        if not exceeds((better + worse) / 2.0, difference):
            grade = name
    return grade
