"""If these fail, reordered sections change their lengths, lose a gap, or push what is locked."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.boundaries import lengths_m, set_gap
from studio_gui.domain.edits.order import move_sections, paint_with, run_of
from studio_gui.domain.edits.sections import set_locked
from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.plan import Plan
from tests.scenes.scene_plans import by_parts, dye, laid
from tests.strategies import plans


def five() -> Plan:
    """Five sections of 0.2, 0.4, ... 1.0 m."""
    lengths = [("A", 0.2), ("B", 0.4), ("A", 0.6), ("B", 0.8), ("A", 1.0)]
    return laid(lengths, [dye("D")], [by_parts("A", {"D": 1.0}), by_parts("B", {"D": 2.0})])


def ids(plan: Plan) -> list[str]:
    return [section.id for section in plan.sections]


@pytest.mark.parametrize(
    ("first", "last", "before", "order"),
    [
        (0, 0, 2, [1, 0, 2, 3, 4]),
        (0, 0, 5, [1, 2, 3, 4, 0]),
        (4, 4, 0, [4, 0, 1, 2, 3]),
        (1, 2, 5, [0, 3, 4, 1, 2]),
        (1, 2, 0, [1, 2, 0, 3, 4]),
        (1, 2, 1, [0, 1, 2, 3, 4]),
        (1, 2, 2, [0, 1, 2, 3, 4]),
        (1, 2, 3, [0, 1, 2, 3, 4]),
    ],
)
def test_a_run_goes_before_the_section_it_is_dropped_at(
    first: int, last: int, before: int, order: list[int]
) -> None:
    plan = five()
    assert ids(move_sections(plan, first, last, before)) == [ids(plan)[index] for index in order]


@given(plans(), st.data())
def test_every_section_keeps_its_length_and_no_gap_is_lost(plan: Plan, data: st.DataObject) -> None:
    count = len(plan.sections)
    first = data.draw(st.integers(0, count - 1))
    last = data.draw(st.integers(first, count - 1))
    before = data.draw(st.integers(0, count))
    try:
        moved = move_sections(plan, first, last, before)
    except (EditRefused, InvalidPlan):
        return  # something locked, or a gap too wide for its new neighbours
    assert dict(zip(ids(moved), lengths_m(moved), strict=True)) == pytest.approx(
        dict(zip(ids(plan), lengths_m(plan), strict=True)), abs=1e-9
    )
    assert sorted(one.gap_m for one in moved.boundaries) == sorted(one.gap_m for one in plan.boundaries)
    assert moved.lay_length_m == plan.lay_length_m


def test_moving_there_and_back_restores_the_order() -> None:
    plan = set_gap(five(), 2, 0.05)
    back = move_sections(move_sections(plan, 0, 0, 5), 4, 4, 0)
    assert ids(back) == ids(plan)
    assert back.boundaries[2].gap_m == 0.05


def test_a_gap_stays_between_the_two_it_is_between() -> None:
    plan = set_gap(set_gap(five(), 2, 0.05), 0, 0.01)
    moved = move_sections(plan, 0, 0, 5)
    assert [boundary.gap_m for boundary in moved.boundaries] == [0.0, 0.05, 0.0, 0.01]


def test_what_is_locked_does_not_give_way() -> None:
    plan = set_locked(five(), ("s2",), True)
    with pytest.raises(EditRefused, match="section-locked"):
        move_sections(plan, 0, 0, 3)
    assert ids(move_sections(plan, 2, 2, 4)) == ["s1", "s2", "s4", "s3", "s5"]


def test_several_sections_take_one_liquor() -> None:
    plan = five()
    liquor = plan.sections[1].liquor_id
    painted = paint_with(plan, ("s1", "s3"), liquor)
    assert [section.liquor_id == liquor for section in painted.sections] == [True, True, True, True, False]
    with pytest.raises(InvalidPlan, match="unknown-liquor"):
        paint_with(plan, ("s1",), "nobody")
    with pytest.raises(InvalidPlan, match="unknown-section"):
        paint_with(plan, ("nobody",), liquor)


def test_a_run_has_no_break() -> None:
    assert run_of(five(), ("s3", "s2")) == (1, 2)
    assert run_of(five(), ()) == (0, 0)
    with pytest.raises(EditRefused, match="not-neighbours"):
        run_of(five(), ("s1", "s3"))
