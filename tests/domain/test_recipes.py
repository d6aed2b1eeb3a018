"""If these fail, a dragged boundary is reckoned with somebody else's recipes."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import fields, replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.boundaries import boundary_range, move_boundary
from studio_gui.domain.edits.inputs import set_liquid
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.figures import SectionFigures, section_figures
from studio_gui.domain.plan import Plan
from studio_gui.domain.recipes import recipes
from studio_gui.domain.worksheet import worksheet
from tests.scenes.scene_plans import by_depth, by_parts, dye, laid, let_down
from tests.strategies import plans

PLAN = laid(
    [("Pale", 1.0), ("Deep", 1.0), ("Pale", 2.0)],
    [dye("D", 4.0), let_down("AW", 10.0)],
    [by_depth("Pale", {"D": 0.2}), by_parts("Deep", {"D": 1.0, "AW": 1.0})],
)


def _same(one: SectionFigures, other: SectionFigures) -> bool:
    arrays = [field.name for field in fields(SectionFigures) if field.name not in ("plan", "recipes")]
    return all(np.array_equal(getattr(one, name), getattr(other, name), equal_nan=True) for name in arrays)


@given(plans(), st.data())
def test_figures_from_the_plan_before_are_those_reckoned_anew(plan: Plan, data: st.DataObject) -> None:
    moved = set_liquid(plan, uptake_ml_per_g=2.0)
    if plan.boundaries:
        index = data.draw(st.integers(0, len(plan.boundaries) - 1))
        with suppress(EditRefused):  # a locked section
            low, high = boundary_range(plan, index)
            moved = move_boundary(plan, index, data.draw(st.floats(low, high)))
    sheet = worksheet(moved, worksheet(plan))
    assert _same(sheet.figures, section_figures(moved))
    assert sheet.plan is moved


def test_recipes_are_taken_over_while_only_boundaries_move() -> None:
    before = section_figures(PLAN)
    assert section_figures(move_boundary(PLAN, 0, 0.9), before).recipes is before.recipes


@pytest.mark.parametrize("field", ["stocks", "liquors", "sections"])
def test_recipes_of_other_bottles_liquors_or_sections_are_not_taken_over(field: str) -> None:
    changed: dict[str, Any] = {
        "stocks": (dye("D", 2.0), let_down("AW", 10.0)),
        "liquors": (by_depth("Pale", {"D": 0.4}), PLAN.liquors[1]),
        "sections": (replace(PLAN.sections[0], fixed_ml=7.0), *PLAN.sections[1:]),
    }
    plan = replace(PLAN, **{field: changed[field]})
    assert not recipes(PLAN).are_of(plan)
    assert _same(section_figures(plan, section_figures(PLAN)), section_figures(plan))
