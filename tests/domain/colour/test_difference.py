"""If these fail, "one colour" and "two colours" are told apart wrongly."""

from __future__ import annotations

from pathlib import Path
from types import ModuleType

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.spaces import Array

PAIRS: Array = np.loadtxt(
    Path(__file__).parents[2] / "data" / "ciede2000_pairs.csv", delimiter=",", skiprows=2, dtype=np.float64
)

labs = st.tuples(st.floats(0.0, 100.0), st.floats(-100.0, 100.0), st.floats(-100.0, 100.0)).map(np.array)


def test_all_published_pairs_are_met_to_their_last_printed_digit() -> None:
    # Sharma, Wu, Dalal 2005, table 1; it visits every branch of the hue rules.
    assert PAIRS.shape == (34, 7)
    assert ciede2000(PAIRS[:, 0:3], PAIRS[:, 3:6]) == pytest.approx(PAIRS[:, 6], abs=5.1e-5)


def test_it_agrees_with_colour_science(colour_science: ModuleType) -> None:
    generator = np.random.default_rng(2005)
    low, high = [0.0, -90.0, -90.0], [100.0, 90.0, 90.0]
    lab_a, lab_b = generator.uniform(low, high, (2, 2000, 3))
    reference = colour_science.difference.delta_E_CIE2000(lab_a, lab_b)
    assert ciede2000(lab_a, lab_b) == pytest.approx(reference, abs=1e-8)


@given(labs, labs)
def test_it_is_never_negative_and_the_same_both_ways(lab_a: Array, lab_b: Array) -> None:
    difference = ciede2000(lab_a, lab_b)
    assert difference >= 0.0
    assert difference == pytest.approx(ciede2000(lab_b, lab_a), abs=1e-9)


@given(labs)
def test_a_colour_does_not_differ_from_itself(lab: Array) -> None:
    assert ciede2000(lab, lab) == 0.0


def test_one_colour_is_compared_with_many_in_any_shape() -> None:
    grid = PAIRS[:, 0:3].reshape(2, 17, 3)
    together = ciede2000(grid, PAIRS[0, 3:6])
    assert together.shape == (2, 17)
    assert together[1, 4] == pytest.approx(ciede2000(grid[1, 4], PAIRS[0, 3:6]))
    assert np.isnan(ciede2000(np.full(3, np.nan), PAIRS[0, 3:6]))
