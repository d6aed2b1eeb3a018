"""If these fail, a mend offered by one click does something else than it says, or does not mend."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given

from studio_gui.domain.checks.check import Check, Mend
from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.edits.mends import apply_mend, apply_mends, mends_for_all
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.edits.stocks import add_stock
from studio_gui.domain.errors import EditRefused, Param
from studio_gui.domain.figures import SectionFigures, section_figures
from studio_gui.domain.plan import AcidLine, Plan
from studio_gui.domain.worksheet import worksheet
from tests.drawing.plans import plain_plan
from tests.scenes.scene_plans import by_depth, by_parts, dye, ink_well, laid, let_down
from tests.strategies import plans


def findings(plan: Plan) -> set[tuple[str, str]]:
    """Code and section of everything that is found, one entry a section."""
    return {
        (check.code, section_id)
        for check in worksheet(plan).checks
        if check.severity != "note"
        for section_id in (*check.section_ids, "")
    }


def offers(plan: Plan, *codes: str) -> Iterator[tuple[Check, Mend]]:
    """Each one-click mend with one of the codes, and the finding that offers it."""
    for check in worksheet(plan).checks:
        for mend in check.mends:
            if mend.one_click and mend.code in codes:
                yield check, mend


def number(value: Param) -> float:
    assert isinstance(value, float)
    return value


def row(figures: SectionFigures, mend: Mend) -> int:
    return figures.plan.section_index(str(mend.params["section_id"]))


def strong_enough(plan: Plan) -> bool:
    """Whether every liquor has parts that can be told apart from nothing."""
    return all(part.parts == 0.0 or part.parts > 1e-6 for liquor in plan.liquors for part in liquor.parts)


@given(plans())
def test_what_is_over_is_over_no_more(plan: Plan) -> None:
    for check, mend in offers(plan, "spin-out", "less-but-stronger", "two-passes", "wipe"):
        figures = section_figures(apply_mend(plan, mend))
        index = plan.section_index(check.section_ids[0])
        assert figures.held_ml_per_g[index] == pytest.approx(plan.liquid.limit_ml_per_g, rel=1e-9)
        assert not figures.over[index]
        assert figures.free_ml[index] == 0.0


@given(plans().filter(strong_enough))
def test_less_but_stronger_keeps_every_depth_and_says_what_the_jar_becomes(plan: Plan) -> None:
    is_dye = np.array([stock.is_dye for stock in plan.stocks])
    strengths = np.array([stock.strength_pct for stock in plan.stocks])
    before = section_figures(plan)
    for _, mend in offers(plan, "less-but-stronger"):
        after = section_figures(apply_mend(plan, mend))
        index = row(before, mend)
        assert after.depth_pct_owf == pytest.approx(before.depth_pct_owf, rel=1e-6, abs=1e-9)
        others = np.arange(len(before)) != index
        assert after.amounts_ml[others] == pytest.approx(before.amounts_ml[others])
        assert after.liquid_ml[index] == pytest.approx(number(mend.params["liquid_ml"]))
        amounts = after.amounts_ml[index]
        jar_pct = float((amounts * strengths).sum()) / number(mend.params["liquid_ml"])
        assert mend.params["jar_pct"] == pytest.approx(jar_pct, rel=1e-6, abs=1e-9)
        assert mend.params["dye_ml"] == pytest.approx(amounts[is_dye].sum(), rel=1e-6, abs=1e-9)
        assert mend.params["let_down_ml"] == pytest.approx(amounts[~is_dye].sum(), rel=1e-6, abs=1e-6)


@given(plans())
def test_two_passes_and_wiping_say_what_the_worksheet_then_says(plan: Plan) -> None:
    before = section_figures(plan)
    for _, mend in offers(plan, "two-passes"):
        mended = apply_mend(plan, mend)
        index = row(before, mend)
        assert mended.sections[index].second_pass_ml == mend.params["second_pass_ml"]
        first_ml = before.liquid_ml[index] - mended.sections[index].second_pass_ml
        assert mend.params["first_ml"] == pytest.approx(first_ml, rel=1e-6, abs=1e-9)
        assert mend.params["press_out_ml"] == mend.params["second_pass_ml"]
        assert section_figures(mended).left_pct_owf == pytest.approx(before.left_pct_owf)
    for _, mend in offers(plan, "wipe"):
        after = section_figures(apply_mend(plan, mend))
        index = row(before, mend)
        assert after.wiped_ml[index] == mend.params["wiped_ml"]
        assert before.depth_pct_owf[index].sum() == pytest.approx(number(mend.params["depth_pct_owf"]))
        left = after.left_pct_owf[index]
        assert left.sum() == pytest.approx(number(mend.params["depth_after_pct_owf"]), rel=1e-6, abs=1e-9)
        kept = 1.0 - number(mend.params["dye_lost_share"])
        assert left == pytest.approx(before.depth_pct_owf[index] * kept, rel=1e-6, abs=1e-9)


@given(plans().filter(strong_enough))
def test_what_was_dry_is_wetted_at_the_depth_that_was_said(plan: Plan) -> None:
    for check, mend in offers(plan, "raise-uptake", "raise-liquid"):
        if check.code != "under":
            continue
        after = section_figures(apply_mend(plan, mend))
        index = plan.section_index(check.section_ids[0])
        assert not after.under[index]
        told = number(mend.params["depth_after_pct_owf"])
        assert after.depth_pct_owf[index].sum() == pytest.approx(told, rel=1e-6, abs=1e-9)


@given(plans())
def test_a_shade_out_of_reach_comes_within_reach(plan: Plan) -> None:
    for check, mend in offers(plan, "raise-liquid", "lower-depth"):
        if check.code != "depth-out-of-reach":
            continue
        (section_id,) = check.section_ids
        mended = apply_mend(plan, mend)
        assert ("depth-out-of-reach", section_id) not in findings(mended)
        before, after = section_figures(plan), section_figures(mended)
        others = np.arange(len(before)) != plan.section_index(section_id)
        assert after.amounts_ml[others] == pytest.approx(before.amounts_ml[others])
        if mend.code == "lower-depth":
            assert after.depth_pct_owf == pytest.approx(before.depth_pct_owf, rel=1e-6, abs=1e-9)


@given(plans())
def test_acid_mends_even_what_they_say_they_even(plan: Plan) -> None:
    for check, mend in offers(plan, "acid-in-every-bottle", "acid-line"):
        mended = apply_mend(plan, mend)
        if check.code == "acid-too-low":
            assert ("acid-too-low", "") not in findings(mended)
        else:
            assert (("acid-uneven", "") in findings(mended)) is mend.params["still_uneven"]


@given(
    plans().map(lambda plan: replace(plan, sections=tuple(replace(s, fixed_ml=None) for s in plan.sections)))
)
def test_where_volumes_follow_the_fibre_bottles_make_all_acid_alike(plan: Plan) -> None:
    for check, mend in offers(plan, "acid-in-every-bottle"):
        if check.code == "acid-uneven":
            assert mend.params["still_uneven"] is False
        figures = section_figures(apply_mend(plan, mend))
        acid = figures.acid_pct_owf[figures.painted]
        assert acid == pytest.approx([acid[0]] * len(acid), rel=1e-9)


@given(plans())
def test_the_quick_answer_leaves_no_stock_unknown(plan: Plan) -> None:
    for _, mend in offers(plan, "same-as-acid-water"):
        mended = apply_mend(plan, mend)
        assert all(stock.acid_g_per_l is not None for stock in mended.stocks)
        known = [stock for stock in plan.stocks if stock.acid_g_per_l is not None]
        assert all(mended.stock(stock.id) == stock for stock in known)


@given(plans())
def test_what_is_idle_is_removed(plan: Plan) -> None:
    for check, mend in offers(plan, "remove-stock", "remove-liquor"):
        mended = apply_mend(plan, mend)
        assert check not in worksheet(mended).checks
        assert len(mended.stocks) + len(mended.liquors) == len(plan.stocks) + len(plan.liquors) - 1


def test_a_bridge_is_put_in_of_a_dye_by_a_click() -> None:
    stocks = [dye("D", srgb="#203080"), dye("E", srgb="#c04030"), dye("V", srgb="#803070"), let_down("AW")]
    plan = laid([("A", 1.0), ("B", 1.0)], stocks, [by_depth("A", {"D": 1.0}), by_depth("B", {"E": 1.0})])
    (check,) = [one for one in worksheet(plan).checks if one.code == "edge-muddy"]
    mend = next(one for one in check.mends if one.code == "bridge-with-dye")
    mended = apply_mend(plan, mend)
    assert len(mended.sections) == 3
    assert mended.liquor(mended.sections[1].liquor_id).stock_ids[0] == "V"


def test_a_crushed_section_is_taken_out() -> None:
    plan = move_boundary(plain_plan(3), 0, 0.005)
    (check,) = [one for one in worksheet(plan).checks if one.code == "section-unpaintable"]
    mended = apply_mend(plan, check.mends[0])
    assert [section.id for section in mended.sections] == ["s2", "s3"]
    assert mended.lay_length_m == plan.lay_length_m


@given(plans())
def test_one_way_for_all_mends_each_as_its_own_button_does(plan: Plan) -> None:
    """Each keeps to what it names: whatever the order, every finding gets what its own mend says."""
    by_code: dict[tuple[str, str], list[Check]] = {}
    for check in worksheet(plan).checks:
        by_code.setdefault((check.code, check.severity), []).append(check)
    for checks in by_code.values():
        for way in mends_for_all(checks):
            assert len(way) == len(checks)
            if way[0].code == "take-out":
                continue  # two neighbours leave their places to one another
            forth, back = apply_mends(plan, way), apply_mends(plan, way[::-1])
            amounts = [
                (section.fixed_ml, section.wiped_ml, section.second_pass_ml) for section in forth.sections
            ]
            assert amounts == [(one.fixed_ml, one.wiped_ml, one.second_pass_ml) for one in back.sections]
            assert {stock.id for stock in forth.stocks} == {stock.id for stock in back.stocks}


def test_several_dry_cores_are_wetted_in_one_go() -> None:
    plan = replace(plain_plan(4), liquid=replace(plain_plan(4).liquid, uptake_ml_per_g=1.2))
    dry = [check for check in worksheet(plan).checks if check.code == "under"]
    (way,) = mends_for_all(dry)  # raising the uptake is one mend for all as it is
    assert [mend.code for mend in way] == ["raise-liquid"] * 4
    assert not [one for one in worksheet(apply_mends(plan, way)).checks if one.code == "under"]
    assert mends_for_all(dry[:1]) == ()


def test_what_only_some_findings_offer_is_no_way_for_all() -> None:
    wipe, spin = Mend("wipe", {"section_id": "s1", "wiped_ml": 1.0}), Mend("spin-out")
    checks = [
        Check("over", "warning", ("s1",), {}, (wipe, spin)),
        Check("over", "warning", ("s2",), {}, (spin,)),
    ]
    assert mends_for_all(checks) == ()


def test_advice_cannot_be_clicked() -> None:
    for mend in (Mend("stronger-stock", {}, one_click=False), Mend("pray")):
        with pytest.raises(EditRefused, match="mend-is-advice"):
            apply_mend(ink_well(), mend)


def test_a_shared_liquor_is_copied_before_it_is_made_stronger() -> None:
    shared = laid(
        [("A", 1.0), ("A", 1.0)], [dye("D"), let_down("AW")], [by_parts("A", {"D": 1.0, "AW": 4.0})]
    )
    (mend,) = [m for _, m in offers(change_section(shared, "s1", fixed_ml=100.0), "less-but-stronger")]
    mended = apply_mend(change_section(shared, "s1", fixed_ml=100.0), mend)
    assert mended.section("s2").liquor_id == "A"
    assert mended.liquor("A") == shared.liquor("A")
    own = mended.liquor(mended.section("s1").liquor_id)
    assert [part.parts for part in own.parts] == pytest.approx([1.0, 2.75])


def test_a_liquor_of_let_down_only_is_just_less() -> None:
    water = laid([("A", 1.0)], [let_down("AW")], [by_parts("A", {"AW": 4.0})])
    (mend,) = [m for _, m in offers(change_section(water, "s1", fixed_ml=100.0), "less-but-stronger")]
    mended = apply_mend(change_section(water, "s1", fixed_ml=100.0), mend)
    assert section_figures(mended).liquid_ml.tolist() == pytest.approx([75.0])


def test_bottles_that_no_liquor_is_made_of_keep_their_acid() -> None:
    plan = laid(
        [("Dark", 1.0), ("Pale", 1.0)],
        [dye("D"), let_down("AW", 10.0), let_down("Citric", 200.0)],
        [by_depth("Dark", {"D": 2.0}), by_depth("Pale", {"D": 0.1})],
    )
    lined = replace(plan, acid_line=AcidLine("Citric", 2.0))
    (mend,) = [m for check, m in offers(lined, "acid-in-every-bottle") if check.code == "acid-uneven"]
    mended = apply_mend(lined, mend)
    assert [stock.acid_g_per_l for stock in mended.stocks] == [10.0, 10.0, 200.0]
    assert mended.acid_line is None


def test_the_acid_line_is_set_by_a_click() -> None:
    plan = laid(
        [("Dark", 1.0), ("Pale", 1.0)],
        add_stock(ink_well(), let_down("Citric", 200.0)).stocks,
        [by_depth("Dark", {"Ink": 2.0}), by_depth("Pale", {"Ink": 0.1})],
    )
    (mend,) = [m for _, m in offers(plan, "acid-line")]
    assert apply_mend(plan, mend).acid_line == AcidLine("Citric", 10.0)


def test_the_uptake_of_a_dry_lay_is_raised_to_the_core() -> None:
    dry = replace(ink_well(), liquid=replace(ink_well().liquid, uptake_ml_per_g=0.8))
    mend = next(m for _, m in offers(dry, "raise-uptake"))
    mended = apply_mend(dry, mend)
    assert mended.liquid.uptake_ml_per_g == dry.liquid.penetration_ml_per_g == 1.0
    assert not section_figures(mended).under.any()


def test_a_shade_is_lowered_for_its_section_alone() -> None:
    deep = laid([("A", 1.0), ("A", 1.0)], [dye("D"), let_down("AW")], [by_depth("A", {"D": 2.0})])
    drier = change_section(deep, "s1", fixed_ml=40.0)
    (mend,) = [m for _, m in offers(drier, "lower-depth")]
    mended = apply_mend(drier, mend)
    assert mended.liquor(mended.section("s1").liquor_id).depths[0].depth_pct_owf == pytest.approx(1.6)
    assert mended.section("s2").liquor_id == "A"
    assert mended.liquor("A") == deep.liquor("A")
