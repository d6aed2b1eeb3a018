"""If these fail, a place on the lay is taken for another place on the roving, or weighs what it does not."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.fibre import Fibre, Lay, MassMark, even_folds
from studio_gui.domain.geometry import (
    equal_mass_folds,
    film_length_m,
    lay_length_m,
    lay_mass_to,
    lay_position,
    legs,
    mass_to,
    strip_at_mass,
    strip_position,
)
from tests.strategies import fibres, lays

FIBRE = Fibre(150.0, 6.0)
UNEVEN = Fibre(150.0, 6.0, mass_marks=(MassMark(0.5, 0.52),))

laid = fibres().flatmap(lambda fibre: st.tuples(st.just(fibre), lays(fibre)))


def test_even_legs_run_to_and_fro() -> None:
    lay = Lay(even_folds(6.0, 3))
    for x in (0.0, 0.5, 2.0):
        positions = [float(strip_position(FIBRE, lay, k, x)) for k in range(3)]
        assert positions == pytest.approx([x, 4.0 - x, 4.0 + x])


def test_a_place_beyond_a_shorter_leg_is_that_legs_end() -> None:
    slipped = Lay((3.04,))
    assert lay_length_m(FIBRE, slipped) == pytest.approx(3.04)
    assert strip_position(FIBRE, slipped, 1, [0.0, 0.08, 3.04]).tolist() == pytest.approx([6.0, 6.0, 3.04])
    first_8_cm = lay_mass_to(FIBRE, slipped, 0.08)
    assert first_8_cm == pytest.approx(0.08 * 25.0)  # one leg only


def test_a_longer_second_leg_sticks_out_at_the_start() -> None:
    lay = Lay((2.0,))
    first, second = legs(FIBRE, lay)
    assert (first.lay_low_m, first.lay_high_m) == pytest.approx((2.0, 4.0))
    assert (second.lay_low_m, second.lay_high_m) == pytest.approx((0.0, 4.0))


def test_legs_of_equal_weight_are_eased_over_the_whole_lay() -> None:
    lay = Lay(equal_mass_folds(UNEVEN, 2), "by weight")
    assert lay_length_m(UNEVEN, lay) == pytest.approx(3.0)
    assert lay_mass_to(UNEVEN, lay, [0.0, 0.6, 1.5, 3.0]).tolist() == pytest.approx([0.0, 30.0, 75.0, 150.0])


def test_film_is_longer_than_the_lay() -> None:
    assert film_length_m(FIBRE, Lay((3.0,), overhang_m=0.2)) == pytest.approx(3.2)


def test_folds_of_an_even_top_by_weight_are_those_by_length() -> None:
    assert equal_mass_folds(FIBRE, 4) == even_folds(6.0, 4)


def test_weight_is_clipped_to_the_roving() -> None:
    assert mass_to(FIBRE, [-1.0, 7.0]).tolist() == [0.0, 150.0]


def test_an_uneven_top_weighs_by_its_marks() -> None:
    assert mass_to(UNEVEN, [1.5, 3.0, 4.5]).tolist() == pytest.approx([39.0, 78.0, 114.0])


@given(laid)
def test_legs_cover_the_strip_exactly_once(case: tuple[Fibre, Lay]) -> None:
    fibre, lay = case
    row = legs(fibre, lay)
    assert row[0].strip_from_m == 0.0
    assert row[-1].strip_to_m == fibre.length_m
    assert all(before.strip_to_m == after.strip_from_m for before, after in pairwise(row))
    assert [leg.forward for leg in row] == [k % 2 == 0 for k in range(lay.passes)]


@given(laid)
def test_legs_span_the_lay_without_a_hole(case: tuple[Fibre, Lay]) -> None:
    fibre, lay = case
    spans = sorted((leg.lay_low_m, leg.lay_high_m) for leg in legs(fibre, lay))
    assert spans[0][0] == 0.0
    reached = 0.0
    for low, high in spans:
        assert low <= reached
        reached = max(reached, high)
    assert reached == lay_length_m(fibre, lay)


@given(laid)
def test_folds_lie_together(case: tuple[Fibre, Lay]) -> None:
    fibre, lay = case
    for before, after in pairwise(legs(fibre, lay)):
        turn = before.lay_high_m if before.forward else before.lay_low_m
        assert turn == pytest.approx(after.lay_high_m if before.forward else after.lay_low_m)


@given(laid, st.lists(st.floats(0.0, 1.0), min_size=2, max_size=8))
def test_the_strip_runs_along_its_leg_from_end_to_end(case: tuple[Fibre, Lay], shares: list[float]) -> None:
    fibre, lay = case
    for k, leg in enumerate(legs(fibre, lay)):
        span = np.array([leg.lay_low_m, leg.lay_high_m])
        ends = strip_position(fibre, lay, k, span if leg.forward else span[::-1])
        assert ends.tolist() == pytest.approx([leg.strip_from_m, leg.strip_to_m], abs=1e-9)
        places = strip_position(fibre, lay, k, np.sort(shares) * lay_length_m(fibre, lay))
        steps = np.diff(places if leg.forward else places[::-1])
        assert (steps >= -1e-9).all()
        assert (places >= leg.strip_from_m - 1e-9).all()
        assert (places <= leg.strip_to_m + 1e-9).all()


@given(laid, st.floats(0.0, 1.0))
def test_by_length_the_way_back_from_the_strip_is_the_leg_itself(
    case: tuple[Fibre, Lay], share: float
) -> None:
    fibre, lay = case
    lay = Lay(lay.fold_positions_m, "by length", lay.overhang_m)
    for k, leg in enumerate(legs(fibre, lay)):
        x = leg.lay_low_m + share * (leg.lay_high_m - leg.lay_low_m)
        strip = float(strip_position(fibre, lay, k, x))
        back = (
            leg.lay_low_m + strip - leg.strip_from_m
            if leg.forward
            else leg.lay_high_m - strip + leg.strip_from_m
        )
        assert back == pytest.approx(x, abs=1e-7)


@given(fibres(), st.floats(0.0, 1.0))
def test_place_and_weight_on_the_strip_invert(fibre: Fibre, share: float) -> None:
    strip_m = share * fibre.length_m
    assert strip_at_mass(fibre, mass_to(fibre, strip_m)) == pytest.approx(strip_m, abs=1e-9)


@given(laid, st.lists(st.floats(0.0, 1.0), max_size=8))
def test_all_fibre_lies_somewhere_on_the_lay(case: tuple[Fibre, Lay], shares: list[float]) -> None:
    fibre, lay = case
    length_m = lay_length_m(fibre, lay)
    places = np.array([0.0, *sorted(shares), 1.0]) * length_m
    grams = lay_mass_to(fibre, lay, places)
    total = fibre.rovings * fibre.mass_g
    assert grams[0] == pytest.approx(0.0, abs=1e-9 * total)
    assert grams[-1] == pytest.approx(total, rel=1e-9)
    assert (np.diff(grams) >= -1e-9 * total).all()


@given(fibres(), st.integers(1, 6))
def test_folded_by_weight_every_leg_weighs_the_same(fibre: Fibre, passes: int) -> None:
    lay = Lay(equal_mass_folds(fibre, passes), "by weight")
    weights = [
        float(mass_to(fibre, leg.strip_to_m) - mass_to(fibre, leg.strip_from_m)) for leg in legs(fibre, lay)
    ]
    assert weights == pytest.approx([fibre.mass_g / passes] * passes, rel=1e-9)
    quarter = float(lay_mass_to(fibre, lay, 0.25 * lay_length_m(fibre, lay)))
    assert quarter == pytest.approx(0.25 * fibre.rovings * fibre.mass_g, rel=1e-9)


@given(laid, st.floats(0.0, 1.0))
def test_a_place_on_the_strip_lies_where_the_lay_has_it(pair: tuple[Fibre, Lay], share: float) -> None:
    fibre, lay = pair
    strip_m = share * fibre.length_m
    place = float(lay_position(fibre, lay, strip_m))
    number = int(np.searchsorted(lay.fold_positions_m, strip_m, side="right"))
    assert float(strip_position(fibre, lay, number, place)) == pytest.approx(strip_m, abs=1e-6)
