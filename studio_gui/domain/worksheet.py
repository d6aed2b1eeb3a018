"""The worksheet: everything that screens, prints and exports show, computed from a plan.

The rule of this module: `worksheet(plan)` is pure; no view computes a trade number of its own.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike, NDArray

from studio_gui.domain.bench import MakeUp, make_up
from studio_gui.domain.bottles import Bottle, bottles
from studio_gui.domain.cards import Card, cards
from studio_gui.domain.checks.check import Check
from studio_gui.domain.colour.mixing import PredictedColours, grey_of, in_greys
from studio_gui.domain.figures import SectionFigures, section_figures
from studio_gui.domain.geometry import film_length_m
from studio_gui.domain.liquors import Liquor
from studio_gui.domain.plan import Plan
from studio_gui.domain.profile import colours_at, colours_of, lay_colours, section_colours
from studio_gui.domain.spinning.figures import YarnFigures, yarn_figures
from studio_gui.domain.spinning.halves import Halves, halves, most_uneven_roving
from studio_gui.domain.spinning.stripes import StripePlan, stripe_edges
from studio_gui.domain.timetable import TimedStep, timed_steps

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Totals:
    """Sums over the whole set."""

    fibre_g: float
    liquid_ml: float
    liquid_ml_per_roving: float
    jars_ml: float
    film_length_m: float
    sections: int


@dataclass(frozen=True, eq=False)
class Worksheet:
    """A plan with its figures; colours, jars and checks are computed when first asked for, then kept.

    A sheet `in_grey` gives every colour as the grey that is as light; figures go by the colours all the same.
    """

    plan: Plan
    figures: SectionFigures
    in_grey: bool = False

    @cached_property
    def colours(self) -> PredictedColours:
        """Predicted colour of each section's middle, without wicking."""
        return self.seen(self._section_colours)

    @cached_property
    def _section_colours(self) -> PredictedColours:
        return section_colours(self.figures)

    def seen(self, colours: PredictedColours) -> PredictedColours:
        """Return colours of this plan as they are shown: in grey where the sheet is."""
        return in_greys(colours) if self.in_grey else colours

    def seen_srgb(self, srgb: str) -> str:
        """Return a colour that was entered, ``#rrggbb``, as it is shown beside predicted ones."""
        return grey_of(srgb) if self.in_grey else srgb

    @cached_property
    def liquor_colours(self) -> PredictedColours:
        """Predicted colour of each liquor, at the mean depth of its sections.

        One that is not painted yet is seen as it would be on fibre that takes up what the plan says.
        """
        figures = self.figures
        grams = np.zeros((len(self.plan.liquors), 1))
        dye = np.zeros((len(self.plan.liquors), figures.left_pct_owf.shape[1]))
        np.add.at(grams, figures.liquor_index, figures.fibre_g[:, np.newaxis])
        np.add.at(dye, figures.liquor_index, figures.left_pct_owf * figures.fibre_g[:, np.newaxis])
        for row in np.flatnonzero(grams == 0.0).tolist():
            grams[row], dye[row] = 1.0, _depths_at_uptake(self.plan, self.plan.liquors[row])
        return self.seen(colours_of(self.plan, dye / grams))

    @cached_property
    def make_up(self) -> MakeUp:
        """The jars and what they need of each stock."""
        return make_up(self.figures)

    @cached_property
    def cards(self) -> tuple[Card, ...]:
        """What is measured into each jar, in whole graduations."""
        return cards(self.figures, self.make_up)

    @cached_property
    def bottles(self) -> tuple[Bottle, ...]:
        """The stocks to make, in the order of work."""
        return bottles(self.plan, self.cards)

    @cached_property
    def timed_steps(self) -> tuple[TimedStep, ...]:
        """When what is done."""
        return timed_steps(self.plan.timetable)

    @cached_property
    def checks(self) -> tuple[Check, ...]:
        """All findings, errors first."""
        from studio_gui.domain.checks.registry import run_checks  # noqa: PLC0415  (the first paint asks for none)

        return run_checks(self.figures)

    @cached_property
    def yarn(self) -> YarnFigures:
        """The yarn that the rovings become: runs, pairs, length and what is left over."""
        return yarn_figures(self.figures, self._section_colours)

    @cached_property
    def stripes(self) -> StripePlan:
        """The wanted stripes laid out on the lay."""
        return stripe_edges(self.plan)

    @cached_property
    def halves(self) -> Halves:
        """Half against half, of the roving whose halves differ most."""
        return halves(self.plan, most_uneven_roving(self.plan))

    @cached_property
    def totals(self) -> Totals:
        """Fibre, liquid and jars of the whole set, and the film to cut."""
        return Totals(
            fibre_g=float(self.figures.edges_g[-1]),
            liquid_ml=float(self.figures.liquid_ml.sum()),
            liquid_ml_per_roving=float(self.figures.liquid_ml_per_roving.sum()),
            jars_ml=sum(jar.jar_ml for jar in self.make_up.jars),
            film_length_m=film_length_m(self.plan.fibre, self.plan.lay),
            sections=len(self.figures),
        )

    def lay_colours(self, positions_m: ArrayLike) -> PredictedColours:
        """Return the predicted colour, with wicked edges, at (p,) places on the lay, m."""
        return self.seen(lay_colours(self.figures, positions_m))

    def colours_at(self, places_g: FloatArray) -> PredictedColours:
        """Return `lay_colours` at the (p,) places before which `places_g` of the whole set lies."""
        return self.seen(colours_at(self.figures, places_g))


def _depths_at_uptake(plan: Plan, liquor: Liquor) -> FloatArray:
    """Return (dyes,) depth of shade that a liquor gives on fibre that takes up what the plan says, % owf."""
    wanted = {depth.stock_id: depth.depth_pct_owf for depth in liquor.depths}
    if liquor.basis == "parts" and not liquor.is_empty:
        applied = {part.stock_id: part.parts / liquor.total_parts for part in liquor.parts}
        uptake = plan.liquid.uptake_ml_per_g
        wanted = {dye.id: applied.get(dye.id, 0.0) * uptake * dye.strength_pct for dye in plan.dyes}
    return np.array([wanted.get(dye.id, 0.0) for dye in plan.dyes])


def worksheet(plan: Plan, before: Worksheet | None = None) -> Worksheet:
    """Return the worksheet of `plan`; `before`, of the plan that it was made from, spares time.

    It is in grey where that one is.
    """
    if before is None:
        return Worksheet(plan, section_figures(plan, None))
    return Worksheet(plan, section_figures(plan, before.figures), before.in_grey)
