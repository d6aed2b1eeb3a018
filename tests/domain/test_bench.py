"""If these fail, a jar runs short, is mixed wrongly, or cannot be measured with what is on the bench."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.bench import make_up, rounded_amounts, syringe_fills
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import Bench, Plan
from tests.scenes.scene_plans import by_depth, by_parts, dye, laid, let_down
from tests.strategies import plans

PLAN = laid(
    [("Depth", 1.0), ("Parts", 1.0), ("Depth", 1.0), ("Parts", 1.0)],
    [dye("D"), let_down("AW")],
    [by_parts("Parts", {"D": 12.0, "AW": 38.0}), by_depth("Depth", {"D": 0.5})],
    bench=Bench(spare_share=0.1, dead_ml=2.0),
)


def test_one_jar_a_liquor_over_all_its_sections() -> None:
    jars = make_up(section_figures(PLAN)).jars
    assert [(jar.liquor_id, jar.section_ids) for jar in jars] == [
        ("Parts", ("s2", "s4")),
        ("Depth", ("s1", "s3")),
    ]
    for jar in jars:
        assert jar.sections_ml == pytest.approx(125.0)
        assert jar.jar_ml == pytest.approx(125.0 * 1.1 + 2.0)
        assert jar.amounts_ml.sum() == pytest.approx(jar.jar_ml)


def test_a_liquor_by_depth_at_two_uptakes_is_two_jars_the_drier_first() -> None:
    jars = make_up(section_figures(change_section(PLAN, "s1", fixed_ml=80.0))).jars
    assert [jar.section_ids for jar in jars] == [("s2", "s4"), ("s3",), ("s1",)]


def test_a_liquor_on_parts_is_one_jar_at_any_wetness() -> None:
    jars = make_up(section_figures(change_section(PLAN, "s2", fixed_ml=80.0))).jars
    assert [jar.section_ids for jar in jars] == [("s2", "s4"), ("s1", "s3")]


def test_wetness_that_differs_by_rounding_only_is_one_jar() -> None:
    third = laid(
        [("Depth", 0.1 * number) for number in range(1, 12)], PLAN.stocks, PLAN.liquors, density_g_per_m=7.3
    )
    assert len(make_up(section_figures(third)).jars) == 1


def test_what_is_not_painted_has_no_jar() -> None:
    dry = laid([("Parts", 1.0)], PLAN.stocks, [by_parts("Parts", {})])
    made = make_up(section_figures(dry))
    assert made.jars == ()
    assert made.need_ml.tolist() == [0.0, 0.0]
    drops = change_section(laid([("Parts", 1.0)], PLAN.stocks, PLAN.liquors), "s1", fixed_ml=1e-300)
    assert make_up(section_figures(drops)).jars == ()


@given(plans())
def test_what_stands_in_sections_comes_from_jars_and_stocks(plan: Plan) -> None:
    figures = section_figures(plan)
    made = make_up(figures)
    row = {section.id: index for index, section in enumerate(plan.sections)}
    need = np.zeros(len(plan.stocks))
    for jar in made.jars:
        members = [row[section_id] for section_id in jar.section_ids]
        assert {plan.sections[index].liquor_id for index in members} == {jar.liquor_id}
        assert jar.sections_ml == pytest.approx(figures.liquid_ml[members].sum(), rel=1e-9)
        jar_ml = jar.sections_ml * (1.0 + plan.bench.spare_share) + plan.bench.dead_ml
        assert jar.jar_ml == pytest.approx(jar_ml, rel=1e-9)
        assert jar.amounts_ml.sum() == pytest.approx(jar_ml, rel=1e-9)
        in_sections = figures.amounts_ml[members].sum(axis=0)
        assert jar.amounts_ml * jar.sections_ml / jar_ml == pytest.approx(in_sections, rel=1e-9, abs=1e-12)
        need += jar.amounts_ml
    assert made.need_ml == pytest.approx(need, rel=1e-9)
    in_jars = [section_id for jar in made.jars for section_id in jar.section_ids]
    assert len(in_jars) == len(set(in_jars))
    painted = {section.id for section, is_wet in zip(plan.sections, figures.painted, strict=True) if is_wet}
    assert painted <= set(in_jars)


@given(plans())
def test_a_jar_is_what_each_of_its_sections_takes(plan: Plan) -> None:
    figures = section_figures(plan)
    row = {section.id: index for index, section in enumerate(plan.sections)}
    for jar in make_up(figures).jars:
        for section_id in jar.section_ids:
            index = row[section_id]
            shares = figures.liquid_ml[index] * jar.amounts_ml / jar.jar_ml
            assert shares == pytest.approx(figures.amounts_ml[index], rel=1e-6, abs=1e-9)


def test_whole_graduations_by_largest_remainder_ties_to_the_larger_part() -> None:
    assert rounded_amounts((25.5, 8.5), 1.0) == (26.0, 8.0)
    assert rounded_amounts((8.5, 25.5), 1.0) == (8.0, 26.0)
    assert rounded_amounts((10.4, 10.3, 10.3), 1.0) == (11.0, 10.0, 10.0)
    assert rounded_amounts((), 1.0) == ()


def test_a_total_that_is_no_whole_graduation_is_taken_up() -> None:
    assert rounded_amounts((10.2, 10.2), 1.0) == (11.0, 10.0)
    assert rounded_amounts((0.1 + 0.2, 0.0), 0.1) == (0.3, 0.0)  # but not for float noise


def test_less_than_nothing_cannot_be_measured() -> None:
    with pytest.raises(InvalidPlan, match="negative-amount"):
        rounded_amounts((5.0, -1.0), 1.0)


@given(
    st.lists(st.floats(0.0, 5000.0), min_size=1, max_size=8),
    st.sampled_from([0.1, 0.5, 1.0, 2.0, 5.0]),
)
def test_rounding_keeps_the_total_and_moves_each_by_less_than_a_graduation(
    amounts_ml: list[float], graduation_ml: float
) -> None:
    rounded = rounded_amounts(amounts_ml, graduation_ml)
    total = sum(amounts_ml)
    assert total - 1e-6 <= sum(rounded) < total + graduation_ml + 1e-6
    for amount, whole in zip(amounts_ml, rounded, strict=True):
        assert abs(whole - amount) < graduation_ml + 1e-6
        assert whole / graduation_ml == pytest.approx(round(whole / graduation_ml), abs=1e-6)


@given(st.lists(st.integers(0, 400), min_size=1, max_size=8), st.sampled_from([0.1, 0.5, 1.0, 2.5]))
def test_what_is_in_whole_graduations_already_stays(steps: list[int], graduation_ml: float) -> None:
    amounts = [step * graduation_ml for step in steps]
    assert rounded_amounts(amounts, graduation_ml) == pytest.approx(amounts, abs=1e-8)


def test_a_dose_beyond_the_syringe_is_split_the_same_for_every_roving() -> None:
    fills = syringe_fills(90.0, 4, 60.0)
    assert (fills.fills, fills.fill_ml, fills.stops_ml) == (8, 45.0, (45.0, 0.0))


def test_a_fill_serves_no_more_rovings_than_there_are() -> None:
    fills = syringe_fills(10.0, 3, 60.0)
    assert (fills.fills, fills.fill_ml, fills.stops_ml) == (1, 30.0, (30.0, 20.0, 10.0, 0.0))


def test_a_dose_that_fits_exactly_fits() -> None:
    assert syringe_fills(0.1 * 3, 2, 0.6).fills == 1


@pytest.mark.parametrize(("dose", "rovings", "syringe"), [(0.0, 4, 60.0), (30.0, 0, 60.0), (30.0, 4, 0.0)])
def test_nothing_to_fill_is_refused(dose: float, rovings: int, syringe: float) -> None:
    with pytest.raises(InvalidPlan, match="nothing-to-fill"):
        syringe_fills(dose, rovings, syringe)


def test_spare_and_dead_volume_change_jars_only() -> None:
    plain = section_figures(replace(PLAN, bench=Bench(spare_share=0.0)))
    assert plain.amounts_ml.tolist() == section_figures(PLAN).amounts_ml.tolist()
    assert make_up(plain).need_ml.sum() == pytest.approx(250.0)
