"""If these fail, a trough shows another level than the worksheet's, or trouble that cannot be told."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from PySide6.QtCore import QRectF

from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.plan import Liquid
from studio_gui.drawing.gauges import paint_gauges
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.lay_rows import GAUGE_GAP
from studio_gui.drawing.look import DARK, LIGHT, Look
from studio_gui.drawing.troughs import BLEED, level_y, troughs
from tests.drawing.pictures import PAINTERS, box_of, grey, laid, painted
from tests.drawing.plans import STATES, plain_plan, plan_of_states

pytestmark = pytest.mark.usefixtures("qapp")


def trough_picture(layout: LayLayout, index: int, look: Look = LIGHT) -> NDArray[np.float64]:
    """Return the greys of one trough with what stands over its brim; all of the same size."""
    shades = grey(painted(paint_gauges, layout, look=look))
    left = round(layout.edges_x[index])
    top, bottom = round(layout.gauge.top() - GAUGE_GAP), round(layout.gauge.bottom())
    width = int(layout.edges_x[1] - layout.edges_x[0])
    return shades[top:bottom, left : left + width]


@given(
    count=st.integers(1, 40),
    applied=st.floats(0.0, 3.0),
    soak=st.floats(0.0, 1.0),
    ratio=st.sampled_from([1.0, 1.5, 2.0]),
)
def test_levels_stand_where_the_worksheet_says(count: int, applied: float, soak: float, ratio: float) -> None:
    plan = change_section(plain_plan(count), "s1", fixed_ml=applied * 100.0 / count)
    layout = laid(replace(plan, liquid=Liquid(2.5, soak, 4.0, 1.5)))
    pixels = painted(paint_gauges, layout, ratio=ratio)
    trough = troughs(layout, range(1))[0]
    middle = round((trough.left + trough.right) / 2.0 * ratio)
    near = max(round(trough.width / 4.0), 1)
    columns = pixels[:, middle - near : middle + near, :3].astype(int)
    ink = np.array([LIGHT.surface.blue(), LIGHT.surface.green(), LIGHT.surface.red()])
    top, bottom = round(layout.gauge.top() * ratio), round(layout.gauge.bottom() * ratio)
    level = level_y(layout, float(layout.sheet.figures.held_ml_per_g[0])) * ratio
    if bottom - level >= 3.0 and level - top >= 3.0:
        # the surface is the only line without a break
        surface = [row for row in range(top, bottom) if (np.abs(columns[row] - ink).max(axis=1) <= 2).all()]
        assert surface[0] == pytest.approx(level, abs=1.0)


@pytest.mark.parametrize("look", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize(
    "pair", list(combinations(range(len(STATES)), 2)), ids=lambda p: "-".join(STATES[i] for i in p)
)
def test_states_are_told_apart_without_hue(look: Look, pair: tuple[int, int]) -> None:
    layout = laid(plan_of_states(len(STATES), uneven=False), 1200.0)
    first, second = (trough_picture(layout, index, look) for index in pair)
    assert np.count_nonzero(np.abs(first - second) > 40.0) > 100


def test_a_bulge_that_goes_on_is_marked() -> None:
    """Both fill the gauge's room; only one is all there is."""
    plan = plan_of_states(7, uneven=False)
    some, much = (change_section(plan, "s3", fixed_ml=ml * 100.0 / 7) for ml in (2.35, 20.0))
    first, second = (trough_picture(laid(one), 2) for one in (some, much))
    middle = slice(first.shape[1] // 2 - 10, first.shape[1] // 2 + 10)
    assert np.abs(first[:8, middle] - second[:8, middle]).max() > 60.0


@pytest.mark.parametrize("ratio", [1.0, 1.25, 2.0])
@pytest.mark.parametrize("look", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize(
    "liquid",
    [
        Liquid(20.0, 1.0, 3.0, 1.2),
        Liquid(0.5, 2.0, 1.0, 1.5),
        Liquid(0.01, 0.0, 0.1, 0.0),
        Liquid(1.0, 0.0, 40.0),
    ],
    ids=["flooded", "limit below soak", "dry", "deep"],
)
def test_strange_measures_can_be_painted(liquid: Liquid, look: Look, ratio: float) -> None:
    layout = laid(plan_of_states(9, liquid=liquid))
    pixels = painted(paint_gauges, layout, look=look, ratio=ratio, grounded=False)
    box = box_of(pixels)
    room = QRectF(
        layout.edges_x[0] - BLEED,
        layout.gauge.top() - GAUGE_GAP,
        layout.edges_x[-1] - layout.edges_x[0] + 2.0 * BLEED,
        layout.gauge.height() + GAUGE_GAP + 2.0,
    )
    assert QRectF(room.topLeft() * ratio, room.size() * ratio).contains(box)


@pytest.mark.parametrize("name", PAINTERS)
@pytest.mark.parametrize("count", [1, 3, 12, 50, 120, 200])
def test_a_part_is_painted_as_in_the_whole(name: str, count: int) -> None:
    layout = laid(plan_of_states(count, rovings=2, passes=2))
    whole = painted(PAINTERS[name], layout)
    first = count // 3
    within = (layout.edges_x[first], layout.edges_x[min(first + 2, count)])
    part = painted(PAINTERS[name], layout, within)
    columns = slice(round(within[0]) + 1, round(within[1]) - 1)
    assert np.array_equal(part[:, columns], whole[:, columns])


@pytest.mark.parametrize("name", PAINTERS)
@pytest.mark.parametrize("count", [3, 12, 50, 200])
def test_nothing_is_painted_beside_the_sections_that_show(name: str, count: int) -> None:
    layout = laid(plan_of_states(count, rovings=2, passes=2))
    index = count // 2
    middle = (layout.edges_x[index] + layout.edges_x[index + 1]) / 2.0
    pixels = painted(PAINTERS[name], layout, (middle - 0.5, middle + 0.5), grounded=False)
    showing = layout.sections_within(middle - 0.5 - BLEED, middle + 0.5 + BLEED)
    left, right = layout.edges_x[showing.start] - BLEED, layout.edges_x[showing.stop] + BLEED
    box = box_of(pixels)
    # a gap or an overlap belongs to the sections on both its sides
    gap = max(abs(boundary.gap_m) for boundary in layout.sheet.plan.boundaries) / 2.0 * layout.px_per_m
    reach = gap + 2.0 if name == "film marks" else 0.0
    if not box.isNull():
        assert left - reach <= box.left()
        assert box.right() <= right + 1.0 + reach


@pytest.mark.parametrize("name", PAINTERS)
def test_columns_beside_the_lay_show_nothing(name: str) -> None:
    layout = laid(plan_of_states(5))
    assert box_of(painted(PAINTERS[name], layout, (-100.0, 20.0), grounded=False)).isNull()
