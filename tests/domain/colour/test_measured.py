"""If these fail, a spectrum off an instrument is taken for another one, or its holes filled in silence."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.colour.fibre_fit import fibre_k_over_s
from studio_gui.domain.colour.fit import dye_curve
from studio_gui.domain.colour.kubelka_munk import k_over_s, measured_from_internal, reflectance_from_k_over_s
from studio_gui.domain.colour.measured import spectrum_of
from studio_gui.domain.colour.spaces import Array
from studio_gui.domain.colour.spectra import WAVELENGTHS_NM
from studio_gui.domain.colour.swatch_fit import USUAL_EXPONENT
from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.errors import InvalidPlan, Param

WOOL = "#f2ebdc"
#: K/S at 1 % of an invented blue: takes up orange and red, a little of the rest.
BLUE: Array = 0.05 + 6.0 * np.exp(-(((WAVELENGTHS_NM - 600.0) / 60.0) ** 2))


def pairs(
    step_nm: int = 10, first: int = 400, last: int = 700, value: float = 0.5
) -> list[tuple[float, float]]:
    return [(float(nm), value) for nm in range(first, last + 1, step_nm)]


def refusal(readings: Sequence[tuple[float, float]]) -> tuple[str, dict[str, Param]]:
    with pytest.raises(InvalidPlan) as caught:
        spectrum_of(readings)
    return caught.value.code, caught.value.params


def test_readings_on_the_bands_are_taken_as_they_are_in_any_order() -> None:
    readings = [(400.0 + 10.0 * band, 0.2 + 0.02 * band) for band in range(31)]
    spectrum = spectrum_of(readings[::-1])
    assert spectrum.reflectance == pytest.approx([value for _, value in readings])
    assert (spectrum.was_percent, spectrum.readings, spectrum.outside, spectrum.held_nm) == (
        False,
        31,
        0,
        0.0,
    )


def test_readings_every_20_nm_run_straight_between() -> None:
    spectrum = spectrum_of([(float(nm), nm / 1000.0) for nm in range(400, 701, 20)])
    assert spectrum.reflectance[1] == pytest.approx(0.41)


def test_percent_is_recognised_and_said() -> None:
    spectrum = spectrum_of(pairs(value=45.0))
    assert spectrum.was_percent
    assert spectrum.reflectance == pytest.approx([0.45] * 31)


def test_what_the_source_says_of_its_unit_counts_even_for_a_sample_as_dark_as_soot() -> None:
    assert spectrum_of(pairs(value=1.5), says_percent=True).reflectance[0] == pytest.approx(0.015)
    assert spectrum_of(pairs(value=1.5)).reflectance[0] == pytest.approx(1.5)


def test_readings_beyond_the_bands_are_counted_and_not_used() -> None:
    spectrum = spectrum_of([*pairs(value=0.5), (380.0, 0.0), (390.0, 0.0), (710.0, 1.0)])
    assert spectrum.reflectance == pytest.approx([0.5] * 31)
    assert spectrum.outside == 3


def test_ends_that_are_a_little_short_keep_the_outermost_reading() -> None:
    spectrum = spectrum_of([(420.0, 0.3), *pairs(first=430, last=690)])
    assert spectrum.reflectance[:3] == (0.3, 0.3, 0.3)
    assert spectrum.held_nm == pytest.approx(30.0)


def test_ends_that_are_far_short_are_refused_with_where_the_readings_go() -> None:
    expected = ("spectrum-too-short", {"field": "wavelength_nm", "low_nm": 430.0, "high_nm": 700.0})
    assert refusal(pairs(first=430)) == expected
    assert refusal(pairs(last=670))[0] == "spectrum-too-short"
    assert refusal([(550.0, 0.4)])[0] == "spectrum-too-short"


def test_a_hole_is_refused_with_its_place_but_only_where_it_matters() -> None:
    holed = [pair for pair in pairs() if not 510.0 <= pair[0] <= 530.0]
    assert refusal(holed) == ("spectrum-gap", {"field": "wavelength_nm", "low_nm": 500.0, "high_nm": 540.0})
    assert spectrum_of([(300.0, 0.1), *pairs(), (900.0, 0.1)]).outside == 2


@pytest.mark.parametrize(
    ("readings", "code", "field"),
    [
        ([], "spectrum-empty", "reflectance"),
        ([*pairs(), (500.0, 0.4)], "spectrum-wavelength-twice", "wavelength_nm"),
        ([*pairs(), (float("nan"), 0.4)], "not-a-number", "wavelength_nm"),
        ([*pairs(), (0.55, 0.4)], "out-of-range", "wavelength_nm"),
        ([*pairs(), (705.0, float("nan"))], "not-a-number", "reflectance"),
        ([*pairs(), (705.0, -0.1)], "out-of-range", "reflectance"),
        ([*pairs(), (705.0, 400.0)], "out-of-range", "reflectance"),
    ],
)
def test_readings_that_cannot_be_are_refused(
    readings: list[tuple[float, float]], code: str, field: str
) -> None:
    found, params = refusal(readings)
    assert (found, params["field"]) == (code, field)


def measured(depth_pct_owf: float, dye: Array = BLUE, exponent: float = USUAL_EXPONENT) -> Swatch:
    k = fibre_k_over_s(WOOL) + dye * depth_pct_owf**exponent
    reflectance = measured_from_internal(reflectance_from_k_over_s(k))
    return Swatch(depth_pct_owf, "#000000", WOOL, tuple(reflectance.tolist()))


def test_a_measured_swatch_gives_the_dye_band_by_band() -> None:
    curve = dye_curve((measured(2.0),))
    assert curve.unit_k_over_s == pytest.approx(BLUE, rel=1e-6)
    assert curve.exponent == USUAL_EXPONENT
    assert curve.misses[0] == pytest.approx(0.0, abs=1e-6)


def test_a_band_lighter_than_the_fibre_holds_next_to_no_dye() -> None:
    bright = Swatch(1.0, "#000000", WOOL, (1.2,) * 31)
    assert dye_curve((bright,)).unit_k_over_s == pytest.approx(np.full(31, 1e-5))


def test_a_band_without_any_light_holds_much_dye_and_no_endless_one() -> None:
    black = Swatch(1.0, "#ffffff", WOOL, (0.0,) * 31)
    assert black.srgb == "#000000"
    assert dye_curve((black,)).unit_k_over_s == pytest.approx(np.full(31, 1000.0))
    assert k_over_s(np.array([1e-4]))[0] > 1000.0


def test_spectra_at_several_depths_tell_how_the_dye_builds_up() -> None:
    curve = dye_curve(tuple(measured(depth, exponent=0.8) for depth in (0.5, 1.0, 3.0)))
    assert curve.exponent == pytest.approx(0.8, abs=0.01)
    assert curve.unit_k_over_s == pytest.approx(BLUE, rel=0.04)


def test_a_colour_at_another_depth_tells_the_build_up_of_a_measured_dye() -> None:
    deep = Swatch(3.0, measured(3.0, exponent=0.8).srgb, WOOL)
    curve = dye_curve((measured(1.0), deep))
    assert curve.exponent == pytest.approx(0.8, abs=0.03)
    assert curve.unit_k_over_s == pytest.approx(BLUE, rel=0.05)


@pytest.mark.parametrize("filed_under", [0.25, 4.0])
def test_a_measured_swatch_filed_under_another_depth_has_no_more_say_than_a_colour(
    filed_under: float,
) -> None:
    right = tuple(Swatch(depth, measured(depth).srgb, WOOL) for depth in (0.5, 1.0, 2.0))
    spectrum = Swatch(filed_under, "#000000", WOOL, measured(1.0).reflectance)
    for count in (1, 2, 3):
        told = dye_curve((*right[:count], spectrum))
        by_colour = dye_curve((*right[:count], Swatch(filed_under, spectrum.srgb, WOOL)))
        assert max(told.misses[:count]) < max(by_colour.misses[:count]) + 0.5


@given(st.permutations(range(4)), st.sets(st.integers(0, 3), max_size=4))
def test_whichever_swatches_were_measured_and_in_any_order_the_dye_is_the_same(
    order: list[int], by_spectrum: set[int]
) -> None:
    made = [measured(depth) for depth in (0.25, 0.5, 1.0, 3.0)]
    swatches = [
        one if place in by_spectrum else Swatch(one.depth_pct_owf, one.srgb, WOOL)
        for place, one in enumerate(made)
    ]
    curve = dye_curve(tuple(swatches[place] for place in order))
    assert max(curve.misses) < 0.5
    assert curve.odd_one is None
    assert curve.exponent == pytest.approx(USUAL_EXPONENT, abs=0.02)
    if by_spectrum:
        assert curve.unit_k_over_s == pytest.approx(BLUE, rel=0.05)


@given(st.integers(0, 3), st.booleans(), st.sampled_from([0.2, 5.0]))
def test_the_swatch_that_is_wrong_is_the_one_that_is_blamed(
    wrong: int, is_measured: bool, times: float
) -> None:
    made = [measured(depth) for depth in (0.25, 0.5, 1.0, 2.0)]
    swatches = [Swatch(one.depth_pct_owf, one.srgb, WOOL) for one in made]
    odd = made[wrong] if is_measured else swatches[wrong]
    swatches[wrong] = replace(odd, depth_pct_owf=odd.depth_pct_owf * times)
    assert dye_curve(tuple(swatches)).odd_one == wrong


def test_of_two_swatches_neither_is_the_odd_one() -> None:
    assert dye_curve((Swatch(1.0, "#f0d0d0", WOOL), Swatch(2.0, "#401010", WOOL))).odd_one is None


def test_one_spectrum_filed_under_another_depth_does_not_spoil_the_rest() -> None:
    wrong = measured(2.0)
    swatches = (measured(0.5), measured(1.0), Swatch(0.25, "#000000", WOOL, wrong.reflectance), measured(4.0))
    curve = dye_curve(swatches)
    assert curve.unit_k_over_s == pytest.approx(BLUE, rel=0.1)
    assert int(np.argmax(curve.misses)) == 2
