"""Stripes too short for the staple, and other structures that would do.

The rule of this module: a stretch of roving shorter than 1.5 staples whose neighbours both look clearly
different will not stay a clean stripe, for the same fibres reach over both its ends. A step of a fade is no
such stretch: its colour lies on the way from one neighbour to the other.

1.5 staples, and CIEDE2000 above 10 for a clear difference: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.colour.difference import ciede2000, lies_between
from studio_gui.domain.colour.mixing import PredictedColours
from studio_gui.domain.colour.spaces import lab_from_xyz, linear_from_srgb, xyz_from_linear
from studio_gui.domain.fibre import Fibre, Lay
from studio_gui.domain.figures import SectionFigures
from studio_gui.domain.plan import Plan
from studio_gui.domain.profile import section_colours
from studio_gui.domain.ranges import exceeds
from studio_gui.domain.spinning.stripes import StripePlan
from studio_gui.domain.spinning.yarn_map import YarnMap, folds_of, governing_ply, take_up_of, yarn_map
from studio_gui.domain.strip import strip_runs
from studio_gui.domain.yarn import Structure, Yarn

FloatArray = NDArray[np.float64]

LEAST_STAPLES = 1.5
CLEAR_DIFFERENCE = 10.0

#: Structures that are tried in place of another, with the strands beside one another. None takes less of the
#: roving than a single.
_TRIED: tuple[tuple[Structure, int], ...] = (
    ("both ends", 2),
    ("lengthwise", 2),
    ("fractal", 2),
    ("lengthwise", 3),
    ("chain", 3),
)


@dataclass(frozen=True, slots=True)
class Offer:
    """A structure in which the shortest stripe, in the same rows, is long enough on the roving.

    `length_m` is its length there; `needed_g` and `available_g` are for the whole yarn, of one roving.
    """

    structure: Structure
    plies: int
    length_m: float
    needed_g: float
    available_g: float


def least_length_m(yarn: Yarn) -> float:
    """Return the least length of roving that stays a clean stripe between two others, m.

    >>> round(least_length_m(Yarn(staple_m=0.09)), 3)
    0.135
    """
    return LEAST_STAPLES * yarn.staple_m


def short_sections(figures: SectionFigures) -> dict[int, float]:
    """Return the sections that will not stay clean stripes, and the shortest run of each on a roving, m.

    Neighbours of one liquor are one stretch.
    """
    plan = figures.plan
    return _short(plan, plan.edges_m, figures.liquor_index.tolist(), lambda: _lab(section_colours(figures)))


def short_stripes(laid: StripePlan, colours: PredictedColours) -> dict[int, float]:
    """Return the wanted stripes that would not stay clean, and the shortest run of each on a roving, m.

    `colours` are those of the plan's liquors.
    """
    if not laid.order:
        return {}
    plan = laid.plan
    place_of = {liquor.id: place for place, liquor in enumerate(plan.liquors)}
    liquors = [place_of[plan.yarn.stripes[stripe].liquor_id] for stripe in laid.order]
    found: dict[int, float] = {}
    for place, length_m in _short(plan, laid.edges_m, liquors, lambda: _lab(colours)[liquors]).items():
        _note(found, laid.order[place], length_m)
    return dict(sorted(found.items()))


def structures_that_would_do(
    plan: Plan, shortest_m: float, wanted_m: float | None = None
) -> tuple[Offer, ...]:
    """Return the structures that make a stripe, now `shortest_m` on the roving, long enough in its rows.

    `wanted_m` are the plied metres of the whole pattern; by default all that the plan gives now. Those that
    need least roving come first.
    """
    spun = _Spun(plan.fibre, plan.lay, plan.yarn, plan)
    wanted = _yarn_of(spun).available_m if wanted_m is None else wanted_m
    now = _roving_a_metre(plan)
    offers = []
    for structure, plies, roving_a_metre, other in _others(spun):
        length_m = shortest_m * roving_a_metre / now
        if other.available_m > 0.0 and not exceeds(least_length_m(plan.yarn), length_m):
            needed_g = wanted / other.available_m * other.usable_g
            offers.append(Offer(structure, plies, length_m, needed_g, other.usable_g))
    return tuple(sorted(offers, key=lambda offer: offer.needed_g))


@dataclass(frozen=True, slots=True)
class _Spun:
    """A plan, alike to every other that gives the same yarn: a moved boundary makes no other map of it."""

    fibre: Fibre
    lay: Lay
    yarn: Yarn
    plan: Plan = field(compare=False)


@lru_cache(maxsize=8)
def _yarn_of(spun: _Spun) -> YarnMap:
    return yarn_map(spun.plan)


@lru_cache(maxsize=8)
def _others(spun: _Spun) -> tuple[tuple[Structure, int, float, YarnMap], ...]:
    """Return the other structures with the roving that a metre of each takes, and its map."""
    plan = spun.plan
    others = (
        (structure, plies, _in_structure(plan, structure, plies))
        for structure, plies in _TRIED
        if not _is_now(plan, structure, plies)
    )
    return tuple((structure, plies, _roving_a_metre(one), yarn_map(one)) for structure, plies, one in others)


def _lab(colours: PredictedColours) -> FloatArray:
    return lab_from_xyz(xyz_from_linear(linear_from_srgb(np.asarray(colours.srgb))))


def _short(
    plan: Plan, edges_m: Sequence[float], liquors: Sequence[int], lab: Callable[[], FloatArray]
) -> dict[int, float]:
    """Return which of n stretches between `edges_m` (n + 1), of n liquors, are too short, and how long.

    `lab` gives their (n, 3) colours; they are asked for only where something is short.
    """
    found: dict[int, float] = {}
    for roving in range(plan.fibre.rovings if plan.fibre.measured else 1):
        groups: list[tuple[list[int], float]] = []
        for run in strip_runs(plan, roving, edges_m):
            members, length_m = [run.section_index], run.end_m - run.start_m
            if groups and liquors[groups[-1][0][0]] == liquors[run.section_index]:
                earlier, before_m = groups.pop()
                members, length_m = [*earlier, *members], before_m + length_m
            groups.append((members, length_m))
        inner = range(1, len(groups) - 1)
        short = [place for place in inner if exceeds(least_length_m(plan.yarn), groups[place][1])]
        firsts = [[groups[place + step][0][0] for place in short] for step in (-1, 0, 1)]
        for place, is_unclean in zip(short, _unclean(lab()[firsts]) if short else (), strict=True):
            for section in groups[place][0] if is_unclean else ():
                _note(found, section, groups[place][1])
    return dict(sorted(found.items()))


def _note(found: dict[int, float], place: int, length_m: float) -> None:
    found[place] = min(length_m, found.get(place, length_m))


def _unclean(lab: FloatArray) -> list[bool]:
    """Tell of (3, n, 3) Lab, of what lies before, here and after, where short stretches smear."""
    before, here, after = lab
    clear = np.minimum(ciede2000(before, here), ciede2000(here, after)) > CLEAR_DIFFERENCE
    smears: list[bool] = (clear & ~lies_between(before, here, after)).tolist()
    return smears


def _roving_a_metre(plan: Plan) -> float:
    """Return the roving, as m of singles of its full thickness, that a metre of yarn takes at one place."""
    return folds_of(plan) / ((1.0 - take_up_of(plan)) * _thickness(plan))


def _thickness(plan: Plan) -> float:
    """Return the share of the roving's thickness that feeds a strand at one place."""
    yarn, chosen = plan.yarn, governing_ply(plan)
    if yarn.structure == "lengthwise":
        return 1.0 / len(yarn.splits)
    if yarn.structure == "fractal":
        share = yarn.splits[chosen or 0] / sum(yarn.splits[:2])
        return share / (len(yarn.strips) if chosen == 1 else 1)
    if yarn.structure == "free":
        ply = yarn.plies[chosen or 0]
        return ply.cross_section * ply.strips[0].weight / sum(strip.weight for strip in ply.strips)
    return 1.0


def _in_structure(plan: Plan, structure: Structure, plies: int) -> Plan:
    yarn = replace(plan.yarn, structure=structure, stripe_ply=1)
    if structure in ("lengthwise", "fractal"):
        yarn = replace(yarn, splits=(1.0,) * plies)
    return replace(plan, yarn=yarn)


def _is_now(plan: Plan, structure: Structure, plies: int) -> bool:
    yarn = plan.yarn
    if yarn.structure == "broken at the fold":
        return structure == "both ends"  # which takes as much
    return yarn.structure == structure and (structure != "lengthwise" or len(yarn.splits) == plies)
