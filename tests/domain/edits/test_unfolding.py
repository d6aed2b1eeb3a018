"""If these fail, unfolding a lay paints the roving anew, or loses liquor on the way."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from itertools import groupby

import pytest
from hypothesis import assume, given

from studio_gui.domain.edits.boundaries import set_gap
from studio_gui.domain.edits.inputs import set_passes
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.edits.unfolding import unfold_as_painted
from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.fibre import Roving
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import Plan
from studio_gui.domain.strip import strip_runs
from tests.scenes.scene_plans import two_shores
from tests.strategies import plans


def painted(plan: Plan) -> list[tuple[str, float]]:
    """The liquors along the strip, m of each; neighbours of one liquor are one."""
    ids = [section.liquor_id for section in plan.sections]
    runs = [(ids[run.section_index], run.end_m - run.start_m) for run in strip_runs(plan)]
    return [
        (name, sum(length for _, length in group)) for name, group in groupby(runs, key=lambda run: run[0])
    ]


def test_two_shores_unfolds_to_nine_sections() -> None:
    """A60 B40 C80 D50 E140 D50 C80 B40 A60, as the strip of the scene reads."""
    straight = unfold_as_painted(two_shores())
    assert straight.lay.passes == 1
    assert [section.liquor_id for section in straight.sections] == list("ABCDEDCBA")
    lengths = [after - before for before, after in zip(straight.edges_m, straight.edges_m[1:], strict=False)]
    assert lengths == pytest.approx([0.6, 0.4, 0.8, 0.5, 1.4, 0.5, 0.8, 0.4, 0.6])
    assert section_figures(straight).liquid_ml.sum() == pytest.approx(210.0)


def test_fixed_liquid_wipe_second_pass_and_gap_go_with_the_sections() -> None:
    plan = change_section(two_shores(), "s2", fixed_ml=30.0, wiped_ml=4.0, second_pass_ml=10.0)
    straight = unfold_as_painted(set_gap(plan, 1, 0.02))
    parts = [section for section in straight.sections if section.name == plan.sections[1].name]
    assert [(part.fixed_ml, part.wiped_ml, part.second_pass_ml) for part in parts] == [
        pytest.approx((15.0, 2.0, 5.0))
    ] * 2
    assert [boundary.gap_m for boundary in straight.boundaries] == [0, 0.02, 0, 0, 0, 0, 0.02, 0]


def test_a_gap_comes_wherever_its_boundary_does_and_never_at_a_fold() -> None:
    plan = set_gap(set_passes(two_shores(), 3), 3, 0.01)
    straight = unfold_as_painted(replace(plan, lay=replace(plan.lay, fold_positions_m=(2.5, 4.0))))
    assert "".join(section.liquor_id for section in straight.sections) == "ABCDEDCDE"
    assert [boundary.gap_m for boundary in straight.boundaries] == [0, 0, 0, 0.01, 0.01, 0, 0, 0.01]


def test_rovings_that_differ_are_unfolded_as_their_mean() -> None:
    plan = two_shores()
    measured = replace(plan.fibre, rovings=2, measured=(Roving(160.0), Roving(140.0)))
    straight = unfold_as_painted(replace(plan, fibre=measured))
    assert straight.fibre == measured
    assert len(straight.sections) == 9


def test_a_straight_lay_has_nothing_to_unfold() -> None:
    straight = set_passes(two_shores(), 1)
    assert unfold_as_painted(straight) is straight


@given(plans())
def test_the_strip_and_the_liquor_stay_what_they_are(plan: Plan) -> None:
    assume(plan.lay.passes > 1 and not plan.fibre.measured)
    straight = plan
    with suppress(InvalidPlan):  # a leg may have less of a section than a section may be
        straight = unfold_as_painted(plan)
    before, after = painted(plan), painted(straight)
    assert [name for name, _ in before] == [name for name, _ in after]
    assert [length for _, length in after] == pytest.approx([length for _, length in before], abs=1e-6)
    was, now = section_figures(plan), section_figures(straight)
    assert now.liquid_ml.sum() == pytest.approx(was.liquid_ml.sum(), rel=1e-6)
