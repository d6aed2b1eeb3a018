"""If these fail, a crossfade over a matching set is mixed or measured wrongly: "Kelp to Quince"."""

from __future__ import annotations

import pytest

from studio_gui.domain.bench import rounded_amounts
from studio_gui.domain.cards import verdict
from studio_gui.domain.edits.boundaries import lengths_m
from studio_gui.domain.edits.ladders import Crossfade, Ladder, lay_crossfade, lay_ladder
from studio_gui.domain.plan import Bench, Liquid, Plan
from studio_gui.domain.worksheet import Worksheet, worksheet
from tests.scenes.scene_plans import by_parts, dye, laid


def kelp_to_quince() -> Plan:
    """Four rovings with 1 m to fade on; kelp and quince at 0.6 %; 2 ml dead volume, no spare."""
    return laid(
        [("Kelp", 1.0)],
        [dye("A", 0.6, "#5f7d4f"), dye("B", 0.6, "#d9b84a")],
        [by_parts("Kelp", {"A": 1.0}), by_parts("Quince", {"B": 1.0})],
        rovings=4,
        liquid=Liquid(uptake_ml_per_g=1.6, penetration_ml_per_g=1.0),
        bench=Bench(spare_share=0.0, dead_ml=2.0),
    )


def faded(strength: float = 1.0) -> Worksheet:
    return worksheet(lay_crossfade(kelp_to_quince(), 0, 0, Crossfade("Kelp", "Quince", 5, strength)))


def test_five_steps_of_20_cm_take_8_ml_a_roving_each() -> None:
    figures = faded().figures
    assert lengths_m(figures.plan) == pytest.approx([0.2] * 5)
    assert figures.liquid_ml_per_roving.tolist() == pytest.approx([8.0] * 5, abs=0.05)
    assert figures.liquid_ml.tolist() == pytest.approx([32.0] * 5, abs=0.05)


def test_jars_of_34_ml_go_from_all_kelp_to_all_quince() -> None:
    jars = faded().make_up.jars
    assert [jar.jar_ml for jar in jars] == pytest.approx([34.0] * 5, abs=0.05)
    wanted = [[34.0, 0.0], [25.5, 8.5], [17.0, 17.0], [8.5, 25.5], [0.0, 34.0]]
    assert [jar.amounts_ml.tolist() for jar in jars] == [pytest.approx(row, abs=0.05) for row in wanted]


def test_both_bottles_give_85_ml() -> None:
    assert faded().make_up.need_ml.tolist() == pytest.approx([85.0, 85.0], abs=0.05)


def test_read_to_whole_ml_no_jar_is_short() -> None:
    rounded = [rounded_amounts(jar.amounts_ml.tolist(), 1.0) for jar in faded().make_up.jars]
    assert rounded[1] == (26.0, 8.0), "and not 25 + 8, which is 33 ml"
    kelp_pct = 100.0 * rounded[1][0] / sum(rounded[1])
    assert kelp_pct == pytest.approx(75.0, abs=2.0)
    assert [sum(amounts) for amounts in rounded] == [34.0] * 5


def test_26_and_8_are_accepted_and_25_and_8_refused() -> None:
    sheet = faded()
    second = sheet.cards[1]
    assert [amount.exact_ml for amount in second.amounts] == pytest.approx([25.5, 8.5], abs=0.05)
    assert [amount.measured_ml for amount in second.amounts] == [26.0, 8.0]
    assert not second.is_too_coarse, "76.5 % for 75 % is within two points"
    exact = sheet.make_up.jars[1].amounts_ml.tolist()
    assert verdict(exact, (26.0, 8.0)) == "fine"
    assert verdict(exact, (25.0, 8.0)) == "short"


def test_the_same_fade_can_be_typed_as_a_ladder() -> None:
    typed = Ladder(("A", "B"), ((32.0, 0.0), (24.0, 8.0), (16.0, 16.0), (8.0, 24.0), (0.0, 32.0)))
    sheet = worksheet(lay_ladder(kelp_to_quince(), 0, 0, typed))
    assert sheet.make_up.need_ml.tolist() == pytest.approx([85.0, 85.0], abs=0.05)


def test_quince_four_times_as_strong_takes_a_fifth_of_the_middle() -> None:
    middle = faded(strength=4.0).make_up.jars[2]
    assert middle.amounts_ml.tolist() == pytest.approx([27.2, 6.8], abs=0.05)
