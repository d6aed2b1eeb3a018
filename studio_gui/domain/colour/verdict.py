"""How well a dye's curve meets the samples it was fitted to.

The rule of this module: differences are CIEDE2000 and the limits are our choices; equal to a limit is within
it. A lone sample that is missed was usually dyed on whiter fibre than was entered, because a curve through
one point has nothing else to miss it for; so was any that gives back more blue light than its fibre.
"""

from __future__ import annotations

from typing import Literal

from studio_gui.domain.ranges import exceeds

Verdict = Literal["met", "whiter fibre", "doubtful", "missed"]

LONE_LIMIT = 0.5
DOUBTFUL_LIMIT = 1.5
MISSED_LIMIT = 3.0


def verdict(miss: float, *, alone: bool, outshines: bool = False) -> Verdict:
    """Return what to say of a sample that its dye's curve misses by `miss`; `alone` if it is the only one.

    One that `outshines` its fibre, by `bluer_than_fibre`, cannot have been dyed on it.

    >>> [verdict(miss, alone=True) for miss in (0.4, 0.8)], verdict(2.0, alone=False)
    (['met', 'whiter fibre'], 'doubtful')
    """
    if outshines and exceeds(miss, LONE_LIMIT):
        return "whiter fibre"
    if exceeds(miss, MISSED_LIMIT):
        return "missed"
    if alone:
        return "whiter fibre" if exceeds(miss, LONE_LIMIT) else "met"
    return "doubtful" if exceeds(miss, DOUBTFUL_LIMIT) else "met"
