"""If these fail, a figure is wrong, cut, or stands under another section."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtGui import QPainter

from studio_gui.drawing.figures_row import paint_figures, paint_figures_heading, state_of
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.lay_rows import FIGURES_HEIGHT
from studio_gui.drawing.look import Look
from studio_gui.drawing.troughs import showing
from tests.drawing.pictures import Columns, box_of, grey, laid, painted, texts
from tests.drawing.plans import plain_plan, plan_of_states

pytestmark = pytest.mark.usefixtures("qapp")


def heading(painter: QPainter, layout: LayLayout, look: Look, _: Columns) -> None:
    paint_figures_heading(painter, layout, look)


@given(st.integers(1, 200), st.data(), st.sampled_from([420.0, 700.0, 1000.0, 1400.0]))
def test_figures_stay_under_their_section(count: int, data: st.DataObject, width: float) -> None:
    layout = laid(plan_of_states(count), width)
    index = data.draw(st.integers(0, count - 1))
    middle = (layout.edges_x[index] + layout.edges_x[index + 1]) / 2.0
    box = box_of(painted(paint_figures, layout, (middle, middle + 0.01), grounded=False))
    which = showing(layout, (middle, middle + 0.01))
    if not box.isNull():
        assert layout.edges_x[which.start] - 3.0 <= box.left()
        assert box.right() <= layout.edges_x[which.stop] + 3.0
        assert layout.figures_top <= box.top()
        assert box.bottom() <= layout.figures_top + FIGURES_HEIGHT


def test_what_is_right_is_told_quietly_and_what_is_wrong_in_words() -> None:
    said = texts(paint_figures, laid(plan_of_states(7), 1600.0))
    grams = 100.0 / 7
    assert f"{1.4 * grams:.1f} ml" in said
    assert f"1.40 ml/g · {grams:.1f} g" in said
    for words in (
        "holding 2.40 of 3.00",
        "core may stay white",
        f"{0.25 * grams:.1f} ml over the brim",
        f"wiped {0.5 * grams:.1f} ml",
        f"{0.5 * grams:.1f} ml in a second pass",
        "stays undyed",
    ):
        assert words in said


@pytest.mark.parametrize(("width", "bare"), [(1000.0, False), (420.0, True)])
def test_figures_have_their_unit_with_them_or_beside_the_row(width: float, bare: bool) -> None:
    layout = laid(plain_plan(8), width)
    assert texts(heading, layout) == ["ml"]
    assert texts(paint_figures, layout)[0] == ("31.3" if bare else "31.3 ml")


def test_many_sections_are_counted_beside_bars() -> None:
    layout = laid(plan_of_states(140))
    assert texts(heading, layout) == ["20 over", "20 under"]
    assert texts(paint_figures, layout) == []


def test_bars_differ_without_hue() -> None:
    layout = laid(plan_of_states(140))
    shades = grey(painted(paint_figures, layout))
    rows = slice(round(layout.figures_top), round(layout.figures_top) + 10)
    under, over = (
        shades[rows, int((layout.edges_x[index] + layout.edges_x[index + 1]) / 2.0)] for index in (1, 2)
    )
    table = shades[0, 0]
    assert np.count_nonzero(over < table - 60.0) > np.count_nonzero(under < table - 60.0) > 0


def test_fibre_without_liquor_stays_undyed_unless_it_drips() -> None:
    figures = laid(plan_of_states(7)).sheet.figures
    assert [state_of(figures, index) for index in range(7)] == [
        "in range",
        "under",
        "over",
        "in range",
        "in range",
        "undyed",
        "in range",
    ]
