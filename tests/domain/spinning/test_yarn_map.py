"""If these fail, metres of yarn are lost or made between the lay and the yarn, or read from the wrong end."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.inputs import set_lay, set_passes
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.yarn_map import governing_ply, yarn_map
from studio_gui.domain.worksheet import worksheet
from studio_gui.domain.yarn import STRUCTURES, Ply, Strip, Structure, Yarn
from tests.scenes.scene_plans import four_gates, lantern_row, two_shores
from tests.scenes.test_scene_2_two_shores import uneven
from tests.strategies import plans

#: Structures whose metres the yarn as a whole tells; free plies are planned on their first leg alone.
WHOLE: tuple[Structure, ...] = tuple(structure for structure in STRUCTURES if structure != "free")


def spun(plan: Plan, structure: Structure, **changes: Any) -> Plan:  # noqa: ANN401  (fields of Yarn)
    return replace(plan, yarn=replace(plan.yarn, structure=structure, **changes))


@given(plans(), st.sampled_from(WHOLE), st.sampled_from((1, 2)))
def test_what_stripes_are_planned_over_is_the_yarn_as_often_as_they_come(
    plan: Plan, structure: Structure, ply: int
) -> None:
    plan = spun(plan, structure, stripe_ply=ply)
    lay = yarn_map(plan)
    assert lay.available_m * lay.times == pytest.approx(worksheet(plan).yarn.plied_m)


@given(plans(), st.sampled_from(WHOLE), st.sampled_from((1, 2)))
def test_a_section_has_as_many_metres_as_its_runs_in_all_strands(
    plan: Plan, structure: Structure, ply: int
) -> None:
    plan = spun(plan, structure, stripe_ply=ply)
    yarn, lay, chosen = worksheet(plan).yarn, yarn_map(plan), governing_ply(plan)
    strands = range(len(yarn.strands)) if chosen is None else (chosen,)
    runs_m = np.zeros(len(plan.sections))
    for strand in strands:
        np.add.at(runs_m, yarn.sections[:, strand], np.diff(yarn.cuts_m) * (1.0 - yarn.take_up))
    places = lay.times * len(strands) / (2 if lay.mirrored else 1)
    metres = np.diff(lay.yarn_before(plan.edges_m)) * places
    assert metres.tolist() == pytest.approx(runs_m.tolist(), rel=1e-6, abs=1e-6 * yarn.plied_m)


@given(plans(), st.floats(0.0, 1.0))
def test_a_place_in_the_yarn_is_found_on_the_lay_and_back(plan: Plan, share: float) -> None:
    lay = yarn_map(plan)
    wanted_m = share * lay.available_m
    total_m = float(lay.before_m[-1])
    low, *high = lay.lay_at(wanted_m)
    assert all(0.0 <= place <= plan.lay_length_m for place in (low, *high))
    before = float(lay.yarn_before(low))
    assert (total_m - before if lay.backward else before) == pytest.approx(wanted_m, abs=1e-9 * (1 + total_m))
    for place in high:
        assert total_m - float(lay.yarn_before(place)) == pytest.approx(wanted_m, abs=1e-9 * (1 + total_m))


@given(plans())
def test_metres_never_fall_along_the_lay(plan: Plan) -> None:
    lay = yarn_map(plan)
    assert all(before < after for before, after in pairwise(lay.places_m.tolist()))
    assert (np.diff(lay.before_m) >= 0.0).all()
    assert 0.0 <= lay.available_m <= float(lay.before_m[-1]) + 1e-12


@pytest.mark.parametrize(
    ("structure", "available_m", "usable_g", "times"),
    [
        ("single", 750.0, 150.0, 2),
        ("both ends", 712.5, 150.0, 1),
        ("broken at the fold", 712.5, 150.0, 1),
        ("lengthwise", 356.25, 150.0, 2),
        ("fractal", 356.25, 150.0, 2),
        ("chain", 237.5, 150.0, 2),
        ("rovings", 750.0, 150.0, 2),  # of a set of one, there is a single
    ],
)
def test_two_shores_in_every_structure(
    structure: Structure, available_m: float, usable_g: float, times: int
) -> None:
    lay = yarn_map(replace(two_shores(), yarn=Yarn(structure=structure)))
    assert (lay.available_m, lay.usable_g, lay.times) == pytest.approx((available_m, usable_g, times))
    assert not lay.mirrored
    assert not lay.backward


def test_a_split_ply_has_the_stripes_with_every_strip() -> None:
    plan = four_gates(*[Strip()] * 4)
    second = replace(plan, yarn=replace(plan.yarn, stripe_ply=2))
    assert (yarn_map(plan).available_m, yarn_map(plan).times) == (475.0, 1)
    assert (yarn_map(second).available_m, yarn_map(second).times) == (118.75, 4)


def test_a_roving_that_is_not_folded_is_mirrored_about_half_its_weight() -> None:
    plan = lantern_row()
    for structure in ("both ends", "broken at the fold"):
        lay = yarn_map(spun(plan, structure))
        assert lay.mirrored
        assert lay.middle_m == pytest.approx(2.4)
        assert lay.lay_at(lay.available_m / 2.0) == pytest.approx((1.2, 3.6))
    single = yarn_map(spun(plan, "single"))
    assert single.middle_m == plan.lay_length_m
    assert single.lay_at(single.available_m) == (plan.lay_length_m,)


def test_three_legs_from_both_ends_are_mirrored_and_come_three_times() -> None:
    lay = yarn_map(spun(set_passes(lantern_row(), 3), "both ends"))
    assert lay.mirrored
    assert lay.times == 3


def test_an_uneven_top_goes_through_grams() -> None:
    lay = yarn_map(replace(set_passes(uneven(), 1), yarn=Yarn(structure="single")))
    # 26 g/m over the first 3 m, 24 g/m over the rest
    assert lay.yarn_before([1.0, 3.0, 4.0]).tolist() == pytest.approx([260.0, 780.0, 1020.0])
    assert lay.lay_at(1020.0) == pytest.approx((4.0,))


def test_a_fold_that_slipped_leaves_over_what_the_longer_half_has_more() -> None:
    slipped = set_lay(two_shores(), fold_positions_m=(3.04,))
    lay = yarn_map(replace(slipped, yarn=Yarn(structure="broken at the fold", take_up=0.05)))
    assert (lay.available_m, lay.usable_g) == pytest.approx((703.0, 148.0))


def test_a_ply_spun_from_the_far_end_is_read_from_there() -> None:
    plies = (Ply(cross_section=0.5), Ply(from_share=1.0, to_share=0.25, cross_section=0.5))
    plan = replace(lantern_row(), yarn=Yarn(structure="free", plies=plies, stripe_ply=2, take_up=0.0))
    lay = yarn_map(plan)
    assert lay.backward
    assert (lay.available_m, lay.usable_g) == pytest.approx((450.0, 90.0))
    assert lay.lay_at(225.0) == pytest.approx((4.8 - 1.8,))


def test_free_plies_are_planned_on_their_first_leg() -> None:
    plan = replace(two_shores(), yarn=Yarn(structure="free", plies=(Ply(),), take_up=0.0))
    assert yarn_map(plan).available_m == pytest.approx(750.0)


def test_what_is_all_wound_off_gives_nothing_to_stripe() -> None:
    yarn = Yarn(structure="rovings", offsets_m=(10_000.0,))
    for structure in ("rovings", "free"):
        plies = (Ply(offset_m=10_000.0),)
        lay = yarn_map(replace(two_shores(), yarn=replace(yarn, structure=structure, plies=plies)))
        assert (lay.available_m, lay.usable_g) == (0.0, 0.0)
