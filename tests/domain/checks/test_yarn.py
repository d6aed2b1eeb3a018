"""If these fail, singles are left over and nobody is told, or somebody is told of what cannot be helped."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from studio_gui.domain.checks.check import Check
from studio_gui.domain.checks.yarn import leftover, stripe_too_short
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import Plan
from studio_gui.domain.yarn import Ply, Structure, Yarn
from tests.scenes.scene_plans import banded, lantern_row


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


# -- stripes and the staple --------------------------------------------------------------------------------


def with_a_band_of(length_m: float, **yarn: Any) -> Plan:  # noqa: ANN401  (fields of Yarn)
    bands = [("A", 1.0), ("B", length_m), ("C", 1.0)]
    return banded(bands, 100.0, Yarn(**{"structure": "single", "staple_m": 0.1, **yarn}))


def test_sections_too_short_for_the_staple_are_a_note() -> None:
    (check,) = stripe_too_short(section_figures(with_a_band_of(0.12)))
    assert (check.code, check.severity, check.section_ids) == ("stripe-too-short", "note", ("s2",))
    assert check.params == pytest.approx({"shortest_m": 0.12, "least_m": 0.15, "staple_m": 0.1, "count": 1})
    assert not any(mend.one_click for mend in check.mends)
    assert not list(stripe_too_short(section_figures(with_a_band_of(0.15))))


def test_every_structure_that_would_do_is_advised() -> None:
    codes = set()
    for structure, length_m, take_up in (
        ("chain", 0.14, 0.5),
        ("single", 0.14, 0.5),
        ("lengthwise", 0.14, 0.5),
    ):
        plan = with_a_band_of(length_m, structure=structure, take_up=take_up, splits=(1.0,) * 8)
        (check,) = stripe_too_short(section_figures(plan))
        codes |= {mend.code for mend in check.mends}
    thin = with_a_band_of(0.14, structure="free", plies=(Ply(),), take_up=0.0)
    (check,) = stripe_too_short(section_figures(thin))
    codes |= {mend.code for mend in check.mends}
    assert codes == {
        "both-ends-instead",
        "two-plies-instead",
        "three-plies-instead",
        "fractal-instead",
        "chain-instead",
    }


def test_what_cannot_be_painted_is_not_spoken_of_again() -> None:
    assert not list(stripe_too_short(section_figures(with_a_band_of(0.002))))
