"""The strip: the roving unrolled, in spinning order.

The rule of this module: runs tile the strip exactly, from 0 to the roving's length; what lies on both sides
of a fold is one run.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from studio_gui.domain.geometry import legs, strip_position
from studio_gui.domain.plan import Plan

#: m; less than this of a section on a leg is rounding, not a run.
LEAST_RUN_M = 1e-9


class StripRun(NamedTuple):
    """A stretch of the strip that lies in one section, m along the roving."""

    section_index: int
    start_m: float
    end_m: float


def strip_runs(plan: Plan, roving: int = 0, edges_m: Sequence[float] | None = None) -> tuple[StripRun, ...]:
    """Return the runs of one roving (from 0) in spinning order; a section gives one on every leg it reaches.

    `edges_m` are those of the sections, unless others are tried: n + 1 places along the lay for n runs.
    Errors: none; a plan is valid.
    """
    edges = plan.edges_m if edges_m is None else edges_m
    fibre = plan.fibre.roving(roving)
    cuts: list[tuple[int, float]] = []
    for pass_index, leg in enumerate(legs(fibre, plan.lay)):
        places = list(enumerate(pairwise(strip_position(fibre, plan.lay, pass_index, edges).tolist())))
        for index, ends in places if leg.forward else reversed(places):
            if max(ends) - min(ends) < LEAST_RUN_M:
                continue
            if cuts and cuts[-1][0] == index:
                cuts.pop()
            cuts.append((index, max(ends)))
    cuts[-1] = (cuts[-1][0], plan.fibre.length_m)
    starts = (0.0, *(end for _, end in cuts))
    return tuple(StripRun(index, start, end) for (index, end), start in zip(cuts, starts, strict=False))
