"""If these fail, a lay grows out of its picture, or wool and gauges are squeezed without need."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.inputs import set_liquid
from studio_gui.drawing.lay_rows import (
    FIXED_HEIGHT,
    GAUGE_PX_PER_ML_PER_G,
    LARGEST_PX_PER_ML_PER_G,
    LEAST_STRAND,
    LOWEST_GAUGE,
    PICTURE_STRAND,
    TALLEST_STRAND,
    THINNEST_STRAND,
    picture_size,
    shared_out,
)
from tests.drawing.plans import plain_plan

SCALE = LARGEST_PX_PER_ML_PER_G


@given(st.floats(260.0, 4000.0), st.integers(1, 20), st.integers(1, 6), st.floats(0.5, 40.0), st.booleans())
def test_rows_fit_into_any_height_and_keep_their_bounds(
    height: float, rovings: int, passes: int, limit: float, one: bool
) -> None:
    plan = set_liquid(plain_plan(rovings=rovings, passes=passes), limit_ml_per_g=limit)
    rows = shared_out(plan, height, one_roving=one, most_px_per_ml_per_g=SCALE)
    assert LEAST_STRAND <= rows.strand <= TALLEST_STRAND
    assert rows.rovings == (1 if one or rows.strand < THINNEST_STRAND else rows.rovings)
    assert LOWEST_GAUGE <= rows.gauge <= max(SCALE * limit, LOWEST_GAUGE)
    if rows.strand > THINNEST_STRAND:
        assert (
            FIXED_HEIGHT + rows.strands(passes) + rows.gauge <= max(height, FIXED_HEIGHT + LOWEST_GAUGE) + 4.0
        )


def test_rovings_too_thin_to_read_are_shown_by_one() -> None:
    plan = plain_plan(rovings=20, passes=4)
    assert shared_out(plan, 420.0, one_roving=False, most_px_per_ml_per_g=SCALE).rovings == 1
    assert shared_out(plan, 2400.0, one_roving=False, most_px_per_ml_per_g=SCALE).rovings == 20


def test_room_that_the_strands_leave_goes_to_the_gauges() -> None:
    plan = plain_plan()
    low, high = (
        shared_out(plan, height, one_roving=False, most_px_per_ml_per_g=SCALE) for height in (400.0, 900.0)
    )
    assert high.strand == TALLEST_STRAND
    assert high.gauge == pytest.approx(SCALE * plan.liquid.limit_ml_per_g)
    assert low.gauge < high.gauge


@given(st.integers(1, 8), st.integers(1, 4))
def test_a_picture_is_high_enough_for_its_own_scale(rovings: int, passes: int) -> None:
    plan = plain_plan(rovings=rovings, passes=passes)
    size = picture_size(plan, 1600.0)
    rows = shared_out(plan, size.height(), one_roving=False, most_px_per_ml_per_g=GAUGE_PX_PER_ML_PER_G)
    assert rows.rovings == rovings
    assert rows.strand >= PICTURE_STRAND - 1e-6
    drier = replace(plan, liquid=replace(plan.liquid, limit_ml_per_g=2.0))
    assert picture_size(drier, 1600.0).height() < size.height()
