"""Even fades: a run of sections painted so that every step looks like the last.

The rule of this module: sections that are kept keep their places and their liquid, and only what is painted
on them is new; new ones tile the run and follow the fibre. All of it is made, with any weak stock that it
needs, or nothing.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from studio_gui.domain.at_hand import (
    AtHand,
    at_hand,
    let_down_of,
    liquid_to_paint_ml,
    measuring_for,
    parts_of,
)
from studio_gui.domain.colour.deliverable import Measuring
from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.evenness import Evenness
from studio_gui.domain.colour.fades import Fade, IdealFade, ideal_fade, naive_fades, solve_fade
from studio_gui.domain.colour.graduation import Coarse, too_coarse, weaker_that_mends
from studio_gui.domain.colour.shortfall import REACHED
from studio_gui.domain.colour.spaces import Array
from studio_gui.domain.edits.ladders import step_ids
from studio_gui.domain.edits.liquors import add_liquors
from studio_gui.domain.edits.sections import unlocked
from studio_gui.domain.edits.stocks import change_stock, copy_stock, free_stock_id
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.figures import section_figures
from studio_gui.domain.liquors import DyeDepth, Part
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import RANGES, checked, exceeds
from studio_gui.domain.sections import Boundary, Section

#: Dyes that one end of a fade may be mixed of.
MOST_DYES_AT_A_STOP = 3


@dataclass(frozen=True, slots=True)
class WeakStock:
    """A let-down of a bottle of dye to be put on the shelf beside it: weaker, and called `name`."""

    stock_id: str
    strength_g_per_l: float
    name: str


@dataclass(frozen=True, slots=True)
class FadeWish:
    """A fade as it is asked for.

    Parameters
    ----------
    stops
        The two ends, or a colour to pass between them as well: depths (% owf left on the fibre) of up to
        three dyes each; none for undyed.
    sections
        How many sections to make; None keeps those of the run.
    weak
        Weak stocks to put on the shelf.
    """

    stops: tuple[tuple[DyeDepth, ...], ...]
    sections: int | None = None
    weak: tuple[WeakStock, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class PlannedFade:
    """A fade that was solved for sections `first` to `last` of `plan`, in which they are not painted yet.

    `solved` is to be painted; `naive` are equal shares and a halving series; `coarse` tells where one
    graduation exceeds the wanted step, which is that of `ideal`.
    """

    plan: Plan
    first: int
    last: int
    hand: AtHand
    measuring: Measuring
    stops_pct_owf: Array
    ideal: IdealFade
    solved: Fade
    naive: tuple[Fade, Fade]
    coarse: tuple[Coarse, ...]

    def parts(self, place: int) -> tuple[Part, ...]:
        """Return what goes into one jar, ml: dyes first, let-down last, without any 0.

        Raises
        ------
        EditRefused
            ``no-let-down`` where the shelf has none.
        """
        return parts_of(
            self.hand,
            self.solved.counts[place].tolist(),
            float(self.measuring.graduations[place]),
            self.plan.bench.graduation_ml,
            let_down_of(self.plan, self.first, self.last),
        )

    @property
    def undyed(self) -> tuple[int, ...]:
        """The sections, counted from 0 in the fade, that want dye and get none."""
        wanted, given = self.ideal.doses_pct_owf.sum(axis=1), self.solved.doses_pct_owf.sum(axis=1)
        return tuple(np.flatnonzero((wanted > 0.0) & (given <= 0.0)).tolist())

    @property
    def ends_off(self) -> tuple[int, ...]:
        """Those of its ends, as sections counted from 0, that come out clearly unlike what was asked for."""
        away = ciede2000(self.solved.labs, self.ideal.labs)
        return tuple(end for end in (0, len(away) - 1) if away[end] > REACHED)


def plan_fade(plan: Plan, first: int, last: int, wish: FadeWish) -> PlannedFade:
    """Solve a fade over sections `first` to `last`.

    Raises
    ------
    EditRefused
        ``fade-of-one-section``; ``no-dye-at-hand``; ``fade-ends-alike``; ``fade-of-many-dyes``;
        ``fade-out-of-reach`` with the section and the numbers; ``section-locked`` where new ones are made;
        as `studio_gui.domain.at_hand.measuring_for`.
    InvalidPlan
        ``out-of-range`` for the number of sections or a strength; ``unknown-stock``; as `Plan`.
    """
    base = _with_weak_stocks(plan, wish.weak)
    if wish.sections is not None:
        checked("fade_steps", wish.sections)
        base, last = renewed(base, first, last, wish.sections)
    if first == last:
        raise EditRefused("fade-of-one-section")
    hand = at_hand(base)
    if not hand.bottles:
        raise EditRefused("no-dye-at-hand")
    stops = _stops(hand, wish)
    measuring = measuring_for(base, hand, range(first, last + 1))
    ideal = ideal_fade(hand.palette, stops, last - first + 1)
    _refuse_out_of_reach(base, first, measuring, ideal.doses_pct_owf)
    solved = solve_fade(hand.palette, measuring, stops)
    coarse = too_coarse(hand.palette, measuring, solved, ideal)
    naive = naive_fades(hand.palette, measuring, stops)
    return PlannedFade(base, first, last, hand, measuring, stops, ideal, solved, naive, coarse)


def paint_fade(fade: PlannedFade, name: str, *, renamed: bool) -> Plan:
    """Return the plan with a solved fade painted; liquors are called "`name` 1", "`name` 2", ...

    So are its sections where asked. Each has a liquor of its own; the old ones stay on the list.
    """
    names = [f"{name} {number}" if name.strip() else "" for number in range(1, len(fade.solved.counts) + 1)]
    recipes = [(called, fade.parts(place), ()) for place, called in enumerate(names)]
    painted, liquor_ids = add_liquors(fade.plan, recipes)
    sections = list(painted.sections)
    for place, (called, liquor_id) in enumerate(zip(names, liquor_ids, strict=True), start=fade.first):
        section = sections[place]
        sections[place] = replace(section, liquor_id=liquor_id, name=called if renamed else section.name)
    return replace(painted, sections=tuple(sections))


@dataclass(frozen=True, slots=True)
class WeakOffer:
    """A weak stock that would mend a fade: of which stock, its strength (g/L), and how even the fade is."""

    stock_id: str
    strength_g_per_l: float
    evenness: Evenness


def weak_stock_that_mends(fade: PlannedFade) -> WeakOffer | None:
    """Return the weak stock that makes a fade most even; None where no graduation is too coarse.

    Of the bottles that are too coarse the one that is most so is let down; what is left after, another
    asking tells. None as well where it would not help, or be weaker than a stock may be.
    """
    if not fade.coarse:
        return None
    worst = max(fade.coarse, key=lambda one: one.step)
    share, mended = weaker_that_mends(fade.hand.palette, fade.measuring, fade.stops_pct_owf, worst.bottle)
    stock = fade.hand.bottles[worst.bottle]
    strength = float(f"{stock.strength_g_per_l * share:.6g}")
    if strength < RANGES["strength_g_per_l"].low or mended.evenness.rank >= fade.solved.evenness.rank:
        return None
    return WeakOffer(stock.id, strength, mended.evenness)


def stop_of_section(plan: Plan, index: int) -> tuple[DyeDepth, ...]:
    """Return what a section is painted with as a stop of a fade: its deepest dyes, at most three."""
    hand = at_hand(plan)
    left = section_figures(plan).left_pct_owf[index]
    doses = hand.doses([DyeDepth(stock.id, float(d)) for stock, d in zip(plan.dyes, left, strict=True)])
    kept = np.argsort(-doses, kind="stable")[:MOST_DYES_AT_A_STOP]
    return hand.depths([dose if dye in kept else 0.0 for dye, dose in enumerate(doses.tolist())])


def _with_weak_stocks(plan: Plan, weak: tuple[WeakStock, ...]) -> Plan:
    for one in weak:
        stock_id = free_stock_id(plan)
        plan = copy_stock(plan, one.stock_id, one.name)
        plan = change_stock(plan, stock_id, strength_g_per_l=one.strength_g_per_l)
    return plan


def renewed(plan: Plan, first: int, last: int, count: int) -> tuple[Plan, int]:
    """Return the plan with `count` equally long new sections in place of a run, and the last of them."""
    old = [unlocked(plan, index) for index in range(first, last + 1)]
    start_m, end_m = plan.edges_m[first], plan.edges_m[last + 1]
    ids = step_ids(plan, [section.id for section in old], count)
    sections = [Section(one, "", old[0].liquor_id) for one in ids]
    inner = [Boundary(start_m + (end_m - start_m) * number / count) for number in range(1, count)]
    renewed = replace(
        plan,
        sections=(*plan.sections[:first], *sections, *plan.sections[last + 1 :]),
        boundaries=(*plan.boundaries[:first], *inner, *plan.boundaries[last:]),
    )
    return renewed, first + count - 1


def _stops(hand: AtHand, wish: FadeWish) -> Array:
    for number, stop in enumerate(wish.stops, start=1):
        dyes = sum(depth.depth_pct_owf > 0.0 for depth in stop)
        if dyes > MOST_DYES_AT_A_STOP:
            raise EditRefused("fade-of-many-dyes", stop=number, dyes=dyes, most=MOST_DYES_AT_A_STOP)
    stops = np.array([hand.doses(stop) for stop in wish.stops])
    if np.allclose(stops, stops[0], rtol=1e-9, atol=1e-12):
        raise EditRefused("fade-ends-alike")
    return stops


def _refuse_out_of_reach(plan: Plan, first: int, measuring: Measuring, doses: Array) -> None:
    need = measuring.least_graduations(doses) / measuring.graduations
    worst = int(need.argmax())
    if exceeds(float(need[worst]), 1.0):
        section = plan.sections[first + worst]
        liquid_ml = float(liquid_to_paint_ml(plan, [first + worst])[0])
        wanted = float(doses[worst].sum())
        raise EditRefused(
            "fade-out-of-reach",
            section=section.name,
            section_id=section.id,
            number=worst + 1,
            wanted_pct_owf=wanted,
            reach_pct_owf=wanted / float(need[worst]),
            needed_ml=liquid_ml * float(need[worst]),
            liquid_ml=liquid_ml,
        )
