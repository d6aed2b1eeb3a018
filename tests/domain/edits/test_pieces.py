"""If these fail, weighed pieces of an uneven top are not what the plan reckons with."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.pieces import piece_masses_g, set_pieces
from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.fibre import Fibre, MassMark, Roving
from studio_gui.domain.geometry import mass_to
from studio_gui.domain.new_plan import new_plan


def test_two_halves_of_78_and_72_g() -> None:
    fibre = set_pieces(new_plan(), (78.0, 72.0)).fibre
    assert fibre.mass_g == pytest.approx(150.0)
    assert mass_to(fibre, fibre.length_m / 2.0) == pytest.approx(78.0)


def test_one_piece_is_an_even_top() -> None:
    uneven = set_pieces(new_plan(), (60.0, 40.0))
    even = set_pieces(uneven, (90.0,)).fibre
    assert (even.mass_g, even.mass_marks) == (90.0, ())
    assert piece_masses_g(even) == (90.0,)


def test_marks_at_other_places_are_no_pieces() -> None:
    assert piece_masses_g(Fibre(100.0, 4.0, mass_marks=(MassMark(0.3, 0.5),))) is None


def test_a_piece_that_weighs_nothing_is_refused() -> None:
    with pytest.raises(InvalidPlan, match="out-of-range"):
        set_pieces(new_plan(), (100.0, 0.0))


@given(st.lists(st.floats(1.0, 500.0), min_size=1, max_size=12))
def test_what_was_weighed_is_read_back(masses_g: list[float]) -> None:
    assert piece_masses_g(set_pieces(new_plan(), masses_g).fibre) == pytest.approx(tuple(masses_g), rel=1e-6)


def test_rovings_weighed_one_by_one_are_no_pieces_of_one() -> None:
    assert piece_masses_g(Fibre(100.0, 4.0, 2, measured=(Roving(98.0), Roving(102.0)))) is None
