"""If these fail, pale and dark get different acid without a word, or an acid line spoils the jar."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from studio_gui.domain.acid import acid_pct_owf, jar_acid_g_per_l, with_acid_line

LET_DOWN = np.array([False, True, True])


def test_a_jar_has_the_mean_acid_of_what_is_in_it() -> None:
    jars = jar_acid_g_per_l(np.array([[30.0, 10.0], [0.0, 0.0]]), np.array([0.0, 10.0]))
    assert jars.tolist() == pytest.approx([2.5, 0.0])


def test_unknown_acid_makes_a_jar_unknown_only_where_some_of_it_is_in() -> None:
    jars = jar_acid_g_per_l(np.array([[30.0, 10.0], [30.0, 0.0]]), np.array([5.0, np.nan]))
    assert np.isnan(jars).tolist() == [True, False]


def test_acid_on_the_fibre_comes_from_liquor_and_soak() -> None:
    assert acid_pct_owf(1.5, 2.0, 1.0, 4.0) == pytest.approx(0.3 + 0.4)
    assert np.isnan(acid_pct_owf(1.5, np.nan, 1.0, 0.0))
    assert np.isnan(acid_pct_owf(1.5, 2.0, 1.0, np.nan))


def test_a_dry_fibre_brings_no_acid_whatever_its_water_had() -> None:
    assert acid_pct_owf(1.5, 2.0, 0.0, np.nan) == pytest.approx(0.3)


@pytest.mark.parametrize(
    ("amounts_ml", "acids", "expected"),
    [
        # dye, water, citric stock to 10 g/L: enough water; some acid there already; too little water
        ([100.8, 25.2, 0.0], [0.0, 0.0, 200.0], [100.8, 18.9, 6.3]),
        ([50.0, 47.5, 2.5], [0.0, 0.0, 200.0], [50.0, 45.0, 5.0]),
        ([99.0, 1.0, 0.0], [0.0, 0.0, 200.0], [99.0, 0.0, 1.0]),
        # nothing to replace, enough acid already, and a line weaker than what it would replace: left alone
        ([100.0, 0.0, 0.0], [0.0, 0.0, 200.0], [100.0, 0.0, 0.0]),
        ([50.0, 50.0, 0.0], [20.0, 20.0, 200.0], [50.0, 50.0, 0.0]),
        ([50.0, 50.0, 0.0], [0.0, 15.0, 5.0], [50.0, 50.0, 0.0]),
    ],
)
def test_an_acid_line_takes_its_room_from_the_let_down(
    amounts_ml: list[float], acids: list[float], expected: list[float]
) -> None:
    amounts = np.array([amounts_ml])
    lined = with_acid_line(amounts, np.array(acids), LET_DOWN, 2, 10.0)
    assert lined.tolist() == [pytest.approx(expected)]
    assert amounts.tolist() == [amounts_ml]  # what came in is not changed


def _tables(shape: tuple[int, int]) -> st.SearchStrategy[NDArray[np.float64]]:
    rows, columns = shape
    row = st.lists(st.just(0.0) | st.floats(0.01, 500.0), min_size=columns, max_size=columns)
    return st.lists(row, min_size=rows, max_size=rows).map(np.array)


@given(_tables((4, 5)), _tables((1, 5)), st.floats(0.0, 50.0))
def test_an_acid_line_keeps_volume_and_dye_and_never_overshoots(
    amounts: NDArray[np.float64], acids: NDArray[np.float64], target: float
) -> None:
    let_down = np.array([False, False, True, True, True])
    acid = acids[0]
    lined = with_acid_line(amounts, acid, let_down, 4, target)
    assert lined.min() >= 0.0
    assert lined[:, :2].tolist() == amounts[:, :2].tolist()
    assert lined.sum(axis=1) == pytest.approx(amounts.sum(axis=1), rel=1e-9)
    before, after = jar_acid_g_per_l(amounts, acid), jar_acid_g_per_l(lined, acid)
    assert (after <= np.maximum(before, target) * (1.0 + 1e-9) + 1e-9).all()
    assert (after >= before * (1.0 - 1e-9) - 1e-9).all()


def test_a_line_of_next_to_no_acid_takes_all_the_let_down_and_no_more() -> None:
    amounts, acids = np.array([[5.0, 5.0, 0.0]]), np.array([0.0, 0.0, 5e-324])
    lined = with_acid_line(amounts, acids, np.array([False, True, True]), 2, 1.0)
    assert lined.tolist() == [[5.0, 0.0, 5.0]]
