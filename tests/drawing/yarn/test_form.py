"""If these fail, a strand is seen that another one hides, or the yarn has holes."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.drawing.yarn.form import Twist, seen, wander

X = np.arange(200, dtype=np.float32)


@given(
    strands=st.integers(1, 8),
    height=st.floats(8.0, 120.0),
    pitch=st.floats(6.0, 300.0),
    ratio=st.sampled_from([1.0, 1.5, 2.0]),
)
def test_every_place_shows_a_strand_as_it_is(strands: int, height: float, pitch: float, ratio: float) -> None:
    rows = np.linspace(-height / 2.0, height / 2.0, 9, dtype=np.float32)
    form = seen(Twist(strands, height, pitch, ratio), X, rows)
    assert form.strand.min() >= 0
    assert form.strand.max() < strands
    assert np.abs(form.across).max() <= 1.0
    assert form.gap.min() >= 0.0
    assert (form.half > 0.0).all()
    assert ((form.cover >= 0.0) & (form.cover <= 1.0)).all()
    for values in (form.slope, form.middle, form.height, form.gap):
        assert np.isfinite(values).all()


@pytest.mark.parametrize("strands", [1, 2, 3, 6])
def test_the_axis_is_covered_and_the_picture_s_edges_are_free(strands: int) -> None:
    twist = Twist(strands, 40.0, 55.0, 1.0)
    assert seen(twist, X, np.zeros(1, np.float32)).cover.min() == 1.0
    assert seen(twist, X, np.array([-21.0, 21.0], np.float32)).cover.max() == 0.0


def test_strands_in_front_lean_to_the_right() -> None:
    form = seen(Twist(2, 40.0, 55.0, 1.0), X, np.zeros(1, np.float32))
    assert (form.slope < 0.0).mean() > 0.95, "rows count downwards"


def test_noise_along_the_yarn_is_smooth_and_even() -> None:
    noise = wander(np.linspace(0.0, 4000.0, 40001), 20.0, 3)
    assert np.abs(noise).max() <= 1.0
    assert abs(noise.mean()) < 0.15
    assert np.abs(np.diff(noise)).max() < 0.02
