"""If these fail, stripes and sections do not give each other back, or what was painted is lost on the way."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from studio_gui.domain.edits.boundaries import move_boundary, set_gap
from studio_gui.domain.edits.liquors import add_liquor, remove_liquor
from studio_gui.domain.edits.replacing import repaint
from studio_gui.domain.edits.sections import change_section, set_locked
from studio_gui.domain.edits.stripes import (
    add_stripe,
    change_stripe,
    measure_stripe,
    move_stripe,
    remove_stripe,
    set_knitting,
    set_sections_from_stripes,
    set_stripes,
    set_stripes_from_sections,
)
from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.plan import Plan
from studio_gui.domain.ranges import RANGES
from studio_gui.domain.sections import Boundary
from studio_gui.domain.spinning.stripes import pattern_of_sections, stripe_edges
from studio_gui.domain.spinning.yarn_map import yarn_map
from studio_gui.domain.yarn import STRUCTURES, Knitting, Stripe, Structure, Yarn
from tests.scenes.scene_plans import lantern_row, two_shores
from tests.strategies import plans

FOLDED = replace(two_shores(), yarn=Yarn(structure="both ends", knitting=Knitting(row_m=1.0)))


def letters(plan: Plan) -> list[str]:
    return [plan.liquor(section.liquor_id).letter for section in plan.sections]


def wanting(plan: Plan, *stripes: tuple[str, float]) -> Plan:
    return set_stripes(plan, [Stripe(*stripe) for stripe in stripes])


# -- the list of stripes -----------------------------------------------------------------------------------


def test_stripes_are_added_changed_moved_and_taken_out() -> None:
    plan = wanting(FOLDED, ("A", 8.0), ("B", 6.0))
    plan = add_stripe(plan, 1, Stripe("C", 4.0))
    assert [one.liquor_id for one in plan.yarn.stripes] == ["A", "C", "B"]
    plan = move_stripe(plan, 0, 2)
    assert [one.liquor_id for one in plan.yarn.stripes] == ["C", "B", "A"]
    plan = change_stripe(plan, 1, liquor_id="E", amount=9.0)
    assert plan.yarn.stripes[1] == Stripe("E", 9.0)
    assert [one.liquor_id for one in remove_stripe(plan, 0).yarn.stripes] == ["E", "A"]
    with pytest.raises(InvalidPlan, match="out-of-range"):
        change_stripe(plan, 0, amount=0.0)
    with pytest.raises(InvalidPlan, match="unknown-liquor"):
        change_stripe(plan, 0, liquor_id="none")


def test_a_stripe_counted_otherwise_stays_as_long() -> None:
    plan = set_knitting(wanting(FOLDED, ("A", 8.0)), row_m=1.5)
    metres = measure_stripe(plan, 0, "metres")
    assert metres.yarn.stripes == (Stripe("A", 12.0, "metres"),)
    assert measure_stripe(metres, 0, "rows") == plan
    assert measure_stripe(plan, 0, "rows") is plan


def test_the_width_gives_the_yarn_of_a_row() -> None:
    assert set_knitting(FOLDED, row_m=None, width_m=0.6).yarn.knitting.metres_a_row == pytest.approx(1.8)


def test_a_liquor_that_a_stripe_wants_is_not_taken_away_under_it() -> None:
    plan = add_liquor(wanting(FOLDED, ("A", 8.0)), "Extra")[0]
    extra = plan.liquors[-1].id
    plan = add_stripe(plan, 0, Stripe(extra, 2.0))
    with pytest.raises(EditRefused, match="liquor-in-stripes"):
        remove_liquor(plan, extra)
    other = repaint(plan, "A", "B")
    assert [one.liquor_id for one in other.yarn.stripes] == [extra, "B"]


# -- sections from stripes ---------------------------------------------------------------------------------


def test_sections_are_made_of_the_stripes_and_the_last_takes_what_is_left() -> None:
    plan = set_sections_from_stripes(wanting(FOLDED, ("A", 142.5), ("C", 95.0), ("B", 142.5)))
    assert letters(plan) == ["A", "C", "B"]
    assert plan.edges_m == pytest.approx((0.0, 0.6, 1.0, 3.0))


def test_what_a_section_was_stays_where_its_liquor_comes_at_the_same_turn() -> None:
    plan = change_section(FOLDED, "s2", name="Kelp", fixed_ml=33.0)
    plan = set_gap(plan, 1, 0.02)
    plan = set_sections_from_stripes(wanting(plan, ("B", 95.0), ("C", 95.0), ("A", 50.0), ("E", 50.0)))
    kept = {section.id: section for section in plan.sections}
    assert letters(plan) == ["B", "C", "A", "E"]
    assert kept["s2"].name == "Kelp"
    assert kept["s2"].fixed_ml == 33.0
    assert set(kept) == {"s2", "s3", "s5", "s6"}
    assert kept["s6"].name == "Section 1"  # as the sections of that liquor are called
    assert [boundary.gap_m for boundary in plan.boundaries] == [0.02, 0.0, 0.0]


def test_a_section_of_a_liquor_that_was_nowhere_is_called_as_the_liquor() -> None:
    plan = add_liquor(FOLDED, "Moss")[0]
    plan = set_sections_from_stripes(wanting(plan, ("A", 100.0), (plan.liquors[-1].id, 100.0)))
    assert plan.sections[1].name == "Moss"


def test_a_roving_that_is_not_folded_gets_both_halves() -> None:
    plan = replace(lantern_row(), yarn=Yarn(structure="both ends", knitting=Knitting(row_m=1.0)))
    plan = set_sections_from_stripes(wanting(plan, ("A", 100.0), ("B", 100.0), ("C", 100.0)))
    assert letters(plan) == ["A", "B", "C", "B", "A"]


@pytest.mark.parametrize(
    ("plan", "code"),
    [
        (FOLDED, "no-stripes"),
        (wanting(FOLDED, ("A", 700.0), ("B", 50.0)), "stripes-too-long"),
        (
            replace(
                FOLDED,
                yarn=Yarn(structure="rovings", offsets_m=(9_999.0,), stripes=(Stripe("A", 1.0),)),
            ),
            "no-yarn-to-stripe",
        ),
    ],
)
def test_stripes_that_cannot_be_are_refused(plan: Plan, code: str) -> None:
    with pytest.raises(EditRefused, match=code):
        set_sections_from_stripes(plan)


def test_the_refusal_says_what_is_missing() -> None:
    with pytest.raises(EditRefused) as refused:
        set_sections_from_stripes(wanting(FOLDED, ("A", 700.0), ("B", 50.0)))
    assert refused.value.params == pytest.approx(
        {
            "needed_g": 750.0 / 712.5 * 150.0,
            "available_g": 150.0,
            "over_g": 37.5 / 712.5 * 150.0,
            "over_plied_m": 37.5,
            "over_rows": 37.5,
        }
    )


def test_a_stripe_too_short_for_a_section_is_refused() -> None:
    with pytest.raises(InvalidPlan, match="section-too-short"):
        set_sections_from_stripes(wanting(FOLDED, ("A", 0.05), ("B", 50.0)))


def test_a_locked_section_stays_or_nothing_is_done() -> None:
    plan = set_locked(FOLDED, ["s2"], True)
    moved = wanting(plan, ("A", 150.0), ("B", 95.0), ("C", 100.0))
    with pytest.raises(EditRefused, match="section-locked"):
        set_sections_from_stripes(moved)
    repainted = wanting(plan, ("A", 142.5), ("C", 95.0), ("B", 100.0))
    with pytest.raises(EditRefused, match="section-locked"):
        set_sections_from_stripes(repainted)
    same = set_sections_from_stripes(wanting(plan, ("A", 142.5), ("B", 95.0), ("E", 100.0), ("C", 50.0)))
    assert same.edges_m[1:3] == plan.edges_m[1:3]
    assert [section.id for section in same.sections] == ["s1", "s2", "s6", "s3"]
    assert same.section("s2").locked


# -- stripes from sections ---------------------------------------------------------------------------------


def test_sections_give_their_rows_or_metres() -> None:
    rows = set_stripes_from_sections(FOLDED).yarn.stripes
    assert [one.liquor_id for one in rows] == list("ABCDE")
    assert [one.amount for one in rows] == pytest.approx([142.5, 95.0, 190.0, 118.75, 166.25])
    wide = set_knitting(FOLDED, row_m=2.0)
    assert set_stripes_from_sections(wide).yarn.stripes[0].amount == pytest.approx(71.25)
    assert set_stripes_from_sections(wide, "metres").yarn.stripes[0] == Stripe("A", 142.5, "metres")


def test_a_section_of_next_to_no_row_is_no_stripe() -> None:
    plan = set_knitting(move_boundary(FOLDED, 0, 0.002), row_m=100.0)
    assert [one.liquor_id for one in set_stripes_from_sections(plan).yarn.stripes] == list("BCDE")


def test_where_there_is_no_yarn_there_are_no_stripes() -> None:
    plan = replace(FOLDED, yarn=Yarn(structure="rovings", offsets_m=(9_999.0,)))
    with pytest.raises(EditRefused, match="no-yarn-to-stripe"):
        set_stripes_from_sections(plan)


def unpinned(plan: Plan) -> Plan:
    """Return the plan with nothing locked, no gaps, and no stripes yet."""
    return replace(
        plan,
        sections=tuple(replace(section, locked=False) for section in plan.sections),
        boundaries=tuple(Boundary(boundary.position_m) for boundary in plan.boundaries),
        yarn=replace(plan.yarn, stripes=()),
    )


@given(plans(), st.sampled_from(STRUCTURES))
def test_sections_to_stripes_and_back_are_the_same_sections(plan: Plan, structure: Structure) -> None:
    plan = unpinned(plan)
    if structure != "free" or plan.yarn.plies:
        plan = replace(plan, yarn=replace(plan.yarn, structure=structure))
    lay = yarn_map(plan)
    pattern = pattern_of_sections(plan)
    assume(all(one.rows > RANGES["stripe_amount"].low for one in pattern))
    assume(all(one.rows < RANGES["stripe_amount"].high for one in pattern))
    wanted = set_stripes_from_sections(plan)
    assert stripe_edges(wanted).fits
    again = set_sections_from_stripes(wanted)
    inside = [
        place
        for place in plan.edges_m[1:-1]
        if 1e-9 < float(lay.yarn_before(place)) / lay.available_m < 1.0 - 1e-9
    ]
    made = [place for place in again.edges_m[1:-1] if place < lay.middle_m - 1e-9]
    at = lay.yarn_before
    assert at(made).tolist() == pytest.approx(at(inside).tolist(), rel=1e-6, abs=1e-9 * lay.available_m)


@given(plans(), st.lists(st.floats(0.5, 5.0), min_size=1, max_size=8), st.floats(0.1, 1.0))
def test_stripes_to_sections_and_back_are_the_same_stripes(
    plan: Plan, weights: list[float], share: float
) -> None:
    plan = unpinned(plan)
    available_m = yarn_map(plan).available_m
    liquors = [liquor.id for liquor in plan.liquors]
    metres = [share * available_m * weight / sum(weights) for weight in weights]
    assume(all(RANGES["stripe_amount"].low < one < RANGES["stripe_amount"].high for one in metres))
    stripes = [Stripe(liquors[place % len(liquors)], one, "metres") for place, one in enumerate(metres)]
    try:
        made = set_sections_from_stripes(set_stripes(plan, stripes))
    except InvalidPlan:
        return  # a short stripe of a short roving
    back = set_stripes_from_sections(made, "metres").yarn.stripes
    assert [one.liquor_id for one in back] == [one.liquor_id for one in stripes]
    assert [one.amount for one in back[:-1]] == pytest.approx(metres[:-1], rel=1e-6)
    assert sum(one.amount for one in back) == pytest.approx(available_m)
