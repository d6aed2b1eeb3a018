"""Dye along the lay, with wicked edges.

The rule of this module: `dye_profile` is the only source of lay, strip, yarn and export colour. Edges are
mixed as dye, over the wicking width, and no dye is gained or lost.

Dye spreads in the fibre's own mass, with a triangular weight whose whole width is the wicking width and which
is thrown back at the ends of the lay; so its amount is kept however uneven the top. Kernel: our choice, no
source.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from studio_gui.domain.colour.fit import DyeCurve
from studio_gui.domain.colour.mixing import PredictedColours, predicted_srgb
from studio_gui.domain.colour.palette import dyes_of_bottles
from studio_gui.domain.figures import SectionFigures, section_figures
from studio_gui.domain.geometry import lay_mass_to
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import RELATIVE_TOLERANCE

FloatArray = NDArray[np.float64]


def dye_profile(plan: Plan, positions_m: ArrayLike) -> FloatArray:
    """Return the depth (% owf) of every dye at places on the lay: (p, dyes) for (p,) `positions_m`.

    After wiping and wicking, not yet capped by what each dye takes up.
    """
    return profile_of(section_figures(plan), positions_m)


def profile_of(figures: SectionFigures, positions_m: ArrayLike) -> FloatArray:
    """Return `dye_profile` for figures that are already computed."""
    plan = figures.plan
    return profile_at(figures, lay_mass_to(plan.fibre, plan.lay, np.asarray(positions_m, dtype=np.float64)))


def profile_at(figures: SectionFigures, places_g: FloatArray) -> FloatArray:
    """Return (p, dyes) depth (% owf) at the (p,) places before which `places_g` of the whole set lies."""
    plan = figures.plan
    total_g = float(figures.edges_g[-1])
    half_g = min(plan.wicking_mm / 1000.0 / plan.lay_length_m, 1.0) * total_g / 2.0
    knots_g, jumps = _painted_jumps(figures)
    if half_g <= RELATIVE_TOLERANCE * total_g:
        depths = np.cumsum(jumps, axis=0)[np.searchsorted(knots_g, places_g, side="right") - 1]
    else:
        depths = _wicked(knots_g, jumps, places_g, half_g)
    return np.maximum(depths, 0.0)


def section_colours(figures: SectionFigures) -> PredictedColours:
    """Return the predicted colour of each section's middle, without wicking."""
    return colours_of(figures.plan, figures.left_pct_owf)


def lay_colours(figures: SectionFigures, positions_m: ArrayLike) -> PredictedColours:
    """Return the predicted colour at places on the lay, (p,) m along it."""
    return colours_of(figures.plan, profile_of(figures, positions_m))


def colours_at(figures: SectionFigures, places_g: FloatArray) -> PredictedColours:
    """Return the predicted colour at the (p,) places before which `places_g` of the whole set lies.

    As `lay_colours`, for those who ask for the same places again and keep what `lay_mass_to` said of them.
    """
    return colours_of(figures.plan, profile_at(figures, places_g))


def colours_of(plan: Plan, doses_pct_owf: FloatArray) -> PredictedColours:
    """Return the predicted colour of (n, bottles of dye) doses on the plan's fibre.

    What bottles with the same dye give counts together, and at most the dye's take-up.
    """
    curves, caps = dye_curves(plan), np.array([stock.take_up_pct_owf for stock in plan.dyes])
    dye_of = np.array(dyes_of_bottles(curves), dtype=np.intp)
    if len(curves) and int(dye_of.max()) + 1 < len(curves):
        first = np.unique(dye_of, return_index=True)[1]
        doses_pct_owf = np.stack(
            [doses_pct_owf[:, dye_of == dye].sum(axis=1) for dye in dye_of[first]], axis=1
        )
        caps = np.array([caps[dye_of == dye].min() for dye in dye_of[first]])
        curves = tuple(curves[place] for place in first.tolist())
    return predicted_srgb(np.minimum(doses_pct_owf, caps), curves, plan.fibre.undyed_srgb)


def dye_curves(plan: Plan) -> tuple[DyeCurve, ...]:
    """Return the fitted curve of every dye of the plan, in its order."""
    return tuple(stock.curve for stock in plan.dyes)


def _painted_jumps(figures: SectionFigures) -> tuple[FloatArray, FloatArray]:
    """Return rising places (g of set) and by how much, (knots, dyes), the depth jumps at each.

    Gaps and overlaps squeeze or stretch where a section's dye lies, never its amount. The lay is mirrored at
    both ends, so that dye which would wick off the end stays in the fibre.
    """
    plan = figures.plan
    if not any(boundary.gap_m for boundary in plan.boundaries):
        return _jumps_at_edges(figures)
    half_gaps = np.array([0.0, *(boundary.gap_m for boundary in plan.boundaries), 0.0]) / 2.0
    starts_m = np.clip(figures.edges_m[:-1] + half_gaps[:-1], 0.0, plan.lay_length_m)
    ends_m = np.clip(figures.edges_m[1:] - half_gaps[1:], 0.0, plan.lay_length_m)
    starts = lay_mass_to(plan.fibre, plan.lay, starts_m)
    ends = lay_mass_to(plan.fibre, plan.lay, ends_m)
    doses = figures.left_pct_owf * (figures.fibre_g / (ends - starts))[:, np.newaxis]
    total = figures.edges_g[-1]
    knots = np.concatenate((-ends, starts, 2.0 * total - ends, -starts, ends, 2.0 * total - starts))
    jumps = np.concatenate((doses, doses, doses, -doses, -doses, -doses))
    order = np.argsort(knots, kind="stable")
    return knots[order], jumps[order]


def _jumps_at_edges(figures: SectionFigures) -> tuple[FloatArray, FloatArray]:
    """Return `_painted_jumps` where one section's dye ends as the next one's begins: a jump an edge."""
    inner, doses, total = figures.edges_g[1:-1], figures.left_pct_owf, figures.edges_g[-1]
    knots = np.concatenate(([-total], -inner[::-1], inner, 2.0 * total - inner[::-1]))
    between = np.diff(doses, axis=0)
    back = -between[::-1]
    return knots, np.concatenate((doses[-1:], back, between, back))


def _wicked(knots_g: FloatArray, jumps: FloatArray, places_g: FloatArray, half_g: float) -> FloatArray:
    """Return (places, dyes) depth where every jump is spread over `half_g` to both sides.

    Summed jump by jump, because the second integral of the whole lay would lose its digits to cancellation.
    """
    levels = np.cumsum(jumps, axis=0)
    first = np.searchsorted(knots_g, places_g - half_g, side="right")
    last = np.searchsorted(knots_g, places_g + half_g, side="left")
    depths: FloatArray = levels[first - 1]
    for step in range(int((last - first).max(initial=0))):
        near = np.flatnonzero(first + step < last)
        at = first[near] + step
        depths[near] += jumps[at] * _risen_share((places_g[near] - knots_g[at]) / half_g)[:, np.newaxis]
    return depths


def _risen_share(offset: FloatArray) -> FloatArray:
    """Return the part of a spread jump that lies before `offset`, -1 to 1 in half widths."""
    return np.where(offset < 0.0, (1.0 + offset) ** 2 / 2.0, 1.0 - (1.0 - offset) ** 2 / 2.0)
