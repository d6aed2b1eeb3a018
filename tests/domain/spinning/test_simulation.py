"""If these fail, uneven spinning makes or loses wool, or is another yarn each time it is looked at."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.figures import YarnFigures
from studio_gui.domain.spinning.simulation import Band, simulate
from studio_gui.domain.worksheet import worksheet
from studio_gui.domain.yarn import Strip, Structure, Yarn
from tests.scenes.scene_plans import banded, four_gates, lantern_row, two_shores
from tests.strategies import plans


def yarn_of(plan: Plan, structure: Structure) -> YarnFigures:
    return worksheet(replace(plan, yarn=replace(plan.yarn, structure=structure))).yarn


def bands(yarn: YarnFigures, spread: float, **how: int) -> list[Band | None]:
    spins = simulate(yarn, spread, **how)
    return [spins.plied_m, spins.solid_share, spins.leftover_m, spins.leftover_share, spins.slide_m]


@given(plans())
@settings(max_examples=40)
def test_even_spinning_is_the_plan_itself(plan: Plan) -> None:
    yarn = worksheet(plan).yarn
    spins = simulate(yarn, 0.0, spins=3)
    assert spins.plied_m.low == pytest.approx(yarn.plied_m)
    assert spins.solid_share.median == pytest.approx(yarn.solid_share, abs=1e-6)
    assert spins.leftover_m.high == pytest.approx(max(yarn.leftover_m), abs=1e-6 * (1.0 + yarn.laid_m))
    assert spins.typical.laid_m == pytest.approx(yarn.laid_m)


@given(plans(), st.floats(0.0, 0.5))
@settings(max_examples=40)
def test_the_typical_yarn_is_the_spin_in_the_middle(plan: Plan, spread: float) -> None:
    yarn = worksheet(plan).yarn
    spins = simulate(yarn, spread, spins=21)
    typical = spins.typical
    assert typical.solid_share == pytest.approx(spins.solid_share.median, abs=2e-3)
    assert sum(pair.laid_m for pair in typical.pairs) == pytest.approx(typical.laid_m)
    for one in typical.strands:
        assert np.all(np.diff(one.cuts_m) >= 0.0)
        assert np.all(np.diff(one.piece_ends_m) > 0.0) or one.length_m == 0.0
        # the middle of every run lies in its section
        middles = (one.cuts_m[:-1] + one.cuts_m[1:]) / 2.0
        wide = np.diff(one.cuts_m) > 1e-6 * one.length_m
        places = one.lay_m(plan, middles)
        found = np.searchsorted(np.array(plan.edges_m), places, side="right") - 1
        assert (np.clip(found, 0, len(plan.sections) - 1) == one.sections)[wide].all()


@pytest.mark.parametrize("structure", ["both ends", "broken at the fold", "lengthwise", "fractal", "chain"])
def test_the_same_seed_gives_the_same_spins(structure: Structure) -> None:
    yarn = yarn_of(four_gates(Strip(), Strip()), structure)
    assert bands(yarn, 0.1, seed=7) == bands(yarn, 0.1, seed=7)
    if structure != "chain":
        assert bands(yarn, 0.1, seed=7) != bands(yarn, 0.1, seed=8)


def test_uneven_spinning_slides_colours_and_leaves_singles_over() -> None:
    yarn = yarn_of(two_shores(), "broken at the fold")
    some, more = (simulate(yarn, spread) for spread in (0.05, 0.2))
    assert yarn.solid_share == pytest.approx(1.0)
    assert more.solid_share.median < some.solid_share.median < 1.0
    assert 0.0 < some.leftover_m.median < more.leftover_m.median
    assert some.slide_m is not None
    assert more.slide_m is not None
    assert 0.0 < some.slide_m.median < more.slide_m.median
    assert some.leftover_share.median == pytest.approx(some.leftover_m.median / 750.0, rel=0.05)


def test_from_both_ends_of_one_ball_colours_slide_and_nothing_is_left() -> None:
    spins = simulate(yarn_of(two_shores(), "both ends"), 0.2)
    assert spins.leftover_m == Band(0.0, 0.0, 0.0)
    assert spins.slide_m is not None
    assert spins.slide_m.median > 0.0
    assert spins.typical.leftover_m == (0.0, 0.0)


def test_a_chain_keeps_its_colours_together_however_it_is_spun() -> None:
    spins = simulate(worksheet(lantern_row()).yarn, 0.3)
    assert spins.solid_share.low > 0.99
    assert spins.slide_m is None


def test_strands_of_other_colours_have_no_slide() -> None:
    bands_ = [("A", 1.0), ("B", 1.0)]
    one_colour = banded([("A", 2.0)], 100.0, Yarn(structure="both ends"))
    assert simulate(worksheet(banded(bands_, 100.0, Yarn())).yarn, 0.1).slide_m is None
    assert simulate(worksheet(one_colour).yarn, 0.1).slide_m is None
    assert simulate(yarn_of(four_gates(Strip()), "single"), 0.1).slide_m is None


def test_with_all_wound_off_there_is_nothing_to_spin() -> None:
    plan = four_gates(Strip())
    waiting = replace(plan, yarn=replace(plan.yarn, structure="rovings", offsets_m=(5_000.0,)))
    spins = simulate(worksheet(waiting).yarn, 0.1)
    assert (spins.plied_m.high, spins.solid_share.high) == (0.0, 0.0)
