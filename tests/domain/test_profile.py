"""If these fail, dye appears or vanishes at the edges of sections, or colours do not follow it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from studio_gui.domain.edits.boundaries import set_gap
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.figures import section_figures
from studio_gui.domain.geometry import lay_mass_to
from studio_gui.domain.plan import Plan
from studio_gui.domain.profile import colours_of, dye_curves, dye_profile, lay_colours, section_colours
from studio_gui.domain.sections import Boundary
from tests.scenes.scene_plans import by_depth, by_parts, dye, laid, let_down
from tests.strategies import plans

FloatArray = NDArray[np.float64]

PLAN = replace(
    laid(
        [("A", 1.0), ("B", 1.0)],
        [dye("D"), dye("E", srgb="#a8382f"), let_down("AW")],
        [by_depth("A", {"D": 1.0}), by_depth("B", {"E": 0.5})],
    ),
    wicking_mm=200.0,
)


def places_at(plan: Plan, grams: FloatArray) -> FloatArray:
    """Places on the lay (m) before which `grams` of the set lie, by bisection."""
    low, high = np.zeros_like(grams), np.full_like(grams, plan.lay_length_m)
    for _ in range(60):
        middle = (low + high) / 2.0
        beyond = lay_mass_to(plan.fibre, plan.lay, middle) > grams
        low, high = np.where(beyond, low, middle), np.where(beyond, middle, high)
    return (low + high) / 2.0


def dye_on_the_lay_g(plan: Plan) -> FloatArray:
    """Dye of every stock on the whole set, g, integrated over weight between all bends of the profile."""
    total = float(section_figures(plan).edges_g[-1])
    half_gaps = np.array([0.0, *(boundary.gap_m / 2.0 for boundary in plan.boundaries), 0.0])
    painted_m = np.concatenate((plan.edges_m[:-1] + half_gaps[:-1], plan.edges_m[1:] - half_gaps[1:]))
    painted_g = lay_mass_to(plan.fibre, plan.lay, painted_m)
    mirrored = np.concatenate((painted_g, -painted_g, 2.0 * total - painted_g))
    half_g = min(plan.wicking_mm / 1000.0 / plan.lay_length_m, 1.0) * total / 2.0
    bends = np.concatenate(([0.0, total], mirrored - half_g, mirrored, mirrored + half_g))
    bends = np.unique(np.clip(bends, 0.0, total))
    middles, halves = (bends[1:] + bends[:-1]) / 2.0, np.diff(bends) / 2.0
    # two points by Gauss are exact for the profile, which is a parabola between bends
    sampled = sum(
        dye_profile(plan, places_at(plan, middles + side * halves / 3.0**0.5)) for side in (-1.0, 1.0)
    )
    return np.asarray((sampled * halves[:, np.newaxis]).sum(axis=0) / 100.0)


@given(plans(), st.just(0.0) | st.floats(0.0, 500.0))
def test_no_dye_is_gained_or_lost(plan: Plan, wicking_mm: float) -> None:
    plan = replace(plan, wicking_mm=wicking_mm)
    figures = section_figures(plan)
    painted_g = (figures.left_pct_owf * figures.fibre_g[:, np.newaxis]).sum(axis=0) / 100.0
    assert dye_on_the_lay_g(plan) == pytest.approx(painted_g, rel=1e-7, abs=1e-9)


@given(plans(), st.floats(0.0, 60.0))
def test_the_middle_of_a_section_longer_than_the_wicking_width_has_its_depth(
    plan: Plan, wicking_mm: float
) -> None:
    flush = tuple(replace(boundary, gap_m=0.0) for boundary in plan.boundaries)
    plan = replace(plan, boundaries=flush, wicking_mm=wicking_mm)
    figures = section_figures(plan)
    width_g = wicking_mm / 1000.0 / plan.lay_length_m * figures.edges_g[-1]
    long = figures.fibre_g >= width_g * (1.0 + 1e-9)
    middles_g = (figures.edges_g[1:] + figures.edges_g[:-1])[long] / 2.0
    depths = dye_profile(plan, places_at(plan, middles_g))
    assert depths == pytest.approx(figures.left_pct_owf[long], rel=1e-6, abs=1e-9)


def test_an_edge_is_shared_half_and_half() -> None:
    assert dye_profile(PLAN, [1.0]).tolist() == [pytest.approx([0.5, 0.25])]
    assert dye_profile(PLAN, [0.89, 1.11]).tolist() == [pytest.approx([1.0, 0.0]), pytest.approx([0.0, 0.5])]


def test_dye_does_not_wick_off_the_ends() -> None:
    assert dye_profile(PLAN, [0.0, 2.0]).tolist() == [pytest.approx([1.0, 0.0]), pytest.approx([0.0, 0.5])]


def test_without_wicking_edges_are_sharp_and_gaps_are_bare() -> None:
    plan = replace(set_gap(PLAN, 0, 0.2), wicking_mm=0.0)
    # the dye of a section lies on the nine tenths of it that are painted
    assert dye_profile(plan, [0.5, 1.0, 1.5]).tolist() == [
        pytest.approx([1.0 / 0.9, 0.0]),
        [0.0, 0.0],
        pytest.approx([0.0, 0.5 / 0.9]),
    ]


def test_an_overlap_carries_both_dyes() -> None:
    plan = replace(set_gap(PLAN, 0, -0.2), wicking_mm=0.0)
    assert dye_profile(plan, [1.05]).tolist() == [pytest.approx([1.0 / 1.1, 0.5 / 1.1])]


def test_an_overlap_past_the_end_of_the_lay_stays_on_the_lay() -> None:
    plan = replace(PLAN, boundaries=(Boundary(1.9, -1.0),), wicking_mm=0.0)
    figures = section_figures(plan)
    assert dye_profile(plan, [2.0])[0, 0] == pytest.approx(figures.left_pct_owf[0, 0] * 1.9 / 2.0)


def test_wicking_wider_than_the_lay_levels_it_as_far_as_the_lay_goes() -> None:
    plan = replace(laid([("A", 0.1), ("B", 0.1)], PLAN.stocks, PLAN.liquors), wicking_mm=500.0)
    depths = dye_profile(plan, np.linspace(0.0, 0.2, 5))
    assert (np.diff(depths[:, 0]) < 0.0).all()
    assert depths[:, 0].mean() == pytest.approx(0.5)


def test_a_fine_edge_on_a_long_lay_keeps_its_digits() -> None:
    plan = replace(laid([("A", 250.0), ("B", 250.0)], PLAN.stocks, PLAN.liquors), wicking_mm=0.1)
    depths = dye_profile(plan, [100.0, 250.0, 400.0])
    assert depths.tolist() == [pytest.approx(row, abs=1e-6) for row in ([1.0, 0.0], [0.5, 0.25], [0.0, 0.5])]


def test_colours_are_predicted_from_depth_capped_at_what_the_dye_takes_up() -> None:
    deep = laid(
        [("A", 1.0), ("B", 1.0)],
        [replace(dye("D", 50.0), take_up_pct_owf=2.0), let_down("AW")],
        [by_depth("A", {"D": 2.0}), by_depth("B", {"D": 9.0})],
    )
    first, second = section_colours(section_figures(deep)).srgb
    assert first.tolist() == pytest.approx(second.tolist())


def test_the_lay_has_its_sections_colours_in_their_middles_and_wool_where_nothing_is() -> None:
    plan = replace(
        laid([("A", 1.0), ("None", 1.0)], PLAN.stocks, [PLAN.liquors[0], by_parts("None", {})]),
        wicking_mm=20.0,
    )
    figures = section_figures(plan)
    middles = lay_colours(figures, [0.5, 1.5]).srgb
    assert middles.tolist() == [pytest.approx(row) for row in section_colours(figures).srgb.tolist()]
    wool = [int(plan.fibre.undyed_srgb[at : at + 2], 16) / 255.0 for at in (1, 3, 5)]
    assert middles[1].tolist() == pytest.approx(wool, abs=0.5 / 255.0)


def test_a_wiped_section_is_paler() -> None:
    wiped = section_figures(change_section(PLAN, "s1", wiped_ml=20.0))
    assert dye_profile(wiped.plan, [0.5])[0, 0] == pytest.approx(wiped.left_pct_owf[0, 0])
    assert wiped.left_pct_owf[0, 0] < wiped.depth_pct_owf[0, 0]


def test_every_dye_has_one_curve_in_the_plans_order() -> None:
    assert len(dye_curves(PLAN)) == 2
    assert dye_curves(PLAN)[0] is not dye_curves(PLAN)[1]


def test_two_bottles_of_one_dye_colour_as_one() -> None:
    strong, weak, other = dye("D"), replace(dye("W", 0.1), take_up_pct_owf=1.0), dye("E", srgb="#a8382f")
    plan = laid([("A", 1.0)], [strong, other, weak, let_down("AW")], [by_parts("A", {"D": 1.0})])
    alone = colours_of(plan, np.array([[0.9, 0.2, 0.0], [1.0, 0.0, 0.0]])).srgb
    shared = colours_of(plan, np.array([[0.4, 0.2, 0.5], [1.0, 0.0, 2.0]])).srgb
    assert shared == pytest.approx(alone)
