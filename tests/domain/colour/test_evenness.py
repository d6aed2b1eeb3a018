"""If these fail, an uneven fade passes for an even one."""

from __future__ import annotations

import math

import pytest

from studio_gui.domain.colour.evenness import Evenness


def test_ratio_and_spread_of_worked_steps() -> None:
    even = Evenness((2.0, 4.0, 3.0))
    assert even.ratio == 2.0
    # mean 3, squared deviations 1, 1, 0: worked by hand
    assert even.spread == pytest.approx(math.sqrt(2.0 / 3.0) / 3.0)
    assert even.equal_neighbours == ()


def test_a_colour_that_comes_twice_is_never_even() -> None:
    twice = Evenness((2.0, 0.0, 0.0))
    assert math.isinf(twice.ratio)
    assert twice.equal_neighbours == (1, 2)
    assert Evenness((2.0, 1.0, 0.0)).rank < twice.rank


def test_no_steps_are_even() -> None:
    assert (Evenness(()).ratio, Evenness(()).spread) == (1.0, 0.0)


def test_a_fade_that_does_not_fade_is_the_least_even_of_all() -> None:
    assert Evenness((0.0, 0.0)).rank > Evenness((9.0, 0.0)).rank
