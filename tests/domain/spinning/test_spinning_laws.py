"""If these fail, metres or colours come from nowhere, or get lost, between the roving and the yarn."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.fibre import Fibre, Lay
from studio_gui.domain.geometry import mass_to
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.figures import YarnFigures
from studio_gui.domain.spinning.plies import break_m, break_share, plies_of, strands_twisted
from studio_gui.domain.strip import strip_runs
from studio_gui.domain.worksheet import worksheet
from studio_gui.domain.yarn import STRUCTURES, Ply, Strip, Structure, Yarn
from tests.scenes.scene_plans import banded, four_gates, lantern_row, two_shores
from tests.strategies import plans

#: What leaves nothing over, whatever the roving: one roving goes into the yarn from end to end.
WHOLE: tuple[Structure, ...] = ("single", "both ends", "chain")


def yarn_of(plan: Plan, **changes: Any) -> YarnFigures:  # noqa: ANN401  (fields of Yarn)
    return worksheet(replace(plan, yarn=replace(plan.yarn, **changes))).yarn


def colour_grams(plan: Plan) -> np.ndarray:
    """Grams of one roving in each section."""
    fibre = plan.fibre.roving(0)
    grams = np.zeros(len(plan.sections))
    for run in strip_runs(plan):
        grams[run.section_index] += float(np.diff(mass_to(fibre, [run.start_m, run.end_m]))[0])
    return grams


@given(plans())
def test_metres_of_singles_are_grams_times_grist_in_every_structure(plan: Plan) -> None:
    yarn = worksheet(plan).yarn
    for one in yarn.strands:
        share = abs(one.ply.to_share - one.ply.from_share) * one.ply.cross_section
        assert one.length_m == pytest.approx(one.fibre.mass_g * share * plan.yarn.singles_m_per_g)
        assert np.all(np.diff(one.cuts_m) > 0.0)
        assert len(one.sections) == len(one.cuts_m) - 1


@given(plans())
def test_what_is_plied_and_what_is_left_is_what_was_spun(plan: Plan) -> None:
    yarn = worksheet(plan).yarn
    folds = 3 if yarn.is_chain else 1
    for one, left_m, left_g in zip(yarn.strands, yarn.leftover_m, yarn.leftover_g, strict=True):
        assert yarn.laid_m * folds + left_m == pytest.approx(one.length_m)
        assert left_g == pytest.approx(left_m / plan.yarn.singles_m_per_g)
    assert yarn.plied_m == pytest.approx(yarn.laid_m * (1.0 - yarn.take_up))
    assert 0.0 <= yarn.leftover_share <= 1.0 + 1e-9


@given(plans())
def test_runs_tile_the_yarn_and_pairs_add_up_to_it(plan: Plan) -> None:
    yarn = worksheet(plan).yarn
    runs = yarn.runs
    assert runs[0].start_m == 0.0
    assert runs[-1].end_m == pytest.approx(yarn.plied_m)
    assert all(a.end_m == b.start_m for a, b in pairwise(runs))
    assert sum(pair.laid_m for pair in yarn.pairs) == pytest.approx(yarn.laid_m)
    assert sum(pair.plied_m for pair in yarn.pairs if pair.solid) == pytest.approx(
        yarn.solid_m, abs=1e-6 + 1e-9 * yarn.plied_m
    )
    assert -1e-9 <= yarn.solid_share <= 1.0 + 1e-9
    assert yarn.smear_m.sum() <= yarn.smear_worst_m + 1e-9


@given(plans(), st.sampled_from(WHOLE))
def test_the_yarn_has_the_colours_of_the_roving(plan: Plan, structure: Structure) -> None:
    yarn = yarn_of(plan, structure=structure)
    metres = np.zeros(len(plan.sections))
    for column in range(yarn.sections.shape[1]):
        np.add.at(metres, yarn.sections[:, column], np.diff(yarn.cuts_m))
    grams = colour_grams(plan)
    assert (metres / metres.sum()).tolist() == pytest.approx((grams / grams.sum()).tolist(), abs=1e-6)
    assert yarn.leftover_m == (0.0,) * len(yarn.strands)


@given(plans())
def test_one_strip_is_the_lengthwise_split(plan: Plan) -> None:
    halves = (1.0, 1.0)
    fractal = yarn_of(plan, structure="fractal", strips=(Strip(),), splits=halves)
    lengthwise = yarn_of(plan, structure="lengthwise", splits=halves)
    assert fractal.cuts_m.tolist() == lengthwise.cuts_m.tolist()
    assert fractal.sections.tolist() == lengthwise.sections.tolist()
    assert lengthwise.solid_share == pytest.approx(1.0)


@given(plans())
def test_flipping_twice_is_nothing_and_flipping_reverses_a_strand(plan: Plan) -> None:
    there = yarn_of(plan, structure="fractal", strips=(Strip(),), splits=(1.0, 1.0)).strands[1]
    back = yarn_of(plan, structure="fractal", strips=(Strip(flipped=True),), splits=(1.0, 1.0)).strands[1]
    assert back.sections.tolist() == there.sections[::-1].tolist()
    assert (back.length_m - back.cuts_m[::-1]).tolist() == pytest.approx(there.cuts_m.tolist(), abs=1e-6)


@given(plans())
def test_a_roving_that_reads_the_same_from_both_ends_is_solid_from_both_ends(plan: Plan) -> None:
    fibre = Fibre(plan.fibre.mass_g, plan.fibre.length_m)
    there_and_back = replace(
        plan,
        fibre=fibre,
        lay=Lay((fibre.length_m / 2.0,)),
        sections=plan.sections[:1],
        boundaries=(),
        yarn=Yarn(structure="both ends"),
    )
    assert worksheet(there_and_back).yarn.solid_share == pytest.approx(1.0)
    folded = two_shores()
    assert yarn_of(folded, structure="both ends").solid_share == pytest.approx(1.0)


@given(plans(), st.lists(st.floats(0.0, 1.0), min_size=1, max_size=8))
def test_every_metre_comes_from_the_place_that_its_run_names(plan: Plan, shares: list[float]) -> None:
    yarn = worksheet(plan).yarn
    edges_m = np.array(plan.edges_m)
    for one in yarn.strands:
        metres = np.array(shares) * one.length_m
        near = np.abs(one.cuts_m[:, np.newaxis] - metres).min(axis=0) < 1e-6 * one.length_m
        run = np.clip(np.searchsorted(one.cuts_m, metres, side="right") - 1, 0, len(one.sections) - 1)
        places = one.lay_m(plan, metres)
        found = np.clip(np.searchsorted(edges_m, places, side="right") - 1, 0, len(edges_m) - 2)
        assert (found == one.sections[run])[~near].all()


def test_a_chain_lays_every_loop_there_back_and_there_again() -> None:
    yarn = worksheet(lantern_row()).yarn
    metres = yarn.singles_m([0.0, 0.2, 0.59, 0.6])
    assert metres.T.tolist() == [
        pytest.approx(row) for row in ([0.0, 1.2, 1.2], [0.2, 1.0, 1.4], [0.59, 0.61, 1.79], [1.8, 3.0, 3.0])
    ]
    assert yarn.lay_m([0.0, 100.0]).shape == (3, 2)
    assert strands_twisted(lantern_row()) == 3


def test_a_change_at_random_mixes_two_thirds_of_a_loop_on_average() -> None:
    yarn = worksheet(lantern_row()).yarn
    loop = 0.6
    places = (np.arange(6000) + 0.5) / 6000 * loop
    strands = yarn.singles_m(places)
    changes = (np.arange(900) + 0.5) / 900 * 3.0 * loop
    behind = strands[:, :, np.newaxis] > changes
    mixed_m = loop * (behind.any(axis=0) & ~behind.all(axis=0)).mean(axis=0)
    assert mixed_m.mean() == pytest.approx(2.0 / 3.0 * loop, rel=1e-3)
    assert mixed_m.max() <= loop + 1e-9


def test_changes_that_nobody_sees_do_not_smear() -> None:
    chain = Yarn(structure="chain", loop_m=0.6)
    plain = banded([("A", 1.0), ("A", 1.0), ("B", 2.0)], 100.0, chain)
    assert worksheet(plain).yarn.smear_m.tolist() == pytest.approx([0.0, 0.4])
    assert len(worksheet(plain).yarn.runs) == 2


def test_a_chain_of_short_stripes_smears_no_more_than_there_is() -> None:
    stripes = banded([("A", 0.01), ("B", 0.01)] * 10, 5.0, Yarn(structure="chain", loop_m=2.0))
    yarn = worksheet(stripes).yarn
    assert 0.0 <= yarn.solid_share < 0.3
    assert sum(pair.laid_m for pair in yarn.pairs) == pytest.approx(yarn.laid_m)


def test_liquors_that_look_alike_ply_to_solid_yarn() -> None:
    bands = [("A", 1.0), ("B", 1.0)]
    apart = banded(bands, 100.0, Yarn(structure="both ends"))
    assert worksheet(apart).yarn.solid_share == 0.0
    assert yarn_of(apart, alike_difference=100.0).solid_share == pytest.approx(1.0)


def test_rovings_are_plied_one_to_a_ply_behind_what_is_wound_off() -> None:
    plan = four_gates(Strip())
    plan = replace(plan, fibre=replace(plan.fibre, rovings=2))
    yarn = yarn_of(plan, structure="rovings", offsets_m=(0.0, 40.0, 80.0))
    assert [one.length_m for one in yarn.strands] == [1000.0, 1000.0]
    assert yarn.laid_m == pytest.approx(960.0)
    assert yarn.leftover_m == pytest.approx((40.0, 40.0))
    assert yarn.solid_share == pytest.approx(1.0 - 3.0 * 40.0 / 960.0)


def test_with_all_wound_off_there_is_no_yarn_and_no_crash() -> None:
    plan = four_gates(Strip())
    yarn = yarn_of(plan, structure="rovings", offsets_m=(2000.0,))
    assert (yarn.laid_m, yarn.plied_m, yarn.solid_share) == (0.0, 0.0, 0.0)
    assert yarn.leftover_m == (1000.0,)


def test_a_single_is_not_plied_and_loses_nothing() -> None:
    yarn = yarn_of(four_gates(Strip()), structure="single")
    assert (yarn.take_up, yarn.plied_m, yarn.m_per_g) == (0.0, 1000.0, 10.0)


@pytest.mark.parametrize(
    ("structure", "m_per_g"), [("both ends", 4.75), ("chain", 9.5 / 3.0), ("lengthwise", 4.75)]
)
def test_grist_of_the_plied_yarn(structure: Structure, m_per_g: float) -> None:
    assert yarn_of(four_gates(Strip()), structure=structure).m_per_g == pytest.approx(m_per_g)


def test_free_plies_may_come_from_anywhere() -> None:
    plies = (Ply(from_share=1.0, to_share=0.5), Ply(from_share=0.0, to_share=0.5))
    yarn = yarn_of(four_gates(Strip()), structure="free", plies=plies)
    mirrored = yarn_of(four_gates(Strip()), structure="both ends")
    assert yarn.sections[:, ::-1].tolist() == mirrored.sections.tolist()


def test_every_structure_has_its_plies() -> None:
    plan = replace(four_gates(Strip()), yarn=Yarn(plies=(Ply(),)))
    for structure in STRUCTURES:
        chosen = replace(plan, yarn=replace(plan.yarn, structure=structure))
        assert 1 <= len(plies_of(chosen)) <= strands_twisted(chosen)


def test_a_roving_breaks_at_its_middle_fold_or_in_its_middle() -> None:
    straight = four_gates(Strip())
    assert (break_m(straight), break_share(straight)) == (2.0, 0.5)
    folded = replace(straight, lay=Lay((1.0, 2.1, 3.0)), boundaries=(), sections=straight.sections[:1])
    assert break_m(folded) == 2.1


def test_the_two_ends_of_a_folded_roving_lie_together_on_the_lay() -> None:
    yarn = yarn_of(two_shores(), structure="both ends")
    places = yarn.lay_m([0.0, 300.0, 700.0])
    assert places[0].tolist() == pytest.approx(places[1].tolist())
    assert places[0].tolist() == pytest.approx([0.0, 1.2, 2.8])
