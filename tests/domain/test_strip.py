"""If these fail, a spinner gets the colours in another order, or in other lengths, than shown."""

from __future__ import annotations

from collections import defaultdict
from itertools import pairwise

import pytest
from hypothesis import given

from studio_gui.domain.edits.inputs import set_lay
from studio_gui.domain.figures import section_figures
from studio_gui.domain.geometry import mass_to
from studio_gui.domain.plan import Plan
from studio_gui.domain.strip import strip_runs
from tests.scenes.scene_plans import two_shores
from tests.strategies import plans


def test_a_straight_lay_is_the_strip() -> None:
    plan = set_lay(two_shores(), fold_positions_m=())
    assert [run.section_index for run in strip_runs(plan)] == [0, 1, 2, 3, 4]
    assert [run.end_m for run in strip_runs(plan)] == pytest.approx([1.2, 2.0, 3.6, 4.6, 6.0])


def test_a_section_that_a_shorter_leg_does_not_reach_has_no_run_there() -> None:
    # the second leg is 1 m shorter and begins where the fold lies, so it never comes to the first section
    plan = set_lay(two_shores(), fold_positions_m=(3.5,))
    assert [run.section_index for run in strip_runs(plan)] == [0, 1, 2, 3, 4, 3, 2, 1]


@given(plans())
def test_runs_tile_the_strip_exactly(plan: Plan) -> None:
    runs = strip_runs(plan)
    assert runs[0].start_m == 0.0
    assert runs[-1].end_m == plan.fibre.length_m
    assert all(before.end_m == after.start_m for before, after in pairwise(runs))
    assert all(run.end_m > run.start_m for run in runs)
    assert all(before.section_index != after.section_index for before, after in pairwise(runs))


@given(plans())
def test_the_runs_of_a_section_weigh_what_it_weighs_on_the_lay(plan: Plan) -> None:
    grams: dict[int, float] = defaultdict(float)
    for number in range(plan.fibre.rovings):
        fibre = plan.fibre.roving(number)
        for run in strip_runs(plan, number):
            grams[run.section_index] += float(mass_to(fibre, run.end_m) - mass_to(fibre, run.start_m))
    expected = section_figures(plan).fibre_g
    assert [grams[index] for index in range(len(expected))] == pytest.approx(
        expected.tolist(), abs=1e-6 * plan.fibre.mass_g
    )
