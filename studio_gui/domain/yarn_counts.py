"""Counts of yarn: what the trade calls the thickness that this program holds as grist, m/g.

The rule of this module: grist is the one measure inside (m/g, the metric count), and every other is made of
it here. A direct count is weight per length and falls as the yarn gets finer (tex, denier); an indirect one
is length per weight and grows. Yarns are folded by adding their weights per length, however they are counted.

Sources: ASTM D2260-03 (2013), Table 1, for the counts; its constants follow from the yard of 0.9144 m and the
pound of 453.59237 g (International yard and pound agreement, 1959), exact by definition, from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.ranges import checked

CountName = Literal["tex", "ktex", "denier", "Nm", "worsted", "cotton", "run", "yd/oz", "yd/lb"]

YARD_M = 0.9144
POUND_G = 453.59237
OUNCES_A_POUND = 16.0
WORSTED_HANK_YD = 560.0
COTTON_HANK_YD = 840.0
RUN_YD = 1600.0

_YD_PER_LB = POUND_G / YARD_M


@dataclass(frozen=True, slots=True)
class Count:
    """A way to count yarn: `at_1_m_per_g` is the count of a yarn of 1 m/g (1 ktex)."""

    at_1_m_per_g: float
    is_direct: bool = False


#: tex: g per km; denier: g per 9 km; worsted, cotton, run: hanks of 560, 840 and 1600 yd per lb.
COUNTS: dict[CountName, Count] = {
    "tex": Count(1000.0, is_direct=True),
    "ktex": Count(1.0, is_direct=True),
    "denier": Count(9000.0, is_direct=True),
    "Nm": Count(1.0),
    "worsted": Count(_YD_PER_LB / WORSTED_HANK_YD),
    "cotton": Count(_YD_PER_LB / COTTON_HANK_YD),
    "run": Count(_YD_PER_LB / RUN_YD),
    "yd/oz": Count(_YD_PER_LB / OUNCES_A_POUND),
    "yd/lb": Count(_YD_PER_LB),
}


def count_of(name: CountName, m_per_g: float) -> float:
    """Return the count called `name` of a yarn, roving or top of `m_per_g`.

    Source: ASTM D2260-03 (2013), Table 1. Raises ``out-of-range`` for a grist of 0 or less.

    >>> count_of("tex", 10.0), round(count_of("worsted", 10.0), 2), round(count_of("yd/lb", 10.0), 1)
    (100.0, 8.86, 4960.5)
    """
    grist = checked("grist_m_per_g", m_per_g)
    count = COUNTS[name]
    return count.at_1_m_per_g / grist if count.is_direct else count.at_1_m_per_g * grist


def m_per_g_of(name: CountName, value: float) -> float:
    """Return the grist (m/g) of what has the count `value`, as `count_of` the other way.

    Raises
    ------
    InvalidPlan
        ``out-of-range`` for a count of 0 or less: of ``linear_density_g_per_m`` where it is a direct one,
        else of ``grist_m_per_g``.

    >>> m_per_g_of("tex", 100.0), round(m_per_g_of("run", 1.0), 3)
    (10.0, 3.225)
    """
    count = COUNTS[name]
    if not count.is_direct:
        return checked("grist_m_per_g", value / count.at_1_m_per_g)
    checked("linear_density_g_per_m", value / count.at_1_m_per_g)
    return count.at_1_m_per_g / value


def draft(ktex_in: float, tex_out: float) -> float:
    """Return how many times longer a top of `ktex_in` (g/m) is drawn out for singles of `tex_out`.

    ``draft = linear density in / linear density out``. Source: GATE Textile question paper, 2018, TF/46.
    Raises ``out-of-range`` where either is 0 or less.

    >>> draft(20.0, 100.0)
    200.0
    """
    return m_per_g_of("tex", tex_out) / m_per_g_of("ktex", ktex_in)


def folded_m_per_g(strands_m_per_g: Sequence[float], take_up: float = 0.0) -> float:
    """Return the grist (m/g) of strands plied together, of which `take_up` of the length is lost.

    ``(1 - take-up) / sum(1 / grist)``: weights per length add up, and are spread over less length. Sources:
    C. P. Brooks, Cotton Manufacturing, Double yarns (the reciprocals); study cards, Spinning maths
    (``N2 = N1 (1 - C)``).

    Raises
    ------
    InvalidPlan
        ``out-of-range`` for a grist of 0 or less or a `take_up` outside 0 to 0.9; ``too-few`` for no strands.

    >>> round(folded_m_per_g([10.0, 10.0], take_up=0.05), 9)
    4.75
    """
    kept = 1.0 - checked("take_up", take_up)
    _check_strands(strands_m_per_g)
    return kept / sum(1.0 / checked("grist_m_per_g", grist) for grist in strands_m_per_g)


def folded(name: CountName, strands: Sequence[float], take_up: float = 0.0) -> float:
    """Return the count of strands of the counts `strands`, all called `name`, plied together.

    Direct counts add up, ``R = sum / (1 - take-up)``; indirect ones add up as reciprocals,
    ``(1 - take-up) / sum(1 / count)``. Sources and errors as `folded_m_per_g` and `m_per_g_of`.

    >>> round(folded("tex", [100.0, 100.0], take_up=0.2), 9), round(folded("worsted", [60.0, 40.0]), 9)
    (250.0, 24.0)
    """
    return count_of(name, folded_m_per_g([m_per_g_of(name, value) for value in strands], take_up))


def plied_m(strands_m: Sequence[float], take_up: float) -> float:
    """Return the metres of yarn that strands of `strands_m` make: the shortest ends it, then take-up.

    Raises ``out-of-range`` for a `take_up` outside 0 to 0.9, ``too-few`` for no strands. Source: the
    definition of take-up as the share of the strands' length that is lost on plying.

    >>> plied_m([760.0, 740.0], take_up=0.05)
    703.0
    """
    _check_strands(strands_m)
    return min(strands_m) * (1.0 - checked("take_up", take_up))


def _check_strands(strands: Sequence[float]) -> None:
    if not strands:
        raise InvalidPlan("too-few", field="plies", count=0, least=1)
