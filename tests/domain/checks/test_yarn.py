"""If these fail, singles are left over and nobody is told, or somebody is told of what cannot be helped."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio_gui.domain.checks.check import Check
from studio_gui.domain.checks.yarn import leftover
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import Plan
from studio_gui.domain.yarn import Ply, Structure
from tests.scenes.scene_plans import lantern_row


def found(plan: Plan) -> list[Check]:
    return list(leftover(section_figures(plan)))


def in_thirds(*grams: float) -> Plan:
    return set_yarn(lantern_row(), structure="lengthwise", splits=grams)


def test_thirds_by_eye_are_warned_of_with_metres_grams_and_share() -> None:
    (check,) = found(in_thirds(42.0, 39.0, 39.0))
    assert (check.code, check.severity, check.section_ids) == ("leftover", "warning", ())
    assert check.params == pytest.approx(
        {"ply": 1, "left_singles_m": 27.0, "left_g": 3.0, "left_share": 3.0 / 42.0}
    )


@pytest.mark.parametrize(
    ("grams", "severity"),
    [
        ((40.0, 40.0, 40.0), None),
        ((100.0, 99.0), None),
        ((1000.0, 989.0), "note"),
        ((100.0, 97.0), "note"),
        ((1000.0, 969.0), "warning"),
    ],
)
def test_a_limit_hit_exactly_is_inside_it(grams: tuple[float, ...], severity: str | None) -> None:
    assert [check.severity for check in found(in_thirds(*grams))] == ([severity] if severity else [])


def test_the_limits_are_the_plans_own() -> None:
    plan = set_yarn(in_thirds(100.0, 90.0), note_share=0.11, warn_share=0.2)
    assert found(plan) == []
    assert [check.severity for check in found(set_yarn(plan, note_share=0.09))] == ["note"]


@pytest.mark.parametrize("structure", ["single", "both ends", "chain", "broken at the fold"])
def test_what_leaves_nothing_or_has_a_check_of_its_own_is_not_spoken_of(structure: Structure) -> None:
    assert found(set_yarn(lantern_row(), structure=structure)) == []


def test_what_is_wound_off_counts_and_the_worst_ply_is_named() -> None:
    plan = lantern_row()
    pair = replace(plan, fibre=replace(plan.fibre, rovings=2))
    (check,) = found(set_yarn(pair, structure="rovings", offsets_m=(0.0, 60.0)))
    assert check.params["left_singles_m"] == pytest.approx(60.0)
    (check,) = found(set_yarn(plan, structure="free", plies=(Ply(to_share=0.4), Ply(from_share=0.4))))
    assert check.params["ply"] == 2
    assert check.params["left_share"] == pytest.approx(1.0 / 3.0)
