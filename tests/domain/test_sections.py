"""If these fail, a section or a boundary holds what nobody can paint or measure."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.sections import Boundary, Section

SECTION = Section("s1", "Slate", "q1")


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"id": ""}, "section_id"),
        ({"id": "x" * 65}, "section_id"),
        ({"name": "x" * 301}, "section_name"),
        ({"fixed_ml": -1.0}, "fixed_ml"),
        ({"wiped_ml": -1.0}, "wiped_ml"),
        ({"second_pass_ml": float("inf")}, "second_pass_ml"),
    ],
)
def test_a_section_that_cannot_be_is_refused(changes: dict[str, Any], field: str) -> None:
    with pytest.raises(InvalidPlan) as refusal:
        replace(SECTION, **changes)
    assert refusal.value.params["field"] == field


@pytest.mark.parametrize(("position_m", "gap_m", "field"), [(-0.1, 0.0, "boundary_m"), (1.0, 1.5, "gap_m")])
def test_a_boundary_that_cannot_be_is_refused(position_m: float, gap_m: float, field: str) -> None:
    with pytest.raises(InvalidPlan) as refusal:
        Boundary(position_m, gap_m)
    assert refusal.value.params["field"] == field


def test_a_section_says_where_its_liquid_comes_from() -> None:
    assert SECTION.liquid_mode == "follows fibre"
    assert replace(SECTION, fixed_ml=0.0).liquid_mode == "fixed"
