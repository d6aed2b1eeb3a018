"""If these fail, a stain, a dry core, a wipe, a gap or an overlap cannot be seen on the film."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from PySide6.QtGui import QPainter

from studio_gui.domain.edits.boundaries import set_gap
from studio_gui.drawing.film_marks import paint_film_marks, paint_stains
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.lay_rows import FILM_FOOT, SLIP_HEIGHT
from studio_gui.drawing.look import DARK, LIGHT, Look, contrast, mixed
from tests.drawing.pictures import Columns, box_of, grey, laid, painted, texts
from tests.drawing.plans import plain_plan, plan_of_states

pytestmark = pytest.mark.usefixtures("qapp")


def both(painter: QPainter, layout: LayLayout, look: Look, within: Columns) -> None:
    paint_stains(painter, layout, look, within)
    paint_film_marks(painter, layout, look, within)


@pytest.mark.parametrize("look", [LIGHT, DARK], ids=["light", "dark"])
def test_each_trouble_has_a_shape_of_its_own(look: Look) -> None:
    layout = laid(plan_of_states(7, uneven=False))
    shades = grey(painted(both, layout, look=look))
    width = int(layout.edges_x[1] - layout.edges_x[0])
    top, bottom = round(layout.film.top()), round(layout.film.bottom())
    crops = [shades[top:bottom, round(left) : round(left) + width] for left in layout.edges_x[:4]]
    assert np.ptp(crops[0][:, 5:-5]) == 0.0, "nothing is marked where all is right"
    for first, second in pairwise(crops):
        assert np.count_nonzero(np.abs(first - second) > 40.0) > 60


@pytest.mark.parametrize("rovings", [1, 2])
@pytest.mark.parametrize("passes", [1, 2])
def test_marks_keep_to_the_film_below_the_slips(rovings: int, passes: int) -> None:
    layout = laid(plan_of_states(12, rovings=rovings, passes=passes))
    box = box_of(painted(both, layout, grounded=False))
    assert layout.film.top() + 6.0 + SLIP_HEIGHT <= box.top()
    assert box.bottom() <= layout.film.bottom()


def test_the_width_of_a_gap_is_written_at_the_foot_where_there_is_room() -> None:
    plan = plain_plan(3)
    wide, narrow = (laid(set_gap(plan, 0, gap_m)) for gap_m in (0.3, 0.05))
    assert texts(paint_film_marks, wide) == ["30.0 cm"]
    assert texts(paint_film_marks, narrow) == []
    # and never on wool
    bare = set_gap(plan, 0, 0.3)
    rows = np.nonzero(painted(both, laid(bare), grounded=False)[:, :, 3].any(axis=1))[0]
    lowest_wool = wide.strands[-1].rect.bottom()
    below = rows[rows > wide.strands[0].rect.top()]
    assert below.min() >= lowest_wool
    assert lowest_wool + FILM_FOOT >= below.max()


@pytest.mark.parametrize("gap_m", [0.2, -0.2])
def test_gaps_and_overlaps_are_marked_as_wide_as_they_are(gap_m: float) -> None:
    layout = laid(set_gap(plain_plan(3), 1, gap_m))
    box = box_of(painted(both, layout, grounded=False))
    half = abs(gap_m) / 2.0 * layout.px_per_m
    assert box.left() == pytest.approx(layout.edges_x[2] - half, abs=3.0)
    assert box.right() == pytest.approx(layout.edges_x[2] + half, abs=3.0)


@pytest.mark.parametrize("look", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("colour", ["film", "paper", "over", "soak", "surface"])
def test_the_rim_of_a_stain_stands_out_from_the_film(look: Look, colour: str) -> None:
    """Whatever the liquor's colour, even the film's own."""
    assert contrast(mixed(getattr(look, colour), look.surface, 0.6), look.film) >= 3.0
