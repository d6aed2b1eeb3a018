"""If these fail, sliding one stock of a liquor changes how much is painted, or the ratio of the others."""

from __future__ import annotations

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.amounts import shift_amount
from studio_gui.domain.edits.liquors import replace_liquor
from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.figures import section_figures
from studio_gui.domain.liquors import Liquor, Part
from studio_gui.domain.plan import Liquid, Plan
from tests.scenes.scene_plans import by_depth, by_parts, dye, laid, let_down

PLAN = laid(
    [("A", 1.0), ("B", 1.0), ("A", 2.0), ("C", 1.0), ("E", 1.0)],
    [dye("D"), dye("E"), let_down("W")],
    [
        by_parts("A", {"D": 10.0, "E": 10.0, "W": 30.0}),
        by_parts("B", {"D": 1.0}),
        by_parts("C", {"D": 0.0, "W": 0.0}),
        by_depth("E", {"D": 0.5}, "W"),
    ],
    liquid=Liquid(uptake_ml_per_g=2.0, penetration_ml_per_g=1.0),
)


def parts(plan: Plan) -> dict[str, float]:
    return {part.stock_id: part.parts for part in plan.liquor("A").parts}


def test_the_others_give_in_their_ratio_and_the_sum_stays() -> None:
    moved = shift_amount(PLAN, "s1", "D", 30.0)  # of 50 ml
    assert parts(moved) == pytest.approx({"D": 30.0, "E": 5.0, "W": 15.0})
    assert section_figures(moved).liquid_ml.tolist() == section_figures(PLAN).liquid_ml.tolist()
    assert section_figures(moved).amounts_ml[2].tolist() == pytest.approx([60.0, 10.0, 30.0])


def test_where_the_others_have_nothing_they_share_equally() -> None:
    neat = shift_amount(PLAN, "s1", "D", 50.0)
    assert parts(neat) == pytest.approx({"D": 50.0, "E": 0.0, "W": 0.0})
    assert parts(shift_amount(neat, "s1", "D", 20.0)) == pytest.approx({"D": 20.0, "E": 15.0, "W": 15.0})


@given(st.lists(st.floats(0.0, 1e6), min_size=2, max_size=6), st.floats(0.0, 50.0))
def test_what_one_gets_the_others_lose(amounts: list[float], amount_ml: float) -> None:
    stocks = [dye(f"k{number}") for number in range(len(amounts))]
    liquor = Liquor("A", "A", "A", parts=tuple(Part(k.id, ml) for k, ml in zip(stocks, amounts, strict=True)))
    plan = laid([("A", 1.0)], stocks, [liquor], liquid=Liquid(uptake_ml_per_g=2.0))
    if liquor.is_empty:
        with pytest.raises(EditRefused):
            shift_amount(plan, "s1", "k0", amount_ml)
        return
    after = shift_amount(plan, "s1", "k0", amount_ml)
    assert section_figures(after).amounts_ml[0, 0] == pytest.approx(amount_ml, abs=1e-9)
    assert section_figures(after).amounts_ml.sum() == pytest.approx(50.0)
    assert after.liquor("A").total_parts == pytest.approx(min(liquor.total_parts, 1e6))


@pytest.mark.parametrize(
    ("section_id", "stock_id", "amount_ml", "code"),
    [
        ("s2", "D", 10.0, "only-stock"),
        ("s4", "D", 10.0, "liquor-not-painted"),
        ("s1", "D", 50.1, "out-of-range"),
        ("s1", "D", -1.0, "out-of-range"),
        ("s1", "D", nan, "not-a-number"),
        ("s2", "W", 10.0, "unknown-stock"),
        ("s5", "W", 10.0, "unknown-stock"),
    ],
)
def test_what_cannot_be_shared_is_refused(
    section_id: str, stock_id: str, amount_ml: float, code: str
) -> None:
    with pytest.raises((EditRefused, InvalidPlan)) as refusal:
        shift_amount(PLAN, section_id, stock_id, amount_ml)
    assert refusal.value.code == code


def test_a_float_above_the_liquid_by_dust_is_all_of_it() -> None:
    full = replace_liquor(PLAN, by_parts("A", {"D": 1.0, "E": 2.0}))
    assert parts(shift_amount(full, "s1", "D", 50.0 * (1.0 + 1e-12))) == {"D": 3.0, "E": 0.0}
