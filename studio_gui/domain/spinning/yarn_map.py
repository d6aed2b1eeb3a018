"""From the lay to the yarn and back: how many metres of yarn lie before a place on the lay.

The rule of this module: stripes are counted in the yarn, sections lie on the lay, and this is the only way
from one to the other. A section lies across every pass, so its stripe comes at several *places* of the
strands that it governs: on each leg, each half, each strip. Its metres are the mean over those places, so
that none are lost or made; with an uneven top they go through grams, never through a mean density.

Which way it is read hangs on where the strands start. Where all start at one end of the lay, stripes run over
the whole of it. Where they start at both ends (plied from both ends of a roving that is not folded), stripes
fill the first half and are mirrored on the second.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from studio_gui.domain.fibre import Fibre, Lay
from studio_gui.domain.geometry import lay_position, legs, mass_to, strip_at_mass, strip_position
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.plies import plies_of, strands_twisted
from studio_gui.domain.yarn import CHAIN_PLIES, Ply, Structure

FloatArray = NDArray[np.float64]

#: Structures in which one ply is chosen whose stripes are planned; in the others all plies show them alike.
OF_ONE_PLY: tuple[Structure, ...] = ("fractal", "free")
#: Share of a roving's weight by which a place is moved to see on which leg it lies.
_NUDGE = 1e-9


@dataclass(frozen=True, slots=True)
class _Stretch:
    """Singles of one strip that are in the yarn: `from_g` to `to_g` along a roving, at so many m per g."""

    fibre: Fibre
    from_g: float
    to_g: float
    m_per_g: float

    @property
    def length_m(self) -> float:
        return abs(self.to_g - self.from_g) * self.m_per_g


@dataclass(frozen=True, eq=False)
class YarnMap:
    """Metres of yarn along the lay.

    Attributes
    ----------
    places_m, before_m
        (k,) rising places on the lay, and the plied metres of one place before each; straight between them.
    available_m
        Plied metres that stripes can be planned over.
    usable_g
        Weight of one roving that becomes those metres, and what comes back of them, g.
    backward
        Whether the yarn starts at the far end of the lay.
    mirrored
        Whether strands start at both ends of the lay.
    times
        How often a stripe comes in the yarn.
    """

    places_m: FloatArray
    before_m: FloatArray
    available_m: float
    usable_g: float
    backward: bool
    mirrored: bool
    times: int

    @property
    def middle_m(self) -> float:
        """Where a mirrored lay is mirrored, m along it; else its far end."""
        return self.lay_at(self.available_m)[0] if self.mirrored else float(self.places_m[-1])

    def yarn_before(self, lay_m: ArrayLike) -> FloatArray:
        """Return the plied metres of one place that lie before `lay_m` (m along the lay, any shape)."""
        return np.interp(np.asarray(lay_m, dtype=np.float64), self.places_m, self.before_m)

    def lay_at(self, yarn_m: float) -> tuple[float, ...]:
        """Return the places on the lay (m) at `yarn_m` plied metres of a pattern: two on a mirrored lay."""
        low = (self._lay_before(yarn_m),)
        if not (self.mirrored or self.backward):
            return low
        high = (self._lay_before(float(self.before_m[-1]) - yarn_m),)
        return (*low, *high) if self.mirrored else high

    def _lay_before(self, yarn_m: float) -> float:
        yarn_m = max(yarn_m, 0.0)
        after = int(np.searchsorted(self.before_m, yarn_m, side="right"))  # behind any stretch without yarn
        if after == len(self.before_m):
            return float(self.places_m[-1])
        low_m, high_m = map(float, self.before_m[after - 1 : after + 1])
        start_m, end_m = map(float, self.places_m[after - 1 : after + 1])
        return start_m + (yarn_m - low_m) / (high_m - low_m) * (end_m - start_m)


def governing_ply(plan: Plan) -> int | None:
    """Return the ply (from 0) whose stripes are planned; None where all plies show them alike.

    >>> from studio_gui.domain.new_plan import new_plan
    >>> governing_ply(new_plan()) is None
    True
    """
    yarn = plan.yarn
    if yarn.structure not in OF_ONE_PLY:
        return None
    return min(yarn.stripe_ply, 2 if yarn.structure == "fractal" else len(yarn.plies)) - 1


def take_up_of(plan: Plan) -> float:
    """Return the fraction of length lost on plying; a single is not plied.

    >>> from studio_gui.domain.new_plan import new_plan
    >>> take_up_of(new_plan()) == new_plan().yarn.take_up
    True
    """
    return plan.yarn.take_up if strands_twisted(plan) > 1 else 0.0


def folds_of(plan: Plan) -> int:
    """Return how often a strand lies beside itself in the yarn: three times in a chain, else once."""
    return CHAIN_PLIES if plan.yarn.structure == "chain" else 1


def yarn_map(plan: Plan) -> YarnMap:
    """Return the metres of yarn along the plan's lay.

    Errors: none; where a strand is all wound off before plying, no metres are available.
    """
    plies = plies_of(plan)
    fibres = [plan.fibre.roving(ply.roving - 1) for ply in plies]
    m_per_g, folds = plan.yarn.singles_m_per_g, folds_of(plan)
    lengths = [_singles_m(ply, fibre, m_per_g) for ply, fibre in zip(plies, fibres, strict=True)]
    used_m = max(min(length - ply.offset_m for ply, length in zip(plies, lengths, strict=True)), 0.0)
    chosen = governing_ply(plan)
    governed = range(len(plies)) if chosen is None else (chosen,)
    strands = [list(_stretches(plies[number], fibres[number], m_per_g, used_m)) for number in governed]
    ways = {_starts_forward(strand[0], plan.lay) for strand in strands if strand}
    if plan.yarn.structure == "free":
        strands = [[_first_leg(strand[0], plan.lay)] for strand in strands if strand]
    stretches = [stretch for strand in strands for stretch in strand]
    mirrored = len(ways) == 2
    at_one_leg = _places_of_a_section(plan)
    kept = (1.0 - take_up_of(plan)) / (folds * at_one_leg)
    places = _knots(stretches, plan.lay, plan.lay_length_m)
    before_m = _singles_before(stretches, plan.lay, places) * kept
    total_m = float(before_m[-1])
    one_roving = (
        1.0
        if plan.yarn.structure not in ("rovings", *OF_ONE_PLY)
        else sum(plies[number].cross_section for number in governed)
    )
    return YarnMap(
        places_m=places,
        before_m=before_m,
        available_m=total_m / 2.0 if mirrored else total_m,
        usable_g=sum(one.length_m for one in stretches) / (m_per_g * one_roving),
        backward=ways == {False},
        mirrored=mirrored,
        times=max(at_one_leg * (2 if mirrored else 1) // len(governed), 1),
    )


def _singles_m(ply: Ply, fibre: Fibre, m_per_g: float) -> float:
    return m_per_g * ply.cross_section * abs(ply.to_share - ply.from_share) * fibre.mass_g


def _stretches(ply: Ply, fibre: Fibre, m_per_g: float, used_m: float) -> Iterable[_Stretch]:
    """Yield the strips of one ply as far as they are in the yarn, in spinning order."""
    ends_g = (ply.from_share * fibre.mass_g, ply.to_share * fibre.mass_g)
    total_weight = sum(strip.weight for strip in ply.strips)
    start_m, end_m, at_m = ply.offset_m, ply.offset_m + used_m, 0.0
    for strip in ply.strips:
        metres = m_per_g * ply.cross_section * strip.weight / total_weight
        length_m = metres * abs(ends_g[1] - ends_g[0])
        low, high = (min(max((place - at_m) / length_m, 0.0), 1.0) for place in (start_m, end_m))
        at_m += length_m
        if high <= low:
            continue
        first_g, last_g = reversed(ends_g) if strip.flipped else ends_g
        yield _Stretch(fibre, first_g + low * (last_g - first_g), first_g + high * (last_g - first_g), metres)


def _places_of_a_section(plan: Plan) -> int:
    """Return at how many places of the governed strands a section lies; of a mirrored lay, one of two."""
    passes, yarn = plan.lay.passes, plan.yarn
    if yarn.structure == "free":
        return 1
    if yarn.structure == "broken at the fold":
        return max(passes - passes % 2, 1)  # of an odd number of legs, the last is on no bobbin's pattern
    if yarn.structure == "fractal":
        return passes * (len(yarn.strips) if governing_ply(plan) == 1 else 1)
    return passes * (len(plies_of(plan)) if yarn.structure in ("lengthwise", "rovings") else 1)


def _starts_forward(stretch: _Stretch, lay: Lay) -> bool:
    """Tell whether a strand, from its first metre, runs with the lay."""
    with_roving = stretch.to_g > stretch.from_g
    return legs(stretch.fibre, lay)[_leg_at_start(stretch, lay)].forward == with_roving


def _leg_at_start(stretch: _Stretch, lay: Lay) -> int:
    nudge_g = _NUDGE * stretch.fibre.mass_g * (1.0 if stretch.to_g > stretch.from_g else -1.0)
    place_m = strip_at_mass(stretch.fibre, stretch.from_g + nudge_g)
    return int(np.searchsorted(lay.fold_positions_m, float(place_m), side="right"))


def _first_leg(stretch: _Stretch, lay: Lay) -> _Stretch:
    """Return a stretch as far as its first fold."""
    leg = legs(stretch.fibre, lay)[_leg_at_start(stretch, lay)]
    low_g, high_g = mass_to(stretch.fibre, (leg.strip_from_m, leg.strip_to_m)).tolist()
    to_g = min(stretch.to_g, high_g) if stretch.to_g > stretch.from_g else max(stretch.to_g, low_g)
    return _Stretch(stretch.fibre, stretch.from_g, to_g, stretch.m_per_g)


def _knots(stretches: Iterable[_Stretch], lay: Lay, lay_length_m: float) -> FloatArray:
    """Return the places on the lay (m) between which metres run evenly: marks, ends of legs and strips."""
    places = [np.array([0.0, lay_length_m])]
    for one in stretches:
        marks_m = [mark.strip_share * one.fibre.length_m for mark in one.fibre.mass_marks]
        ends_m = strip_at_mass(one.fibre, (one.from_g, one.to_g)).tolist()
        places.append(lay_position(one.fibre, lay, [*marks_m, *ends_m]))
        places += [np.array([leg.lay_low_m, leg.lay_high_m]) for leg in legs(one.fibre, lay)]
    return np.unique(np.clip(np.concatenate(places), 0.0, lay_length_m))


def _singles_before(stretches: Iterable[_Stretch], lay: Lay, places_m: FloatArray) -> FloatArray:
    """Return the singles (m) of all stretches that lie before places on the lay, on all their legs."""
    total = np.zeros(len(places_m))
    for one in stretches:
        low_g, high_g = sorted((one.from_g, one.to_g))
        for index, leg in enumerate(legs(one.fibre, lay)):
            start_m = leg.strip_from_m if leg.forward else leg.strip_to_m
            start_g = np.clip(mass_to(one.fibre, start_m), low_g, high_g)
            here_g = np.clip(
                mass_to(one.fibre, strip_position(one.fibre, lay, index, places_m)), low_g, high_g
            )
            total += np.abs(here_g - start_g) * one.m_per_g
    return total
