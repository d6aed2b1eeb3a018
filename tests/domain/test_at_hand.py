"""If these fail, jars are reckoned from the wrong bottles, or rounding a jar undoes what was asked for."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.at_hand import at_hand, let_down_of, liquid_to_paint_ml, measuring_for, parts_of
from studio_gui.domain.bench import rounded_amounts
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.liquors import DyeDepth
from studio_gui.domain.plan import Bench
from tests.scenes.scene_plans import by_parts, dye, laid, let_down

PLAN = laid(
    [("A", 0.4), ("N", 0.4), ("A", 1.0)],
    [
        dye("D"),
        let_down("AW", 10.0),
        replace(dye("W", 0.1), take_up_pct_owf=3.0),
        dye("E", 2.0, "#a8382f"),
        let_down("CW", 20.0),
    ],
    [by_parts("A", {"D": 10.0, "CW": 30.0, "AW": 10.0}), by_parts("N", {})],
    bench=Bench(spare_share=0.1, dead_ml=0.5, graduation_ml=1.0),
)


def test_a_let_down_bottle_of_a_dye_is_the_same_dye() -> None:
    hand = at_hand(PLAN)
    assert [stock.id for stock in hand.bottles] == ["D", "W", "E"]
    assert hand.dye_of == (0, 0, 1)
    assert hand.palette.take_up_pct_owf.tolist() == [3.0, 6.0]
    doses = hand.doses([DyeDepth("W", 0.2), DyeDepth("D", 0.3), DyeDepth("E", 1.0)])
    assert doses == pytest.approx([0.5, 1.0])
    assert hand.depths([0.5, 1.0]) == (DyeDepth("D", 0.5), DyeDepth("E", 1.0))
    assert hand.depths([0.0, 1.0]) == (DyeDepth("E", 1.0),)


def test_only_the_bottles_that_are_named_are_at_hand() -> None:
    hand = at_hand(PLAN, ["E"])
    assert (hand.dye_of, len(hand.palette.curves)) == ((0,), 1)
    assert at_hand(PLAN, []).palette.lab(np.zeros((2, 0))).shape == (2, 3)
    with pytest.raises(InvalidPlan) as refusal:
        hand.doses([DyeDepth("D", 1.0)])
    assert refusal.value.code == "unknown-stock"


def test_a_graduation_counts_by_the_jar_and_not_by_the_section() -> None:
    # 10 g that take 25 ml: a jar of 25 * 1.1 + 0.5 = 28 ml. One of its 28 ml is 25/28 ml on 10 g of 1 %.
    measuring = measuring_for(PLAN, at_hand(PLAN), [0])
    assert measuring.graduations.tolist() == [28.0]
    assert measuring.doses_pct_owf[0] == pytest.approx(np.array([1.0, 0.1, 2.0]) * 25.0 / 28.0 / 10.0)


def test_a_wipe_takes_dye_along() -> None:
    wiped = change_section(PLAN, "s1", wiped_ml=7.0)  # a fifth of 10 ml soak and 25 ml liquor
    before, after = (measuring_for(plan, at_hand(PLAN), [0]).doses_pct_owf for plan in (PLAN, wiped))
    assert after == pytest.approx(0.8 * before)


def test_a_section_that_is_not_painted_yet_will_take_what_the_fibre_takes() -> None:
    assert liquid_to_paint_ml(PLAN, [1]) == pytest.approx([25.0])
    fixed = change_section(PLAN, "s2", fixed_ml=40.0)
    assert liquid_to_paint_ml(fixed, [0, 1]) == pytest.approx([25.0, 40.0])


def test_a_section_that_is_to_get_nothing_is_refused() -> None:
    dry = change_section(PLAN, "s2", fixed_ml=0.0)
    with pytest.raises(EditRefused) as refusal:
        measuring_for(dry, at_hand(dry), [0, 1])
    assert refusal.value.code == "section-without-liquid"
    assert refusal.value.params["section_id"] == "s2"


def test_a_section_that_is_wiped_of_all_its_dye_is_refused() -> None:
    dry = change_section(PLAN, "s2", wiped_ml=1000.0)
    with pytest.raises(EditRefused) as refusal:
        measuring_for(dry, at_hand(dry), [0, 1])
    assert (refusal.value.code, refusal.value.params["section_id"]) == ("section-wiped-dry", "s2")


def test_jars_are_filled_with_what_fills_most_of_them_now() -> None:
    assert let_down_of(PLAN, 0, 2).id == "CW"
    assert let_down_of(PLAN, 1, 1).id == "AW"
    neat = replace(PLAN, stocks=PLAN.dyes, liquors=(by_parts("A", {"D": 1.0}), by_parts("N", {})))
    with pytest.raises(EditRefused) as refusal:
        let_down_of(neat, 0, 0)
    assert (refusal.value.code, refusal.value.params) == ("no-let-down", {"liquor": "A"})


@given(
    st.lists(st.integers(0, 30), min_size=3, max_size=3),
    st.floats(0.0, 0.999),
    st.sampled_from([0.1, 0.5, 1.0, 5.0]),
)
def test_rounding_the_jar_gives_the_very_graduations_that_were_asked_for(
    counts: list[int], short: float, graduation_ml: float
) -> None:
    hand, water = at_hand(PLAN), PLAN.stock("AW")
    graduations = sum(counts) + 5.0
    parts = parts_of(hand, counts, graduations, graduation_ml, water)
    jar_ml = (graduations - short) * graduation_ml
    scale = jar_ml / sum(part.parts for part in parts)
    rounded = rounded_amounts([part.parts * scale for part in parts], graduation_ml)
    assert rounded == pytest.approx([part.parts for part in parts])


def test_a_jar_full_of_dye_has_no_let_down() -> None:
    parts = parts_of(at_hand(PLAN), [2.0, 0.0, 3.0], 5.0, 1.0, PLAN.stock("AW"))
    assert [(part.stock_id, part.parts) for part in parts] == [("D", 2.0), ("E", 3.0)]


def test_a_fluorescent_dye_is_guessed_in_mixes_and_not_with_its_own_let_down_bottle() -> None:
    stocks = tuple(replace(stock, is_fluorescent=stock.id in ("D", "W")) for stock in PLAN.stocks)
    hand = at_hand(replace(PLAN, stocks=stocks))
    assert hand.guessed(np.array([[3.0, 2.0, 0.0], [0.0, 0.0, 4.0]])) == ()
    assert [stock.id for stock in hand.guessed(np.array([[3.0, 0.0, 1.0], [0.0, 2.0, 0.0]]))] == ["D"]
    assert at_hand(PLAN).guessed(np.array([[3.0, 2.0, 1.0]])) == ()
