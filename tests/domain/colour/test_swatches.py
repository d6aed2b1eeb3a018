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
        "field": "depth_pct_owf",
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
