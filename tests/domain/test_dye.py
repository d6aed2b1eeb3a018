"""If these fail, the depth of a shade, or the stock that it needs, is not what the trade reckons."""

from __future__ import annotations

import numpy as np
import pytest

from studio_gui.domain.dye import depth_pct_owf, jar_strength_pct, spoon_strength, stock_ml
from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.figures import section_figures
from studio_gui.domain.liquid import holding_from_weighings
from studio_gui.domain.plan import Liquid
from tests.published import published
from tests.scenes.scene_plans import by_depth, dye, laid, let_down


@pytest.mark.parametrize(
    ("row", "fibre_g", "depth", "strength_pct", "printed_to_ml"),
    [
        ("R007", 5.0, 1.5, 1.0, 1e-9),  # Dyeing Calculation in Lab Dip, 2015, item 7
        ("R009", 5.0, 0.5, 1.0, 1e-9),  # How to Calculate 0.5% Dyeing Shade, 2015
        ("R010a", 1000.0, 2.0, 1.5, 1.0),  # Dye arithmetic on a hand-dyer's page, 2012
        ("R010b", 1100.0, 2.0, 1.5, 1.0),  # the same
        ("R010c", 100.0, 2.0, 1.5, 1.0),  # the same
    ],
)
def test_stock_for_a_shade(
    row: str, fibre_g: float, depth: float, strength_pct: float, printed_to_ml: float
) -> None:
    assert stock_ml(fibre_g, depth, strength_pct) == pytest.approx(published(row), abs=printed_to_ml)


def test_shade_is_dye_on_the_weight_of_fibre() -> None:
    # Basic terminologies in dyeing, VFSTR University: 4 kg dye (here as 400 L of 1 %) on 100 kg
    assert depth_pct_owf(400_000.0, 1.0, 100_000.0) == pytest.approx(published("R012"))


def test_make_up_water_is_what_the_stocks_leave_of_the_liquor() -> None:
    # Dyeing Calculation in Lab Dip, 2015, item 8: six stocks of 1 % in 50 ml on 5 g
    stocks_ml = {"a": 2.5, "b": 10.0, "c": 5.0, "d": 7.5, "e": 10.0, "f": 2.5}
    depths = {name: amount / 5.0 for name, amount in stocks_ml.items()}
    plan = laid(
        [("L", 1.0)],
        [*(dye(name) for name in stocks_ml), let_down("AW")],
        [by_depth("L", depths)],
        density_g_per_m=5.0,
        liquid=Liquid(uptake_ml_per_g=10.0),
    )
    (amounts,) = section_figures(plan).amounts_ml.tolist()
    assert amounts == pytest.approx([*stocks_ml.values(), published("R008")])


def test_add_on_is_pick_up_times_liquor_strength() -> None:
    # CUET PG textile answer, 2025: 100 g takes up 80 g of a 6.0 % liquor
    pick_up = holding_from_weighings(100.0, 180.0, 200.0).soak_ml_per_g
    assert 100.0 * pick_up == pytest.approx(published("R017"))
    assert depth_pct_owf(100.0 * pick_up, 6.0, 100.0) == pytest.approx(published("R018"))


def test_liquor_strength_for_an_add_on() -> None:
    # GATE Textile 2021/TF/24, 2009/TF/56 and 2011/TF/54: wet pick-up 80 %
    assert 10.0 * jar_strength_pct(2.0, 0.8) == pytest.approx(published("R019"))
    assert 10.0 * jar_strength_pct(2.0, 0.8) == pytest.approx(published("R020a"))
    assert jar_strength_pct(4.0, 0.8) == pytest.approx(published("R021"))


def test_liquor_for_a_whole_piece() -> None:
    # GATE Textile 2009/TF/56: 10000 m x 1.5 m x 200 g/m2 at 2 %; the jar as a stock of its own strength
    fabric_g = 10_000.0 * 1.5 * 200.0
    assert stock_ml(fabric_g, 2.0, jar_strength_pct(2.0, 0.8)) / 1000.0 == pytest.approx(published("R020b"))


def test_formulas_take_whole_tables() -> None:
    fibre_g = np.array([[10.0], [20.0]])
    depth = np.array([0.5, 1.0, 2.0])
    amounts = stock_ml(fibre_g, depth, 2.0)
    assert amounts.shape == (2, 3)
    assert depth_pct_owf(amounts, 2.0, fibre_g) == pytest.approx(np.broadcast_to(depth, (2, 3)))
    assert np.isnan(depth_pct_owf(np.nan, 1.0, 1.0))


def test_a_level_spoon_gives_a_span_of_strengths() -> None:
    spoon = spoon_strength(4.0, 5.0, 250.0)
    assert (spoon.low_pct, spoon.middle_pct, spoon.high_pct) == pytest.approx((1.6, 1.8, 2.0))
    assert spoon.spread_share == pytest.approx(1.0 / 9.0)


@pytest.mark.parametrize(("low", "high", "volume"), [(0.0, 1.0, 1.0), (2.0, 1.0, 1.0), (1.0, 2.0, 0.0)])
def test_spoons_that_cannot_be(low: float, high: float, volume: float) -> None:
    with pytest.raises(InvalidPlan, match="spoon-not-rising"):
        spoon_strength(low, high, volume)
