"""How even a fade is.

The rule of this module: a step is the CIEDE2000 between neighbours. A fade is the more even the smaller its
largest step over its smallest, and where a colour comes twice, the smaller the spread of its steps.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.spaces import Array

#: A smaller step is none: the same amounts, but for rounding.
_NO_STEP = 1e-6


@dataclass(frozen=True, slots=True)
class Evenness:
    """The n - 1 steps of a fade of n sections, CIEDE2000.

    >>> Evenness((2.0, 3.0)).ratio, Evenness((2.0, 0.0)).equal_neighbours
    (1.5, (1,))
    """

    steps: tuple[float, ...]

    @property
    def ratio(self) -> float:
        """Largest step over smallest, 1 or more; infinite where two neighbours are equal."""
        smallest = min(self.steps, default=1.0)
        return max(self.steps, default=1.0) / smallest if smallest > _NO_STEP else math.inf

    @property
    def spread(self) -> float:
        """Standard deviation of the steps over their mean, 0 or more; infinite where nothing changes."""
        if not self.steps:
            return 0.0
        mean = float(np.mean(self.steps))
        return float(np.std(self.steps)) / mean if mean > _NO_STEP else math.inf

    @property
    def equal_neighbours(self) -> tuple[int, ...]:
        """The steps, counted from 0, over which nothing changes."""
        return tuple(place for place, step in enumerate(self.steps) if step <= _NO_STEP)

    @property
    def rank(self) -> tuple[float, float]:
        """The smaller, the more even: by `ratio`, then by `spread`."""
        return self.ratio, self.spread


def evenness(labs: Array) -> Evenness:
    """Return the evenness of colours in their order, CIE Lab, shape (n, 3).

    >>> evenness(np.array([[50.0, 0.0, 0.0], [51.0, 0.0, 0.0], [51.0, 0.0, 0.0]])).equal_neighbours
    (1,)
    """
    return Evenness(tuple(ciede2000(labs[:-1], labs[1:]).tolist()))
