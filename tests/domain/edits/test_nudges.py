"""If these fail, "a little redder" makes a section greener, or changes it by more than one graduation."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.at_hand import at_hand
from studio_gui.domain.bench import make_up
from studio_gui.domain.colour.shifts import AXES, NOTICEABLE, Direction, hue_change, shift
from studio_gui.domain.colour.spaces import Array
from studio_gui.domain.edits.liquors import set_parts
from studio_gui.domain.edits.nudges import DIRECTIONS, MOST_GRADUATIONS, nudge, nudged
from studio_gui.domain.errors import EditRefused, RovingLayError
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import Bench, Plan
from tests.scenes.scene_plans import by_depth, by_parts, dye, laid, let_down
from tests.strategies import plans

PLAN = laid(
    [("A", 0.8), ("C", 0.8), ("N", 0.4), ("A", 0.4), ("W", 0.4)],
    [
        dye("D"),
        dye("E", srgb="#a8382f"),
        dye("F", srgb="#e0b64a"),
        dye("G", srgb="#2f7a4a"),
        let_down("AW", 10.0),
        let_down("CW", 20.0),
    ],
    [
        by_parts("A", {"D": 12.0, "F": 6.0, "AW": 30.0, "CW": 15.0}),
        by_depth("C", {"D": 0.5, "F": 0.3}),
        by_parts("N", {"D": 1.0}),
        by_parts("W", {"AW": 1.0}),
    ],
    bench=Bench(spare_share=0.05, dead_ml=1.0, graduation_ml=0.5),
)


def lab(plan: Plan, index: int) -> Array:
    hand = at_hand(plan)
    doses = np.zeros(len(hand.palette.curves))
    np.add.at(doses, np.array(hand.dye_of, dtype=np.intp), section_figures(plan).left_pct_owf[index])
    return hand.palette.lab(doses)


def jar_ml(plan: Plan, liquor_id: str) -> Array:
    return next(jar.amounts_ml for jar in make_up(section_figures(plan)).jars if jar.liquor_id == liquor_id)


@pytest.mark.parametrize("direction", DIRECTIONS)
@pytest.mark.parametrize("index", [0, 1])
def test_a_nudge_goes_where_it_says_by_graduations_of_the_jar(direction: Direction, index: int) -> None:
    plan = nudge(PLAN, PLAN.sections[index].id, direction)
    axis, sense = AXES[direction]
    move = lab(plan, index) - lab(PLAN, index)
    assert sense * move[axis] > 0.0
    liquor_id = PLAN.sections[index].liquor_id
    change = jar_ml(plan, liquor_id) - jar_ml(PLAN, liquor_id)
    dyes = change[:4]
    most = MOST_GRADUATIONS if axis == 0 else 1
    assert set(np.round(np.abs(dyes), 6).tolist()) <= {0.5 * count for count in range(most + 1)}
    assert change.sum() == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("index", [0, 1])
def test_of_a_liquor_in_two_jars_the_graduation_is_that_of_the_section_s_own(index: int) -> None:
    wet = replace(PLAN.sections[1], id="wet", fixed_ml=150.0)
    plan = replace(PLAN, sections=(PLAN.sections[1], wet), boundaries=PLAN.boundaries[1:2])
    changed = nudge(plan, plan.sections[index].id, "redder")
    before, after = (make_up(section_figures(one)).jars for one in (plan, changed))
    assert len(before) == len(after) == 2
    (own,) = (number for number, jar in enumerate(before) if plan.sections[index].id in jar.section_ids)
    dyes = (after[own].amounts_ml - before[own].amounts_ml)[:4]
    assert np.abs(dyes).max() == pytest.approx(0.5)


@pytest.mark.parametrize("direction", ["lighter", "deeper"])
@pytest.mark.parametrize("index", [0, 1])
def test_lighter_and_deeper_keep_the_hue_where_graduations_allow(direction: Direction, index: int) -> None:
    change = nudged(PLAN, PLAN.sections[index].id, direction)
    assert hue_change(lab(PLAN, index), lab(change.plan, index)) < NOTICEABLE
    assert not {"redder", "greener", "yellower", "bluer"} & {word for word, _ in change.shift.besides}


@given(st.sampled_from(DIRECTIONS), st.integers(0, 2), st.floats(0.5, 4.0))
def test_what_is_told_is_what_happens(direction: Direction, index: int, graduation_ml: float) -> None:
    plan = replace(PLAN, bench=replace(PLAN.bench, graduation_ml=graduation_ml))
    try:
        change = nudged(plan, plan.sections[index].id, direction)
    except EditRefused:
        return
    assert change.shift.asked > 0.0
    happened = shift(lab(plan, index), lab(change.plan, index), direction)
    assert happened.asked == pytest.approx(change.shift.asked, abs=1e-6)
    assert dict(happened.besides) == pytest.approx(dict(change.shift.besides), abs=1e-6)


def test_a_dye_that_hardly_colours_goes_neither_way() -> None:
    pale = dye("D", srgb=PLAN.fibre.undyed_srgb)
    plan = laid([("A", 1.0)], [pale, let_down("AW")], [by_parts("A", {"D": 10.0, "AW": 30.0})])
    for direction in DIRECTIONS[:2]:
        with pytest.raises(EditRefused) as refusal:
            nudge(plan, "s1", direction)
        assert refusal.value.code == "no-depth-at-hand"
        assert refusal.value.params == {"liquor": "A", "direction": direction}


def test_the_ratio_of_the_let_downs_and_every_volume_stay() -> None:
    plan = nudge(PLAN, "s1", "deeper")
    parts = {part.stock_id: part.parts for part in plan.liquor("A").parts}
    assert parts["AW"] / parts["CW"] == pytest.approx(2.0)
    assert section_figures(plan).liquid_ml == pytest.approx(section_figures(PLAN).liquid_ml)
    assert plan.sections == PLAN.sections


def test_a_neat_jar_can_be_let_down_and_not_deepened() -> None:
    plan = nudge(PLAN, "s3", "lighter")
    assert plan.liquor("N").stock_ids == ("D", "AW")
    assert lab(plan, 2)[0] > lab(PLAN, 2)[0]
    with pytest.raises(EditRefused) as refusal:
        nudge(PLAN, "s3", "deeper")
    assert (refusal.value.code, refusal.value.params) == ("nothing-deeper", {"liquor": "N"})


def test_a_bottle_may_come_in_for_a_hue_but_not_for_depth() -> None:
    assert "E" in nudge(PLAN, "s1", "redder").liquor("A").stock_ids
    for direction, code in (("deeper", "nothing-deeper"), ("lighter", "nothing-lighter")):
        with pytest.raises(EditRefused) as refusal:
            nudge(PLAN, "s5", direction)  # type: ignore[arg-type]  # mypy widens the pairs
        assert refusal.value.code == code


def test_less_than_a_graduation_of_dye_cannot_be_taken_out() -> None:
    plan = set_parts(PLAN, "N", {"D": 0.1, "AW": 99.9})
    with pytest.raises(EditRefused) as refusal:
        nudge(plan, "s3", "lighter")
    assert refusal.value.code == "nothing-lighter"


def test_where_no_bottle_goes_that_way_it_is_said() -> None:
    plan = laid([("A", 1.0)], [dye("D"), let_down("AW")], [by_parts("A", {"D": 0.4, "AW": 5.0})])
    with pytest.raises(EditRefused) as refusal:
        nudge(plan, "s1", "redder")
    assert refusal.value.code == "no-hue-at-hand"


def test_an_unpainted_section_has_nothing_to_nudge() -> None:
    with pytest.raises(EditRefused) as refusal:
        nudge(set_parts(PLAN, "W", {}), "s5", "deeper")
    assert refusal.value.code == "liquor-not-painted"


@given(plans(most_sections=4), st.sampled_from(DIRECTIONS))
def test_any_section_is_nudged_that_way_or_refused(plan: Plan, direction: Direction) -> None:
    try:
        nudged = nudge(plan, plan.sections[0].id, direction)
    except RovingLayError:
        return
    axis, sense = AXES[direction]
    assert sense * (lab(nudged, 0) - lab(plan, 0))[axis] > 0.0
    assert section_figures(nudged).liquid_ml == pytest.approx(section_figures(plan).liquid_ml)


@pytest.mark.parametrize(("there", "back"), [("lighter", "deeper"), ("deeper", "lighter")])
@pytest.mark.parametrize("section_id", ["s1", "s2"])
def test_there_and_back_is_where_it_was(there: Direction, back: Direction, section_id: str) -> None:
    index = PLAN.section_index(section_id)
    returned = nudge(nudge(PLAN, section_id, there), section_id, back)
    assert lab(returned, index) == pytest.approx(lab(PLAN, index), abs=2.5)


@pytest.mark.parametrize("direction", DIRECTIONS)
@pytest.mark.parametrize("graduation_ml", [0.1, 0.5, 2.0])
def test_what_would_be_told_as_nothing_is_not_done(direction: Direction, graduation_ml: float) -> None:
    plan = replace(PLAN, bench=replace(PLAN.bench, graduation_ml=graduation_ml))
    try:
        done = nudged(plan, "s1", direction)
    except EditRefused:
        return
    assert done.shift.asked >= 0.1
