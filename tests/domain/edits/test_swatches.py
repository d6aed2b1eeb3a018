"""If these fail, a dyed sample is lost, or entering one moves shades before its colour is known."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.fit import dye_curve
from studio_gui.domain.colour.mixing import predicted_lab
from studio_gui.domain.edits.stocks import change_stock
from studio_gui.domain.edits.swatches import (
    add_measured_swatch,
    add_swatch,
    change_swatch,
    remove_swatch,
    stand_in,
)
from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.stocks import MOST_SWATCHES

PLAN = new_plan()
FIRST = PLAN.stock("k1").swatches[0]


def test_a_new_sample_is_twice_as_deep_and_as_predicted() -> None:
    swatches = add_swatch(PLAN, "k1").stock("k1").swatches
    assert swatches[0] == FIRST
    assert (swatches[1].depth_pct_owf, swatches[1].fibre_srgb) == (2.0, FIRST.fibre_srgb)
    doses = np.array([[0.5], [1.0], [2.0]])
    before, after = (
        predicted_lab(doses, (dye_curve(one),), FIRST.fibre_srgb) for one in ((FIRST,), swatches)
    )
    assert ciede2000(before, after).max() < 0.5, "no shade moves before the real colour is entered"


def test_no_sample_is_deeper_than_a_plan_may_hold() -> None:
    deep = change_swatch(PLAN, "k1", 0, depth_pct_owf=80.0)
    assert add_swatch(deep, "k1").stock("k1").swatches[1].depth_pct_owf == 100.0


def test_samples_are_changed_and_taken_away_one_by_one() -> None:
    two = add_swatch(PLAN, "k1")
    second = two.stock("k1").swatches[1]
    changed = change_swatch(two, "k1", 0, srgb="#224466")
    assert changed.stock("k1").swatches == (replace(FIRST, srgb="#224466"), second)
    assert remove_swatch(changed, "k1", 0).stock("k1").swatches == (second,)
    with pytest.raises(InvalidPlan, match="dye-without-swatch"):
        remove_swatch(PLAN, "k1", 0)
    with pytest.raises(InvalidPlan, match="out-of-range"):
        change_swatch(two, "k1", 1, depth_pct_owf=0.0)


def test_there_is_an_end_to_samples_and_none_for_let_downs() -> None:
    many = replace(PLAN.stocks[0], swatches=(FIRST,) * MOST_SWATCHES)
    full = replace(PLAN, stocks=(many, *PLAN.stocks[1:]))
    with pytest.raises(InvalidPlan, match="too-many"):
        add_swatch(full, "k1")
    with pytest.raises(InvalidPlan, match="no-swatches"):
        add_swatch(PLAN, "k2")


def test_a_measured_sample_comes_at_the_end_on_the_plan_s_fibre() -> None:
    added = add_measured_swatch(PLAN, "k1", (0.2,) * 31, 0.7).stock("k1").swatches
    assert added[:-1] == PLAN.stock("k1").swatches
    assert added[-1].reflectance == (0.2,) * 31
    assert added[-1].depth_pct_owf == 0.7
    assert added[-1].fibre_srgb == PLAN.fibre.undyed_srgb


def test_a_colour_that_is_entered_takes_the_place_of_a_measured_spectrum() -> None:
    measured = add_measured_swatch(PLAN, "k1", (0.2,) * 31, 0.7)
    assert change_swatch(measured, "k1", 1, depth_pct_owf=0.5).stock("k1").swatches[1].is_measured
    assert not change_swatch(measured, "k1", 1, srgb="#336699").stock("k1").swatches[1].is_measured


def test_the_sample_that_stands_in_goes_when_a_spectrum_comes() -> None:
    new = change_stock(PLAN, "k1", swatches=(stand_in("#f2ebdc"),))
    (measured,) = add_measured_swatch(new, "k1", (0.2,) * 31, 0.7).stock("k1").swatches
    assert measured.reflectance == (0.2,) * 31
    entered = change_swatch(new, "k1", 0, depth_pct_owf=2.0)
    assert len(add_measured_swatch(entered, "k1", (0.2,) * 31, 0.7).stock("k1").swatches) == 2
