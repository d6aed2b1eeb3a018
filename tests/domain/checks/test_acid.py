"""If these fail, sections get unlike acid, or too little, and nobody is told how to mend it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import pytest

from studio_gui.domain.checks.acid import acid_water, line_short, too_low, uneven, unknown
from studio_gui.domain.checks.check import Check
from studio_gui.domain.edits.inputs import set_liquid
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.edits.stocks import add_stock, change_stock
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import AcidLimits, AcidLine, Plan
from tests.scenes.scene_plans import by_parts, dye, harbour_thaw, laid, let_down

PLAN = laid(
    [("Dark", 1.0), ("Pale", 1.0)],
    [dye("D"), let_down("AW", 10.0), let_down("Water")],
    [by_parts("Dark", {"D": 40.0, "AW": 10.0}), by_parts("Pale", {"D": 10.0, "AW": 40.0})],
)


def only(checks: Iterable[Check]) -> Check:
    (check,) = checks
    return check


def codes(check: Check) -> list[str]:
    return [mend.code for mend in check.mends]


def test_acid_water_is_the_weakest_let_down_with_acid() -> None:
    assert acid_water(add_stock(PLAN, let_down("Citric", 200.0))) == PLAN.stocks[1]
    assert acid_water(change_stock(PLAN, "AW", acid_g_per_l=None)) is None


def test_all_known_is_no_finding() -> None:
    assert not list(unknown(section_figures(PLAN)))


def test_unknown_acid_is_said_once_with_the_quick_answer() -> None:
    check = only(unknown(section_figures(change_stock(PLAN, "D", acid_g_per_l=None))))
    assert (check.severity, check.section_ids) == ("note", ("s1", "s2"))
    assert check.params == {"stocks": "D", "count": 1, "soak_water": False}
    (mend,) = check.mends
    assert (mend.code, mend.params) == ("same-as-acid-water", {"stock_id": "AW", "acid_g_per_l": 10.0})


def test_without_acid_water_there_is_no_quick_answer() -> None:
    check = only(unknown(section_figures(change_stock(PLAN, "AW", acid_g_per_l=None))))
    assert check.params["stocks"] == "AW"
    assert check.mends == ()


def test_unknown_soak_water_counts_where_fibre_is_soaked() -> None:
    soaked = set_liquid(PLAN, soak_acid_g_per_l=None)
    check = only(unknown(section_figures(soaked)))
    assert check.params == {"stocks": "", "count": 0, "soak_water": True}
    assert check.mends == ()
    assert not list(unknown(section_figures(set_liquid(soaked, soak_ml_per_g=0.0))))


def test_a_stock_nobody_uses_may_stay_unknown() -> None:
    assert not list(unknown(section_figures(change_stock(PLAN, "Water", acid_g_per_l=None))))


def test_sections_within_the_ratio_are_even() -> None:
    exactly = replace(PLAN, acid=AcidLimits(ratio=4.0))
    assert not list(uneven(section_figures(exactly)))
    assert only(uneven(section_figures(PLAN))).params["ratio"] == pytest.approx(4.0)


def test_no_acid_at_all_has_no_ratio_to_say() -> None:
    none = laid([("Dark", 1.0), ("Pale", 1.0)], PLAN.stocks, [by_parts("Dark", {"D": 1.0}), PLAN.liquors[1]])
    check = only(uneven(section_figures(none)))
    assert "ratio" not in check.params
    assert check.params["lowest_pct_owf"] == 0.0


def test_one_section_or_none_known_has_nothing_to_differ_from() -> None:
    assert not list(uneven(section_figures(laid([("Dark", 1.0)], PLAN.stocks, PLAN.liquors))))
    assert not list(uneven(section_figures(set_liquid(PLAN, soak_acid_g_per_l=None))))


def test_jars_alike_at_unlike_wetness_can_only_be_mended_by_the_liquid() -> None:
    alike = change_section(change_stock(PLAN, "D", acid_g_per_l=10.0), "s1", fixed_ml=25.0)
    (mend,) = only(uneven(section_figures(alike))).mends
    assert (mend.code, mend.one_click) == ("even-the-liquid", False)
    assert mend.params["applied_ratio"] == pytest.approx(2.5)


def test_acid_in_dye_bottles_only_leaves_no_acid_water_to_follow() -> None:
    sour_dye = change_stock(change_stock(PLAN, "AW", acid_g_per_l=0.0), "D", acid_g_per_l=10.0)
    assert only(uneven(section_figures(sour_dye))).mends == ()


def test_bottles_cannot_even_out_fixed_volumes_and_say_so() -> None:
    fixed = change_section(PLAN, "s1", fixed_ml=25.0)
    (mend,) = only(uneven(section_figures(fixed))).mends
    assert mend.params == {
        "acid_g_per_l": 10.0,
        "still_uneven": True,
        "applied_ratio": pytest.approx(2.5),
    }


def test_much_acid_in_the_soak_evens_out_what_bottles_cannot() -> None:
    fixed = set_liquid(change_section(PLAN, "s1", fixed_ml=47.5), soak_acid_g_per_l=10.0)
    (mend,) = only(uneven(section_figures(fixed))).mends
    assert mend.params["applied_ratio"] == pytest.approx(2.5 / 1.9)
    assert mend.params["still_uneven"] is False  # 2.5 + 1.0 to 1.9 + 1.0


def test_a_line_of_citric_stock_is_offered_once() -> None:
    shelf = add_stock(PLAN, let_down("Citric", 200.0))
    assert codes(only(uneven(section_figures(shelf)))) == ["acid-in-every-bottle", "acid-line"]
    weak = replace(shelf, acid_line=AcidLine("Citric", 1.0))
    assert codes(only(uneven(section_figures(weak)))) == ["acid-in-every-bottle"]


def test_a_line_that_neat_jars_have_no_room_for_will_not_even_them() -> None:
    neat = laid(
        [("Neat", 1.0), ("Pale", 1.0)],
        add_stock(PLAN, let_down("Citric", 200.0)).stocks,
        [by_parts("Neat", {"D": 1.0}), PLAN.liquors[1]],
    )
    bottles, line = only(uneven(section_figures(neat))).mends
    assert (bottles.code, bottles.params["still_uneven"]) == ("acid-in-every-bottle", False)
    assert (line.code, line.params["still_uneven"]) == ("acid-line", True)


def test_too_little_acid_is_said_once_with_what_the_driest_section_needs() -> None:
    check = only(too_low(section_figures(harbour_thaw())))
    assert check.section_ids == ("s1", "s3", "s5")
    assert check.params == {
        "lowest_pct_owf": pytest.approx(0.30),
        "floor_pct_owf": 1.0,
        "count": 3,
        "needed_g_per_l": pytest.approx(10.0 / 1.5),
    }
    dry_and_sour = change_section(harbour_thaw(), "s4", fixed_ml=20.0)
    assert only(too_low(section_figures(dry_and_sour))).params["needed_g_per_l"] == pytest.approx(20.0)


def test_enough_acid_or_none_known_is_no_finding() -> None:
    assert not list(too_low(section_figures(replace(PLAN, acid=AcidLimits(floor_pct_owf=0.5)))))
    assert not list(too_low(section_figures(set_liquid(PLAN, soak_acid_g_per_l=None))))


def test_more_acid_than_dissolves_is_not_offered() -> None:
    nearly_dry = change_section(PLAN, "s1", fixed_ml=0.1)
    check = only(too_low(section_figures(nearly_dry)))
    assert check.params["needed_g_per_l"] == pytest.approx(2500.0)
    assert check.mends == ()


def lined(plan: Plan, jar_g_per_l: float) -> list[Check]:
    citric = add_stock(plan, let_down("Citric", 200.0))
    return list(line_short(section_figures(replace(citric, acid_line=AcidLine("Citric", jar_g_per_l)))))


def test_a_line_with_room_enough_is_no_finding() -> None:
    assert not list(line_short(section_figures(PLAN)))
    assert lined(PLAN, 20.0) == []


def test_a_line_without_room_says_how_far_it_comes() -> None:
    check = only(lined(PLAN, 50.0))
    assert (check.code, check.severity, check.section_ids) == ("acid-line-short", "warning", ("s1",))
    assert check.params == {"wanted_g_per_l": 50.0, "lowest_g_per_l": pytest.approx(40.0)}
