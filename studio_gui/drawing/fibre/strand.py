"""Fibre on a piece of a strand: how light, how opaque and how far the dye ran, pixel by pixel.

The rule of this module: it adds wool to the ground and knows no colour. Light comes from the upper left.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from studio_gui.drawing.fibre.comb import HAIR_ROWS
from studio_gui.drawing.fibre.ground import Ground
from studio_gui.drawing.fibre.tile import FibreTile, Floats

_KNOTS = 1024
_HUMPS = np.random.Generator(np.random.PCG64(7)).random((8, _KNOTS)).astype(np.float32) * 2.0 - 1.0
_LIGHT = (-0.30, -0.60, 0.74)  # towards the light: x rightwards, y downwards, z out of the picture
_HALFWAY = (-0.17, -0.35, 0.92)  # between the light and the eye


@dataclass(frozen=True, eq=False)
class Wool:
    """What shows of a piece: `shade` 1 shows the dye's own colour, `cover` 0 to 1, `shift` in deviations."""

    shade: Floats
    cover: Floats
    shift: Floats


@dataclass(frozen=True)
class Strand:
    """What a roving's wool depends on beside its ground."""

    height: float
    seed: int
    fray: float
    device_pixel_ratio: float


def reach_px(strand: Strand, *, plain: bool) -> float:
    """Return how far beyond its nominal edge a strand's wool can reach, hairs included."""
    if plain:
        return 1.0
    return 0.07 * strand.height + 0.5 * HAIR_ROWS * _hair_stretch(strand)


def _hair_stretch(strand: Strand) -> float:
    """Return px a row of the tile of hairs: thin strands have short ones."""
    return min(max(strand.height / strand.device_pixel_ratio / 34.0, 0.55), 1.3) * strand.device_pixel_ratio


def plain_wool(ground: Ground, strand: Strand) -> Wool:
    """Return a smooth tube: for strands too thin to show fibre."""
    half = strand.height / 2.0
    edge = np.clip((1.0 - np.abs(ground.v)) * half + 0.5, 0.0, 1.0)
    if ground.end is not None:
        edge = edge * np.clip(ground.end + 0.5, 0.0, 1.0)
    shade = _tube(ground, ground.v) * _inside(ground, ground.v)
    full = np.broadcast_shapes(edge.shape, shade.shape, ground.s.shape)
    return Wool(np.broadcast_to(shade, full), np.broadcast_to(edge, full), np.zeros(full, np.float32))


def fibre_wool(ground: Ground, strand: Strand, tile: FibreTile) -> Wool:
    """Return wool with locks, fibres, single hairs and frayed ends."""
    half = strand.height / 2.0
    s, scale = ground.s, strand.height / strand.device_pixel_ratio / 34.0
    v = _wavering(ground, strand)
    v_fibre = v + _flow(s, v, strand)
    at = _Sampler(tile, s, strand.seed)
    light, shift = at.blended(v_fibre * half, tile.light, tile.shift)
    locks_at = _Sampler(tile, s / max(scale, 0.5), strand.seed + 3)
    lock, relief = locks_at.blended(v_fibre * (half / max(scale, 0.5)), tile.lock, tile.relief)
    shade = _tube(ground, v) * _inside(ground, v)
    depth = min(max(0.6 + 0.4 * scale, 0.7), 1.15)
    shade += depth * (0.10 * lock - 0.15 * relief * ground.across_y * np.clip(1.15 - np.abs(v), 0.0, 1.0))
    shade *= 1.0 + 0.52 * light
    cover = _cover(strand, v, 0.5 * shift + 1.4 * lock, at)
    if ground.end is not None:
        cover = cover * _tips(ground.end, strand, v, shift)
    return Wool(shade.astype(np.float32), cover.astype(np.float32), shift)


# -- form ----------------------------------------------------------------------------------------------------


def _hump(s: NDArray[np.float64], length: float, row: int) -> Floats:
    """Return a smooth noise along the wool, -1 to 1, with a hump about every `length` px."""
    place = s / length + 31.7 * row
    low = np.floor(place)
    share = (place - low).astype(np.float32)
    share = share * share * (3.0 - 2.0 * share)
    knot = low.astype(np.intp) % _KNOTS
    humps = _HUMPS[row % len(_HUMPS)]
    smooth: Floats = humps[knot] * (1.0 - share) + humps[(knot + 1) % _KNOTS] * share
    return smooth


def _wavering(ground: Ground, strand: Strand) -> Floats:
    """Return `v` on a strand that is a little thicker here, thinner there, and not quite straight."""
    s, height, seed = ground.s, strand.height, 3 * strand.seed
    thick = 1.0 + 0.045 * _hump(s, 1.7 * height, seed) + 0.03 * _hump(s, 0.6 * height, seed + 1)
    middle = 0.055 * _hump(s, 3.6 * height, seed + 2)
    return (ground.v - middle) / thick


def _flow(s: NDArray[np.float64], v: Floats, strand: Strand) -> Floats:
    """Return how far fibres run off their straight course, together as locks do."""
    height, seed = strand.height, 3 * strand.seed + 5
    flow = 0.11 * _hump(s, 2.2 * height, seed) * np.cos(2.6 * v)
    flow += 0.06 * _hump(s, 1.1 * height, seed + 1) * np.sin(4.5 * v)
    flow += 0.022 * _hump(s, 0.33 * height, seed + 2) * np.cos(7.0 * v + 1.0)
    bent: Floats = flow * np.clip(1.1 - np.abs(v), 0.0, 1.0)
    return bent


def _tube(ground: Ground, v: Floats) -> Floats:
    """Return the light on a soft tube: 1 where it is lit best."""
    bow = np.clip(v, -1.0, 1.0)
    out = np.sqrt(1.0 - 0.86 * bow * bow)
    facing = _LIGHT[0] * ground.across_x * bow + _LIGHT[1] * ground.across_y * bow + _LIGHT[2] * out
    # Light goes round and into wool: the side away from it is not black.
    wrapped = np.clip((facing + 0.45) / 1.45, 0.0, 1.0)
    sheen = np.clip(
        _HALFWAY[0] * ground.across_x * bow + _HALFWAY[1] * ground.across_y * bow + _HALFWAY[2] * out, 0, 1
    )
    edge = np.clip((np.abs(v) - 0.72) / 0.4, 0.0, 1.0)
    lit: Floats = (0.34 + 0.76 * wrapped) * (1.0 - 0.26 * edge * edge) + 0.07 * sheen**14
    return lit


def _inside(ground: Ground, v: Floats) -> Floats:
    """Return the share of light that is left on the inside of bends."""
    towards = np.clip(v * np.sign(ground.inside), 0.0, 1.0)
    kept: Floats = 1.0 - 0.30 * np.abs(ground.inside) * towards * towards
    return kept


# -- outline -------------------------------------------------------------------------------------------------


def _cover(strand: Strand, v: Floats, rough: Floats, at: _Sampler) -> Floats:
    """Return the outline: ragged as `rough` (deviations) says, with hairs that leave it."""
    half, ratio = strand.height / 2.0, strand.device_pixel_ratio
    beyond = (np.abs(v) - 1.0) * half
    ragged = min(0.30 + 0.012 * half / ratio, 0.8) * ratio
    body = np.clip(0.35 - (beyond + ragged * rough) / (2.0 * ratio), 0.0, 1.0)
    stretch = _hair_stretch(strand)
    hair = at.hairs(v, beyond / stretch, 1.0 / stretch)
    cover: Floats = np.maximum(body, 0.75 * hair)
    return cover


def _tips(end: Floats, strand: Strand, v: Floats, shift: Floats) -> Floats:
    """Return what is left of the wool at a free end, where locks and fibres end one by one."""
    half, fray = strand.height / 2.0, strand.fray
    across = (v * half / strand.device_pixel_ratio).astype(np.float64) + 57.0
    lock = 0.6 * _hump(across, 7.0, strand.seed) + 0.4 * _hump(across, 2.6, strand.seed + 1)
    reach = 0.30 - 0.70 * v * v + 0.42 * lock + 0.20 * shift
    reach = fray * np.clip(reach, -1.2, 0.94)
    tip: Floats = np.clip((end + reach) / (0.30 * fray + 1.0), 0.0, 1.0)
    return tip


class _Sampler:
    """Looks up the tile under a piece, from a place on it that the roving's seed gives."""

    def __init__(self, tile: FibreTile, s: NDArray[np.float64], seed: int) -> None:
        self._tile = tile
        self._s = s
        rows, columns = tile.light.shape
        self._row = (0.381966 * seed % 1.0) * rows + 0.37 * rows
        self._first = (0.618034 * seed % 1.0) * columns
        self._column = np.floor(s * tile.columns_per_px + self._first).astype(np.intp) % columns

    def blended(self, across_px: Floats, *layers: Floats) -> Iterator[Floats]:
        """Yield each layer's values, blended between the two nearest rows."""
        rows, columns = layers[0].shape
        place = across_px * np.float32(self._tile.rows_per_px) + np.float32(self._row)
        low = np.floor(place)
        share = place - low
        flat = low.astype(np.intp) % (rows - 1)
        flat *= columns
        flat += self._column
        below = flat + columns
        for layer in layers:
            first, second = np.take(layer, flat), np.take(layer, below)
            second -= first
            second *= share
            second += first
            yield second

    def hairs(self, v: Floats, beyond: Floats, per_px: float) -> Floats:
        """Return the cover by hairs `beyond` the edge, in rows of the tile; each edge has its own."""
        layer = self._tile.hair
        rows, columns = layer.shape
        column = np.floor(self._s * per_px + self._first).astype(np.intp)
        column = (column + np.where(v > 0.0, 701, 0)) % columns
        place = np.clip(beyond + rows / 2.0, 0.0, rows - 1.001)
        low = place.astype(np.intp)
        share = (place - low).astype(np.float32)
        flat = low * columns + column
        cover: Floats = np.take(layer, flat) * (1.0 - share) + np.take(layer, flat + columns) * share
        return cover
