"""A patch of knitting, drawn finely once: its edges are real ones, its middle can be laid again and again.

The rule of this module: what a patch shows depends on the size of stitches and the twist of the yarn alone,
so that every swatch of stitches of one size is laid from the same patch.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from studio_gui.drawing.fibre.tile import Floats
from studio_gui.drawing.knit.loops import Wobble, knitted_loop, knitted_surface
from studio_gui.drawing.knit.place import LEAST_FIBRE_PX, SAMPLES
from studio_gui.drawing.knit.shading import GROUND_LIGHT, shaded_yarn

#: Stitches of a patch that come again, across and up, and those at each edge that do not.
REPEAT = 6
EDGE_COLUMNS, EDGE_ROWS = 1, 2
#: How many loops differ from each other.
VARIANTS = 9
_NOWHERE = -1


@dataclass(frozen=True, slots=True)
class PatchSize:
    """What a patch depends on; stitches in device pixels, margins round them too."""

    columns: int
    rows: int
    stitch_width: int
    stitch_height: int
    margin_x: int
    margin_y: int
    strands: int
    device_pixel_ratio: float


@dataclass(frozen=True, eq=False)
class Patch:
    """What each device pixel of a patch shows, (height, width).

    `first` and `second` are the two pieces of yarn that most of the pixel's light comes from, as
    ``(stitch * SAMPLES + sample) * strands + strand``; stitches are ``row * columns + column`` from the lower
    left, samples run from left to right. `first_light` and `second_light` are how much of their colours the
    pixel gives back, where covered; `cover` is 0 to 1.
    """

    size: PatchSize
    first: NDArray[np.int32]
    second: NDArray[np.int32]
    first_light: Floats
    second_light: Floats
    cover: Floats


@lru_cache(maxsize=4)
def knitted_patch(size: PatchSize) -> Patch:
    """Return a patch: about 0.1 s for stitches of 15 by 11 device pixels."""
    fine = 4 if size.stitch_width <= 8 else 3 if size.stitch_width <= 20 else 2
    fine += fine * size.stitch_width % 2  # a loop's middle is between points
    width, height = size.stitch_width * fine, size.stitch_height * fine
    draw = np.random.default_rng(7)
    loops = [knitted_loop(width, height, _wobble(draw)) for _ in range(VARIANTS)]
    which, turns_at = _chosen(size, draw)
    # room for whole loops beyond the margins, cut away afterwards
    room_x, room_y = width, 3 * height
    left, bottom = room_x + size.margin_x * fine, room_y + size.margin_y * fine
    shape = (size.rows * height + 2 * bottom, size.columns * width + 2 * left)
    lines = (shape[0] - bottom - np.arange(size.rows) * height - round(0.06 * height)).astype(np.intp)
    middles = (left + width * np.arange(size.columns) + width // 2).astype(np.intp)
    surface = knitted_surface(shape, loops, which, (lines, middles))
    has_fibre = size.stitch_width >= LEAST_FIBRE_PX * size.device_pixel_ratio
    px_per_point = 1.0 / (fine * size.device_pixel_ratio) if has_fibre else None
    yarn = shaded_yarn(surface, width, size.strands, turns_at, px_per_point)
    sample = np.clip((surface.along * SAMPLES).astype(np.int32), 0, SAMPLES - 1)
    codes = np.where(
        surface.owner >= 0, (surface.owner * SAMPLES + sample) * size.strands + yarn.strand, _NOWHERE
    )
    light = yarn.light
    _fill_ground(codes, light, size, (left, bottom), (width, height))
    window = (slice(room_y, shape[0] - room_y), slice(room_x, shape[1] - room_x))
    return _reduced(size, codes[window], light[window], fine)


def _wobble(draw: np.random.Generator) -> Wobble:
    aside, up, thick = draw.normal(0.0, (0.013, 0.022, 0.030)).clip(-0.06, 0.06).tolist()
    return Wobble(aside, up, 1.0 + thick, float(draw.uniform(0.0, 6.28)))


def _chosen(size: PatchSize, draw: np.random.Generator) -> tuple[NDArray[np.intp], Floats]:
    """Return which loop each stitch has (rows, columns), and where its yarn's turn begins (stitches,).

    Both come again every `REPEAT` stitches, so that a middle fits to the next one.
    """
    rows = np.arange(size.rows)[:, np.newaxis] % REPEAT
    columns = np.arange(size.columns) % REPEAT
    which = draw.integers(VARIANTS, size=(REPEAT, REPEAT))[rows, columns]
    turns_at = draw.random((REPEAT, REPEAT), dtype=np.float32)[rows, columns]
    return which, turns_at.ravel()


def _fill_ground(
    codes: NDArray[np.int32],
    light: Floats,
    size: PatchSize,
    origin: tuple[int, int],
    stitch: tuple[int, int],
) -> None:
    """Let what is between loops, within the fabric, be the stitch's own yarn far back in the dark."""
    (left, bottom), (width, height) = origin, stitch
    y, x = np.nonzero(codes == _NOWHERE)
    column = (x - left) // width
    row = (codes.shape[0] - bottom - 1 - y) // height
    up = codes.shape[0] - bottom - 1 - y
    within = (column >= 0) & (column < size.columns) & (row < size.rows) & (up > 0.1 * height)
    y, x, column, row = y[within], x[within], column[within], row[within]
    codes[y, x] = (row * size.columns + column) * SAMPLES * size.strands
    light[y, x] = GROUND_LIGHT


def _reduced(size: PatchSize, codes: NDArray[np.int32], light: Floats, fine: int) -> Patch:
    """Return the patch at device pixels: of the points of a pixel the two commonest pieces of yarn."""
    height, width = codes.shape[0] // fine, codes.shape[1] // fine

    def together(values: NDArray[np.generic]) -> NDArray[np.generic]:
        blocks = values.reshape(height, fine, width, fine).swapaxes(1, 2)
        return np.ascontiguousarray(blocks.reshape(height * width, fine * fine).T)

    points, lights = together(codes), together(light)
    covered = points != _NOWHERE
    first = _commonest(points, covered)
    is_first = covered & (points == first)
    second = _commonest(points, covered & ~is_first)
    count = np.maximum(covered.sum(axis=0), 1)
    first_light = np.where(is_first, lights, 0.0).sum(axis=0) / count
    second_light = np.where(covered & ~is_first, lights, 0.0).sum(axis=0) / count
    shape = (height, width)
    return Patch(
        size,
        np.maximum(first, 0).reshape(shape).astype(np.int32),
        np.maximum(second, 0).reshape(shape).astype(np.int32),
        first_light.reshape(shape).astype(np.float32),
        second_light.reshape(shape).astype(np.float32),
        covered.mean(axis=0).reshape(shape).astype(np.float32),
    )


def _commonest(points: NDArray[np.generic], among: NDArray[np.bool_]) -> NDArray[np.int32]:
    """Return of each column the value that comes most often `among` its rows; -1 where there is none."""
    best = np.full(points.shape[1], _NOWHERE, np.int32)
    most = np.zeros(points.shape[1], np.intp)
    for values, counted in zip(points, among, strict=True):
        times = np.where(counted, ((points == values) & among).sum(axis=0), 0)
        better = times > most
        best[better], most[better] = values[better], times[better]
    return best
