"""Where boundaries fall on each leg of a roving, as somebody measures who has that leg in hand.

The rule of this module: a mark is metres of roving from the leg's outer end, which is the end that lies at
the start of the lay. On legs of one thickness all marks of a boundary are alike; eased by weight they
are not.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.geometry import legs, strip_position
from studio_gui.domain.plan import Plan

FloatArray = NDArray[np.float64]

#: Marks of one boundary that differ by more than this are worth a tick of their own on each leg, m.
APART_M = 0.001


def leg_marks(plan: Plan, roving: int | None = None) -> FloatArray:
    """Return (legs, boundaries) metres from each leg's outer end, of one roving (from 0) or of their mean.

    Legs are in spinning order. Where a leg does not reach a boundary, the mark is at that leg's end.

    >>> from studio_gui.domain.new_plan import new_plan
    >>> leg_marks(new_plan()).tolist() == [[new_plan().boundaries[0].position_m]]
    True
    """
    fibre = plan.fibre if roving is None else plan.fibre.roving(roving)
    marks = np.empty((plan.lay.passes, len(plan.boundaries)))
    for number, leg in enumerate(legs(fibre, plan.lay)):
        outer_m = leg.strip_from_m if leg.forward else leg.strip_to_m
        places = strip_position(fibre, plan.lay, number, plan.edges_m[1:-1])
        marks[number] = np.abs(places - outer_m)
    return marks


def marks_apart(marks_m: FloatArray) -> NDArray[np.bool_]:
    """Tell of each boundary whether its marks (legs, boundaries) differ by more than `APART_M`.

    >>> marks_apart(np.array([[0.6, 1.0], [0.6, 1.1]])).tolist()
    [False, True]
    """
    apart: NDArray[np.bool_] = np.ptp(marks_m, axis=0) > APART_M
    return apart


def section_on_legs(plan: Plan, section_index: int) -> tuple[tuple[float, float], ...]:
    """Return from where to where a section lies on each leg, m from its outer end; () where legs agree.

    >>> from studio_gui.domain.new_plan import new_plan
    >>> section_on_legs(new_plan(), 0)
    ()
    """
    marks = leg_marks(plan)
    ends_m = np.abs(np.diff((0.0, *plan.lay.fold_positions_m, plan.fibre.length_m)))[:, np.newaxis]
    edges = np.hstack((np.zeros_like(ends_m), marks, ends_m))[:, section_index : section_index + 2]
    if not marks_apart(edges).any():
        return ()
    return tuple((float(start), float(end)) for start, end in edges)
