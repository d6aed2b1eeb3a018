"""If these fail, somebody recovers or deletes a plan on the wrong word of what differs in it."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

import pytest
from hypothesis import given

from studio_gui.domain.differences import Difference, differences
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.edits.sections import change_section, merge, split
from studio_gui.domain.plan import Plan
from tests.drawing.plans import plain_plan
from tests.strategies import plans

PLAN = plain_plan(4)


@given(plans(most_sections=3), plans(most_sections=3))
def test_equal_plans_and_only_they_differ_in_nothing(one: Plan, other: Plan) -> None:
    assert differences(one, one) == ()
    assert bool(differences(one, other)) == (one != other)
    parts = [found.part for found in differences(one, other)]
    assert parts == [field.name for field in fields(Plan) if field.name in parts]


@pytest.mark.parametrize(
    ("after", "found"),
    [
        (replace(PLAN, title="New"), [Difference("title")]),
        (move_boundary(PLAN, 0, 1.0001), [Difference("boundaries")]),
        (change_section(PLAN, "s1", name="Tide"), [Difference("sections")]),
        (replace(PLAN, sections=PLAN.sections[::-1]), [Difference("sections")]),
        (split(PLAN, 0, 0.5), [Difference("sections", 1, 1), Difference("boundaries", 1)]),
        (merge(PLAN, 2, 3), [Difference("sections", 1, -1), Difference("boundaries", 1)]),
    ],
)
def test_what_changed_is_named_and_counted(after: Plan, found: list[Any]) -> None:
    counted = [one for one in differences(PLAN, after) if one.part != "liquors"]
    assert counted == found
