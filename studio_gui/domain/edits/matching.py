"""Liquors for wanted colours.

The rule of this module: a match is for one section, with its grams and its liquid, and becomes a liquor of
that section's own; what other sections are painted with stays.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

import numpy as np

from studio_gui.domain.at_hand import AtHand, at_hand, let_down_of, measuring_for, parts_of
from studio_gui.domain.colour.deliverable import Measuring
from studio_gui.domain.colour.matching import Match, match_colour
from studio_gui.domain.colour.shortfall import Shortfall, lack_of_far, shortfall
from studio_gui.domain.colour.spaces import Array
from studio_gui.domain.edits.fades import renewed
from studio_gui.domain.edits.liquors import own_liquor, replace_liquor
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.liquors import Part
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import checked

#: Wanted colours that may be set at once.
MOST_COLOURS = 60


@dataclass(frozen=True, slots=True, eq=False)
class Matched:
    """The best liquors for a wanted colour on one section.

    Parameters
    ----------
    plan, section_id
        What they are for.
    hand, measuring
        The bottles, and what can be measured of them for this section.
    found
        The liquors, in the order of `studio_gui.domain.colour.matching`.
    exact
        What the nearest colour lacks before rounding to graduations.
    is_far
        Whether they are in the order of IPT.
    """

    plan: Plan
    section_id: str
    hand: AtHand
    measuring: Measuring
    found: tuple[Match, ...]
    exact: Shortfall
    is_far: bool = False

    @property
    def nearest(self) -> int:
        """The liquor that is nearest by CIEDE2000, counted from 0: the first, where the colour is not far."""
        return min(range(len(self.found)), key=lambda place: self.found[place].difference)

    def parts(self, place: int) -> tuple[Part, ...]:
        """Return the parts of one of the liquors, ml in the section's jar."""
        index = self.plan.section_index(self.section_id)
        return parts_of(
            self.hand,
            self.found[place].counts.tolist(),
            float(self.measuring.graduations[0]),
            self.plan.bench.graduation_ml,
            let_down_of(self.plan, index, index),
        )


def wanted_lab(lightness: float, green_to_red: float, blue_to_yellow: float) -> Array:
    """Return a wanted colour, CIE Lab, shape (3,); `InvalidPlan` ``out-of-range`` where it is none."""
    checked("lightness", lightness)
    checked("green_to_red", green_to_red)
    checked("blue_to_yellow", blue_to_yellow)
    return np.array([lightness, green_to_red, blue_to_yellow], dtype=np.float64)


def match_section(
    plan: Plan, section_id: str, wanted: Array, stock_ids: Collection[str] | None = None
) -> Matched:
    """Return the best liquors for CIE Lab, shape (3,), from all bottles of dye or those that are named.

    Raises
    ------
    EditRefused
        ``section-without-liquid``; ``no-let-down``; ``no-dye-at-hand``.
    InvalidPlan
        ``unknown-section``.
    """
    index = plan.section_index(section_id)
    hand = at_hand(plan, stock_ids)
    if not hand.bottles:
        raise EditRefused("no-dye-at-hand")
    let_down_of(plan, index, index)
    measuring = measuring_for(plan, hand, [index])
    matches = match_colour(hand.palette, measuring, wanted)
    exact = shortfall(wanted, matches.exact_lab)
    if matches.is_far:
        exact = Shortfall(matches.exact_difference, lack_of_far(wanted, matches.exact_lab))
    return Matched(plan, section_id, hand, measuring, matches.found, exact, matches.is_far)


def paint_match(matched: Matched, place: int = 0, name: str = "") -> Plan:
    """Return the plan with the section painted with one of the liquors found; `name` is its new name, if any.

    A liquor that other sections share is copied first.
    """
    plan = own_liquor(matched.plan, matched.section_id)
    own = plan.liquor(plan.section(matched.section_id).liquor_id)
    return replace_liquor(
        plan,
        replace(own, name=name or own.name, basis="parts", parts=matched.parts(place), depths=()),
    )


def sections_for(plan: Plan, first: int, last: int, colours: int) -> tuple[Plan, tuple[str, ...]]:
    """Return the plan that matches of so many colours are for, and the sections of each, by their ids.

    Where there are more or fewer colours than sections `first` to `last`, the run is made anew, one section
    to a colour.

    Raises
    ------
    EditRefused
        ``no-colours``; ``section-locked`` where sections are made anew.
    InvalidPlan
        ``too-many`` colours; as `Plan`.
    """
    if not colours:
        raise EditRefused("no-colours")
    if colours > MOST_COLOURS:
        raise InvalidPlan("too-many", field="colours", count=colours, most=MOST_COLOURS)
    if colours != last - first + 1:
        plan, last = renewed(plan, first, last, colours)
    return plan, tuple(section.id for section in plan.sections[first : last + 1])


def paint_matches(matches: Sequence[Matched], names: Sequence[str] = (), *, renamed: bool = True) -> Plan:
    """Return the plan with each section painted with the first of its liquors.

    `names` are those of the liquors, in the sections' order, and of the sections where they are `renamed`.
    """
    plan = matches[0].plan
    for place, matched in enumerate(matches):
        name = names[place] if place < len(names) else ""
        plan = paint_match(replace(matched, plan=plan), name=name)
        if name and renamed:
            plan = change_section(plan, matched.section_id, name=name)
    return plan
