"""If these fail, a section's grams, millilitres, depth or acid are wrong, and all that is read from them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.bench import make_up
from studio_gui.domain.edits.inputs import set_liquid
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import AcidLine, Liquid, Plan
from tests.scenes.scene_plans import by_depth, by_parts, dye, harbour_thaw, laid, let_down, two_shores
from tests.strategies import plans

PLAN = laid(
    [("Parts", 1.0), ("Depth", 1.0), ("None", 2.0)],
    [dye("D", 2.0), let_down("AW", 10.0)],
    [by_parts("Parts", {"D": 12.0, "AW": 38.0}), by_depth("Depth", {"D": 0.5}), by_parts("None", {})],
    liquid=Liquid(uptake_ml_per_g=2.0, penetration_ml_per_g=1.0),
)


def test_on_parts_the_depth_goes_with_the_wetness() -> None:
    for uptake in (1.0, 2.0, 3.0):
        figures = section_figures(set_liquid(PLAN, uptake_ml_per_g=uptake))
        assert figures.depth_pct_owf[0, 0] == pytest.approx(uptake * 2.0 * 12.0 / 50.0)


def test_on_depth_the_jar_follows() -> None:
    for uptake in (1.0, 2.0, 3.0):
        figures = section_figures(set_liquid(PLAN, uptake_ml_per_g=uptake))
        assert figures.depth_pct_owf[1, 0] == pytest.approx(0.5)
        assert figures.amounts_ml[1].tolist() == pytest.approx([6.25, 25.0 * uptake - 6.25])


def test_a_depth_out_of_reach_makes_a_neat_jar_that_falls_short() -> None:
    figures = section_figures(change_section(PLAN, "s2", fixed_ml=5.0))
    assert figures.wanted_ml.tolist() == pytest.approx([0.0, 6.25, 0.0])
    assert figures.amounts_ml[1].tolist() == pytest.approx([5.0, 0.0])
    assert figures.depth_pct_owf[1, 0] == pytest.approx(0.4)


@pytest.mark.parametrize("density_g_per_m", [7.3, 19.1, 23.0])
def test_a_neat_jar_has_no_trace_of_let_down_whose_acid_would_count(density_g_per_m: float) -> None:
    neat = laid(
        [("Neat", 1.0)],
        [*(dye(name) for name in "DEF"), let_down("AW", None)],
        [by_depth("Neat", {"D": 0.1, "E": 0.2, "F": 0.3})],
        density_g_per_m=density_g_per_m,
        liquid=Liquid(uptake_ml_per_g=0.6),
    )
    figures = section_figures(neat)
    assert figures.amounts_ml[0, 3] == 0.0
    assert figures.acid_pct_owf[0] == 0.0


def test_a_run_is_as_long_and_heavy_as_its_sections() -> None:
    figures = section_figures(two_shores())
    assert figures.run_length_m(1, 3) == pytest.approx(0.4 + 0.8 + 0.5)
    assert figures.run_fibre_g(1, 3) == pytest.approx(20.0 + 40.0 + 25.0)
    assert figures.run_length_m(0, 0) == figures.length_m(0)


def test_an_empty_liquor_paints_nothing() -> None:
    figures = section_figures(change_section(PLAN, "s3", fixed_ml=70.0))
    assert figures.liquid_ml[2] == 0.0
    assert figures.amounts_ml[2].sum() == 0.0
    assert figures.painted.tolist() == [True, True, False]


def test_what_was_wiped_is_no_longer_held_and_took_dye_along() -> None:
    figures = section_figures(change_section(PLAN, "s1", wiped_ml=15.0))
    assert figures.held_before_wiping_ml_per_g[0] == pytest.approx(3.0)
    assert figures.held_ml_per_g[0] == pytest.approx(3.0 - 15.0 / 25.0)
    assert figures.left_pct_owf[0, 0] == pytest.approx(figures.depth_pct_owf[0, 0] * (1.0 - 15.0 / 75.0))


def test_a_second_pass_is_not_held_at_first_and_costs_no_dye() -> None:
    figures = section_figures(change_section(PLAN, "s1", second_pass_ml=15.0))
    assert figures.held_ml_per_g[0] == pytest.approx(3.0 - 15.0 / 25.0)
    assert figures.left_pct_owf[0, 0] == figures.depth_pct_owf[0, 0]
    beyond = section_figures(change_section(PLAN, "s1", second_pass_ml=999.0))
    assert beyond.held_ml_per_g[0] == pytest.approx(1.0)  # no more can wait than there is


def test_saturation_says_over_before_under() -> None:
    figures = section_figures(set_liquid(PLAN, limit_ml_per_g=2.5, penetration_ml_per_g=3.0))
    assert (bool(figures.over[0]), bool(figures.under[0])) == (True, True)
    assert [figures.saturation(index) for index in range(3)] == ["over", "over", "under"]
    assert section_figures(PLAN).saturation(0) == "in range"


def test_acid_is_unknown_where_anything_in_the_section_is() -> None:
    stocks = (PLAN.stocks[0], let_down("AW", None))
    plan = replace(PLAN, stocks=stocks)
    assert np.isnan(section_figures(plan).recipes.acid_g_per_l).tolist() == [False, True]
    assert np.isnan(section_figures(plan).acid_pct_owf).tolist() == [True, True, False]
    soaked = set_liquid(PLAN, soak_acid_g_per_l=None)
    assert np.isnan(section_figures(soaked).acid_pct_owf).all()


def test_an_acid_line_brings_every_jar_to_its_strength() -> None:
    stocks = (PLAN.stocks[0], let_down("AW", 0.0), let_down("Citric", 200.0))
    plan = replace(PLAN, stocks=stocks, acid_line=AcidLine("Citric", 10.0))
    figures = section_figures(plan)
    assert figures.acid_pct_owf.tolist() == pytest.approx([2.0, 2.0, 0.0])
    assert figures.used_stocks == [True, True, True]


def test_lengths_and_count() -> None:
    figures = section_figures(PLAN)
    assert len(figures) == 3
    assert [figures.length_m(index) for index in range(3)] == pytest.approx([1.0, 1.0, 2.0])
    assert section_figures(PLAN).used_stocks == [True, True]


@given(st.integers(1, 40), st.integers(1, 40), st.floats(2.0, 5000.0), st.integers(1, 9))
def test_a_limit_hit_exactly_is_in_range(
    soak_tenths: int, uptake_tenths: int, mass_g: float, count: int
) -> None:
    soak, uptake = soak_tenths / 10.0, uptake_tenths / 10.0
    plan = laid(
        [("A", 1.0 / count)] * count,
        PLAN.stocks,
        [by_parts("A", {"D": 1.0, "AW": 3.0})],
        density_g_per_m=mass_g,
        liquid=Liquid(uptake, soak, (soak_tenths + uptake_tenths) / 10.0, uptake),
    )
    figures = section_figures(plan)
    assert {figures.saturation(index) for index in range(count)} == {"in range"}
    assert figures.free_ml.max() == 0.0


@given(plans())
def test_fibre_liquid_dye_and_acid_add_up(plan: Plan) -> None:
    figures = section_figures(plan)
    assert figures.fibre_g.sum() == pytest.approx(plan.fibre.rovings * plan.fibre.mass_g, rel=1e-9)
    assert (figures.fibre_g > 0.0).all()
    assert figures.amounts_ml.min(initial=0.0) >= 0.0
    assert figures.amounts_ml.sum(axis=1) == pytest.approx(figures.liquid_ml, rel=1e-9, abs=1e-12)
    strengths = np.array([stock.strength_pct for stock in plan.dyes])
    is_dye = np.array([stock.is_dye for stock in plan.stocks])
    in_fibre_g = figures.depth_pct_owf * figures.fibre_g[:, np.newaxis] / 100.0
    in_bottles_g = figures.amounts_ml[:, is_dye] * strengths / 100.0
    assert in_fibre_g == pytest.approx(in_bottles_g, rel=1e-9, abs=1e-12)
    soak_acid = plan.liquid.soak_acid_g_per_l
    acid_g = figures.amounts_ml * figures.recipes.acid_g_per_l / 1000.0
    acid_g = np.where(figures.amounts_ml > 0.0, acid_g, 0.0).sum(axis=1)
    if soak_acid is not None:
        acid_g = acid_g + plan.liquid.soak_ml_per_g * figures.fibre_g * soak_acid / 1000.0
        on_fibre_g = figures.acid_pct_owf * figures.fibre_g / 100.0
        assert on_fibre_g == pytest.approx(acid_g, rel=1e-9, abs=1e-12, nan_ok=True)


@given(plans(), st.data())
def test_the_order_of_stocks_moves_columns_and_nothing_else(plan: Plan, data: st.DataObject) -> None:
    order = data.draw(st.permutations(range(len(plan.stocks))))
    turned = replace(plan, stocks=tuple(plan.stocks[index] for index in order))
    one, other = section_figures(plan), section_figures(turned)
    assert other.amounts_ml == pytest.approx(one.amounts_ml[:, order], rel=1e-9, abs=1e-12)
    assert other.acid_pct_owf == pytest.approx(one.acid_pct_owf, rel=1e-9, abs=1e-12, nan_ok=True)
    assert make_up(other).need_ml == pytest.approx(make_up(one).need_ml[order], rel=1e-9, abs=1e-12)


def test_one_roving_takes_its_share_and_depths_add_up() -> None:
    # the matching set's Slate: 120 ml for four rovings, 0.90 and 0.30 % owf
    figures = section_figures(harbour_thaw())
    assert figures.liquid_ml_per_roving.tolist() == pytest.approx([30.0, 22.5, 45.0, 15.0, 37.5])
    assert figures.depth_in_all_pct_owf[0] == pytest.approx(1.20)
