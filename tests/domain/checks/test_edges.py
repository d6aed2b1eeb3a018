"""If these fail, mud between two colours goes unnoticed, or a mend makes more of it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio_gui.domain.checks.check import Check
from studio_gui.domain.checks.edges import MOST_COLOURS_TO_REORDER, MOST_SEARCHED, muddy_edges
from studio_gui.domain.checks.yarn import stripe_too_short
from studio_gui.domain.edits.boundaries import set_gap
from studio_gui.domain.edits.fades import FadeWish
from studio_gui.domain.edits.mends import apply_mend
from studio_gui.domain.edits.sections import set_locked
from studio_gui.domain.figures import section_figures
from studio_gui.domain.liquors import DyeDepth
from studio_gui.domain.plan import Plan
from tests.domain.edits.painted import faded
from tests.scenes.scene_plans import by_depth, dye, laid, let_down

BLUE, RED, YELLOW = dye("D", srgb="#203080"), dye("E", srgb="#c04030"), dye("F", srgb="#e8d020")
LIQUORS = [by_depth("A", {"D": 1.0}), by_depth("B", {"E": 1.0}), by_depth("C", {"F": 1.0})]
PLAN = laid([("A", 1.0), ("B", 1.0)], [BLUE, RED, YELLOW, let_down("AW", 10.0)], LIQUORS)


def found(plan: Plan) -> list[Check]:
    return list(muddy_edges(section_figures(plan)))


def mends(plan: Plan) -> list[str]:
    return [mend.code for check in found(plan) for mend in check.mends]


def test_an_edge_of_red_and_blue_is_muddy_and_told_with_its_numbers() -> None:
    (check,) = found(PLAN)
    assert (check.code, check.severity, check.section_ids) == ("edge-muddy", "note", ("s1", "s2"))
    assert 0.0 < float(str(check.params["kept_share"])) < 0.5
    assert check.params["limit_share"] == 0.5
    assert check.params["wicking_mm"] == 20.0


def test_where_dye_cannot_meet_there_is_no_mud() -> None:
    assert not found(replace(PLAN, wicking_mm=0.0))
    assert not found(set_gap(PLAN, 0, 0.02))
    assert found(set_gap(PLAN, 0, 0.019))
    assert found(set_gap(PLAN, 0, -0.05))
    assert not found(laid([("A", 1.0)], PLAN.stocks, LIQUORS))
    water = laid([("W", 1.0), ("V", 1.0)], [let_down("AW")], [by_depth("W", {}), by_depth("V", {})])
    assert not found(water)


def test_every_mend_leaves_fewer_muddy_edges() -> None:
    plan = laid([("A", 1.0), ("B", 1.0), ("C", 1.0), ("A", 1.0), ("B", 1.0)], PLAN.stocks, LIQUORS)
    before = found(plan)
    codes = set()
    for check in before:
        for mend in check.mends:
            codes.add(mend.code)
            assert len(found(apply_mend(plan, mend))) < len(before)
    assert {"leave-gap", "move-section"} <= codes


def test_a_bridge_is_made_of_a_liquor_on_the_lay_or_else_of_a_dye() -> None:
    assert mends(PLAN) == ["leave-gap"]  # yellow and this blue would be muddy too
    violet = dye("V", srgb="#803070")
    with_dye = replace(PLAN, stocks=(BLUE, RED, violet, *PLAN.let_downs), liquors=tuple(LIQUORS[:2]))
    assert mends(with_dye) == ["bridge-with-dye", "leave-gap"]
    on_lay = laid(
        [("A", 1.0), ("B", 1.0), ("V", 1.0)], with_dye.stocks, [*LIQUORS[:2], by_depth("V", {"V": 1.0})]
    )
    assert mends(on_lay)[0] == "bridge-with-liquor"
    bridged = apply_mend(on_lay, found(on_lay)[0].mends[0])
    assert [section.liquor_id for section in bridged.sections] == ["A", "V", "B", "V"]
    assert bridged.edges_m[1:3] == pytest.approx((0.9325, 1.0675)), "one and a half staples of 9 cm"
    assert not found(bridged)
    assert not list(stripe_too_short(section_figures(bridged)))
    short = laid([("A", 0.2), ("B", 0.2), ("V", 1.0)], on_lay.stocks, on_lay.liquors)
    bridged = apply_mend(short, found(short)[0].mends[0])
    assert bridged.edges_m[1:3] == pytest.approx((0.17, 0.23)), "three wicking widths, where there is no more"


def test_another_order_is_offered_only_where_it_helps_and_can_be_had() -> None:
    violet = [*LIQUORS[:2], by_depth("V", {"V": 1.0})]
    stocks = [BLUE, RED, dye("V", srgb="#803070"), let_down("AW")]
    plan = laid([("A", 1.0), ("B", 1.0), ("V", 1.0)], stocks, violet)
    move = next(mend for mend in found(plan)[0].mends if mend.code == "move-section")
    assert move.params["count"] == 0
    assert not found(apply_mend(plan, move))
    locked = set_locked(plan, ["s1", "s2", "s3"], True)
    assert mends(locked) == ["leave-gap"]


def test_among_very_many_colours_no_other_order_is_looked_for() -> None:
    many = [by_depth(f"{number}", {"F": 0.01 * number}) for number in range(1, MOST_COLOURS_TO_REORDER)]
    stretches = [("A", 1.0), ("B", 1.0), *((liquor.id, 1.0) for liquor in many)]
    plan = laid(stretches, PLAN.stocks, [*LIQUORS[:2], *many])
    assert "move-section" not in mends(plan)


def test_of_very_many_muddy_edges_the_last_are_offered_a_gap_alone() -> None:
    violet = by_depth("V", {"V": 1.0})
    stocks = [BLUE, RED, dye("V", srgb="#803070"), let_down("AW")]
    stretches = [("A" if number % 2 else "B", 1.0) for number in range(MOST_SEARCHED + 3)]
    checks = found(laid(stretches, stocks, [*LIQUORS[:2], violet]))
    assert len(checks) == MOST_SEARCHED + 2
    assert len(checks[0].mends) > 1
    assert [mend.code for mend in checks[-1].mends] == ["leave-gap"]


def test_a_gap_that_does_not_fit_is_not_offered() -> None:
    thin = laid([("A", 0.06), ("B", 0.06)], PLAN.stocks, LIQUORS)
    assert mends(replace(thin, wicking_mm=200.0)) == []


def test_a_fade_is_clean_all_along() -> None:
    wish = FadeWish(((DyeDepth("D", 1.0),), (DyeDepth("E", 1.0),)), 12)
    assert not found(faded(PLAN, 0, 1, wish))


def test_a_bridge_that_leaves_its_neighbours_no_colour_is_not_offered() -> None:
    """6 cm of bridge take 3 cm of each, and under 4 cm two edges of 20 mm wick together."""

    def offered(length_m: float) -> bool:
        stocks = (BLUE, RED, dye("V", srgb="#803070"), *PLAN.let_downs)
        plan = laid([("A", length_m), ("B", 0.5)], stocks, LIQUORS[:2])
        return "bridge-with-dye" in mends(plan)

    assert offered(0.07)
    assert not offered(0.069)


def test_no_order_is_offered_that_breaks_a_fade() -> None:
    """The last step of a fade from deep to pale blue meets pale red: red moves, and no step of the fade."""
    steps = [by_depth(f"F{number}", {"D": depth}) for number, depth in enumerate((1.2, 0.9, 0.6, 0.3))]
    steps = [replace(step, letter=f"F{number}") for number, step in enumerate(steps)]
    stretches = [*((step.id, 1.0) for step in steps), ("B", 1.0)]
    plan = laid(stretches, PLAN.stocks, [*steps, by_depth("B", {"E": 0.2})])
    (check,) = found(plan)
    assert check.section_ids == ("s4", "s5")
    assert [mend.params["section_id"] for mend in check.mends if mend.code == "move-section"] == ["s5"]
