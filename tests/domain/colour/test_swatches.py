"""If these fail, a plan can hold a swatch that no dye can be fitted to."""

from __future__ import annotations

import math

import pytest

from studio_gui.domain.colour.swatches import Swatch, checked_srgb
from studio_gui.domain.errors import InvalidPlan


def test_a_colour_is_kept_in_lower_case_so_that_equal_colours_are_equal() -> None:
    swatch = Swatch(1.0, "#E8D020", "#F2EBDC")
    assert (swatch.srgb, swatch.fibre_srgb) == ("#e8d020", "#f2ebdc")
    assert swatch == Swatch(1.0, "#e8d020", "#f2ebdc")
    assert hash(swatch) == hash(Swatch(1.0, "#e8d020", "#f2ebdc"))


@pytest.mark.parametrize(
    "value",
    ["", "e8d020", "#e8d", "#e8d0201", "#e8d020ff", "#e8d02g", " #e8d020", "#e8d020\n", "red", "#١٢٣٤٥٦"],
)
def test_anything_else_is_refused_with_field_and_value(value: str) -> None:
    with pytest.raises(InvalidPlan) as refusal:
        checked_srgb("undyed_srgb", value)
    assert refusal.value.code == "not-a-colour"
    assert refusal.value.params == {"field": "undyed_srgb", "value": value}


@pytest.mark.parametrize(
    ("srgb", "fibre_srgb", "field"), [("red", "#ffffff", "srgb"), ("#ffffff", "", "fibre_srgb")]
)
def test_a_swatch_names_the_colour_that_is_wrong(srgb: str, fibre_srgb: str, field: str) -> None:
    with pytest.raises(InvalidPlan) as refusal:
        Swatch(1.0, srgb, fibre_srgb)
    assert refusal.value.params["field"] == field


def test_a_swatch_without_dye_is_refused_and_says_that_0_itself_is_out() -> None:
    with pytest.raises(InvalidPlan) as refusal:
        Swatch(0.0, "#e8d020", "#f2ebdc")
    assert refusal.value.code == "out-of-range"
    assert refusal.value.params == {
        "field": "swatch_depth_pct_owf",
        "value": 0.0,
        "low": 0.0,
        "high": 100.0,
        "low_excluded": True,
    }


@pytest.mark.parametrize(
    ("depth_pct_owf", "code"),
    [(-0.1, "out-of-range"), (100.1, "out-of-range"), (math.nan, "not-a-number"), (math.inf, "not-a-number")],
)
def test_a_depth_no_plan_may_hold_is_refused(depth_pct_owf: float, code: str) -> None:
    with pytest.raises(InvalidPlan) as refusal:
        Swatch(depth_pct_owf, "#e8d020", "#f2ebdc")
    assert refusal.value.code == code


def test_a_measured_swatch_has_the_colour_of_its_spectrum() -> None:
    half = Swatch(1.0, "#ff0000", "#f2ebdc", (0.5,) * 31)
    assert half.is_measured
    assert half.srgb == "#bcbcbc"  # Y = 0.5, encoded (IEC 61966-2-1)
    assert not Swatch(1.0, "#ff0000", "#f2ebdc").is_measured


def test_a_colour_that_is_entered_takes_the_place_of_the_spectrum() -> None:
    measured = Swatch(1.0, "#ff0000", "#f2ebdc", (0.5,) * 31)
    assert measured.changed(srgb="#bcbcbc") == Swatch(1.0, "#bcbcbc", "#f2ebdc")
    assert measured.changed(depth_pct_owf=2.0).reflectance == (0.5,) * 31
    assert measured.changed(srgb="#000000", reflectance=(0.2,) * 31).is_measured


@pytest.mark.parametrize(
    ("reflectance", "code"),
    [((0.5,) * 30, "spectrum-not-31-bands"), ((), "spectrum-not-31-bands"), ((2.5,) * 31, "out-of-range")],
)
def test_a_spectrum_that_is_none_is_refused(reflectance: tuple[float, ...], code: str) -> None:
    with pytest.raises(InvalidPlan) as refusal:
        Swatch(1.0, "#ff0000", "#f2ebdc", reflectance)
    assert (refusal.value.code, refusal.value.params["field"]) == (code, "reflectance")
