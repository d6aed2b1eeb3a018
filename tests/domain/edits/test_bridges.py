"""If these fail, a bridge between two sections tears the lay, or takes its length from one of them alone."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio_gui.domain.edits.boundaries import lengths_m, set_gap
from studio_gui.domain.edits.bridges import insert_bridge, insert_bridge_of_dye, widest_gap_m
from studio_gui.domain.edits.sections import set_locked
from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.figures import section_figures
from tests.scenes.scene_plans import by_parts, dye, laid, let_down

PLAN = laid(
    [("A", 1.0), ("B", 0.5), ("A", 1.0)],
    [dye("D"), dye("E", srgb="#a8382f"), let_down("AW", 10.0)],
    [by_parts("A", {"D": 12.0, "AW": 36.0}), by_parts("B", {"E": 1.0, "AW": 1.0})],
)


def test_a_bridge_takes_half_its_length_from_either_side() -> None:
    plan = insert_bridge(PLAN, 1, "A", 0.1)
    assert lengths_m(plan) == pytest.approx([1.0, 0.45, 0.1, 0.95])
    assert [section.liquor_id for section in plan.sections] == ["A", "B", "A", "A"]
    assert [section.id for section in plan.sections] == ["s1", "s2", "s4", "s3"]


def test_a_bridge_of_a_dye_has_a_liquor_of_its_own_at_the_depth_that_was_asked_for() -> None:
    plan = insert_bridge_of_dye(PLAN, 0, "E", 0.8, 0.1)
    bridge = plan.sections[1]
    assert (bridge.name, plan.liquor(bridge.liquor_id).letter) == ("E", "C")
    assert section_figures(plan).depth_pct_owf[1] == pytest.approx([0.0, 0.8])


def test_what_is_locked_or_too_short_or_too_deep_is_refused() -> None:
    with pytest.raises(EditRefused) as refusal:
        insert_bridge(set_locked(PLAN, ["s3"], True), 1, "A", 0.1)
    assert refusal.value.code == "section-locked"
    with pytest.raises(InvalidPlan):
        insert_bridge(PLAN, 1, "A", 1.2)
    with pytest.raises(EditRefused) as refusal:
        insert_bridge_of_dye(PLAN, 0, "E", 9.0, 0.1)
    assert refusal.value.code == "depth-unreachable"
    neat = replace(PLAN, stocks=PLAN.dyes, liquors=(by_parts("A", {"D": 1.0}), by_parts("B", {"E": 1.0})))
    with pytest.raises(EditRefused) as refusal:
        insert_bridge_of_dye(neat, 0, "E", 0.5, 0.1)
    assert refusal.value.code == "no-let-down"


def test_the_widest_gap_leaves_a_section_between_and_is_never_an_overlap() -> None:
    assert widest_gap_m(PLAN, 0) == pytest.approx(0.998)
    tight = laid([("A", 0.001), ("B", 1.0)], PLAN.stocks, PLAN.liquors)
    assert widest_gap_m(tight, 0) == pytest.approx(0.0, abs=1e-9)
    assert set_gap(PLAN, 0, widest_gap_m(PLAN, 0)).boundaries[0].gap_m > 0.9
