"""If these fail, taking a section out leaves a hole in the lay or moves what is locked."""

from __future__ import annotations

import pytest

from studio_gui.domain.edits.removal import remove_sections
from studio_gui.domain.edits.sections import change_section, set_locked
from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.plan import Plan
from tests.drawing.plans import plain_plan

PLAN = plain_plan(4)


def edges(plan: Plan) -> list[float]:
    return [round(edge, 9) for edge in plan.edges_m]


def ids(plan: Plan) -> list[str]:
    return [section.id for section in plan.sections]


def test_the_section_before_takes_the_place() -> None:
    plan = remove_sections(PLAN, ["s2"])
    assert (ids(plan), edges(plan)) == (["s1", "s3", "s4"], [0.0, 2.0, 3.0, 4.0])


def test_the_first_leaves_its_place_to_the_one_after() -> None:
    plan = remove_sections(PLAN, ["s1"])
    assert (ids(plan), edges(plan)) == (["s2", "s3", "s4"], [0.0, 2.0, 3.0, 4.0])


def test_a_locked_one_before_stays_as_it_is_and_the_one_after_grows() -> None:
    plan = remove_sections(set_locked(PLAN, ["s1"], True), ["s2"])
    assert (ids(plan), edges(plan)) == (["s1", "s3", "s4"], [0.0, 1.0, 3.0, 4.0])


def test_several_go_together_whatever_their_order() -> None:
    plan = remove_sections(PLAN, ["s4", "s1", "s2"])
    assert (ids(plan), edges(plan)) == (["s3"], [0.0, 4.0])


def test_what_was_to_be_painted_goes_and_the_liquors_stay() -> None:
    plan = remove_sections(change_section(PLAN, "s3", fixed_ml=99.0), ["s3"])
    assert [section.fixed_ml for section in plan.sections] == [None, None, None]
    assert plan.liquors == PLAN.liquors


@pytest.mark.parametrize(
    ("locked", "gone", "code"),
    [
        (["s2"], ["s2"], "section-locked"),
        (["s1", "s3"], ["s2"], "neighbours-locked"),
        (["s3"], ["s4"], "neighbours-locked"),
    ],
)
def test_what_is_locked_is_in_the_way(locked: list[str], gone: list[str], code: str) -> None:
    with pytest.raises(EditRefused) as refused:
        remove_sections(set_locked(PLAN, locked, True), gone)
    assert refused.value.code == code


@pytest.mark.parametrize(("gone", "code"), [(ids(PLAN), "no-sections"), (["s9"], "unknown-section")])
def test_a_plan_keeps_a_section(gone: list[str], code: str) -> None:
    with pytest.raises(InvalidPlan) as refused:
        remove_sections(PLAN, gone)
    assert refused.value.code == code
