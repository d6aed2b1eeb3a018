"""If these fail, a dye or a fibre does not come back as the sample that was entered."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.fibre_fit import fibre_k_over_s
from studio_gui.domain.colour.fit import dye_curve
from studio_gui.domain.colour.kubelka_munk import measured_from_internal, reflectance_from_k_over_s
from studio_gui.domain.colour.spaces import (
    Array,
    hex_from_srgb,
    lab_from_hex,
    linear_from_xyz,
    srgb_from_linear,
)
from studio_gui.domain.colour.spectra import xyz_from_reflectance
from studio_gui.domain.colour.swatch_fit import USUAL_EXPONENT
from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.errors import InvalidPlan

WOOL = "#f2ebdc"

any_colours = st.integers(0, 0xFFFFFF).map(lambda code: f"#{code:06x}")
any_depths = st.floats(1e-4, 100.0)
any_swatches = st.builds(Swatch, any_depths, any_colours, any_colours)
# What dyed wool can look like: darker than the fibre in every primary, and not black.
dyed_colours = st.tuples(*[st.integers(0x18, 0xC8)] * 3).map(lambda rgb: "#{:02x}{:02x}{:02x}".format(*rgb))
bench_depths = st.floats(0.05, 4.0)


def _xyz(k_over_s: Array) -> Array:
    return xyz_from_reflectance(measured_from_internal(reflectance_from_k_over_s(k_over_s)))


def _hex(k_over_s: Array) -> str:
    return hex_from_srgb(srgb_from_linear(linear_from_xyz(_xyz(k_over_s))))


@given(bench_depths, dyed_colours)
def test_one_swatch_comes_back_and_leaves_the_exponent_alone(depth_pct_owf: float, srgb: str) -> None:
    curve = dye_curve((Swatch(depth_pct_owf, srgb, WOOL),))
    assert len(curve.misses) == 1
    assert curve.misses[0] < 0.5
    assert curve.exponent == USUAL_EXPONENT == 0.9


@given(st.lists(any_swatches, min_size=1, max_size=4).map(tuple))
def test_swatches_that_make_no_sense_still_give_a_curve_with_numbers(swatches: tuple[Swatch, ...]) -> None:
    curve = dye_curve(swatches)
    assert len(curve.misses) == len(swatches)
    assert np.isfinite(curve.misses).all()
    assert 0.9 * np.exp(-0.9) - 1e-12 <= curve.exponent <= 0.9 * np.exp(0.9) + 1e-12
    deepest = curve.unit_k_over_s * 100.0**curve.exponent
    reflectance = measured_from_internal(reflectance_from_k_over_s(deepest))
    assert (curve.unit_k_over_s > 0.0).all()
    assert ((reflectance > 0.0) & (reflectance < 1.0)).all()


@pytest.mark.parametrize("exponent", [0.6, 0.75, 1.0, 1.2])
def test_several_depths_tell_how_the_dye_builds_up(exponent: float) -> None:
    # A grey dye of known build-up, rounded to 8-bit colours: 0.02 is what the rounding and the prior leave.
    fibre = fibre_k_over_s(WOOL)
    made = tuple(
        Swatch(depth, _hex(fibre + 2.0 * depth**exponent * np.ones(31)), WOOL) for depth in (0.25, 1.0, 4.0)
    )
    curve = dye_curve(made)
    assert curve.exponent == pytest.approx(exponent, abs=0.02)
    assert curve.unit_k_over_s == pytest.approx(np.full(31, 2.0), rel=0.05)
    assert max(curve.misses) < 1.0


def test_the_same_depth_twice_does_not_tell_the_exponent_and_is_met_in_the_middle() -> None:
    curve = dye_curve((Swatch(1.0, "#c04060", WOOL), Swatch(1.0, "#b84060", WOOL)))
    assert curve.exponent == USUAL_EXPONENT
    apart = float(ciede2000(lab_from_hex("#c04060"), lab_from_hex("#b84060")))
    assert max(curve.misses) < apart


@pytest.mark.parametrize(
    ("pale", "deep", "end"),
    [("#f0d0d0", "#401010", 0.9 * np.exp(0.9)), ("#401010", "#f0d0d0", 0.9 * np.exp(-0.9))],
)
def test_swatches_that_contradict_each_other_cannot_pull_the_exponent_out_of_reach(
    pale: str, deep: str, end: float
) -> None:
    curve = dye_curve((Swatch(1.0, pale, WOOL), Swatch(2.0, deep, WOOL)))
    assert curve.exponent == pytest.approx(end)
    assert min(curve.misses) > 3.0


def test_the_fibre_under_the_swatch_is_taken_out_of_the_dye() -> None:
    on_white = dye_curve((Swatch(1.0, "#705030", WOOL),))
    on_brown = dye_curve((Swatch(1.0, "#705030", "#a08060"),))
    assert (on_brown.unit_k_over_s < on_white.unit_k_over_s).all()


def test_a_swatch_lighter_than_its_fibre_is_missed_and_says_so() -> None:
    assert dye_curve((Swatch(1.0, "#ffffff", WOOL),)).misses[0] > 3.0


def test_a_black_swatch_is_missed_and_gives_no_endless_dye() -> None:
    curve = dye_curve((Swatch(2.0, "#000000", WOOL),))
    assert curve.unit_k_over_s * 2.0**0.9 == pytest.approx(np.full(31, 1000.0))
    assert curve.misses[0] > 1.5


def test_a_swatch_of_the_fibre_itself_is_hardly_a_dye() -> None:
    assert dye_curve((Swatch(1.0, WOOL, WOOL),)).unit_k_over_s.max() < 1e-4


def test_no_swatch_is_no_dye() -> None:
    with pytest.raises(InvalidPlan) as refusal:
        dye_curve(())
    assert refusal.value.code == "no-swatches"
    assert refusal.value.params == {"field": "swatches"}


def test_results_are_kept_and_locked() -> None:
    swatches = (Swatch(1.0, "#c04060", WOOL),)
    assert dye_curve(swatches) is dye_curve((Swatch(1.0, "#C04060", WOOL),))
    assert fibre_k_over_s(WOOL) is fibre_k_over_s(WOOL)
    assert not dye_curve(swatches).unit_k_over_s.flags.writeable
    assert not fibre_k_over_s(WOOL).flags.writeable
