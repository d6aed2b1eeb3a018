"""Liquor cards: what is measured into each jar with what stands on the bench.

The rule of this module: amounts are whole graduations that keep the jar's total, taken up to a whole
graduation; what a stock has to give is the sum of what the cards say, so that no bottle runs short of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from studio_gui.domain.bench import Jar, MakeUp, SyringeFills, rounded_amounts, syringe_fills
from studio_gui.domain.figures import SectionFigures
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import RELATIVE_TOLERANCE, exceeds

#: A stock's share of its jar may be off by so many points; common practice, no source.
MOST_POINTS_OFF = 2.0
#: And a dye's depth by so much of itself: a drop of a strong dye is few points, and is seen; our choice.
MOST_DEPTH_OFF = 0.1

Verdict = Literal["fine", "off", "short"]
#: The share of each stock in a jar, in an order of its own.
Mixture = tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True)
class Measured:
    """What one stock gives to a jar, ml: as reckoned, and in whole graduations.

    `share` is its share of the jar as reckoned (0 to 1), `points_off` how much the measured share is above
    that, in points of a hundred.
    """

    stock_id: str
    exact_ml: float
    measured_ml: float
    share: float
    points_off: float
    is_dye: bool = False

    @property
    def depth_off(self) -> float:
        """By which part of itself a dye's depth is off, above 0 too deep; 0 of what is no dye."""
        return self.points_off / (100.0 * self.share) if self.is_dye else 0.0

    @property
    def is_lost(self) -> bool:
        """Whether it is too little to be measured at all."""
        return self.measured_ml == 0.0

    @property
    def is_off(self) -> bool:
        """Whether its share is off by more than `MOST_POINTS_OFF`, or its depth by `MOST_DEPTH_OFF`."""
        far = exceeds(abs(self.points_off), MOST_POINTS_OFF)
        return far or (not self.is_lost and exceeds(abs(self.depth_off), MOST_DEPTH_OFF))


@dataclass(frozen=True, slots=True)
class Dose:
    """One section's liquor for one roving, ml, and how a syringe is filled for the set."""

    section_id: str
    dose_ml: float
    fills: SyringeFills


@dataclass(frozen=True, slots=True)
class Card:
    """One jar as it is made up. It is number `number` of the `count` jars of its liquor.

    `total_ml` is the sum of the measured amounts; `spare_ml` what of it is not painted. `alike` are the
    liquors that are meant to be other ones, yet come out the same as measured.
    """

    jar: Jar
    number: int
    count: int
    amounts: tuple[Measured, ...]
    total_ml: float
    spare_ml: float
    doses: tuple[Dose, ...]
    alike: tuple[str, ...] = ()

    @property
    def depth_off(self) -> float:
        """Most that any dye's depth is off, as a part of itself."""
        return max((abs(amount.depth_off) for amount in self.amounts), default=0.0)

    @property
    def points_off(self) -> float:
        """Most that any stock's share is off, in points of a hundred."""
        return max((abs(amount.points_off) for amount in self.amounts), default=0.0)

    @property
    def is_too_coarse(self) -> bool:
        """Whether the graduation is too coarse for this jar."""
        return bool(self.alike) or any(amount.is_off or amount.is_lost for amount in self.amounts)


def cards(figures: SectionFigures, made: MakeUp) -> tuple[Card, ...]:
    """Return the cards of all jars, in their order."""
    counts: dict[str, int] = {}
    for jar in made.jars:
        counts[jar.liquor_id] = counts.get(jar.liquor_id, 0) + 1
    numbers: dict[str, int] = {}
    rows = {section.id: row for row, section in enumerate(figures.plan.sections)}
    result = []
    for jar in made.jars:
        numbers[jar.liquor_id] = numbers.get(jar.liquor_id, 0) + 1
        result.append(_card(figures, jar, rows, numbers[jar.liquor_id], counts[jar.liquor_id]))
    return _with_alike(result)


def _with_alike(made_up: Sequence[Card]) -> tuple[Card, ...]:
    """Tell of each card which other liquors are measured into the same mixture, without being meant to."""
    measured = [_mixture(card, measured=True) for card in made_up]
    meant = [_mixture(card, measured=False) for card in made_up]
    same: dict[Mixture, list[tuple[str, Mixture]]] = {}
    for card, as_measured, as_meant in zip(made_up, measured, meant, strict=True):
        same.setdefault(as_measured, []).append((card.jar.liquor_id, as_meant))
    return tuple(
        replace(card, alike=_unlike(card.jar.liquor_id, as_meant, same[as_measured]))
        for card, as_measured, as_meant in zip(made_up, measured, meant, strict=True)
    )


def _unlike(liquor_id: str, meant: Mixture, others: Sequence[tuple[str, Mixture]]) -> tuple[str, ...]:
    """Return the liquors that are meant to be another mixture than the one of `liquor_id`."""
    return tuple(dict.fromkeys(other for other, mix in others if other != liquor_id and mix != meant))


def _mixture(card: Card, *, measured: bool) -> Mixture:
    """Return the shares of a jar's stocks, as measured or as meant, in an order of their own."""
    amounts = [(one.stock_id, one.measured_ml if measured else one.exact_ml) for one in card.amounts]
    whole = sum(ml for _, ml in amounts)
    return tuple(sorted((stock_id, round(ml / whole, 9)) for stock_id, ml in amounts if ml > 0.0))


def shares_off(exact_ml: Sequence[float], measured_ml: Sequence[float]) -> tuple[float, ...]:
    """Return by how many points (of a hundred) each measured share is above the exact one.

    >>> [round(points, 2) for points in shares_off((25.5, 8.5), (26.0, 8.0))]
    [1.47, -1.47]
    """
    exact, measured = sum(exact_ml), sum(measured_ml)
    if not (exact > 0.0 and measured > 0.0):
        return (0.0,) * len(exact_ml)
    pairs = zip(exact_ml, measured_ml, strict=True)
    return tuple(100.0 * (there / measured - wanted / exact) for wanted, there in pairs)


def verdict(exact_ml: Sequence[float], measured_ml: Sequence[float]) -> Verdict:
    """Return whether measured amounts do for exact ones: ``short`` in sum, ``off`` in a share, or ``fine``.

    >>> verdict((25.5, 8.5), (26.0, 8.0)), verdict((25.5, 8.5), (25.0, 8.0))
    ('fine', 'short')
    """
    if exceeds(sum(exact_ml), sum(measured_ml)):
        return "short"
    is_off = any(exceeds(abs(points), MOST_POINTS_OFF) for points in shares_off(exact_ml, measured_ml))
    return "off" if is_off else "fine"


def measured_in_all_ml(made_up: Sequence[Card]) -> float:
    """Return what all jars hold as measured, ml."""
    return sum(card.total_ml for card in made_up)


def need_as_measured_ml(plan: Plan, made_up: Sequence[Card]) -> tuple[float, ...]:
    """Return what the cards take of each stock, ml, in the plan's order."""
    need = {stock.id: 0.0 for stock in plan.stocks}
    for card in made_up:
        for amount in card.amounts:
            need[amount.stock_id] += amount.measured_ml
    return tuple(round(ml, 9) for ml in need.values())


def in_jars_ml(made_up: Sequence[Card], liquor_id: str, stock_id: str) -> tuple[float, float]:
    """Return how much of a stock all jars of a liquor hold, ml: as reckoned, and as the cards measure it."""
    found = [
        amount
        for card in made_up
        if card.jar.liquor_id == liquor_id
        for amount in card.amounts
        if amount.stock_id == stock_id
    ]
    return sum(one.exact_ml for one in found), sum(one.measured_ml for one in found)


def _card(figures: SectionFigures, jar: Jar, section_rows: dict[str, int], number: int, count: int) -> Card:
    plan = figures.plan
    typed = plan.liquor(jar.liquor_id).stock_ids
    exact = [
        (stock, ml)
        for stock, ml in zip(plan.stocks, jar.amounts_ml.tolist(), strict=True)
        if ml > RELATIVE_TOLERANCE * jar.jar_ml
    ]
    # as the liquor is typed, so that nobody pours by the one what stands in the order of the other
    exact.sort(key=lambda one: typed.index(one[0].id) if one[0].id in typed else len(typed))
    amounts_ml = [ml for _, ml in exact]
    measured_ml = rounded_amounts(amounts_ml, plan.bench.graduation_ml)
    rows = zip(exact, measured_ml, shares_off(amounts_ml, measured_ml), strict=True)
    total_ml = round(sum(measured_ml), 9)
    return Card(
        jar=jar,
        number=number,
        count=count,
        amounts=tuple(
            Measured(stock.id, ml, there, ml / jar.jar_ml, points, stock.is_dye)
            for (stock, ml), there, points in rows
        ),
        total_ml=total_ml,
        spare_ml=max(total_ml - jar.sections_ml, 0.0),
        doses=_doses(figures, jar, section_rows),
    )


def _doses(figures: SectionFigures, jar: Jar, section_rows: dict[str, int]) -> tuple[Dose, ...]:
    """Return how a syringe serves the jar's sections; none of one that is painted in two passes."""
    plan = figures.plan
    syringe_ml, rovings = plan.bench.syringe_ml, plan.fibre.rovings
    if syringe_ml is None:
        return ()
    found = []
    for section_id in jar.section_ids:
        index = section_rows[section_id]
        dose_ml = float(figures.liquid_ml[index]) / rovings
        if figures.painted[index] and not plan.sections[index].second_pass_ml:
            found.append(Dose(section_id, dose_ml, syringe_fills(dose_ml, rovings, syringe_ml)))
    return tuple(found)
