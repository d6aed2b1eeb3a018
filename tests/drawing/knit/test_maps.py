"""If these fail, knitting shows colours that none of its yarn has, or the wrong row of it."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from studio_gui.drawing.knit.colouring import ColouredKnit
from studio_gui.drawing.knit.maps import knit_maps
from studio_gui.drawing.knit.place import SAMPLES, KnitPlace

RED, BLUE, GREEN = (0.6, 0.02, 0.02), (0.02, 0.05, 0.6), (0.02, 0.5, 0.03)


def pixels(place: KnitPlace, linear: NDArray[np.float64]) -> NDArray[np.uint8]:
    """Return (height, width, 4) blue, green, red, alpha."""
    coloured = ColouredKnit(knit_maps(place))
    image = coloured.show(linear)
    return np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.width(), 4).copy()


def plain(place: KnitPlace, *colours: tuple[float, float, float]) -> NDArray[np.float64]:
    return np.array(colours)[:, np.newaxis, :] * np.ones((1, place.samples, 1))


def middle(place: KnitPlace, row: int, column: int) -> tuple[int, int]:
    """Return the device pixel in the middle of a stitch, y and x; columns from the left."""
    y = place.margin_y + place.rows * place.stitch_height - round((row + 0.45) * place.stitch_height)
    return y, place.margin_x + round((column + 0.25) * place.stitch_width)


@pytest.mark.parametrize("strands", [1, 2, 3, 8])
@pytest.mark.parametrize(("width", "height"), [(4, 3), (5, 4), (15, 11), (26, 18)])
def test_every_pixel_shows_a_piece_of_the_yarn(strands: int, width: int, height: int) -> None:
    place = KnitPlace(12, 13, width, height, strands)
    maps = knit_maps(place)
    for keys in (maps.keys, maps.second_keys):
        assert keys.min() >= 0
        assert keys.max() < strands * place.samples
    assert set(np.unique(maps.keys // place.samples).tolist()) == set(range(strands))
    assert np.all((maps.cover > 0.0) & (maps.cover <= 1.0))
    assert np.all(maps.light >= 0.0)
    assert np.all(maps.second_light > 0.0)


@pytest.mark.parametrize("rows", [1, 2, 9, 10, 11, 30])
@pytest.mark.parametrize("columns", [1, 2, 8, 9, 25])
def test_every_stitch_is_seen(rows: int, columns: int) -> None:
    place = KnitPlace(columns, rows, 10, 7, 1)
    stitches = np.unique(knit_maps(place).keys // SAMPLES)
    assert stitches.tolist() == list(range(rows * columns))


def test_there_is_no_hole_in_the_fabric() -> None:
    place = KnitPlace(20, 20, 15, 11, 2)
    image = pixels(place, plain(place, RED, BLUE))
    room_y, room_x = place.margin_y + place.stitch_height, place.margin_x + 2
    assert (image[room_y:-room_y, room_x:-room_x, 3] == 255).all()


def test_a_yarn_of_one_colour_has_only_shades_of_it() -> None:
    place = KnitPlace(10, 10, 15, 11, 2)
    image = pixels(place, plain(place, RED, RED)).astype(float)
    opaque = image[image[..., 3] == 255]
    assert (opaque[:, 2] > opaque[:, 1]).all()
    assert (opaque[:, 2] > opaque[:, 0]).all()
    assert opaque[:, 2].std() > 12.0, "it is no flat cloth"


@pytest.mark.parametrize(("in_the_round", "first_is_back"), [(False, False), (False, True), (True, False)])
def test_rows_run_to_and_fro_and_in_the_round_all_one_way(in_the_round: bool, first_is_back: bool) -> None:
    place = KnitPlace(20, 12, 15, 11, 1, in_the_round=in_the_round, first_is_back=first_is_back)
    fraction = (np.arange(place.samples) % place.samples_per_row) / place.samples_per_row
    linear = np.where((fraction < 0.5)[:, np.newaxis], RED, BLUE)[np.newaxis]
    image = pixels(place, linear).astype(int)
    for row in range(2, 10):
        y, x = middle(place, row, 2)
        begins_on_the_left = image[y, x, 2] > image[y, x, 0]
        y, x = middle(place, row, 17)
        assert begins_on_the_left != (image[y, x, 2] > image[y, x, 0])
        assert begins_on_the_left == (not in_the_round and (row + first_is_back) % 2 == 1)


def test_rows_lie_above_each_other_from_the_cast_on_up() -> None:
    place = KnitPlace(20, 24, 15, 11, 1)
    row = np.arange(place.samples) // place.samples_per_row
    image = pixels(place, np.where((row < 12)[:, np.newaxis], RED, BLUE)[np.newaxis]).astype(int)
    reds = [bool(np.subtract(*image[middle(place, row, 9)][[2, 0]]) > 0) for row in range(24)]
    assert reds == [True] * 12 + [False] * 12


def test_another_colour_of_one_strand_leaves_the_rest_as_it_was() -> None:
    place = KnitPlace(12, 12, 15, 11, 2)
    maps = knit_maps(place)
    before, after = (pixels(place, plain(place, RED, other)) for other in (BLUE, GREEN))
    changed = np.flatnonzero((before != after).any(axis=-1))
    of_second = maps.pixels[maps.keys >= place.samples]
    assert set(changed.tolist()) <= set(of_second.tolist()) | set(maps.pixels[maps.seconds].tolist())
    assert 0.25 < len(changed) / len(maps.pixels) < 0.95


def test_wool_lets_the_ground_through_only_at_its_rim() -> None:
    place = KnitPlace(12, 12, 15, 11, 2)
    image = pixels(place, plain(place, RED, BLUE))
    assert image[0, :, 3].max() == 0
    assert image[-1, :, 3].max() == 0
    assert (image[..., :3].max(axis=-1) <= image[..., 3]).all(), "colours are multiplied by their cover"


def test_the_same_place_gives_the_same_maps() -> None:
    place = KnitPlace(14, 15, 12, 9, 3)
    one, other = knit_maps(place), knit_maps(place)
    assert np.array_equal(one.keys, other.keys)
    assert np.array_equal(one.light, other.light)
