"""A yarn as rows of knitting: how many there are, and which metre of the yarn lies where in them.

The rule of this module: rows take plied metres, one after another from the start of the yarn; what does not
make a whole row is no row.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import RELATIVE_TOLERANCE
from studio_gui.domain.spinning.figures import YarnFigures, YarnRun

#: Stitches to a metre of width: 20 to 10 cm, common practice, no source.
STITCHES_PER_M = 200.0


@dataclass(frozen=True, eq=False)
class KnittedRows:
    """The rows that a yarn makes: each takes `row_m` of plied yarn and has `stitches`."""

    yarn: YarnFigures

    @property
    def plan(self) -> Plan:
        """The plan that the yarn is of."""
        return self.yarn.plan

    @property
    def row_m(self) -> float:
        """Plied yarn that one row takes, m."""
        return self.plan.yarn.knitting.metres_a_row

    @property
    def stitches(self) -> int:
        """Stitches of a row at the usual gauge, 1 or more."""
        return max(round(self.plan.yarn.knitting.width_m * STITCHES_PER_M), 1)

    @property
    def rows(self) -> int:
        """Whole rows that there is yarn for."""
        return math.floor(self.yarn.plied_m / self.row_m * (1.0 + RELATIVE_TOLERANCE))

    def laid_m(self, rows: ArrayLike) -> NDArray[np.float64]:
        """Return the places on the yarn, laid m, at places in `rows` (any shape): 1.5 is half along row 1."""
        plied: NDArray[Any] = np.asarray(rows, dtype=np.float64) * self.row_m
        return np.clip(plied / (1.0 - self.yarn.take_up), 0.0, self.yarn.laid_m)

    def run_at(self, row: float) -> YarnRun | None:
        """Return the stretch of yarn at a place in rows; None beyond the yarn."""
        place_m = row * self.row_m
        return next((run for run in self.yarn.runs if run.start_m <= place_m < run.end_m), None)

    def rows_of(self, run: YarnRun) -> float:
        """Return how many rows a stretch of yarn makes."""
        return (run.end_m - run.start_m) / self.row_m
