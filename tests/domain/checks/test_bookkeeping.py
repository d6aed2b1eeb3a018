"""If these fail, untidy plans go unnoticed: short sections, idle bottles, liquors that are two jars."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio_gui.domain.checks.bookkeeping import (
    crushed_sections,
    liquors,
    short_sections,
    strengths_by_spoon,
    two_jars,
    unused_stocks,
)
from studio_gui.domain.checks.registry import run_checks
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.edits.liquors import add_liquor
from studio_gui.domain.edits.sections import change_section, set_locked
from studio_gui.domain.edits.stocks import change_stock
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import AcidLine
from studio_gui.domain.yarn import Stripe, Yarn
from tests.scenes.scene_plans import by_depth, by_parts, dye, laid, let_down

PLAN = laid(
    [("Pale", 1.0), ("Deep", 0.03), ("Pale", 1.0)],
    [dye("D"), dye("Idle"), let_down("AW", 10.0), let_down("Named", 5.0), let_down("Citric", 200.0)],
    [
        by_depth("Pale", {"D": 0.2}),
        by_parts("Deep", {"D": 1.0, "Named": 0.0}),
        by_parts("Empty", {}),
        by_parts("Unused", {"D": 1.0}),
    ],
)


def test_sections_shorter_than_their_wicked_edges_are_named_together() -> None:
    (check,) = short_sections(section_figures(PLAN))
    assert (check.code, check.severity, check.section_ids) == ("section-short", "warning", ("s2",))
    assert check.params == {"shortest_m": pytest.approx(0.03), "least_m": pytest.approx(0.04), "count": 1}


def test_twice_the_wicking_width_exactly_is_long_enough() -> None:
    assert not list(short_sections(section_figures(replace(PLAN, wicking_mm=15.0))))


def test_a_crushed_section_is_told_once_and_not_judged_by_the_gram() -> None:
    thin = replace(PLAN, sections=tuple(replace(one, fixed_ml=60.0) for one in PLAN.sections))
    thin = move_boundary(thin, 1, 1.001)
    codes = {check.code: check for check in run_checks(section_figures(thin)) if "s2" in check.section_ids}
    assert list(codes) == ["section-unpaintable"]
    crushed = codes["section-unpaintable"]
    assert (crushed.severity, crushed.section_ids) == ("error", ("s2",))
    assert crushed.params == {"length_m": pytest.approx(0.001), "least_m": 0.01}
    assert [mend.params for mend in crushed.mends] == [{"section_id": "s2"}]


def test_a_centimetre_can_be_painted() -> None:
    assert not list(crushed_sections(section_figures(move_boundary(PLAN, 1, 1.01))))


def test_what_cannot_be_taken_out_is_not_offered_to_be() -> None:
    locked = set_locked(move_boundary(PLAN, 1, 1.005), ["s2"], True)
    (check,) = crushed_sections(section_figures(locked))
    assert check.mends == ()


def test_bottles_nobody_uses_are_told_and_only_idle_ones_can_be_removed() -> None:
    checks = list(unused_stocks(section_figures(PLAN)))
    assert [check.params["stock_id"] for check in checks] == ["Idle", "Named", "Citric"]
    assert {check.severity for check in checks} == {"note"}
    assert [[mend.code for mend in check.mends] for check in checks] == [
        ["remove-stock"],
        [],
        ["remove-stock"],
    ]


def test_the_bottle_of_the_acid_line_is_in_use_even_where_nothing_is_taken() -> None:
    lined = replace(PLAN, acid_line=AcidLine("Citric", 0.0))
    assert "Citric" not in [check.params["stock_id"] for check in unused_stocks(section_figures(lined))]


def test_liquors_nobody_paints_and_liquors_of_nothing() -> None:
    found = [(check.code, check.severity, check.params) for check in liquors(section_figures(PLAN))]
    assert found == [
        ("liquor-unused", "note", {"liquor_id": "Empty"}),
        ("liquor-unused", "note", {"liquor_id": "Unused"}),
    ]
    painted = change_section(PLAN, "s2", liquor_id="Empty")
    (empty,) = [check for check in liquors(section_figures(painted)) if check.code == "liquor-empty"]
    assert (empty.severity, empty.section_ids) == ("warning", ("s2",))


def test_one_liquor_by_depth_at_two_uptakes_is_two_jars() -> None:
    assert not list(two_jars(section_figures(PLAN)))
    (check,) = two_jars(section_figures(change_section(PLAN, "s1", fixed_ml=90.0)))
    assert (check.code, check.severity, check.section_ids) == ("two-jars", "note", ("s1", "s3"))
    assert check.params == {"liquor_id": "Pale", "count": 2}


def test_strength_by_spoon_is_told_of_dyes_in_use() -> None:
    spooned = change_stock(PLAN, "D", strength_known="spoon")
    (check,) = strengths_by_spoon(section_figures(change_stock(spooned, "Idle", strength_known="spoon")))
    assert (check.code, check.severity, check.params) == ("strength-by-spoon", "note", {"stock_id": "D"})


def test_a_liquor_that_a_wanted_stripe_is_to_have_is_not_said_to_be_unused() -> None:
    plan = add_liquor(replace(PLAN, liquors=PLAN.liquors[:2]), "Moss")[0]
    unused = {"liquor_id": plan.liquors[-1].id}
    assert unused in [check.params for check in liquors(section_figures(plan))]
    wanted = replace(plan, yarn=Yarn(stripes=(Stripe(plan.liquors[-1].id, 4.0),)))
    assert unused not in [check.params for check in liquors(section_figures(wanted))]
