"""If these fail, a mend of halves leaves them unequal, moves what is locked, or loses fibre."""

from __future__ import annotations

import contextlib
from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from studio_gui.domain.edits.halves import (
    Half,
    equal_halves,
    fold_halves_by_weight,
    mirror_half,
)
from studio_gui.domain.edits.inputs import set_fibre
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.fibre import Fibre, Lay, MassMark
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import Plan
from studio_gui.domain.sections import Boundary
from studio_gui.domain.spinning.halves import halves
from tests.scenes.scene_plans import straight, two_shores
from tests.strategies import plans

MIRRORED = "ABCDEDCBA"
EVEN_M = (0.6, 1.0, 1.8, 2.3, 3.7, 4.2, 5.0, 5.4)
UNEVEN = (MassMark(0.5, 0.52),)


def places(plan: Plan) -> list[float]:
    return [boundary.position_m for boundary in plan.boundaries]


def letters(plan: Plan) -> str:
    return "".join(plan.liquor(section.liquor_id).letter for section in plan.sections)


def locked(plan: Plan, *indexes: int) -> Plan:
    for index in indexes:
        plan = change_section(plan, plan.sections[index].id, locked=True)
    return plan


# -- fold by weight ----------------------------------------------------------------------------------------


def test_folding_by_weight_gives_equal_halves_once() -> None:
    folded = fold_halves_by_weight(set_fibre(two_shores(), mass_marks=UNEVEN))
    assert halves(folded).apart_share == pytest.approx(0.0, abs=1e-9)
    assert fold_halves_by_weight(folded) is folded


def test_what_is_not_folded_cannot_be_folded_by_weight() -> None:
    with pytest.raises(EditRefused, match="lay-not-folded"):
        fold_halves_by_weight(straight("A", ()))


# -- equal grams -------------------------------------------------------------------------------------------


def test_boundaries_that_answer_each_other_meet_between_them() -> None:
    # 15 g against 20 g of A, at 25 g/m
    plan = equal_halves(straight("ABA", (0.6, 5.2)))
    assert places(plan) == pytest.approx([0.7, 5.3])


def test_an_uneven_top_is_marked_by_weight() -> None:
    plan = equal_halves(straight(MIRRORED, EVEN_M, UNEVEN))
    found = halves(plan)
    assert found.are_alike
    assert found.apart_share == pytest.approx(0.0, abs=1e-9)
    assert found.pairs[0].first.weight_g == pytest.approx((15.6 + 14.4) / 2.0)  # type: ignore[union-attr]  # both halves have it


@pytest.mark.parametrize(("index", "moved"), [(0, [0.6, 5.4]), (2, [0.8, 5.2])])
def test_a_locked_boundary_stays_and_its_partner_follows(index: int, moved: list[float]) -> None:
    plan = equal_halves(locked(straight("ABA", (0.6, 5.2)), index))
    assert places(plan) == pytest.approx(moved)
    assert places(plan)[index // 2] == (0.6, 5.2)[index // 2]


def test_both_locked_where_they_do_not_match_is_refused_with_both_names() -> None:
    plan = locked(straight("ABA", (0.6, 5.2)), 1)
    with pytest.raises(EditRefused) as refused:
        equal_halves(plan)
    assert refused.value.code == "halves-locked-apart"
    assert (refused.value.params["section_id"], refused.value.params["other_id"]) == ("s1", "s1")
    assert refused.value.params["difference_g"] == pytest.approx(5.0)


def test_both_locked_where_they_match_let_the_others_move() -> None:
    plan = equal_halves(locked(straight("ABCBA", (0.6, 1.6, 4.0, 5.4)), 0, 4))
    assert places(plan) == pytest.approx([0.6, 1.8, 4.2, 5.4])


def test_what_is_locked_may_leave_no_room() -> None:
    plan = locked(straight("ABCBA", (3.2, 4.0, 5.0, 5.4)), 0)  # A of 3.2 m is more than half
    with pytest.raises(EditRefused, match="halves-without-room"):
        equal_halves(plan)


def test_sections_of_one_colour_keep_their_shares_of_it() -> None:
    plan = equal_halves(straight("AABA", (0.3, 0.6, 5.2)))
    assert places(plan) == pytest.approx([0.35, 0.7, 5.3])
    stays = equal_halves(locked(straight("AABA", (0.3, 0.6, 5.2)), 0))
    assert places(stays) == pytest.approx([0.3, 0.7, 5.3])


def test_colours_that_differ_from_the_two_ends_are_refused() -> None:
    with pytest.raises(EditRefused) as refused:
        equal_halves(straight("ABCA", (1.0, 2.0, 5.0)))
    assert refused.value.code == "halves-not-alike"
    assert refused.value.params["count"] == 2


def test_a_folded_lay_is_folded_by_weight_instead() -> None:
    for edit in (equal_halves, mirror_half):
        with pytest.raises(EditRefused, match="lay-folded"):
            edit(two_shores())


# -- mirror ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("keep", ["first", "second"])
def test_the_other_half_is_painted_as_the_mirror(keep: Half) -> None:
    order, at = ("ABCDD", (0.6, 1.0, 1.8, 4.4)) if keep == "first" else ("CCBA", (2.0, 5.0, 5.4))
    plan = mirror_half(straight(order, at), keep)
    assert letters(plan) == ("ABCDCBA" if keep == "first" else "ABCBA")
    expected = [0.6, 1.0, 1.8, 4.2, 5.0, 5.4] if keep == "first" else [0.6, 1.0, 5.0, 5.4]
    assert places(plan) == pytest.approx(expected)
    assert halves(plan).apart_share == pytest.approx(0.0, abs=1e-9)


def test_the_middle_section_takes_its_ml_along() -> None:
    plan = straight("AB", (3.0,))
    plan = change_section(plan, plan.sections[0].id, fixed_ml=60.0, wiped_ml=3.0)
    (whole,) = mirror_half(plan).sections
    assert (whole.fixed_ml, whole.wiped_ml, whole.liquor_id) == (120.0, 6.0, plan.sections[0].liquor_id)


def test_names_gaps_and_ml_are_mirrored_and_ids_stay_where_they_were() -> None:
    plan = straight("ABC", (1.0, 4.0))
    plan = replace(plan, boundaries=(Boundary(1.0, 0.02), Boundary(4.0, -0.03)))
    plan = change_section(plan, "s0", name="Tideline", fixed_ml=40.0)
    mirrored = mirror_half(plan)
    assert [section.id for section in mirrored.sections] == ["s0", "s1", "s2"]
    assert mirrored.sections[2] == replace(mirrored.sections[0], id="s2")
    assert mirrored.boundaries == (Boundary(1.0, 0.02), Boundary(5.0, 0.02))


def test_a_half_with_more_sections_gives_new_ones() -> None:
    plan = mirror_half(straight("ABCDE", (0.5, 1.0, 1.5, 2.0)))
    assert letters(plan) == MIRRORED
    assert [section.id for section in plan.sections[:5]] == ["s0", "s1", "s2", "s3", "s4"]
    assert not {section.id for section in plan.sections[5:]} & {"s0", "s1", "s2", "s3", "s4"}


@pytest.mark.parametrize(("index", "keep"), [(2, "first"), (1, "first"), (0, "second")])
def test_what_is_locked_in_the_way_is_refused(index: int, keep: Half) -> None:
    with pytest.raises(EditRefused, match="section-locked"):
        mirror_half(locked(straight("ABC", (1.0, 4.0)), index), keep)


def test_what_is_locked_where_it_belongs_is_in_nobodys_way() -> None:
    plan = locked(straight("ABCA", (1.0, 4.0, 5.0)), 0, 3)
    mirrored = mirror_half(plan)
    assert letters(mirrored) == "ABA"
    assert mirrored.sections[0].locked
    with pytest.raises(EditRefused, match="section-locked"):
        mirror_half(locked(straight("ABCA", (1.0, 4.0, 5.5)), 3))


# -- laws --------------------------------------------------------------------------------------------------


@st.composite
def straight_plans(draw: st.DrawFn) -> Plan:
    """Plans laid straight by length, nothing locked, without gaps."""
    plan = draw(plans())
    fibre = Fibre(
        plan.fibre.mass_g, plan.fibre.length_m, plan.fibre.rovings, mass_marks=plan.fibre.mass_marks
    )
    scale = fibre.length_m / plan.lay_length_m
    return replace(
        plan,
        fibre=fibre,
        lay=Lay(matching=plan.lay.matching),
        sections=tuple(replace(section, locked=False) for section in plan.sections),
        boundaries=tuple(Boundary(boundary.position_m * scale) for boundary in plan.boundaries),
    )


def wide_enough(edit: Callable[[], Plan]) -> Plan:
    """Return what an edit makes; an example in which a section would get too narrow is no example."""
    try:
        return edit()
    except InvalidPlan as refused:
        assume(refused.code != "section-too-short")
        raise


def assert_equal(plan: Plan) -> None:
    found = halves(plan)
    assert found.are_alike
    for pair in found.pairs:
        assert pair.first is not None
        assert pair.second is not None
        difference_g = pair.first.weight_g - pair.second.weight_g
        assert difference_g == pytest.approx(0.0, abs=1e-9 * plan.fibre.mass_g)


def assert_grams_stay(before: Plan, after: Plan) -> None:
    grams = (float(section_figures(plan).fibre_g.sum()) for plan in (before, after))
    assert next(grams) == pytest.approx(next(grams))


@given(straight_plans(), st.sampled_from(["first", "second"]))
def test_mirrored_halves_are_equal_and_mirroring_twice_is_nothing(plan: Plan, keep: Half) -> None:
    mirrored = wide_enough(lambda: mirror_half(plan, keep))
    assert_equal(mirrored)
    assert_grams_stay(plan, mirrored)
    assert mirror_half(mirrored, keep) is mirrored
    other: Half = "second" if keep == "first" else "first"
    assert mirror_half(mirrored, other) is mirrored
    assert equal_halves(mirrored) is mirrored


@given(straight_plans(), st.data())
def test_moved_boundaries_make_halves_equal_and_twice_is_nothing(plan: Plan, data: st.DataObject) -> None:
    mirrored = wide_enough(lambda: mirror_half(plan))
    assume(mirrored.boundaries)
    index = data.draw(st.integers(0, len(mirrored.boundaries) - 1))
    low, high = mirrored.edges_m[index], mirrored.edges_m[index + 2]
    place = low + (high - low) * data.draw(st.floats(0.2, 0.8))
    moved = list(mirrored.boundaries)
    moved[index] = replace(moved[index], position_m=place)
    drifted = wide_enough(lambda: mirrored.with_boundaries(tuple(moved)))
    even = wide_enough(lambda: equal_halves(drifted))
    assert_equal(even)
    assert_grams_stay(plan, even)
    assert equal_halves(even) is even


EDITS: dict[str, Callable[[Plan], Plan]] = {
    "equal": equal_halves,
    "mirror": mirror_half,
    "mirror second": lambda plan: mirror_half(plan, "second"),
    "fold": fold_halves_by_weight,
}


@given(plans(), st.sampled_from(sorted(EDITS)))
def test_what_is_locked_stays_or_the_edit_is_refused(plan: Plan, name: str) -> None:
    after = plan
    with contextlib.suppress(EditRefused, InvalidPlan):
        after = EDITS[name](plan)
    for index, section in enumerate(plan.sections):
        if section.locked:
            at = after.section_index(section.id)
            assert after.sections[at] == section
            assert after.edges_m[at : at + 2] == pytest.approx(plan.edges_m[index : index + 2], abs=1e-6)
