"""If these fail, a strand is given other liquor than its weight asks for."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given

from studio_gui.domain.edits.inputs import set_lay, set_passes
from studio_gui.domain.figures import section_figures
from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.plan import Plan
from studio_gui.domain.strands import strand_ml
from tests.strategies import plans


def test_equal_legs_share_alike() -> None:
    plan = set_passes(new_plan(), 2)
    figures = section_figures(plan)
    assert strand_ml(figures, 0) == pytest.approx([62.5, 62.5])


def test_a_short_leg_takes_nothing_where_it_does_not_reach() -> None:
    # legs of 3 and 1 m: only the first reaches the first 2 m of the lay
    plan = set_lay(new_plan(), fold_positions_m=(3.0,))
    plan = replace(plan, boundaries=(replace(plan.boundaries[0], position_m=2.0),))
    figures = section_figures(plan)
    assert strand_ml(figures, 0) == pytest.approx([125.0, 0.0])
    assert strand_ml(figures, 1) == pytest.approx([62.5, 62.5])


@given(plans())
def test_strands_of_all_rovings_take_the_whole_section(plan: Plan) -> None:
    figures = section_figures(plan)
    for index in range(len(figures)):
        total = plan.fibre.rovings * sum(strand_ml(figures, index))
        assert total == pytest.approx(float(figures.liquid_ml[index]), rel=1e-9, abs=1e-9)
