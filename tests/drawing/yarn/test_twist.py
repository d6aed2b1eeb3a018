"""If these fail, twisted yarn shows colours that none of its strands has, or is made anew for every frame."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from studio_gui.drawing.yarn.colouring import ColouredTwist
from studio_gui.drawing.yarn.twist import TwistMaps, TwistPlace, pitch_for, twist_maps

RED, BLUE, GREEN = (0.6, 0.02, 0.02), (0.02, 0.05, 0.6), (0.02, 0.5, 0.03)


def maps(strands: int, height: int = 48, ratio: float = 1.0) -> TwistMaps:
    return twist_maps(TwistPlace(160, height, strands, pitch_for(height, strands), ratio))


def shown(twist: TwistMaps, *colours: tuple[float, float, float]) -> NDArray[np.uint8]:
    """Return (height, width, 4) blue, green, red, alpha of strands in plain colours."""
    linear = np.array(colours)[:, np.newaxis, :] * np.ones((1, twist.place.width, 1))
    coloured = ColouredTwist(twist)
    image = coloured.show(linear)
    return np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.width(), 4).copy()


@pytest.mark.parametrize("strands", [1, 2, 3, 4, 6])
@pytest.mark.parametrize("height", [8, 14, 48])
def test_every_pixel_shows_one_of_the_strands(strands: int, height: int) -> None:
    twist = maps(strands, height)
    columns = twist.place.columns
    assert twist.keys.min() >= 0
    assert twist.keys.max() < strands * columns
    assert set(np.unique(twist.strands).tolist()) == set(range(strands))
    assert np.all((twist.cover > 0.0) & (twist.cover <= 1.0))
    assert np.all(twist.light >= 0.0)
    assert np.isfinite(twist.sheen).all()


def test_a_yarn_of_one_colour_has_only_shades_of_it() -> None:
    pixels = shown(maps(2), RED, RED).astype(float)
    opaque = pixels[pixels[..., 3] == 255]
    assert (opaque[:, 2] > opaque[:, 1]).all()
    assert (opaque[:, 2] > opaque[:, 0]).all()
    assert opaque[:, 2].std() > 8.0, "it is no flat band"


def test_another_colour_of_one_strand_leaves_the_others_as_they_were() -> None:
    twist = maps(2)
    before, after = shown(twist, RED, BLUE), shown(twist, RED, GREEN)
    changed = np.flatnonzero((before != after).any(axis=-1))
    of_second = twist.pixels[(twist.strands == 1).any(axis=0)]
    assert set(changed.tolist()) <= set(of_second.tolist())
    assert len(changed) > 0.25 * len(twist.pixels)


@pytest.mark.parametrize("changed", [slice(40, 44), slice(0, 3), slice(157, 160), slice(10, 150), slice(0)])
def test_a_picture_that_took_on_new_colours_is_the_one_made_anew(changed: slice) -> None:
    twist = maps(2)
    linear = np.stack([np.full((160, 3), RED), np.full((160, 3), BLUE)])
    kept = ColouredTwist(twist)
    kept.show(linear)
    linear = linear.copy()
    linear[1, changed] = GREEN
    after, anew = kept.show(linear), ColouredTwist(twist).show(linear)
    assert after == anew


def test_strands_take_turns_along_the_yarn() -> None:
    twist = maps(2)
    here = (twist.pixels // twist.place.width) == twist.place.height // 2
    assert np.count_nonzero(np.diff(twist.strands[0][here])) >= 4


def test_edges_of_strands_are_smooth() -> None:
    twist = maps(2)
    mixed = (twist.strands[0] != twist.strands[1]).mean()
    assert 0.01 < mixed < 0.2, "some pixels show two strands, and most show one"


def test_valleys_between_strands_are_dark() -> None:
    twist = maps(2)
    light = twist.light.sum(axis=0)
    at_edges = twist.strands[0] != twist.strands[1]
    assert light[at_edges].mean() < 0.6 * np.percentile(light, 75)


def test_fibres_lie_along_the_yarn() -> None:
    twist = maps(2, 90)
    picture = np.zeros((twist.place.height, twist.place.width), np.float32)
    picture.reshape(-1)[twist.pixels] = twist.light.sum(axis=0)
    inner = picture[30:60]
    along, across = np.abs(np.diff(inner, axis=1)).mean(), np.abs(np.diff(inner, axis=0)).mean()
    assert along < 0.8 * across


def test_a_wider_picture_goes_on_where_the_narrow_one_ends() -> None:
    narrow = maps(2)
    wide = twist_maps(TwistPlace(260, 48, 2, pitch_for(48, 2), 1.0))
    both = [np.zeros((48, one.place.width), np.float32) for one in (narrow, wide)]
    for one, light in zip((narrow, wide), both, strict=True):
        light.reshape(-1)[one.pixels] = one.light.sum(axis=0)
    assert np.array_equal(both[0], both[1][:, :160])


def test_nothing_is_drawn_outside_the_yarn() -> None:
    pixels = shown(maps(2), RED, BLUE)
    assert pixels[0, :, 3].max() == 0
    assert pixels[-1, :, 3].max() == 0


def test_the_same_place_gives_the_same_maps() -> None:
    one, other = maps(3), maps(3)
    assert np.array_equal(one.keys, other.keys)
    assert np.array_equal(one.light, other.light)


def test_a_change_of_colour_feathers_along_the_fibres_and_no_further() -> None:
    twist = maps(1)
    width, reach = twist.place.width, twist.place.margin
    half = width // 2
    linear = np.where((np.arange(width) < half)[:, np.newaxis], RED, BLUE)[np.newaxis]
    coloured = ColouredTwist(twist)
    image = coloured.show(linear)
    pixels = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), width, 4).astype(int)
    red, opaque = pixels[..., 2] > pixels[..., 0], pixels[..., 3] == 255
    assert red[:, : half - reach][opaque[:, : half - reach]].all()
    assert not red[:, half + reach :][opaque[:, half + reach :]].any()
    near = slice(half - 2, half + 2)
    assert 0.1 < red[:, near][opaque[:, near]].mean() < 0.9
