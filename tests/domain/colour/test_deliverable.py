"""If these fail, amounts are asked for that the bench cannot measure, or that do not fit into the jar."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.colour.deliverable import counts_near
from tests.domain.colour.dyes import jars


def test_one_millilitre_of_a_one_per_cent_stock_on_ten_grams_is_a_tenth_of_a_per_cent() -> None:
    assert jars(1).doses(np.array([[1.0]])).tolist() == [[0.1]]


def test_bottles_of_one_dye_add_up() -> None:
    measuring = jars(1, (1.0, 0.1, 2.0), (0, 0, 1))
    assert measuring.doses(np.array([[3.0, 5.0, 1.0]]))[0] == pytest.approx([0.35, 0.2])
    assert measuring.finest(0).tolist() == [1]
    assert measuring.finest(1).tolist() == [2]
    assert measuring.least_graduations(np.array([[0.35, 0.2]])) == pytest.approx([4.5])


doses = st.floats(0.0, 4.0)


@given(doses, doses, st.sampled_from([0.1, 0.5, 1.0]), st.booleans())
def test_counts_are_whole_and_the_best_that_fit_are_within_a_graduation(
    first: float, second: float, graduation_ml: float, weak: bool
) -> None:
    strengths, dye_of = ((2.0, 0.2, 2.0), (0, 0, 1)) if weak else ((2.0, 2.0), (0, 1))
    measuring = jars(3, strengths, dye_of, graduation_ml=graduation_ml)
    wanted = np.tile([first, second], (3, 1))
    counts = counts_near(measuring, wanted)
    assert (counts >= 0.0).all()
    assert np.array_equal(counts, np.rint(counts))
    fits = measuring.fits(counts)
    assert fits.any(axis=1).all()
    away = np.abs(measuring.doses(counts) - wanted[:, np.newaxis]).max(axis=-1)
    assert np.where(fits, away, np.inf).min(axis=1).max() <= 0.2 * graduation_ml + 1e-9


def test_a_weak_stock_meets_what_a_strong_one_cannot() -> None:
    measuring = jars(1, (1.0, 0.1), (0, 0))
    counts = counts_near(measuring, np.array([[0.53]]))
    assert measuring.doses(counts)[0, 0] == pytest.approx([0.53])
    assert counts[0, 0].tolist() == [5.0, 3.0]


def test_where_nothing_is_wanted_nothing_is_measured() -> None:
    assert counts_near(jars(2), np.zeros((2, 1))).tolist() == [[[0.0]], [[0.0]]]
