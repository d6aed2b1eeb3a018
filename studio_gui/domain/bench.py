"""What to put on the bench: jars, what they need of each stock, rounded amounts, syringe fills.

The rule of this module: what a plan needs of each stock comes from `make_up`, which knows the plan's way of
mixing, never from summing sections.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.figures import SectionFigures
from studio_gui.domain.liquid import above
from studio_gui.domain.plan import Bench

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Jar:
    """One jar of liquor: for which sections, how much they take, and what goes in (ml, in stock order)."""

    liquor_id: str
    section_ids: tuple[str, ...]
    sections_ml: float
    jar_ml: float
    amounts_ml: FloatArray


@dataclass(frozen=True, eq=False)
class MakeUp:
    """All jars of a plan and what they need of each stock, ml in stock order."""

    jars: tuple[Jar, ...]
    need_ml: FloatArray


def make_up(figures: SectionFigures) -> MakeUp:
    """Return the jars to mix: liquor over its sections, plus spare share and dead volume.

    A liquor by depth that is painted at two uptakes is two jars, the drier first, because the jar follows the
    depth. A liquor of which nothing is painted has no jar.
    """
    plan, jar = figures.plan, jar_numbers(figures)
    count = int(jar.max()) + 1
    amounts = np.zeros((count, len(plan.stocks)))
    np.add.at(amounts, jar, figures.amounts_ml)
    sections_ml = np.asarray(np.bincount(jar, weights=figures.liquid_ml), dtype=np.float64)
    is_painted = np.bincount(jar, weights=figures.painted) > 0.0
    jars_ml = jar_volume_ml(sections_ml, plan.bench)
    amounts *= np.divide(jars_ml, sections_ml, out=np.zeros(count), where=is_painted)[:, np.newaxis]
    members: list[list[int]] = [[] for _ in range(count)]
    for index, number in enumerate(jar.tolist()):
        members[number].append(index)
    jars = tuple(
        Jar(
            plan.liquors[figures.liquor_index[members[number][0]]].id,
            tuple(plan.sections[index].id for index in members[number]),
            float(sections_ml[number]),
            float(jars_ml[number]),
            amounts[number],
        )
        for number in np.flatnonzero(is_painted).tolist()
    )
    return MakeUp(jars, amounts.sum(axis=0))


def jar_volume_ml(sections_ml: FloatArray, bench: Bench) -> FloatArray:
    """Return the volume of jars, ml, any shape: what sections take, a spare share, and what stays behind.

    >>> jar_volume_ml(np.array([100.0, 0.0]), Bench(spare_share=0.05, dead_ml=1.0)).tolist()
    [106.0, 1.0]
    """
    volumes: FloatArray = sections_ml * (1.0 + bench.spare_share) + bench.dead_ml
    return volumes


def jar_numbers(figures: SectionFigures) -> NDArray[np.intp]:
    """Return (n,) the jar that each section is painted from, numbered by liquor and then by wetness.

    Sections of one liquor share a jar, unless it stands on depth and they are not equally wet.
    """
    by_depth = np.array([liquor.basis == "depth" for liquor in figures.plan.liquors], dtype=bool)
    row = figures.liquor_index
    wetness = np.where(by_depth[row], figures.applied_ml_per_g, 0.0)
    order = np.lexsort((wetness, row))
    wetter = above(wetness[order][1:], wetness[order][:-1])
    numbers = np.empty(len(order), dtype=np.intp)
    numbers[order] = np.concatenate(([0], np.cumsum(wetter | (np.diff(row[order]) > 0))))
    return numbers


def rounded_amounts(amounts_ml: Sequence[float], graduation_ml: float) -> tuple[float, ...]:
    """Return amounts in whole graduations whose sum is the total, taken up to a whole graduation.

    Largest remainder; a tie goes to the larger part, so that a jar is never short.

    Raises
    ------
    InvalidPlan
        ``negative-amount`` for an amount below 0.

    >>> rounded_amounts((25.5, 8.5), 1.0)
    (26.0, 8.0)
    """
    if any(amount < 0.0 for amount in amounts_ml):
        raise InvalidPlan("negative-amount", value=min(amounts_ml))
    steps = [amount / graduation_ml for amount in amounts_ml]
    noise = 1e-9 + 1e-14 * sum(steps)  # of floats: 3 graduations may have come out as 2.9999999999
    floors = [math.floor(step + noise) for step in steps]
    total = math.ceil(sum(steps) - noise)
    by_remainder = sorted(range(len(steps)), key=lambda i: (-round(steps[i] - floors[i], 9), -steps[i], i))
    for index in by_remainder[: total - sum(floors)]:
        floors[index] += 1
    return tuple(round(count * graduation_ml, 9) for count in floors)


@dataclass(frozen=True, slots=True)
class SyringeFills:
    """How often a syringe is filled for one section of the set; `stops_ml` are where the plunger rests."""

    fills: int
    fill_ml: float
    stops_ml: tuple[float, ...]


def syringe_fills(dose_ml: float, rovings: int, syringe_ml: float) -> SyringeFills:
    """Return the fills that serve `rovings` doses without splitting one roving's dose over two fills.

    A dose larger than the syringe has to be split: then each roving takes whole fills of its own.

    Raises
    ------
    InvalidPlan
        ``nothing-to-fill`` unless dose, rovings and syringe are above 0.

    >>> syringe_fills(30.0, 4, 60.0)
    SyringeFills(fills=2, fill_ml=60.0, stops_ml=(60.0, 30.0, 0.0))
    """
    if not (dose_ml > 0.0 and rovings > 0 and syringe_ml > 0.0):
        raise InvalidPlan("nothing-to-fill", dose_ml=dose_ml, rovings=rovings, syringe_ml=syringe_ml)
    a_fill = min(math.floor(syringe_ml / dose_ml + 1e-9), rovings)
    if a_fill == 0:
        splits = math.ceil(dose_ml / syringe_ml - 1e-9)
        return SyringeFills(splits * rovings, dose_ml / splits, (dose_ml / splits, 0.0))
    stops = tuple(dose_ml * left for left in range(a_fill, -1, -1))
    return SyringeFills(math.ceil(rovings / a_fill), a_fill * dose_ml, stops)
