"""If these fail, a roving is said to weigh what the scale did not show, or to be thick where it is thin."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.inputs import set_fibre
from studio_gui.domain.edits.rovings import (
    half_weights_g,
    pieces_of,
    roving_of_pieces,
    roving_of_thickness,
    set_all_rovings,
    set_one_roving,
    thickness_of,
)
from studio_gui.domain.errors import EditRefused, InvalidPlan
from studio_gui.domain.fibre import Fibre, MassMark, Roving
from studio_gui.domain.geometry import mass_to
from studio_gui.domain.worksheet import worksheet
from studio_gui.domain.yarn import Strip
from tests.scenes.scene_plans import four_gates, two_shores

UNEVEN = Roving(104.0, (MassMark(0.5, 0.52),))


@given(st.lists(st.tuples(st.floats(0.5, 2.0), st.floats(10.0, 60.0)), min_size=1, max_size=6))
def test_pieces_come_back_as_they_were_weighed(pieces: list[tuple[float, float]]) -> None:
    length_m = sum(piece_m for piece_m, _ in pieces)
    roving = roving_of_pieces(length_m, pieces)
    fibre = Fibre(roving.mass_g, length_m, mass_marks=roving.mass_marks)
    assert np.ravel(pieces_of(fibre)).tolist() == pytest.approx(np.ravel(pieces).tolist())
    assert [g_per_m for _, g_per_m in thickness_of(fibre)] == pytest.approx([g / m for m, g in pieces])
    assert sum(half_weights_g(roving)) == pytest.approx(roving.mass_g)
    assert half_weights_g(roving)[0] == pytest.approx(float(mass_to(fibre, length_m / 2.0)))


def test_pieces_weigh_what_they_weighed() -> None:
    roving = roving_of_pieces(6.0, [(1.5, 40.0), (3.0, 72.0), (1.5, 38.0)])
    fibre = Fibre(roving.mass_g, 6.0, mass_marks=roving.mass_marks)
    assert roving.mass_g == 150.0
    assert mass_to(fibre, [1.5, 4.5, 6.0]).tolist() == pytest.approx([40.0, 112.0, 150.0])


def test_pieces_may_be_a_little_longer_or_shorter_than_the_roving_and_no_more() -> None:
    assert roving_of_pieces(6.0, [(3.05, 78.0), (3.05, 72.0)]).mass_marks == (MassMark(0.5, 0.52),)
    with pytest.raises(EditRefused, match="pieces-do-not-fill"):
        roving_of_pieces(6.0, [(3.0, 78.0), (2.5, 72.0)])
    with pytest.raises(InvalidPlan, match="out-of-range"):
        roving_of_pieces(6.0, [(3.0, 0.1), (3.0, 72.0)])


def test_thickness_says_how_weight_is_spread_and_the_scale_how_much() -> None:
    roving = roving_of_thickness(150.0, 6.0, [(0.0, 20.0), (6.0, 30.0)])
    fibre = Fibre(150.0, 6.0, mass_marks=roving.mass_marks)
    # a straight rise from 20 to 30 g/m: 20 x + 5/6 x^2, of 150 g in all
    places = np.array([0.75, 1.5, 3.0, 4.5])
    assert mass_to(fibre, places).tolist() == pytest.approx((20.0 * places + 5.0 / 6.0 * places**2).tolist())
    assert roving_of_thickness(90.0, 6.0, [(0.0, 20.0), (6.0, 30.0)]).mass_marks == roving.mass_marks


@given(
    st.lists(st.floats(0.0, 6.0), min_size=1, max_size=6, unique_by=lambda place: round(place, 2)),
    st.data(),
)
def test_thickness_measured_anywhere_gives_the_whole_weight(places: list[float], data: st.DataObject) -> None:
    at = sorted(places)
    thick = [data.draw(st.floats(5.0, 60.0)) for _ in at]
    roving = roving_of_thickness(150.0, 6.0, list(zip(at, thick, strict=True)))
    fibre = Fibre(150.0, 6.0, mass_marks=roving.mass_marks)
    assert float(mass_to(fibre, 6.0)) == pytest.approx(150.0)


@pytest.mark.parametrize(
    ("places", "code"),
    [
        ([(1.0, 20.0), (1.0, 30.0)], "places-not-rising"),
        ([(2.0, 20.0), (1.0, 30.0)], "places-not-rising"),
        ([(1.0, 20.0), (6.5, 30.0)], "place-past-end"),
    ],
)
def test_places_run_from_start_to_end(places: list[tuple[float, float]], code: str) -> None:
    with pytest.raises(EditRefused, match=code):
        roving_of_thickness(150.0, 6.0, places)


def test_one_roving_of_a_set_weighs_by_itself_and_sections_follow() -> None:
    plan = set_fibre(four_gates(Strip()), rovings=2)
    plan = set_one_roving(plan, 1, UNEVEN)
    assert plan.fibre.mass_g == 102.0
    assert plan.fibre.measured == (Roving(100.0), UNEVEN)
    sheet = worksheet(plan)
    assert sheet.totals.fibre_g == pytest.approx(204.0)
    # the first section is the first of four metres: 25 g of one, a half of 54.08 g of the other
    assert sheet.figures.fibre_g[0] == pytest.approx(25.0 + 0.5 * 0.52 * 104.0)
    again = set_one_roving(plan, 0, Roving(98.0))
    assert again.fibre.measured == (Roving(98.0), UNEVEN)


def test_the_yarn_of_a_roving_has_that_roving_s_metres() -> None:
    plan = set_one_roving(set_fibre(four_gates(Strip()), rovings=2), 1, UNEVEN)
    yarn = worksheet(replace(plan, yarn=replace(plan.yarn, structure="rovings"))).yarn
    assert [one.length_m for one in yarn.strands] == pytest.approx([1000.0, 1040.0])
    assert yarn.leftover_m == pytest.approx((0.0, 40.0))


def test_rovings_alike_put_an_end_to_those_weighed_one_by_one() -> None:
    plan = set_one_roving(set_fibre(four_gates(Strip()), rovings=2), 1, UNEVEN)
    alike = set_all_rovings(plan, UNEVEN)
    assert (alike.fibre.measured, alike.fibre.mass_g, alike.fibre.mass_marks) == (
        (),
        104.0,
        UNEVEN.mass_marks,
    )


def test_a_new_weight_scales_all_and_a_new_number_keeps_those_that_remain() -> None:
    plan = set_one_roving(set_fibre(four_gates(Strip()), rovings=2), 1, UNEVEN)
    heavier = set_fibre(plan, mass_g=204.0)
    assert [one.mass_g for one in heavier.fibre.measured] == pytest.approx([200.0, 208.0])
    assert heavier.fibre.measured[1].mass_marks == UNEVEN.mass_marks
    one = set_fibre(plan, rovings=1)
    assert one.fibre.measured == (Roving(100.0),)
    assert one.fibre.mass_g == 100.0
    more = set_fibre(plan, rovings=4)
    assert [roving.mass_g for roving in more.fibre.measured] == [100.0, 104.0, 102.0, 102.0]
    assert more.fibre.mass_g == pytest.approx(102.0)
    with pytest.raises(InvalidPlan, match="out-of-range"):
        set_fibre(plan, rovings=0)


def test_halves_fold_by_the_weight_of_all() -> None:
    plan = set_one_roving(set_fibre(two_shores(), rovings=2), 1, Roving(150.0, (MassMark(0.5, 0.52),)))
    assert float(mass_to(plan.fibre, 3.0)) == pytest.approx(76.5)
