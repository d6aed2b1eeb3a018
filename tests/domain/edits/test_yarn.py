"""If these fail, an edit of the yarn loses what was typed, or makes a yarn that cannot be spun."""

from __future__ import annotations

import pytest

from studio_gui.domain.edits.inputs import set_fibre
from studio_gui.domain.edits.yarn import (
    add_ply,
    flip_strip,
    remove_ply,
    set_offset,
    set_ply,
    set_roving_count,
    set_split_count,
    set_split_weight,
    set_strip_count,
    set_strip_weight,
    set_yarn,
)
from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.plies import plies_of
from studio_gui.domain.yarn import STRUCTURES, Ply, Strip, Structure
from tests.scenes.scene_plans import four_gates


@pytest.mark.parametrize("structure", [one for one in STRUCTURES if one != "free"])
def test_free_plies_begin_as_those_of_the_structure_before(structure: Structure) -> None:
    before = set_yarn(new_plan(), structure=structure)
    free = set_yarn(before, structure="free")
    assert plies_of(free) == plies_of(before)


def test_free_plies_once_typed_are_there_again() -> None:
    plan = set_yarn(new_plan(), structure="free", plies=(Ply(from_share=0.25),))
    again = set_yarn(set_yarn(plan, structure="single"), structure="free")
    assert again.yarn.plies == (Ply(from_share=0.25),)


def fractal(grams: float = 100.0, **changes: object) -> Plan:
    plan = set_fibre(four_gates(Strip(14.0), Strip(12.0, flipped=True)), mass_g=grams)
    return set_yarn(plan, **changes)


def free(*plies: Ply) -> Plan:
    return set_yarn(four_gates(Strip()), structure="free", plies=plies)


def test_more_strips_keep_weights_and_flips_and_weigh_as_the_others() -> None:
    strips = set_strip_count(fractal(), 4).yarn.strips
    assert strips == (Strip(14.0), Strip(12.0, flipped=True), Strip(13.0), Strip(13.0))


def test_fewer_strips_lose_the_last() -> None:
    assert set_strip_count(fractal(), 1).yarn.strips == (Strip(14.0),)


@pytest.mark.parametrize(("count", "code"), [(0, "too-few"), (9, "too-many")])
def test_as_many_strips_as_a_hand_can_keep_apart(count: int, code: str) -> None:
    with pytest.raises(InvalidPlan) as caught:
        set_strip_count(fractal(), count)
    assert caught.value.code == code


def test_one_strip_is_weighed_and_another_flipped() -> None:
    plan = flip_strip(set_strip_weight(fractal(), 1, 11.5), 0, True)
    assert plan.yarn.strips == (Strip(14.0, flipped=True), Strip(11.5, flipped=True))
    assert flip_strip(plan, 0, False).yarn.strips[0] == Strip(14.0)


def test_a_ply_is_not_split_into_more_strips_than_it_has_grams() -> None:
    with pytest.raises(EditRefused) as caught:
        set_strip_count(fractal(10.0), 6)
    assert caught.value.code == "more-strips-than-grams"
    assert caught.value.params == {"ply": 2, "ply_g": pytest.approx(5.0), "strips": 6}
    assert len(set_strip_count(fractal(10.0), 5).yarn.strips) == 5, "a gram each is enough"
    assert set_yarn(fractal(1.0), take_up=0.1).yarn.take_up == 0.1, "what stands does not bar other edits"


def test_plies_of_a_split_are_counted_and_weighed() -> None:
    plan = set_split_weight(set_yarn(four_gates(Strip()), structure="lengthwise"), 0, 3.0)
    assert plan.yarn.splits == (3.0, 1.0)
    assert set_split_count(plan, 4).yarn.splits == (3.0, 1.0, 2.0, 2.0)
    assert set_split_count(set_split_count(plan, 4), 2).yarn.splits == (3.0, 1.0)
    with pytest.raises(InvalidPlan):
        set_split_count(plan, 1)


def test_each_ply_from_a_roving_of_its_own_as_far_as_there_are_any() -> None:
    plan = set_fibre(four_gates(Strip()), rovings=3)
    plan = set_offset(set_yarn(plan, structure="rovings"), 1, 2.5)
    assert set_roving_count(plan, 3).yarn.offsets_m == (0.0, 2.5, 0.0)
    with pytest.raises(EditRefused) as caught:
        set_roving_count(plan, 4)
    assert (caught.value.code, caught.value.params) == ("too-few-rovings", {"count": 4, "rovings": 3})


def test_a_free_ply_is_changed_alone() -> None:
    plan = free(Ply(to_share=0.5), Ply(from_share=0.5))
    plan = set_ply(plan, 2, offset_m=1.5)
    plan = flip_strip(set_strip_count(plan, 2, ply=2), 1, True, ply=2)
    plan = set_strip_weight(plan, 0, 7.0, ply=2)
    assert plan.yarn.plies == (
        Ply(to_share=0.5),
        Ply(from_share=0.5, strips=(Strip(7.0), Strip(flipped=True)), offset_m=1.5),
    )


def test_a_new_ply_takes_what_is_left_and_else_half() -> None:
    plan = add_ply(free(Ply(cross_section=0.25)), 1)
    assert [ply.cross_section for ply in plan.yarn.plies] == [0.25, 0.75]
    plan = add_ply(plan, 1)
    assert [ply.cross_section for ply in plan.yarn.plies] == [0.125, 0.125, 0.75]
    assert remove_ply(plan, 2).yarn.plies == (plan.yarn.plies[0], plan.yarn.plies[2])


def test_the_last_ply_stays() -> None:
    with pytest.raises(InvalidPlan) as caught:
        remove_ply(free(Ply()), 1)
    assert caught.value.code == "too-few"


def test_plies_that_take_more_than_there_is_are_refused_with_the_stretch() -> None:
    with pytest.raises(InvalidPlan) as caught:
        set_ply(free(Ply(to_share=0.5), Ply(from_share=1.0, to_share=0.5)), 1, to_share=0.75)
    assert caught.value.params == {
        "field": "plies",
        "roving": 1,
        "from_share": 0.5,
        "to_share": 0.75,
        "taken_share": 2.0,
    }
