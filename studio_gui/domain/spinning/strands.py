"""The singles of one ply: which section each metre of them comes from.

The rule of this module: metres of singles are grams times grist, never anything else. A strand is a row of
pieces, one a strip; on each, singles and weight of roving run evenly beside each other.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike, NDArray

from studio_gui.domain.fibre import Fibre
from studio_gui.domain.geometry import lay_position, mass_to, strip_at_mass
from studio_gui.domain.plan import Plan
from studio_gui.domain.strip import strip_runs
from studio_gui.domain.yarn import Ply

FloatArray = NDArray[np.float64]
IndexArray = NDArray[np.intp]

#: Pieces and runs shorter than this share of a roving are rounding.
LEAST_SHARE = 1e-12


@dataclass(frozen=True, eq=False)
class RovingCuts:
    """Where sections start and end on one roving: `cuts_g` (r + 1,) in g along it, `sections` (r,)."""

    fibre: Fibre
    cuts_g: FloatArray
    sections: IndexArray


@dataclass(frozen=True, eq=False)
class Strand:
    """The singles of one ply, in spinning order.

    Attributes
    ----------
    ply, fibre
        What it is spun from, and the roving that this is of, as a set of one.
    m_per_g
        Grist of the singles.
    piece_ends_m
        (k + 1,) where its k strips start and end, m of singles.
    piece_from_g, piece_to_g
        (k,) from where to where each runs on the roving, g along it.
    cuts_m, sections
        (n + 1,) where runs start and end, m of singles; (n,) the section that each comes from.
    """

    ply: Ply
    fibre: Fibre
    m_per_g: float
    piece_ends_m: FloatArray
    piece_from_g: FloatArray
    piece_to_g: FloatArray
    cuts_m: FloatArray
    sections: IndexArray

    @property
    def length_m(self) -> float:
        """All its singles, m."""
        return float(self.cuts_m[-1])

    @cached_property
    def usable_m(self) -> float:
        """Its singles behind what is wound off before plying, m."""
        return max(self.length_m - self.ply.offset_m, 0.0)

    def roving_g(self, singles_m: ArrayLike) -> FloatArray:
        """Return the place on the roving (g along it, any shape) that metre `singles_m` is spun from."""
        metres = np.clip(np.asarray(singles_m, dtype=np.float64), 0.0, self.length_m)
        last = len(self.piece_from_g) - 1
        piece = np.minimum(np.searchsorted(self.piece_ends_m, metres, side="right") - 1, last)
        starts = self.piece_ends_m[piece]
        part = (metres - starts) / (self.piece_ends_m[piece + 1] - starts)
        places: FloatArray = self.piece_from_g[piece] + part * (
            self.piece_to_g[piece] - self.piece_from_g[piece]
        )
        return places

    def lay_m(self, plan: Plan, singles_m: ArrayLike) -> FloatArray:
        """Return the place on the lay (m, any shape) that metre `singles_m` comes from."""
        return lay_position(self.fibre, plan.lay, strip_at_mass(self.fibre, self.roving_g(singles_m)))


def roving_cuts(plan: Plan, roving: int) -> RovingCuts:
    """Return where sections start and end on roving `roving` (from 0), by weight."""
    fibre = plan.fibre.roving(roving)
    runs = strip_runs(plan, roving)
    places = [0.0, *(run.end_m for run in runs)]
    return RovingCuts(fibre, mass_to(fibre, places), np.array([run.section_index for run in runs]))


def strand(ply: Ply, cuts: RovingCuts, m_per_g: float) -> Strand:
    """Spin one ply of a roving at `m_per_g`.

    >>> from studio_gui.domain.new_plan import new_plan
    >>> plan = new_plan()
    >>> strand(Ply(to_share=0.5), roving_cuts(plan, 0), 10.0).length_m == plan.fibre.mass_g * 5.0
    True
    """
    total_g = cuts.fibre.mass_g
    ends_g = (ply.from_share * total_g, ply.to_share * total_g)
    weights = np.array([strip.weight for strip in ply.strips])
    m_per_roving_g = m_per_g * ply.cross_section * weights / weights.sum()
    piece_m = m_per_roving_g * abs(ends_g[1] - ends_g[0])
    piece_ends_m = np.concatenate(([0.0], np.cumsum(piece_m)))
    from_g = np.array([ends_g[1] if strip.flipped else ends_g[0] for strip in ply.strips])
    to_g = np.array([ends_g[0] if strip.flipped else ends_g[1] for strip in ply.strips])
    places_g, sections = _run_once(cuts, *sorted(ends_g))
    all_cuts, all_sections = [np.zeros(1)], []
    for start_m, first_g, last_g, metres in zip(piece_ends_m[:-1], from_g, to_g, m_per_roving_g, strict=True):
        step = 1 if first_g < last_g else -1
        all_cuts.append(start_m + np.abs(places_g[::step] - first_g)[1:] * metres)
        all_sections.append(sections[::step])
    cuts_m = np.concatenate(all_cuts)
    cuts_m[-1] = piece_ends_m[-1]
    return Strand(ply, cuts.fibre, m_per_g, piece_ends_m, from_g, to_g, cuts_m, np.concatenate(all_sections))


def _run_once(cuts: RovingCuts, low_g: float, high_g: float) -> tuple[FloatArray, IndexArray]:
    """Return the cuts of a stretch of a roving, g, and the sections between them."""
    least_g = LEAST_SHARE * cuts.fibre.mass_g
    inner = cuts.cuts_g[(cuts.cuts_g > low_g + least_g) & (cuts.cuts_g < high_g - least_g)]
    places = np.concatenate(([low_g], inner, [high_g]))
    middles = (places[:-1] + places[1:]) / 2.0
    last = len(cuts.sections) - 1
    return places, cuts.sections[np.clip(np.searchsorted(cuts.cuts_g, middles) - 1, 0, last)]
