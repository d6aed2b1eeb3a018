"""If these fail, nobody is told that halves do not match, or somebody is told of nothing."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given

from studio_gui.domain.checks.check import Check
from studio_gui.domain.checks.halves import HALF_WITH_HALF, halves_differ
from studio_gui.domain.edits.inputs import fold_by_weight, set_fibre, set_lay
from studio_gui.domain.edits.mends import apply_mend
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.fibre import Fibre, MassMark, Roving
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.halves import halves
from studio_gui.domain.yarn import STRUCTURES, Ply, Structure, Yarn
from tests.scenes.scene_plans import straight, two_shores
from tests.strategies import plans


def uneven() -> Plan:
    return set_fibre(two_shores(), mass_marks=(MassMark(0.5, 0.52),))


def found(plan: Plan, structure: Structure = "both ends") -> list[Check]:
    return list(halves_differ(section_figures(replace(plan, yarn=Yarn(structure=structure, plies=(Ply(),))))))


def test_six_grams_are_told_with_the_mend() -> None:
    (check,) = found(uneven())
    assert (check.severity, check.section_ids) == ("warning", ())
    assert check.params["difference_g"] == pytest.approx(6.0)
    assert check.params["difference_share"] == pytest.approx(0.08)
    assert check.params["slide_singles_m"] == pytest.approx(60.0)
    assert "left_singles_m" not in check.params
    (mend,) = check.mends
    assert mend.code == "fold-by-weight"
    assert apply_mend(uneven(), mend) == fold_by_weight(uneven())
    assert not found(fold_by_weight(uneven()))


def test_on_two_bobbins_what_is_left_is_told_too() -> None:
    (check,) = found(uneven(), "broken at the fold")
    assert check.params["left_singles_m"] == pytest.approx(60.0)


def test_a_fold_that_slipped_a_little_is_a_note() -> None:
    (check,) = found(set_lay(two_shores(), fold_positions_m=(3.04,)))
    assert check.severity == "note"  # 2.7 %
    assert not found(set_lay(two_shores(), fold_positions_m=(3.01,)))


def test_other_structures_do_not_ply_half_with_half() -> None:
    for structure in set(STRUCTURES) - set(HALF_WITH_HALF):
        assert not found(uneven(), structure)


def test_colours_that_slide_between_equal_halves_are_told_of_an_unfolded_lay() -> None:
    plan = straight("ABA", (0.6, 5.2))
    (check,) = found(plan)
    assert check.params["difference_g"] == pytest.approx(0.0)
    assert check.params["slide_singles_m"] == pytest.approx(50.0)
    assert check.params["liquor_id"] == plan.sections[0].liquor_id
    (mend,) = check.mends
    assert mend.code == "equal-halves"
    assert not found(apply_mend(plan, mend))


def test_halves_that_are_meant_to_differ_are_left_alone() -> None:
    assert not found(straight("ABC", (2.0, 4.0)))


def test_no_mend_is_offered_that_something_locked_is_in_the_way_of() -> None:
    slipped = set_lay(two_shores(), fold_positions_m=(3.1,))
    pinned = change_section(slipped, slipped.sections[-1].id, locked=True)
    (check,) = found(pinned)
    assert check.mends == ()


def test_the_worst_of_several_rovings_is_told_and_a_mend_that_does_not_help_it_is_not() -> None:
    there, back = (Roving(150.0, (MassMark(0.5, share),)) for share in (0.54, 0.46))
    plan = replace(two_shores(), fibre=Fibre(150.0, 6.0, 2, measured=(there, back)))
    (check,) = found(plan)
    assert check.params["roving"] == 1
    assert check.mends == ()


@given(plans())
def test_the_mend_brings_the_halves_nearer(plan: Plan) -> None:
    for check in halves_differ(section_figures(plan)):
        for mend in check.mends:
            assert halves(apply_mend(plan, mend)).apart_share < halves(plan).apart_share
