"""If these fail, a fade tears the lay, is not what was shown before it was made, or is made by halves."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.bench import make_up, rounded_amounts
from studio_gui.domain.edits.boundaries import lengths_m
from studio_gui.domain.edits.fades import (
    FadeWish,
    WeakStock,
    plan_fade,
    stop_of_section,
    weak_stock_that_mends,
)
from studio_gui.domain.edits.sections import change_section, set_locked
from studio_gui.domain.errors import EditRefused, InvalidPlan, RovingLayError
from studio_gui.domain.figures import section_figures
from studio_gui.domain.liquors import DyeDepth
from studio_gui.domain.plan import Bench, Plan
from studio_gui.domain.stocks import Stock
from tests.domain.edits.painted import faded
from tests.scenes.scene_plans import by_parts, dye, laid, let_down
from tests.strategies import plans

PLAN = laid(
    [("A", 1.0), ("B", 0.5), ("A", 1.5), ("B", 1.0)],
    [
        dye("D"),
        dye("E", srgb="#a8382f"),
        dye("F", srgb="#e0b64a"),
        dye("G", srgb="#305030"),
        let_down("AW", 10.0),
    ],
    [by_parts("A", {"D": 12.0, "AW": 36.0}), by_parts("B", {"E": 10.0, "F": 5.0, "AW": 10.0})],
)
PALE, DEEP = (DyeDepth("D", 0.05),), (DyeDepth("D", 1.5),)
RED = (DyeDepth("E", 1.0),)
TWELVE = FadeWish((PALE, DEEP), 12)


def code_of(problem: pytest.ExceptionInfo[RovingLayError]) -> str:
    return problem.value.code


def refused(wish: FadeWish, plan: Plan = PLAN, first: int = 0, last: int = 3) -> EditRefused:
    with pytest.raises(EditRefused) as problem:
        plan_fade(plan, first, last, wish)
    return problem.value


def test_new_sections_tile_the_run_and_are_painted_as_it_was_solved() -> None:
    solved, plan = plan_fade(PLAN, 1, 2, TWELVE), faded(PLAN, 1, 2, TWELVE, "Tide")
    assert lengths_m(plan) == pytest.approx([1.0, *[2.0 / 12.0] * 12, 1.0])
    assert [section.name for section in plan.sections[1:3]] == ["Tide 1", "Tide 2"]
    assert [liquor.name for liquor in plan.liquors[-2:]] == ["Tide 11", "Tide 12"]
    assert (plan.sections[0], plan.sections[-1]) == (PLAN.sections[0], PLAN.sections[-1])
    assert plan.sections[1].id == "s2"
    figures = section_figures(plan)
    assert figures.left_pct_owf[1:13, 0] == pytest.approx(solved.solved.doses_pct_owf[:, 0])
    assert np.allclose(figures.applied_ml_per_g[1:13], 2.5)


def test_a_run_that_is_kept_keeps_its_places_names_and_liquid() -> None:
    fixed = change_section(PLAN, "s2", fixed_ml=40.0)
    plan = faded(fixed, 0, 3, FadeWish((PALE, DEEP)), "Tide")
    assert plan.boundaries == fixed.boundaries
    assert [(one.id, one.name, one.fixed_ml) for one in plan.sections] == [
        (one.id, one.name, one.fixed_ml) for one in fixed.sections
    ]
    assert len({section.liquor_id for section in plan.sections}) == 4


def test_a_locked_section_may_be_painted_but_not_made_anew() -> None:
    locked = set_locked(PLAN, ["s2"], True)
    assert faded(locked, 0, 3, FadeWish((PALE, DEEP))).sections[1].locked
    assert refused(TWELVE, locked).code == "section-locked"


def test_jars_come_out_in_whole_graduations() -> None:
    plan = faded(PLAN, 0, 3, TWELVE)
    for jar in make_up(section_figures(plan)).jars:
        rounded = rounded_amounts(jar.amounts_ml.tolist(), 1.0)
        shares = np.array(rounded) / sum(rounded)
        assert shares == pytest.approx(jar.amounts_ml / jar.jar_ml)


def test_a_fade_goes_through_a_colour_and_mixes() -> None:
    mixed = (DyeDepth("D", 0.3), DyeDepth("E", 0.3), DyeDepth("F", 0.3))
    plan = faded(PLAN, 0, 3, FadeWish((RED, mixed, DEEP), 9))
    middle = section_figures(plan).left_pct_owf[2:7]
    assert (middle[:, 2] > 0.1).any()


def test_an_end_may_be_undyed() -> None:
    plan = faded(PLAN, 0, 3, FadeWish(((), DEEP), 6))
    assert section_figures(plan).left_pct_owf[0].tolist() == [0.0, 0.0, 0.0, 0.0]
    assert plan.liquor(plan.sections[0].liquor_id).stock_ids == ("AW",)


def test_an_end_that_is_asked_for_with_dye_is_never_undyed() -> None:
    for trace in (0.001, 0.01, 0.03):
        for stops in (((DyeDepth("D", trace),), DEEP), (DEEP, (DyeDepth("D", trace),))):
            for count in (None, 5, 12):
                planned = plan_fade(PLAN, 0, 3, FadeWish(stops, count))
                assert planned.solved.doses_pct_owf[[0, -1]].sum(axis=1).min() > 0.0
                assert planned.undyed == ()
    off = plan_fade(PLAN, 0, 3, FadeWish(((DyeDepth("D", 0.001),), DEEP)))
    assert off.ends_off == (0,)


def test_sections_that_want_dye_and_get_none_are_told() -> None:
    planned = plan_fade(PLAN, 0, 3, FadeWish(((), (DyeDepth("D", 0.2),)), 40))
    assert planned.undyed[0] == 1  # the undyed end itself wants none
    assert planned.ends_off == (39,)  # one graduation is more than the whole of it


def test_where_a_graduation_is_too_coarse_the_weak_stock_that_mends_is_told_and_made() -> None:
    coarse = plan_fade(PLAN, 0, 3, FadeWish(((), (DyeDepth("D", 1.0),)), 12))
    assert coarse.coarse
    offer = weak_stock_that_mends(coarse)
    assert offer is not None
    assert offer.stock_id == "D"
    assert offer.evenness.ratio < coarse.solved.evenness.ratio / 2.0
    weak = WeakStock(offer.stock_id, offer.strength_g_per_l, "D weak")
    wish = FadeWish(((), (DyeDepth("D", 1.0),)), 12, (weak,))
    mended = plan_fade(PLAN, 0, 3, wish)
    assert mended.solved.evenness == offer.evenness
    plan = faded(PLAN, 0, 3, wish)
    added = plan.stocks[1]
    assert (added.name, added.strength_g_per_l) == ("D weak", offer.strength_g_per_l)
    assert added.swatches == PLAN.stock("D").swatches


def test_no_weak_stock_is_offered_without_need_or_out_of_range() -> None:
    fine = replace(PLAN, bench=Bench(graduation_ml=0.01))
    assert weak_stock_that_mends(plan_fade(fine, 0, 3, FadeWish((PALE, DEEP), 12))) is None
    weakest = replace(dye("D"), strength_g_per_l=0.01)
    thin = replace(PLAN, stocks=(weakest, *PLAN.stocks[1:]))
    wish = FadeWish(((), (DyeDepth("D", 0.002),)), 60)
    solved = plan_fade(replace(thin, bench=Bench(graduation_ml=5.0)), 0, 3, wish)
    assert solved.coarse
    assert weak_stock_that_mends(solved) is None


def test_what_cannot_be_faded_is_refused_with_the_reason() -> None:
    assert refused(FadeWish((PALE, DEEP)), first=1, last=1).code == "fade-of-one-section"
    assert refused(FadeWish((DEEP, DEEP))).code == "fade-ends-alike"
    many = tuple(DyeDepth(name, 0.1) for name in "DEFG")
    problem = refused(FadeWish((PALE, many)))
    assert (problem.code, problem.params) == ("fade-of-many-dyes", {"stop": 2, "dyes": 4, "most": 3})
    with pytest.raises(InvalidPlan) as wrong:
        plan_fade(PLAN, 0, 3, FadeWish((PALE, DEEP), 1))
    assert code_of(wrong) == "out-of-range"


def test_what_no_jar_reaches_is_refused_with_the_numbers() -> None:
    problem = refused(FadeWish((PALE, (DyeDepth("D", 5.0),)), 5))
    assert problem.code == "fade-out-of-reach"
    # 2.5 ml of a 1 % stock on a gram are 2.5 % owf: twice that needs twice the liquid
    assert problem.params["reach_pct_owf"] == pytest.approx(2.5)
    assert problem.params["needed_ml"] == pytest.approx(2.0 * float(str(problem.params["liquid_ml"])))
    assert problem.params["number"] == 5


def test_without_let_down_nothing_is_made() -> None:
    stocks: tuple[Stock, ...] = PLAN.dyes
    neat = replace(PLAN, stocks=stocks, liquors=(by_parts("A", {"D": 1.0}), by_parts("B", {"E": 1.0})))
    with pytest.raises(EditRefused) as problem:
        faded(neat, 0, 3, FadeWish((PALE, DEEP)))
    assert code_of(problem) == "no-let-down"


def test_without_dye_there_is_nothing_to_fade() -> None:
    water = replace(PLAN, stocks=(let_down("AW"),), liquors=(by_parts("A", {"AW": 1.0}), by_parts("B", {})))
    assert refused(FadeWish(((), ()), 4), water).code == "no-dye-at-hand"
    assert stop_of_section(water, 0) == ()


def test_an_end_can_be_taken_from_a_section() -> None:
    (depth,) = stop_of_section(PLAN, 0)
    assert depth.stock_id == "D"
    assert depth.depth_pct_owf == pytest.approx(0.25 * 2.5)
    assert [one.stock_id for one in stop_of_section(PLAN, 1)] == ["E", "F"]


@given(plans(most_sections=5), st.data())
def test_any_plan_is_faded_or_refused_and_the_lay_stays_whole(plan: Plan, data: st.DataObject) -> None:
    count = data.draw(st.none() | st.integers(2, 6))
    dyes = [stock.id for stock in plan.dyes]
    depth = st.builds(DyeDepth, st.sampled_from(dyes), st.floats(0.0, 3.0)) if dyes else st.nothing()
    stops = (
        data.draw(st.lists(st.lists(depth, max_size=2).map(tuple), min_size=2, max_size=3)) if dyes else []
    )
    first, last = sorted(data.draw(st.tuples(*[st.integers(0, len(plan.sections) - 1)] * 2)))
    try:
        painted = faded(plan, first, last, FadeWish(tuple(stops), count))
    except RovingLayError:
        return
    assert painted.lay_length_m == plan.lay_length_m
    assert section_figures(painted).fibre_g.sum() == pytest.approx(section_figures(plan).fibre_g.sum())
    for jar in make_up(section_figures(painted)).jars:
        assert jar.amounts_ml.sum() == pytest.approx(jar.jar_ml)
