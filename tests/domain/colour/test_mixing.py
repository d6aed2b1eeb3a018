"""If these fail, the lay, the strip and the yarn are shown in colours the dyes do not give."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.fibre_fit import fibre_k_over_s
from studio_gui.domain.colour.fit import DyeCurve, dye_curve
from studio_gui.domain.colour.kubelka_munk import measured_from_internal, reflectance_from_k_over_s
from studio_gui.domain.colour.mixing import (
    REACH,
    PredictedColours,
    grey_of,
    in_greys,
    predicted_lab,
    predicted_srgb,
)
from studio_gui.domain.colour.spaces import (
    Array,
    hex_from_srgb,
    lab_from_hex,
    lab_from_xyz,
    linear_from_srgb,
    linear_from_xyz,
    srgb_from_hex,
    srgb_from_linear,
    xyz_from_linear,
)
from studio_gui.domain.colour.spectra import xyz_from_reflectance
from studio_gui.domain.colour.swatches import Swatch

WOOL = "#f2ebdc"
HALF_CODE = 0.5 / 255.0

any_colours = st.integers(0, 0xFFFFFF).map(lambda code: f"#{code:06x}")
# What dyed wool can look like: darker than the fibre in every primary, and not black.
dyed_colours = st.tuples(*[st.integers(0x18, 0xC8)] * 3).map(lambda rgb: "#{:02x}{:02x}{:02x}".format(*rgb))
bench_depths = st.floats(0.05, 4.0)


def _dye(srgb: str, depth_pct_owf: float = 1.0, fibre_srgb: str = WOOL) -> DyeCurve:
    return dye_curve((Swatch(depth_pct_owf, srgb, fibre_srgb),))


LEMON, GREENISH_BLUE, TURQUOISE = _dye("#e8d020"), _dye("#0080a0"), _dye("#00a0d0")
REDDISH_BLUE, RED = _dye("#203080"), _dye("#c03060")


def _hue_and_chroma(lab: Array) -> tuple[float, float]:
    return float(np.degrees(np.arctan2(lab[2], lab[1]))) % 360.0, float(np.hypot(lab[1], lab[2]))


@given(any_colours)
def test_no_dye_is_exactly_the_fibre_as_entered(undyed_srgb: str) -> None:
    modelled = lab_from_xyz(
        xyz_from_reflectance(measured_from_internal(reflectance_from_k_over_s(fibre_k_over_s(undyed_srgb))))
    )
    predicted = predicted_srgb(np.zeros((2, 1)), (RED,), undyed_srgb)
    assert not predicted.clipped.any()
    if ciede2000(modelled, lab_from_hex(undyed_srgb)) < REACH:
        assert predicted.srgb[1] == pytest.approx(srgb_from_hex(undyed_srgb), abs=1e-12)
        assert hex_from_srgb(predicted.srgb[1]) == undyed_srgb
    else:
        assert predicted_lab(np.zeros((1, 0)), (), undyed_srgb)[0] == pytest.approx(modelled, abs=1e-9)


def test_a_fibre_blacker_than_fibre_can_be_is_shown_as_black_as_it_can_be() -> None:
    # The surface alone reflects 0.005: L* = 903.3 * 0.005 = 4.52 (CIE 15).
    assert predicted_lab(np.zeros((1, 0)), (), "#000000")[0, 0] == pytest.approx(4.52, abs=0.01)


@given(st.sampled_from([WOOL, "#c8b090", "#ffffff", "#807060"]))
def test_a_trace_of_dye_does_not_jump_away_from_the_fibre(undyed_srgb: str) -> None:
    colours = predicted_srgb(np.array([[0.0], [1e-9]]), (RED,), undyed_srgb).srgb
    assert colours[1] == pytest.approx(colours[0], abs=HALF_CODE)


@given(bench_depths, dyed_colours)
def test_a_swatch_at_its_own_depth_on_its_own_fibre_comes_back(depth_pct_owf: float, srgb: str) -> None:
    lab = predicted_lab(np.array([[depth_pct_owf]]), (_dye(srgb, depth_pct_owf),), WOOL)
    assert ciede2000(lab[0], lab_from_hex(srgb)) < 0.5


@given(dyed_colours, dyed_colours, st.floats(0.0, 2.0), st.sampled_from([WOOL, "#a08060"]))
def test_more_dye_is_darker(srgb: str, other: str, of_other_pct_owf: float, undyed_srgb: str) -> None:
    depths = np.array([0.0, 0.05, 0.2, 0.5, 1.0, 2.0, 4.0])
    doses = np.column_stack([depths, np.full_like(depths, of_other_pct_owf)])
    lightness = predicted_lab(doses, (_dye(srgb), _dye(other)), undyed_srgb)[:, 0]
    assert (np.diff(lightness) < 0.0).all()


@given(st.permutations(range(4)), st.lists(st.floats(0.0, 4.0), min_size=4, max_size=4))
def test_the_order_of_dyes_does_not_matter(order: list[int], doses: list[float]) -> None:
    dyes = (LEMON, GREENISH_BLUE, REDDISH_BLUE, RED)
    straight = predicted_srgb(np.array([doses]), dyes, WOOL)
    shuffled = predicted_srgb(np.array([[doses[i] for i in order]]), [dyes[i] for i in order], WOOL)
    assert shuffled.srgb == pytest.approx(straight.srgb, abs=1e-9)


def test_lemon_and_a_greenish_blue_give_green_and_a_reddish_blue_only_a_dull_one() -> None:
    one_each = np.array([[1.0, 1.0]])
    hue, chroma = _hue_and_chroma(predicted_lab(one_each, (LEMON, GREENISH_BLUE), WOOL)[0])
    assert 120.0 < hue < 180.0
    assert chroma > 25.0
    assert _hue_and_chroma(predicted_lab(one_each, (LEMON, REDDISH_BLUE), WOOL)[0])[1] < chroma / 2.0


def test_the_short_way_to_the_screen_is_the_long_way_band_by_band() -> None:
    dyes = (LEMON, TURQUOISE, RED)
    mixed = np.random.default_rng(31).uniform(0.01, 4.0, (50, 3))
    doses = np.vstack([mixed, 4.0 * np.eye(3)])
    k = np.tile(fibre_k_over_s(WOOL), (53, 1))
    for column, dye in enumerate(dyes):
        k += np.outer(doses[:, column] ** dye.exponent, dye.unit_k_over_s)
    xyz = xyz_from_reflectance(measured_from_internal(reflectance_from_k_over_s(k)))
    encoded = srgb_from_linear(linear_from_xyz(xyz))
    predicted = predicted_srgb(doses, dyes, WOOL)
    assert predicted.srgb == pytest.approx(np.clip(encoded, 0.0, 1.0), abs=1e-9)
    assert predicted_lab(doses, dyes, WOOL) == pytest.approx(lab_from_xyz(xyz), abs=1e-7)
    outside = ((encoded < -HALF_CODE) | (encoded > 1.0 + HALF_CODE)).any(axis=1)
    assert outside.any()
    assert not outside.all()
    assert predicted.clipped.tolist() == outside.tolist()


def test_natural_brown_makes_every_colour_darker() -> None:
    doses = np.array([[0.5]])
    on_white, on_brown = (predicted_lab(doses, (RED,), fibre)[0, 0] for fibre in (WOOL, "#8a6a4a"))
    assert on_brown < on_white


@pytest.mark.parametrize(("n", "d"), [(0, 0), (0, 2), (3, 0), (3, 2)])
def test_there_may_be_no_columns_and_no_dyes(n: int, d: int) -> None:
    dyes = (LEMON, RED)[:d]
    predicted = predicted_srgb(np.ones((n, d)), dyes, WOOL)
    assert predicted.srgb.shape == (n, 3)
    assert predicted.clipped.shape == (n,)
    assert predicted_lab(np.ones((n, d)), dyes, WOOL).shape == (n, 3)


def test_a_rounding_error_below_zero_is_no_dye_and_the_doses_stay_as_they_were() -> None:
    doses = np.array([[-1e-17, 0.0]])
    assert hex_from_srgb(predicted_srgb(doses, (LEMON, RED), WOOL).srgb[0]) == WOOL
    assert doses.tolist() == [[-1e-17, 0.0]]


def test_a_column_too_few_is_not_taken_for_every_dye() -> None:
    with pytest.raises(ValueError, match="1 columns of doses for 2 dyes"):
        predicted_srgb(np.ones((4, 1)), (LEMON, RED), WOOL)


@given(st.lists(st.tuples(*[st.floats(0.0, 1.0)] * 3), min_size=1, max_size=8))
def test_greys_are_grey_and_as_light_as_the_colours(colours: list[tuple[float, float, float]]) -> None:
    given_colours = PredictedColours(np.array(colours), np.zeros(len(colours), np.bool_))
    greys = in_greys(given_colours).srgb
    assert np.array_equal(greys[:, 0], greys[:, 1])
    assert np.array_equal(greys[:, 0], greys[:, 2])
    lightness = [
        lab_from_xyz(xyz_from_linear(linear_from_srgb(one)))[:, 0] for one in (greys, given_colours.srgb)
    ]
    assert lightness[0] == pytest.approx(lightness[1], abs=1e-6)


@given(st.integers(0, 0xFFFFFF))
def test_the_grey_of_a_colour_is_that_of_a_picture_of_it(code: int) -> None:
    colour = f"#{code:06x}"
    shown = in_greys(PredictedColours(srgb_from_hex(colour)[np.newaxis], np.zeros(1, np.bool_))).srgb[0]
    assert grey_of(colour) == hex_from_srgb(shown)
    assert grey_of(grey_of(colour)) == grey_of(colour)
