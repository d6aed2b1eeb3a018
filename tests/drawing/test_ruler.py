"""If these fail, the tape cannot be read, or a dragged boundary lies beside the tick it snapped to."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.drawing.lay_view import CLOSEST_PX_PER_M
from studio_gui.drawing.ruler import CENTIMETRE_M, INCH_M, ruler_steps, ruler_unit_m, snapped
from studio_gui.wording.translation import Tongue, install_units

SCALES = st.floats(0.5, CLOSEST_PX_PER_M)
#: What can be read off an inch ruler at a glance: binary parts of an inch, 1, 2, 3, 6, and feet.
READABLE_INCHES = [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 3, 6] + [
    12 * step * 10**power for power in range(5) for step in (1, 2, 5)
]


@given(SCALES, st.sampled_from([CENTIMETRE_M, INCH_M]))
def test_figures_never_crowd_and_stand_on_ticks(px_per_m: float, unit_m: float) -> None:
    figure_m, tick_m = ruler_steps(px_per_m, unit_m)
    assert figure_m * px_per_m >= 44.0 * (1.0 - 1e-6)
    assert tick_m * px_per_m >= 4.0 * (1.0 - 1e-6)
    ticks_to_a_figure = figure_m / tick_m
    assert ticks_to_a_figure == pytest.approx(round(ticks_to_a_figure), abs=1e-9)
    assert 2 <= round(ticks_to_a_figure) <= 50


@given(SCALES)
def test_centimetres_are_counted_in_ones_twos_and_fives(px_per_m: float) -> None:
    for step_m in ruler_steps(px_per_m, CENTIMETRE_M):
        assert f"{step_m / CENTIMETRE_M:.6e}"[0] in "125"
    tick_m = ruler_steps(px_per_m, CENTIMETRE_M)[1]
    assert tick_m * px_per_m <= 10.0 * (1.0 + 1e-6), "a finer tick would have had room"


@given(SCALES)
def test_inches_are_halved_and_counted_in_feet(px_per_m: float) -> None:
    figure_m, tick_m = ruler_steps(px_per_m, INCH_M)
    figure, tick = figure_m / INCH_M, tick_m / INCH_M
    assert any(tick == pytest.approx(step) for step in READABLE_INCHES)
    assert figure >= 1.0 - 1e-9, "no fractions among the figures"
    assert any(figure == pytest.approx(step) for step in READABLE_INCHES)
    finer = [step for step in READABLE_INCHES if step < tick * (1.0 - 1e-6)]
    assert not finer or finer[-1] * INCH_M * px_per_m < 4.0, "a finer tick would have had room"


@given(st.floats(-1.0, 30.0), st.sampled_from([0.001, CENTIMETRE_M, INCH_M / 8, INCH_M, 0.1]))
def test_snapping_goes_to_the_nearest_step(position_m: float, step_m: float) -> None:
    place = snapped(position_m, step_m)
    assert abs(place - position_m) <= step_m / 2.0 + 1e-9
    assert place / step_m == pytest.approx(round(place / step_m), abs=1e-6)


def test_the_ruler_is_in_inches_where_fibre_is() -> None:
    assert [ruler_unit_m(Tongue(units)) for units in ("metric", "us", "mixed")] == [0.01, 0.0254, 0.0254]
    install_units("us")
    assert ruler_unit_m() == INCH_M
