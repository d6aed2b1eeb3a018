"""If these fail, wool is drawn where none lies, in another colour, or changes its look as it is moved."""

from __future__ import annotations

import dataclasses
from concurrent.futures import ThreadPoolExecutor

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.drawing.fibre.maps import SHADES, FibreMaps, fibre_maps
from studio_gui.drawing.fibre.place import FibrePlace
from tests.drawing.fibre.places import strands_place


def same(one: FibreMaps, other: FibreMaps) -> bool:
    """Whether two maps draw the same."""
    return all(
        np.array_equal(getattr(one, name), getattr(other, name)) for name in ("keys", "cover", "shadow")
    )


@given(
    passes=st.integers(1, 6),
    rovings=st.integers(1, 3),
    height=st.floats(4.0, 60.0),
    left=st.floats(-3000.0, 300.0),
    length=st.floats(1.0, 5000.0),
)
def test_maps_have_the_pictures_shape_and_keys_in_range(
    passes: int, rovings: int, height: float, left: float, length: float
) -> None:
    place = strands_place(passes, rovings=rovings, height=height, width=150, left=left, right=left + length)
    maps = fibre_maps(place)
    for array in (maps.keys, maps.cover, maps.shadow, maps.column_index, maps.shade_step):
        assert array.shape == (place.height, place.width)
    assert maps.keys.min() >= 0
    assert (maps.keys < maps.columns * SHADES).tolist() == (maps.cover > 0).tolist()
    assert maps.column_index.max() < maps.columns
    assert maps.shade_step.max() < SHADES


@pytest.mark.parametrize("height", [8.0, 32.0, 64.0])
def test_wool_covers_its_strands_and_nothing_far_from_them(height: float) -> None:
    place = strands_place(1, height=height)
    cover = fibre_maps(place).cover
    strand = place.strands[0]
    top, bottom = round(strand.top), round(strand.top + height)
    assert cover[top + 3 : bottom - 3, 100:300].min() > 235
    assert not cover[: max(top - 19, 0)].any()
    assert not cover[bottom + 19 :].any()


def test_free_ends_fray_no_farther_than_the_extra_film_allows() -> None:
    place = strands_place(1)
    cover = fibre_maps(place).cover
    left, right = 40 - round(0.7 * place.extra_px), 360 + round(0.7 * place.extra_px)
    assert not cover[:, : left - 1].any()
    assert not cover[:, right + 1 :].any()
    rows = slice(24, 48)
    assert cover[rows, 32:40].any(), "no fibre leaves the end"
    assert (cover[rows, 36:44] == 0).any(), "the end is cut straight"


def test_without_extra_film_nothing_frays_over_its_edge() -> None:
    place = dataclasses.replace(strands_place(1), extra_px=0.0)
    assert not fibre_maps(place).cover[:, :39].any()


@pytest.mark.parametrize("passes", [2, 3, 4])
def test_a_fold_is_a_turn_at_its_end_of_the_lay(passes: int) -> None:
    place = strands_place(passes)
    cover = fibre_maps(place).cover
    gap = slice(round(20.0 + 32.0), round(20.0 + 36.0))
    assert cover[gap, 340:356].min() > 200, "the turn does not reach round"
    assert cover[gap, 60:300].mean() < 120, "the legs are grown together"
    if passes > 2:
        next_gap = slice(round(20.0 + 36.0 + 32.0), round(20.0 + 72.0))
        assert cover[next_gap, 44:60].min() > 200
        assert cover[next_gap, 100:340].mean() < 120
    assert not cover[:, 366:].any() or passes % 2 == 1


def test_shade_runs_on_from_the_legs_into_the_turn() -> None:
    maps = fibre_maps(strands_place(2, height=48.0))
    joint = 360 - round((48.0 * 2.125) / 2.0)
    shade = maps.shade_step.astype(int)
    rows = np.r_[24:64, 78:118]
    across_joint = np.abs(shade[rows, joint] - shade[rows, joint - 1]).mean()
    elsewhere = np.abs(np.diff(shade[rows, 150:250], axis=1)).mean()
    assert across_joint < 2.0 * elsewhere + 1.0


def test_the_inside_of_a_bend_is_darker_than_the_leg_before_it() -> None:
    shade = fibre_maps(strands_place(2, height=48.0)).shade_step.astype(float)
    joint = 360 - round((48.0 * 2.125) / 2.0)
    inner = slice(20 + 36, 20 + 46)
    assert shade[inner, joint - 2 : joint + 4].mean() < shade[inner, 100:250].mean() - 2.0


def test_fibres_take_colour_from_no_farther_than_the_margin_and_on_average_from_where_they_lie() -> None:
    place = strands_place(1)
    maps = fibre_maps(place)
    wool = maps.cover > 0
    away = (maps.column_index - maps.margin - np.arange(place.width))[wool]
    assert np.abs(away).max() <= maps.margin
    assert abs(away.mean()) < 0.1 * place.wicking_px
    assert away.std() > 0.2 * place.wicking_px, "edges do not feather"


def test_colours_keep_their_order_along_the_film() -> None:
    """Colour 0 left of column 200 and colour 1 right of it: no mixture but near the edge, turns included."""
    place = strands_place(2)
    maps = fibre_maps(place)
    right_colour = maps.column_index - maps.margin >= 200
    wool = maps.cover > 0
    assert not (right_colour & wool)[:, : 200 - maps.margin].any()
    assert (right_colour | ~wool)[:, 200 + maps.margin :].all()


@pytest.mark.parametrize("pan", [37, 301])
@pytest.mark.parametrize("passes", [1, 3])
@pytest.mark.parametrize("left", [-700.0, 60.0])
def test_fibres_move_with_the_wool_when_the_view_moves_along(pan: int, passes: int, left: float) -> None:
    before = fibre_maps(strands_place(passes, left=left, right=700.0))
    after = fibre_maps(strands_place(passes, left=left - pan, right=700.0 - pan))
    wool = np.flatnonzero(after.cover[:, :-pan])
    for name in ("shade_step", "column_index"):
        old, new = getattr(before, name)[:, pan:].astype(int), getattr(after, name)[:, :-pan].astype(int)
        moved = pan if name == "column_index" else 0
        assert np.array_equal(old.ravel()[wool] - moved, new.ravel()[wool]), name
    assert np.array_equal(before.shadow[:, pan:], after.shadow[:, :-pan])
    assert np.array_equal(before.cover[:, pan:], after.cover[:, :-pan])


def test_rovings_beside_each_other_are_no_copies() -> None:
    place = strands_place(1, rovings=2, height=32.0)
    shade = fibre_maps(place).shade_step.astype(float)
    step = round(place.strands[1].top - place.strands[0].top)
    one, other = shade[24:48, 80:320], shade[24 + step : 48 + step, 80:320]
    one, other = one - one.mean(axis=1, keepdims=True), other - other.mean(axis=1, keepdims=True)
    assert abs(np.corrcoef(one.ravel(), other.ravel())[0, 1]) < 0.3


def test_thin_strands_are_plain_tubes_without_feathered_edges() -> None:
    maps = fibre_maps(strands_place(1, height=8.0))
    wool = np.flatnonzero(maps.cover == 255)
    away = maps.column_index - maps.margin - np.arange(400)
    assert not away.ravel()[wool].any()
    row = maps.shade_step[24]
    assert np.ptp(row[60:340]) == 0


def test_shadow_lies_under_the_wool_and_fades() -> None:
    shadow = fibre_maps(strands_place(1)).shadow
    assert shadow[54, 100:300].min() > 20
    assert shadow[70, 200] < shadow[54, 200]
    assert not shadow[0].any()


def test_maps_depend_on_the_place_alone_on_whatever_thread() -> None:
    places: list[FibrePlace] = [
        strands_place(2),
        strands_place(3, rovings=2),
        strands_place(1, ratio=2.0),
    ] * 2
    alone = [fibre_maps(place) for place in places]
    with ThreadPoolExecutor(3) as threads:
        together = list(threads.map(fibre_maps, places))
    assert all(same(one, other) for one, other in zip(alone, together, strict=True))


def test_a_picture_without_wool_in_sight_is_bare() -> None:
    maps = fibre_maps(strands_place(2, left=900.0, right=2000.0))
    assert not maps.cover.any()
    assert not maps.shadow.any()


def test_legs_shorter_than_their_turns_stay_connected() -> None:
    maps = fibre_maps(strands_place(3, left=180.0, right=200.0))
    rows_with_wool = np.flatnonzero(maps.cover.max(axis=1) > 200)
    assert (np.diff(rows_with_wool) == 1).all()
