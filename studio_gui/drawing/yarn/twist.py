"""Twisted strands as maps: which strand and which place of it every pixel shows, how light and how opaque.

The rule of this module: maps depend on size and twist alone, never on colours; they are pure numpy and may be
made on any thread. The twist is not to scale: its pitch is in pixels, whatever the yarn's length.

Strand j turns about the yarn's axis: its centre is at ``a cos(t + 2 pi j / n)`` across the yarn and ``a sin``
of the same towards the eye; of two strands the nearer is seen. Fibres lie along the yarn, because plying
undoes the twist of the singles.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from studio_gui.drawing.fibre.tile import Floats, fibre_tile

#: Radius of a strand as a share of the yarn's, by the number of strands.
_RADIUS = {1: 1.0, 2: 0.60, 3: 0.52, 4: 0.47, 5: 0.43}
_LEAST_RADIUS = 0.40
#: Pitch as a share of the yarn's thickness, by the number of strands.
_PITCH = {1: 3.2, 2: 1.25, 3: 1.5}
_LONGEST_PITCH = 1.8
#: Thinner yarn, in px of the screen's scale, shows its lobes and no fibre.
LEAST_FIBRE_HEIGHT = 12.0
#: Farthest displacement of a fibre's colour, in deviations.
_FARTHEST = 2.5
_LIGHT_ACROSS, _LIGHT_TOWARDS = -0.60, 0.74


@dataclass(frozen=True, slots=True)
class TwistPlace:
    """All that the maps of a yarn depend on: device pixels, and strands beside each other (1 to 8).

    `pitch_px` is the length of yarn in which a strand turns once.
    """

    width: int
    height: int
    strands: int
    pitch_px: float
    device_pixel_ratio: float

    @property
    def feather_px(self) -> float:
        """Deviation of the places at which the fibres of a strand change colour."""
        return 1.5 * self.device_pixel_ratio + 0.03 * self.height

    @property
    def margin(self) -> int:
        """Colour columns at each side of the picture for fibres that reach out of it."""
        return math.ceil(_FARTHEST * self.feather_px) + 1

    @property
    def columns(self) -> int:
        """Number of colour columns of one strand: the picture's, and the margins."""
        return self.width + 2 * self.margin


@dataclass(frozen=True, eq=False)
class TwistMaps:
    """Maps of the m pixels of the yarn that show wool.

    `pixels` (m,) are places in the flattened picture, `keys` (m,) ``strand * columns + column`` of the strand
    in front, `light` (m,) how much of its colour they give back, `sheen` (m,) the white that glances off,
    `cover` (m,) 0 to 1. Pixels where a strand behind shows at the rim of the one in front are `rims` (r,)
    (places in those arrays), with `rim_keys` and `rim_light` of the one behind, which `light` makes room for.
    """

    place: TwistPlace
    pixels: NDArray[np.intp]
    keys: NDArray[np.intp]
    light: Floats
    sheen: Floats
    cover: Floats
    rims: NDArray[np.intp]
    rim_keys: NDArray[np.intp]
    rim_light: Floats


@dataclass(frozen=True, eq=False)
class _Body:
    """One strand over the whole picture: depth, cover, light, sheen, colour column, each (height, width)."""

    depth: Floats
    cover: Floats
    light: Floats
    sheen: Floats
    column: NDArray[np.intp]


def pitch_for(height_px: float, strands: int) -> float:
    """Return the pitch (px) that looks like yarn of a height: lobes a little longer than they are thick.

    >>> pitch_for(40.0, 2)
    50.0
    """
    return height_px * _PITCH.get(strands, _LONGEST_PITCH)


def twist_maps(place: TwistPlace) -> TwistMaps:
    """Return the maps of a yarn: about 0.1 s for 1200 by 60 px of two strands."""
    bodies = [_body(place, number) for number in range(place.strands)]
    depths = np.stack([np.where(one.cover > 0.0, one.depth, -np.inf) for one in bodies])
    order = np.argsort(-depths, axis=0, kind="stable")
    front = order[0]
    cover = _of(bodies, "cover", front)
    behind_cover = np.zeros_like(cover)
    back = front
    if place.strands > 1:
        back = order[1]
        behind_cover = _of(bodies, "cover", back)
    alpha = cover + (1.0 - cover) * behind_cover
    pixels = np.flatnonzero(alpha > 1.0 / 255.0)
    kept = alpha.reshape(-1)[pixels]
    share = np.divide(cover.reshape(-1)[pixels], kept)
    rims = np.flatnonzero(share < 1.0 - 1.0 / 255.0)
    columns = place.columns
    keys = (front * columns + _of(bodies, "column", front)).reshape(-1)[pixels]
    rim_keys = (back * columns + _of(bodies, "column", back)).reshape(-1)[pixels][rims]
    return TwistMaps(
        place=place,
        pixels=pixels,
        keys=keys,
        light=_of(bodies, "light", front).reshape(-1)[pixels] * share,
        sheen=_of(bodies, "sheen", front).reshape(-1)[pixels] * share,
        cover=kept,
        rims=rims,
        rim_keys=rim_keys,
        rim_light=_of(bodies, "light", back).reshape(-1)[pixels][rims] * (1.0 - share[rims]),
    )


def _of(bodies: list[_Body], name: str, which: NDArray[np.intp]) -> NDArray[np.float32]:
    values = np.stack([getattr(one, name) for one in bodies])
    taken: NDArray[np.float32] = np.take_along_axis(values, which[np.newaxis], axis=0)[0]
    return taken


def _body(place: TwistPlace, number: int) -> _Body:
    ratio, pitch = place.device_pixel_ratio, place.pitch_px
    draw = np.random.default_rng(11)
    thick = (
        1.0 + 0.06 * _wander(place.width, pitch * 1.7, draw) + 0.025 * _wander(place.width, pitch / 6.0, draw)
    )
    drift = 0.25 * _wander(place.width, pitch * 2.1, draw)
    x = (np.arange(place.width, dtype=np.float32) + 0.5)[np.newaxis]
    y = (np.arange(place.height, dtype=np.float32) + 0.5 - place.height / 2.0)[:, np.newaxis]
    yarn_radius = (0.43 * place.height * thick)[np.newaxis].astype(np.float32)
    radius = yarn_radius * _RADIUS.get(place.strands, _LEAST_RADIUS)
    turning = yarn_radius - radius
    turn = (2.0 * np.pi * (x / pitch + number / place.strands) + drift).astype(np.float32)
    slope = -turning * (2.0 * np.pi / pitch) * np.sin(turn)
    across = (y - turning * np.cos(turn)) / (radius * np.sqrt(1.0 + 0.55 * slope * slope))
    rim_px = radius * 0.94 + 0.2
    bulk = np.clip(across, -1.0, 1.0)
    rise = np.sqrt(1.0 - bulk * bulk)
    depth = turning * np.sin(turn) + radius * rise
    is_plain = place.height < LEAST_FIBRE_HEIGHT * ratio
    grain, shift, lock = (0.0, 0.0, 0.0) if is_plain else _fibre(place, number, bulk, x, turning, radius)
    ragged = 0.05 * lock + 0.015 * grain
    cover = np.clip((1.0 + ragged - np.abs(across)) * rim_px + 0.5, 0.0, 1.0)
    valley = 0.46 + 0.54 * _smooth(-0.55, 0.42, depth / yarn_radius)
    lambert = np.clip(
        _LIGHT_ACROSS * bulk - 0.09 * np.clip(slope, -1.0, 1.0) + _LIGHT_TOWARDS * rise, 0.0, 1.0
    )
    light = np.maximum(0.24, (0.38 + 0.70 * lambert) * valley) * (1.0 + 0.62 * grain)
    sheen = (
        np.clip(-0.40 * bulk + 0.90 * rise, 0.0, 1.0) ** 24
        * (0.030 + 0.10 * np.clip(grain, 0.0, 1.0))
        * valley
    )
    column = np.floor(x + shift * place.feather_px).astype(np.intp) + place.margin
    column = np.clip(column, 0, place.columns - 1)
    shape = (place.height, place.width)
    return _Body(
        np.broadcast_to(depth, shape),
        np.broadcast_to(cover, shape).astype(np.float32),
        np.broadcast_to(light, shape).astype(np.float32),
        np.broadcast_to(sheen, shape).astype(np.float32),
        np.broadcast_to(column, shape),
    )


def _fibre(
    place: TwistPlace, number: int, bulk: Floats, x: Floats, turning: Floats, radius: Floats
) -> tuple[Floats, Floats, Floats]:
    """Return how much lighter fibre makes each pixel, how far its colour has wandered, and its lock."""
    tile = fibre_tile(place.device_pixel_ratio)
    about = np.arcsin(bulk)
    # a single shows its twist; in plied yarn the fibres have come to lie along the axis
    lean = 1.0 if place.strands == 1 else -0.9 * float(turning.mean() / radius.mean())
    about = about - lean * (2.0 * np.pi / place.pitch_px) * x
    # the mean radius: what turns with a wavering one would waver the more the farther along it is
    row = about * float(radius.mean()) * tile.rows_per_px * 1.25 + 61.0 * number
    column = np.broadcast_to(x * tile.columns_per_px * 1.4 + 333.0 * number, row.shape)
    lock = _sampled(tile.lock, row, column)
    return _sampled(tile.light, row, column) + 0.35 * lock, _sampled(tile.shift, row, column), lock


def _sampled(layer: Floats, row: Floats, column: Floats) -> Floats:
    """Return a layer at rows and columns, between rows in between."""
    rows = layer.shape[0] - 1
    low = np.floor(row)
    part = (row - low).astype(np.float32)
    index = np.mod(low.astype(np.intp), rows)
    along = np.mod(column.astype(np.intp), layer.shape[1])
    between: Floats = layer[index, along] * (1.0 - part) + layer[index + 1, along] * part
    return between


def _wander(count: int, period: float, draw: np.random.Generator) -> Floats:
    """Return smooth noise with deviation about 1 along so many px: knots every `period`, eased between."""
    knots = draw.normal(0.0, 1.0, int(count / max(period, 1.0)) + 4)
    at = np.arange(count) / max(period, 1.0)
    low = at.astype(np.intp)
    part = _smooth(0.0, 1.0, at - low)
    eased: Floats = knots[low] * (1.0 - part) + knots[low + 1] * part
    return eased


def _smooth(low: float, high: float, values: Floats) -> Floats:
    part = np.clip((values - low) / (high - low), 0.0, 1.0)
    eased: Floats = part * part * (3.0 - 2.0 * part)
    return eased
