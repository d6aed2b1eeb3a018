"""If these fail, free liquid is overlooked or made up, or a measured tuft tells the wrong limits."""

from __future__ import annotations

import numpy as np
import pytest

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.liquid import (
    MeasuredHolding,
    above,
    free_ml,
    held_ml_per_g,
    holding_from_weighings,
    void_volume_ml_per_g,
    wiped_share,
)
from tests.published import published


def test_held_is_soak_and_applied_less_wiped() -> None:
    held = held_ml_per_g(1.0, np.array([50.0, 50.0, 0.0]), np.array([0.0, 10.0, 99.0]), 20.0)
    assert held.tolist() == pytest.approx([3.5, 3.0, 0.0])  # nothing holds less than nothing


def test_only_what_is_above_the_limit_is_free() -> None:
    assert free_ml([3.1, 2.5, 1.0], 2.5, 22.5).tolist() == pytest.approx([13.5, 0.0, 0.0])


def test_a_sum_that_hits_the_limit_is_within_it() -> None:
    assert not above(0.1 + 0.2, 0.3)
    assert free_ml(0.1 + 0.2, 0.3, 1000.0) == 0.0
    assert above(0.3000001, 0.3)


def test_wiping_takes_dye_in_its_share_of_all_liquid() -> None:
    shares = wiped_share([13.5, 100.0, 5.0, 0.0], [24.75, 10.0, 0.0, 0.0], [45.0, 20.0, 0.0, 0.0])
    assert shares.tolist() == pytest.approx([0.19355, 1.0, 0.0, 0.0], abs=1e-5)


def test_three_weighings_give_soak_and_limit() -> None:
    assert holding_from_weighings(10.0, 20.0, 45.0) == MeasuredHolding(1.0, 3.5)
    heavier = holding_from_weighings(10.0, 20.0, 45.0, liquor_density_g_per_ml=1.25)
    assert (heavier.soak_ml_per_g, heavier.limit_ml_per_g) == pytest.approx((0.8, 2.8))


@pytest.mark.parametrize("weighings", [(0.0, 1.0, 2.0), (10.0, 10.0, 20.0), (10.0, 30.0, 20.0)])
def test_weighings_out_of_order_are_refused(weighings: tuple[float, float, float]) -> None:
    with pytest.raises(InvalidPlan, match="weighings-not-rising"):
        holding_from_weighings(*weighings)


def test_room_between_fibres_of_wool() -> None:
    # fibre density: Morton and Hearle, Physical Properties of Textile Fibres, 2008, Table 5.1
    assert void_volume_ml_per_g(0.2) == pytest.approx(1.0 / 0.2 - 1.0 / published("R039"))


@pytest.mark.parametrize("bulk", [0.0, 1.31, 2.0])
def test_a_top_denser_than_its_fibre_is_refused(bulk: float) -> None:
    with pytest.raises(InvalidPlan, match="denser-than-fibre"):
        void_volume_ml_per_g(bulk)
