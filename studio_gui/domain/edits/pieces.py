"""An uneven top as pieces of equal length: "78 + 72" g.

The rule of this module: pieces are typed as they were weighed, and the weight of the roving is their sum.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from studio_gui.domain.edits.inputs import set_fibre
from studio_gui.domain.fibre import Fibre, MassMark
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import RELATIVE_TOLERANCE, checked


def piece_masses_g(fibre: Fibre) -> tuple[float, ...] | None:
    """Return the weights (g) of the equally long pieces that a roving's marks describe.

    One piece where the top is even; None where the marks lie at other places, or rovings differ.

    >>> piece_masses_g(Fibre(150.0, 6.0, mass_marks=(MassMark(0.5, 0.52),)))
    (78.0, 72.0)
    """
    if fibre.measured:
        return None
    count = len(fibre.mass_marks) + 1
    for number, mark in enumerate(fibre.mass_marks, start=1):
        if abs(mark.strip_share * count - number) > RELATIVE_TOLERANCE * count:
            return None
    shares = (0.0, *(mark.mass_share for mark in fibre.mass_marks), 1.0)
    return tuple((after - before) * fibre.mass_g for before, after in pairwise(shares))


def set_pieces(plan: Plan, masses_g: Sequence[float]) -> Plan:
    """Describe each roving by the weights (g, one or more) of equally long pieces, from start to end.

    Raises
    ------
    InvalidPlan
        ``out-of-range`` when a piece weighs less than any roving may; ``marks-not-rising`` as `Fibre`.
    EditRefused
        As `set_fibre`.
    """
    total_g = sum(checked("mass_g", mass_g) for mass_g in masses_g)
    marks, before_g = [], 0.0
    for number, mass_g in enumerate(masses_g[:-1], start=1):
        before_g += mass_g
        marks.append(MassMark(number / len(masses_g), before_g / total_g))
    return set_fibre(plan, mass_g=total_g, mass_marks=tuple(marks))
