"""If these fail, a ladder moves the sections beside it, loses liquid that was typed, or is made by halves."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.boundaries import lengths_m, set_gap
from studio_gui.domain.edits.ladders import (
    LENGTHS,
    MOST_STEPS,
    Crossfade,
    Ladder,
    crossfade_share,
    lay_crossfade,
    lay_ladder,
)
from studio_gui.domain.edits.liquors import add_liquor
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.errors import EditRefused, InvalidPlan, RovingLayError
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import Liquid, Plan
from studio_gui.domain.sections import LIQUID_MODES
from tests.scenes.scene_plans import by_depth, by_parts, dye, laid, let_down
from tests.strategies import numbers, plans

PLAN = laid(
    [("A", 1.0), ("B", 0.5), ("A", 1.5), ("C", 1.0)],
    [dye("D"), dye("E", srgb="#a8382f"), let_down("AW", 10.0)],
    [
        by_parts("A", {"D": 12.0, "AW": 36.0}),
        by_parts("B", {"E": 1.0}),
        by_depth("C", {"D": 0.4}),
        by_depth("F", {"E": 0.8, "D": 0.2}),
        by_parts("N", {}),
    ],
    liquid=Liquid(uptake_ml_per_g=2.0, penetration_ml_per_g=1.0),
)
QUARTERS = Ladder(("D", "AW"), ((12.0, 36.0), (24.0, 24.0), (36.0, 12.0), (48.0, 0.0)))


def code_of(problem: pytest.ExceptionInfo[RovingLayError]) -> str:
    return problem.value.code


def amounts(plan: Plan, first: int, last: int) -> list[list[float]]:
    rows: list[list[float]] = section_figures(plan).amounts_ml[first : last + 1].tolist()
    return rows


# -- ladders -------------------------------------------------------------------------------------------------


def test_a_run_becomes_steps_of_equal_length_with_the_ml_as_typed() -> None:
    plan = lay_ladder(PLAN, 1, 2, QUARTERS, "Tide")
    assert lengths_m(plan) == pytest.approx([1.0, 0.5, 0.5, 0.5, 0.5, 1.0])
    assert amounts(plan, 1, 4) == [[12, 0, 36], [24, 0, 24], [36, 0, 12], [48, 0, 0]]
    assert [section.name for section in plan.sections[1:5]] == ["Tide 1", "Tide 2", "Tide 3", "Tide 4"]
    assert [section.id for section in plan.sections] == ["s1", "s2", "s3", "s5", "s6", "s4"]
    assert len({section.liquor_id for section in plan.sections[1:5]}) == 4
    assert [liquor.name for liquor in plan.liquors[-4:]] == ["Tide 1", "Tide 2", "Tide 3", "Tide 4"]
    assert plan.sections[0] == PLAN.sections[0]
    assert plan.sections[5] == PLAN.sections[3]


def test_one_section_becomes_a_ladder_too_and_a_nameless_one_stays_nameless() -> None:
    plan = lay_ladder(PLAN, 0, 0, QUARTERS)
    assert lengths_m(plan)[:4] == pytest.approx([0.25] * 4)
    assert {section.name for section in plan.sections[:4]} == {""}


def test_a_longer_run_becomes_fewer_sections() -> None:
    plan = lay_ladder(PLAN, 0, 3, replace(QUARTERS, steps_ml=QUARTERS.steps_ml[:2]))
    assert lengths_m(plan) == pytest.approx([2.0, 2.0])
    assert [section.id for section in plan.sections] == ["s1", "s2"]


def test_lengths_can_go_by_the_amounts() -> None:
    unequal = Ladder(("D", "AW"), ((10.0, 10.0), (20.0, 40.0)), lengths="by amount")
    plan = lay_ladder(PLAN, 1, 2, unequal)
    assert lengths_m(plan)[1:3] == pytest.approx([0.5, 1.5])
    assert plan.sections[2].fixed_ml == 60.0


def test_with_parts_only_the_liquid_follows_the_fibre() -> None:
    plan = lay_ladder(PLAN, 1, 2, replace(QUARTERS, liquid="follows fibre"))
    assert [section.fixed_ml for section in plan.sections] == [None] * 6
    assert amounts(plan, 1, 1) == [pytest.approx([6.25, 0.0, 18.75])]


def test_gaps_beside_the_run_stay_and_those_inside_go() -> None:
    gaps = set_gap(set_gap(set_gap(PLAN, 0, 0.02), 1, 0.04), 2, -0.01)
    plan = lay_ladder(gaps, 1, 2, QUARTERS)
    assert [boundary.gap_m for boundary in plan.boundaries] == [0.02, 0.0, 0.0, 0.0, -0.01]


@pytest.mark.parametrize(
    ("ladder", "code"),
    [
        (replace(QUARTERS, steps_ml=()), "no-steps"),
        (replace(QUARTERS, steps_ml=((1.0, 2.0),) * (MOST_STEPS + 1)), "too-many"),
        (replace(QUARTERS, steps_ml=((12.0, 36.0), (24.0,))), "amounts-do-not-match"),
        (replace(QUARTERS, steps_ml=((12.0, 36.0), (0.0, 0.0))), "step-empty"),
        (replace(QUARTERS, steps_ml=((12.0, -6.0),)), "out-of-range"),
        (replace(QUARTERS, stock_ids=("D", "D")), "stock-chosen-twice"),
        (replace(QUARTERS, stock_ids=("D", "X")), "unknown-stock"),
    ],
)
def test_a_ladder_that_cannot_be_painted_is_refused(ladder: Ladder, code: str) -> None:
    with pytest.raises(RovingLayError) as problem:
        lay_ladder(PLAN, 1, 2, ladder)
    assert code_of(problem) == code


def test_the_step_is_named() -> None:
    with pytest.raises(EditRefused) as problem:
        lay_ladder(PLAN, 1, 2, replace(QUARTERS, steps_ml=((12.0, 36.0), (24.0,))))
    assert problem.value.params == {"step": 2, "count": 1, "stocks": 2}


def test_a_locked_section_in_the_run_keeps_its_place() -> None:
    locked = change_section(PLAN, "s3", locked=True)
    for edit in (partial(lay_ladder, ladder=QUARTERS), partial(lay_crossfade, fade=FADE)):
        with pytest.raises(EditRefused) as problem:
            edit(locked, 1, 2)
        assert (code_of(problem), problem.value.params["section_id"]) == ("section-locked", "s3")
    assert lay_ladder(locked, 0, 1, QUARTERS).section("s3").locked, "one beside the run is left alone"


def test_too_short_a_run_is_refused() -> None:
    many = Ladder(("D",), ((1.0,),) * MOST_STEPS)
    short = laid([("A", 0.05), ("A", 0.2)], PLAN.stocks, PLAN.liquors)
    with pytest.raises(InvalidPlan) as problem:
        lay_ladder(short, 0, 0, many)
    assert code_of(problem) == "section-too-short"


# -- crossfades ----------------------------------------------------------------------------------------------

FADE = Crossfade("A", "B", 3)


def parts(plan: Plan, index: int) -> dict[str, float]:
    return {part.stock_id: part.parts for part in plan.liquor(plan.sections[index].liquor_id).parts}


def test_shares_of_both_liquors_are_mixed() -> None:
    plan = lay_crossfade(PLAN, 1, 2, FADE, "Fade")
    assert [parts(plan, index) for index in (1, 2, 3)] == [
        pytest.approx({"D": 25.0, "AW": 75.0}),
        pytest.approx({"D": 12.5, "E": 50.0, "AW": 37.5}),
        pytest.approx({"E": 100.0}),
    ]
    assert [section.fixed_ml for section in plan.sections] == [None] * 5
    assert list(parts(plan, 2)) == ["D", "E", "AW"], "dyes before let-downs"


def test_two_liquors_by_depth_fade_in_depth() -> None:
    plan = lay_crossfade(PLAN, 1, 2, Crossfade("C", "F", 3))
    liquors = [plan.liquor(section.liquor_id) for section in plan.sections[1:4]]
    assert [liquor.basis for liquor in liquors] == ["depth"] * 3
    depths = [{one.stock_id: one.depth_pct_owf for one in liquor.depths} for liquor in liquors]
    assert depths == [
        {"D": 0.4},
        pytest.approx({"D": 0.3, "E": 0.4}),
        pytest.approx({"E": 0.8, "D": 0.2}),
    ]


def test_of_two_bases_the_depth_gives_its_jar() -> None:
    plan = lay_crossfade(PLAN, 1, 2, Crossfade("C", "B", 3))
    assert parts(plan, 2) == pytest.approx({"D": 10.0, "E": 50.0, "AW": 40.0})


@pytest.mark.parametrize(
    ("fade", "code"),
    [
        (Crossfade("A", "A"), "fade-to-itself"),
        (Crossfade("A", "N"), "liquor-empty"),
        (Crossfade("A", "F"), "liquor-not-painted"),
        (Crossfade("A", "X"), "unknown-liquor"),
        (Crossfade("A", "B", 1), "out-of-range"),
        (Crossfade("A", "B", 61), "out-of-range"),
        (Crossfade("A", "B", 5, 0.0), "out-of-range"),
    ],
)
def test_a_fade_that_has_no_two_ends_is_refused(fade: Crossfade, code: str) -> None:
    with pytest.raises(RovingLayError) as problem:
        lay_crossfade(PLAN, 1, 2, fade)
    assert code_of(problem) == code


def test_a_fade_between_depths_out_of_reach_is_refused() -> None:
    deep, liquor_id = add_liquor(PLAN, "Deep", by_depth("X", {}).parts, by_depth("X", {"E": 3.0}).depths)
    with pytest.raises(EditRefused) as problem:
        lay_crossfade(deep, 1, 2, Crossfade("C", liquor_id, 3))
    assert code_of(problem) == "depth-unreachable"


@given(st.floats(0.0, 1.0), st.floats(0.01, 100.0))
def test_a_mix_has_the_strength_it_was_asked_for(strength_share: float, strength: float) -> None:
    volume = crossfade_share(strength_share, strength)
    assert 0.0 <= volume <= 1.0
    assert strength * volume / (strength * volume + 1.0 - volume) == pytest.approx(strength_share)


# -- laws ----------------------------------------------------------------------------------------------------


@st.composite
def ladders(draw: st.DrawFn, stock_ids: list[str]) -> Ladder:
    chosen = draw(st.lists(st.sampled_from(stock_ids), unique=True, min_size=1, max_size=3))
    step = st.tuples(*(numbers(0.1, 200.0) for _ in chosen))
    steps = draw(st.lists(step, min_size=1, max_size=8))
    lengths, liquid = draw(st.sampled_from(LENGTHS)), draw(st.sampled_from(LIQUID_MODES))
    return Ladder(tuple(chosen), tuple(steps), lengths, liquid)


def shortest_step_m(plan: Plan, first: int, last: int, ladder: Ladder) -> float:
    """Return the length of the shortest step, less what gaps at the edges of the run could take."""
    totals = [sum(step) if ladder.lengths == "by amount" else 1.0 for step in ladder.steps_ml]
    span_m = plan.edges_m[last + 1] - plan.edges_m[first]
    return span_m * min(totals) / sum(totals) - max(plan.half_gaps_m) * 2.0


@given(plans(most_sections=6), st.data())
def test_every_ladder_tiles_its_run_and_leaves_the_rest_alone(plan: Plan, data: st.DataObject) -> None:
    loose = replace(plan, sections=tuple(replace(section, locked=False) for section in plan.sections))
    first = data.draw(st.integers(0, len(plan.sections) - 1))
    last = data.draw(st.integers(first, len(plan.sections) - 1))
    ladder = data.draw(ladders([stock.id for stock in plan.stocks]))
    try:
        laid_out = lay_ladder(loose, first, last, ladder, "Step")
    except InvalidPlan:
        assert shortest_step_m(plan, first, last, ladder) < 0.01, "only a run that is too short is refused"
        return
    count, edges = len(ladder.steps_ml), laid_out.edges_m
    assert edges[: first + 1] == plan.edges_m[: first + 1], "to the bit"
    assert edges[first + count :] == plan.edges_m[last + 1 :]
    assert laid_out.sections[:first] == loose.sections[:first]
    assert laid_out.sections[first + count :] == loose.sections[last + 1 :]
    assert laid_out.liquors[: len(plan.liquors)] == plan.liquors
    figures = section_figures(laid_out)
    assert figures.fibre_g.sum() == pytest.approx(plan.fibre.mass_g * plan.fibre.rovings)
    if ladder.liquid == "fixed":
        typed = [sum(step) for step in ladder.steps_ml]
        assert figures.liquid_ml[first : first + count].tolist() == pytest.approx(typed)
