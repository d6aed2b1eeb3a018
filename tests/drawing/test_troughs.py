"""If these fail, a drawn area is not the millilitres it stands for."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.plan import Liquid
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.troughs import (
    BLEED,
    HIGHEST_BULGE,
    MOST_TROUGHS,
    NARROW_PX,
    NARROWEST_TROUGH,
    WALL_SHARE,
    bulge,
    is_outline,
    level_y,
    overhang,
    showing,
    troughs,
)
from tests.drawing.pictures import laid, pane
from tests.drawing.plans import WET, plain_plan, plan_of_states


def px2_per_ml(layout: LayLayout) -> float:
    """Return the area of a millilitre in the troughs of even top, px²."""
    lay_g_per_m = layout.sheet.totals.fibre_g / layout.sheet.plan.lay_length_m
    return layout.px_per_m * layout.px_per_ml_per_g / lay_g_per_m * (1.0 - 2.0 * WALL_SHARE)


@given(
    count=st.integers(1, 30),
    fixed_ml=st.floats(0.0, 400.0),
    wiped_ml=st.floats(0.0, 40.0),
    soak=st.floats(0.0, 5.0),
    rovings=st.integers(1, 3),
)
def test_the_area_below_the_level_is_what_the_fibre_holds(
    count: int, fixed_ml: float, wiped_ml: float, soak: float, rovings: int
) -> None:
    plan = change_section(plain_plan(count, rovings=rovings), "s1", fixed_ml=fixed_ml, wiped_ml=wiped_ml)
    layout = laid(dataclasses.replace(plan, liquid=Liquid(2.5, soak, 4.0, 1.5)), 1400.0)
    figures = layout.sheet.figures
    for trough in troughs(layout, range(count)):
        area = trough.width * (layout.gauge.bottom() - level_y(layout, trough.held))
        held_ml = max(
            soak * figures.fibre_g[trough.section]
            + figures.liquid_ml[trough.section]
            - plan.sections[trough.section].wiped_ml,
            0.0,
        )
        assert area == pytest.approx(held_ml * px2_per_ml(layout), abs=1e-6)


@given(st.floats(0.001, 0.3))
def test_the_area_of_a_bulge_is_what_the_fibre_cannot_hold(free_ml_per_g: float) -> None:
    grams = 100.0 / 6
    plan = change_section(plan_of_states(6, uneven=False), "s1", fixed_ml=(2.0 + free_ml_per_g) * grams)
    layout = laid(plan)
    (trough,) = troughs(layout, range(1))
    height, cut = bulge(layout, trough)
    assert not cut
    area = height * (trough.width + 2.0 * overhang(trough))
    assert area == pytest.approx(layout.sheet.figures.free_ml[0] * px2_per_ml(layout))


def test_a_bulge_without_room_is_cut() -> None:
    plan = change_section(plan_of_states(6), "s1", fixed_ml=2_000.0)
    layout = laid(plan)
    assert bulge(layout, troughs(layout, range(1))[0]) == (HIGHEST_BULGE, True)


def test_what_is_painted_later_is_a_band_below_the_level() -> None:
    layout = laid(plan_of_states(7))
    trough = troughs(layout, range(4, 5))[0]
    assert trough.held == pytest.approx(2.4)  # 1.0 soak, 1.4 in the first pass
    assert trough.second == pytest.approx(1.9)
    assert trough.before == pytest.approx(trough.held)


def test_wiping_leaves_the_level_before_it() -> None:
    trough = troughs(laid(plan_of_states(7)), range(3, 4))[0]
    assert trough.held == pytest.approx(2.4)
    assert trough.before == pytest.approx(2.9)


def test_unpainted_fibre_is_not_called_under() -> None:
    trough = troughs(laid(plan_of_states(7)), range(5, 6))[0]
    assert not trough.painted
    assert not trough.under
    assert trough.held == pytest.approx(WET.soak_ml_per_g)


@pytest.mark.parametrize("count", [MOST_TROUGHS, MOST_TROUGHS + 1])
def test_more_sections_than_troughs_are_an_outline(count: int) -> None:
    layout = laid(plain_plan(count), 4000.0)
    assert is_outline(layout) is (count > MOST_TROUGHS)
    assert all(trough.narrow is (count > MOST_TROUGHS) for trough in troughs(layout, range(count)))


@given(st.integers(2, 70))
def test_narrow_sections_fill_their_width(count: int) -> None:
    layout = laid(plain_plan(count), 700.0)
    for trough in troughs(layout, range(count)):
        if trough.narrow:
            assert (trough.left, trough.right) == tuple(layout.edges_x[trough.section : trough.section + 2])
        else:
            assert trough.width >= NARROWEST_TROUGH


@given(st.integers(1, 90), st.floats(0.0, 1.0), st.floats(0.0, 400.0))
def test_what_reaches_into_the_columns_shows(count: int, share: float, width: float) -> None:
    layout = laid(change_section(plain_plan(count), "s1", fixed_ml=500.0))
    left = pane(layout)[0] + share * layout.pane.width()
    shown = showing(layout, (left, left + width))
    edges = layout.edges_x
    for index in range(count):
        bleeds = index == 0 or edges[index + 1] - edges[index] < NARROW_PX
        reach = BLEED if bleeds else 0.0
        if edges[index] < left + width + reach and edges[index + 1] > left - reach:
            assert index in shown
    far = [index for index in shown if edges[index] > left + width + BLEED or edges[index + 1] < left - BLEED]
    assert not far
