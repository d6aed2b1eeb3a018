"""If these fail, white cores or pools come unannounced, or the ways out do not add up."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio_gui.domain.checks.check import Check
from studio_gui.domain.checks.wetness import over, under
from studio_gui.domain.edits.inputs import set_liquid
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import Liquid, Plan
from tests.scenes.scene_plans import by_depth, by_parts, dye, ink_well, laid, let_down

PLAN = laid(
    [("Parts", 1.0), ("Depth", 1.0), ("None", 1.0)],
    [dye("D"), let_down("AW", 10.0)],
    [by_parts("Parts", {"D": 10.0, "AW": 40.0}), by_depth("Depth", {"D": 1.0}), by_parts("None", {})],
    liquid=Liquid(1.0, soak_ml_per_g=1.0, limit_ml_per_g=4.0, penetration_ml_per_g=1.6),
)


def dry(plan: Plan) -> list[Check]:
    return list(under(section_figures(plan)))


def wet(plan: Plan) -> list[Check]:
    return list(over(section_figures(plan)))


def mends(check: Check) -> dict[str, dict[str, object]]:
    return {mend.code: dict(mend.params) for mend in check.mends}


def test_every_painted_section_whose_core_stays_white_is_told() -> None:
    checks = dry(PLAN)
    assert [check.section_ids for check in checks] == [("s1",), ("s2",)]
    assert {check.severity for check in checks} == {"warning"}
    assert checks[0].params == {
        "liquid_ml": pytest.approx(25.0),
        "applied_ml_per_g": pytest.approx(1.0),
        "penetration_ml_per_g": 1.6,
    }


def test_more_of_the_same_jar_is_darker_and_the_cost_says_so() -> None:
    cost = mends(dry(PLAN)[0])
    assert cost["raise-uptake"]["uptake_ml_per_g"] == 1.6
    assert cost["raise-liquid"] == {
        "section_id": "s1",
        "liquid_ml": pytest.approx(40.0),
        "depth_pct_owf": pytest.approx(0.2),
        "depth_after_pct_owf": pytest.approx(0.32),
    }


def test_a_liquor_by_depth_stays_where_it_is_unless_it_was_out_of_reach() -> None:
    cost = mends(dry(PLAN)[1])["raise-liquid"]
    assert cost["depth_after_pct_owf"] == pytest.approx(1.0)
    neat = mends(dry(change_section(PLAN, "s2", fixed_ml=20.0))[1])["raise-liquid"]
    assert (neat["depth_pct_owf"], neat["depth_after_pct_owf"]) == pytest.approx((0.8, 1.0))


def test_fixed_liquid_is_not_raised_by_uptake() -> None:
    checks = dry(change_section(PLAN, "s1", fixed_ml=20.0))
    assert list(mends(checks[0])) == ["raise-liquid"]


def test_where_limits_leave_no_room_nothing_is_offered() -> None:
    checks = dry(set_liquid(PLAN, limit_ml_per_g=2.5))
    assert [check.mends for check in checks] == [(), ()]
    exactly = dry(set_liquid(PLAN, limit_ml_per_g=2.6))
    assert all(check.mends for check in exactly)


def test_nothing_runs_free_within_the_limit() -> None:
    assert wet(PLAN) == []


def test_the_first_and_last_section_have_one_neighbour_to_creep_into() -> None:
    brimming = wet(set_liquid(PLAN, limit_ml_per_g=1.5))
    assert [check.section_ids for check in brimming] == [("s1",), ("s2",)]
    assert "creep_before_pct_owf" not in brimming[0].params
    assert brimming[0].params["creep_after_pct_owf"] == pytest.approx(0.5 * 0.25 * 0.2)
    alone = wet(set_liquid(laid([("Parts", 1.0)], PLAN.stocks, PLAN.liquors), limit_ml_per_g=2.0))
    assert not [name for name in alone[0].params if name.startswith("creep")]


def test_a_wipe_that_falls_short_is_still_a_warning_and_asks_for_the_rest() -> None:
    (check,) = wet(change_section(ink_well(), "s2", wiped_ml=10.0))
    assert check.severity == "warning"
    assert check.params["free_ml"] == pytest.approx(3.5)
    assert check.params["free_before_wiping_ml"] == pytest.approx(13.5)
    assert mends(check)["wipe"]["wiped_ml"] == pytest.approx(13.5)


def test_a_soak_that_cannot_be_spun_dry_enough_is_not_offered() -> None:
    (check,) = wet(change_section(ink_well(), "s2", fixed_ml=45.1))
    assert "spin-out" not in mends(check)
    assert "spin-out" in mends(wet(ink_well())[0])  # 0.5 ml/g exactly is reached


def test_a_soak_over_by_itself_cannot_be_mended_by_the_liquor() -> None:
    soaked = set_liquid(ink_well(), soak_ml_per_g=2.6)
    assert {code for check in wet(soaked) for code in mends(check)} == {"spin-out", "wipe"}


def test_a_second_pass_that_is_too_small_grows_by_what_is_free() -> None:
    (check,) = wet(change_section(ink_well(), "s2", second_pass_ml=4.5))
    assert check.params["free_ml"] == pytest.approx(9.0)
    assert mends(check)["two-passes"] == {
        "section_id": "s2",
        "first_ml": pytest.approx(31.5),
        "press_out_ml": pytest.approx(13.5),
        "second_pass_ml": pytest.approx(13.5),
    }


def test_stocks_too_weak_for_less_liquor_are_advice_with_the_factor_that_is_missing() -> None:
    weak = ink_well(0.8)  # 87.5 parts of stock in 100: 39.375 ml, into 31.5
    (check,) = wet(weak)
    offer = next(mend for mend in check.mends if mend.code == "less-but-stronger")
    assert not offer.one_click
    assert offer.params["stock_factor"] == pytest.approx(39.375 / 31.5)
    assert offer.params["let_down_ml"] == 0.0


def test_a_note_names_the_planned_wipe_and_offers_nothing() -> None:
    planned = set_liquid(PLAN, limit_ml_per_g=1.5)
    planned = replace(planned, sections=tuple(replace(s, wiped_ml=12.5) for s in planned.sections))
    assert [(check.severity, check.mends) for check in wet(planned)] == [("note", ()), ("note", ())]
