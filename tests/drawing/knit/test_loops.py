"""If these fail, stitches are no loops: yarn is torn, or feet lie under the heads that they come out over."""

from __future__ import annotations

import numpy as np
import pytest

from studio_gui.drawing.knit.loops import REACH_ASIDE, Wobble, knitted_loop, knitted_surface

WIDTH, HEIGHT = 40, 28


def test_the_whole_yarn_is_there() -> None:
    loop = knitted_loop(WIDTH, HEIGHT)
    along = np.sort(loop.along[loop.depth > -9.0])
    assert along[0] < 0.02
    assert along[-1] > 0.98
    assert np.diff(along).max() < 0.05


@pytest.mark.parametrize("wobble", [Wobble(), Wobble(0.06, -0.06, 1.06, 2.0)])
def test_a_loop_does_not_touch_the_edge_of_its_window(wobble: Wobble) -> None:
    there = knitted_loop(WIDTH, HEIGHT, wobble).depth > -9.0
    assert not there[0].any()
    assert not there[-1].any()
    assert not there[:, [0, -1]].any()
    assert there.shape[1] == 2 * round(REACH_ASIDE * WIDTH)


def test_a_perfect_loop_is_alike_on_both_sides() -> None:
    loop = knitted_loop(WIDTH, HEIGHT)
    assert np.array_equal(loop.depth > -9.0, loop.depth[:, ::-1] > -9.0)
    there = loop.depth > -9.0
    assert np.allclose((loop.along + loop.along[:, ::-1])[there], 1.0, atol=1e-5)


def test_feet_lie_over_the_head_of_the_loop_below() -> None:
    loops = [knitted_loop(WIDTH, HEIGHT)]
    lines, middles = np.array([180, 180 - HEIGHT, 180 - 2 * HEIGHT]), np.array([60])
    surface = knitted_surface((260, 120), loops, np.zeros((3, 1), np.intp), (lines, middles))
    beside = 60 + round(0.1 * WIDTH)
    for row in (1, 2):
        foot = lines[row] + round(0.05 * HEIGHT)
        assert surface.owner[foot, beside] == row
    head = lines[2] - round(1.60 * HEIGHT)
    assert surface.owner[head, 60] == 2, "over the last head nothing lies"
    assert set(np.unique(surface.owner).tolist()) == {-1, 0, 1, 2}
