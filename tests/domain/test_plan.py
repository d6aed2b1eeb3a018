"""If these fail, a plan exists that is not valid, and everything behind it reckons with nonsense."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.fibre import Lay
from studio_gui.domain.plan import AcidLimits, AcidLine, Bench, Liquid, Plan
from studio_gui.domain.sections import Boundary, Section
from tests.scenes.scene_plans import by_depth, by_parts, dye, laid, let_down
from tests.strategies import plans

PLAN = laid(
    [("A", 1.0), ("B", 1.0), ("A", 2.0)],
    [dye("D"), let_down("AW", 10.0)],
    [by_parts("A", {"D": 12.0, "AW": 38.0}), by_depth("B", {"D": 0.5})],
)


@pytest.mark.parametrize(
    ("changes", "code", "field"),
    [
        ({"title": "a\tb"}, "text-unprintable", "title"),
        ({"wicking_mm": -1.0}, "out-of-range", "wicking_mm"),
        ({"mixing": "buckets"}, "not-one-of", "mixing"),
        ({"sections": (), "boundaries": ()}, "no-sections", "sections"),
        ({"sections": PLAN.sections[:1] * 3}, "id-twice", "sections"),
        ({"stocks": (*PLAN.stocks, PLAN.stocks[0])}, "id-twice", "stocks"),
        ({"stocks": tuple(dye(f"k{n}") for n in range(501))}, "too-many", "stocks"),
        ({"stocks": PLAN.stocks[1:]}, "unknown-stock", "liquors"),
        ({"liquors": PLAN.liquors[1:]}, "unknown-liquor", "sections"),
        ({"liquors": (*PLAN.liquors, replace(PLAN.liquors[0], id="C"))}, "letter-twice", "letter"),
        ({"liquors": (PLAN.liquors[0], by_depth("B", {"AW": 0.5}, "D"))}, "depth-of-let-down", "depths"),
        (
            {"liquors": (PLAN.liquors[0], by_depth("B", {}, "D"))},
            "dye-among-let-downs",
            "parts",
        ),
        ({"boundaries": PLAN.boundaries[:1]}, "boundaries-do-not-match", "boundaries"),
        ({"boundaries": (Boundary(2.0), Boundary(1.0))}, "section-too-short", "boundaries"),
        ({"boundaries": (Boundary(1.0), Boundary(4.0))}, "section-too-short", "boundaries"),
        ({"boundaries": (Boundary(1.0, 1.0), Boundary(2.0, 1.0))}, "section-too-short", "boundaries"),
        ({"lay": Lay((4.0,))}, "fold-past-end", "fold_positions_m"),
        ({"acid_line": AcidLine("D", 10.0)}, "acid-line-without-acid", "acid_line"),
        ({"acid_line": AcidLine("none", 10.0)}, "acid-line-without-acid", "acid_line"),
    ],
)
def test_a_plan_that_cannot_be_is_refused(changes: dict[str, Any], code: str, field: str) -> None:
    with pytest.raises(InvalidPlan) as refusal:
        replace(PLAN, **changes)
    assert (refusal.value.code, refusal.value.params["field"]) == (code, field)


@pytest.mark.parametrize(
    ("part", "field"),
    [
        (lambda: Liquid(uptake_ml_per_g=0.0), "uptake_ml_per_g"),
        (lambda: Liquid(soak_ml_per_g=-1.0), "soak_ml_per_g"),
        (lambda: Liquid(limit_ml_per_g=0.0), "limit_ml_per_g"),
        (lambda: Liquid(penetration_ml_per_g=-1.0), "penetration_ml_per_g"),
        (lambda: Liquid(soak_acid_g_per_l=-1.0), "soak_acid_g_per_l"),
        (lambda: AcidLimits(ratio=0.9), "acid_ratio_limit"),
        (lambda: AcidLimits(floor_pct_owf=-1.0), "acid_floor_pct_owf"),
        (lambda: AcidLine("AW", -1.0), "acid_g_per_l"),
        (lambda: Bench(spare_share=-0.1), "spare_share"),
        (lambda: Bench(dead_ml=-1.0), "dead_ml"),
        (lambda: Bench(graduation_ml=0.0), "graduation_ml"),
    ],
)
def test_settings_that_cannot_be_are_refused(part: Any, field: str) -> None:  # noqa: ANN401
    with pytest.raises(InvalidPlan) as refusal:
        part()
    assert refusal.value.params["field"] == field


def test_an_acid_line_needs_a_let_down_whose_acid_is_known() -> None:
    assert replace(PLAN, acid_line=AcidLine("AW", 10.0)).acid_line is not None
    unknown = (PLAN.stocks[0], let_down("AW", None))
    with pytest.raises(InvalidPlan, match="acid-line-without-acid"):
        replace(PLAN, stocks=unknown, acid_line=AcidLine("AW", 10.0))


def test_the_shortest_section_is_one_millimetre_of_paint() -> None:
    shortest = replace(PLAN, boundaries=(Boundary(1.0), Boundary(1.001)))
    assert shortest.edges_m[2] - shortest.edges_m[1] == pytest.approx(0.001)
    # a gap takes half its width from either side, and none of an overlap
    with pytest.raises(InvalidPlan, match="section-too-short"):
        replace(PLAN, boundaries=(Boundary(1.0), Boundary(1.002, 0.0024)))
    assert replace(PLAN, boundaries=(Boundary(1.0), Boundary(1.001, -0.5))).half_gaps_m == (
        0.0,
        0.0,
        0.0,
        0.0,
    )


def test_two_thousand_sections_are_the_most() -> None:
    sections = tuple(Section(f"s{n}", "", "A") for n in range(2001))
    boundaries = tuple(Boundary(4.0 * (n + 1) / 2001) for n in range(2000))
    with pytest.raises(InvalidPlan, match="too-many"):
        replace(PLAN, sections=sections, boundaries=boundaries)
    most = replace(PLAN, sections=sections[1:], boundaries=boundaries[1:])
    assert len(most.edges_m) == 2001


def test_things_are_found_by_id() -> None:
    assert PLAN.stock("AW") is PLAN.stocks[1]
    assert PLAN.liquor("B") is PLAN.liquors[1]
    assert PLAN.section("s3") is PLAN.sections[2]
    assert PLAN.section_index("s3") == 2
    for look_up, code in (
        (PLAN.stock, "unknown-stock"),
        (PLAN.liquor, "unknown-liquor"),
        (PLAN.section, "unknown-section"),
        (PLAN.section_index, "unknown-section"),
    ):
        with pytest.raises(InvalidPlan, match=code):
            look_up("nowhere")


def test_users_of_stocks_and_liquors() -> None:
    assert PLAN.liquors_with("D") == PLAN.liquors, "by parts and by depth"
    assert PLAN.liquors_with("nowhere") == ()
    assert [section.id for section in PLAN.sections_with("A")] == ["s1", "s3"]
    assert PLAN.sections_with("nowhere") == ()


def test_stocks_by_role() -> None:
    assert [stock.id for stock in PLAN.dyes] == ["D"]
    assert [stock.id for stock in PLAN.let_downs] == ["AW"]


@given(plans())
def test_sections_tile_the_lay(plan: Plan) -> None:
    edges = plan.edges_m
    assert len(edges) == len(plan.sections) + 1
    assert edges[0] == 0.0
    assert edges[-1] == plan.lay_length_m
    assert all(start < end for start, end in pairwise(edges))


@given(plans(), st.data())
def test_a_plan_with_other_boundaries_is_the_plan_made_anew(plan: Plan, data: st.DataObject) -> None:
    places = [boundary.position_m * data.draw(st.floats(0.5, 1.5)) for boundary in plan.boundaries]
    boundaries = tuple(map(Boundary, places))
    try:
        wanted = replace(plan, boundaries=boundaries)
    except InvalidPlan as refusal:
        with pytest.raises(InvalidPlan, match=refusal.code):
            plan.with_boundaries(boundaries)
        return
    moved = plan.with_boundaries(boundaries)
    assert moved == wanted
    assert (moved.edges_m, moved.half_gaps_m) == (wanted.edges_m, wanted.half_gaps_m)


def test_boundaries_must_match_the_sections() -> None:
    with pytest.raises(InvalidPlan, match="boundaries-do-not-match"):
        PLAN.with_boundaries(PLAN.boundaries[1:])
