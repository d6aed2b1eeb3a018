"""Light on knitted loops: yarn with its strands and fibres, darker where loops cover each other.

The rule of this module: it adds light to a surface and tells which strand is seen; it knows no colour. Light
comes from the upper left.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from studio_gui.drawing.fibre.tile import Floats, fibre_tile
from studio_gui.drawing.knit.loops import LOOP_LENGTH, YARN_RADIUS, Surface

#: Length of yarn in which its strands turn once, in widths of a stitch, by their number.
_PITCH = {1: 1.3, 2: 0.72, 3: 0.90}
_LONGEST_PITCH = 1.05
#: Towards the light: rightwards, upwards, to the eye.
_LIGHT = (-0.42, 0.50, 0.76)
#: Light of the ground that is seen between loops.
GROUND_LIGHT = 0.10


@dataclass(frozen=True, eq=False)
class ShadedYarn:
    """What every point shows: `light` 1 gives the strand's own colour; `strand` 0 to strands - 1."""

    light: Floats
    strand: NDArray[np.int32]


def shaded_yarn(
    surface: Surface, stitch_width: int, strands: int, turns_at: Floats, px_per_point: float | None
) -> ShadedYarn:
    """Return the yarn on a surface.

    `turns_at` (stitches,) say where in its turn, 0 to 1, each stitch's yarn begins. `px_per_point` is the
    size of a point in px of the screen's scale; None draws no fibre.
    """
    owner = np.maximum(surface.owner, 0)
    across = np.clip(surface.across, -1.0, 1.0)
    rise = np.sqrt(1.0 - across * across)
    about = np.arcsin(across)
    turns = LOOP_LENGTH / _PITCH.get(strands, _LONGEST_PITCH)
    twist = turns * surface.along + about / np.float32(2.0 * np.pi) + turns_at[owner]
    ply = strands * twist
    low = np.floor(ply)
    lobe = 2.0 * (ply - low) - 1.0 if strands > 1 else np.zeros_like(ply)
    light = _lit(surface, across, rise, lobe, turns)
    light = light * (1.0 - 0.36 * np.clip((np.abs(lobe) - 0.62) / 0.38, 0.0, 1.0) ** 2)
    light = light * _openness(surface.depth, stitch_width)
    if px_per_point is not None:
        # a single shows its twist; in plied yarn the fibres have come to lie along the axis
        turned = about if strands > 1 else twist * np.float32(2.0 * np.pi)
        light = light * (1.0 + _fibre(surface, turned, stitch_width * px_per_point))
    light = np.where(surface.owner < 0, 0.0, np.maximum(light, 0.0)).astype(np.float32)
    return ShadedYarn(light, np.mod(low.astype(np.int32), strands))


def _lit(surface: Surface, across: Floats, rise: Floats, lobe: Floats, turns: float) -> Floats:
    """Return how bright a round yarn of round strands is under the light."""
    # which way a strand's own bulge falls off: along the yarn, and across it the more the nearer its edge
    lean_along = turns / LOOP_LENGTH
    lean_across = 1.0 / (2.0 * np.pi * YARN_RADIUS * np.maximum(rise, 0.3))
    length = np.hypot(lean_along, lean_across)
    bulge = 0.55 * lobe * np.abs(lobe)
    to_forward = bulge * lean_along / length - 0.8 * surface.tilt
    to_right = across + bulge * lean_across / length
    forward_x, forward_y = np.cos(surface.slant), np.sin(surface.slant)
    normal_x = to_right * forward_y + to_forward * forward_x
    normal_y = to_forward * forward_y - to_right * forward_x
    size = np.sqrt(to_right**2 + to_forward**2 + rise**2 + 0.02)
    facing = (_LIGHT[0] * normal_x + _LIGHT[1] * normal_y + _LIGHT[2] * rise) / size
    lit: Floats = 0.22 + 0.98 * np.clip((facing + 0.35) / 1.35, 0.0, 1.0)
    return lit


def _fibre(surface: Surface, turned: Floats, stitch_px: float) -> Floats:
    """Return how much lighter fibres make each point."""
    tile = fibre_tile(1.0)
    owner = surface.owner.astype(np.float32)
    row = turned * np.float32(YARN_RADIUS * stitch_px * tile.rows_per_px * 1.1) + 61.7 * owner
    column = surface.along * np.float32(LOOP_LENGTH * stitch_px * 1.2) + 217.3 * owner
    rows, columns = tile.light.shape
    place = np.mod(row.astype(np.intp), rows - 1) * columns + np.mod(column.astype(np.intp), columns)
    fibre: Floats = 0.46 * np.take(tile.light, place) + 0.22 * np.take(tile.lock, place)
    return fibre


def _openness(depth: Floats, stitch_width: int) -> Floats:
    """Return the share of light that reaches each point past the yarn round it."""
    deep = np.maximum(depth, -1.0)
    reach = max(round(0.10 * stitch_width), 1)
    around = _blurred(_blurred(deep, reach), reach)
    step = max(round(0.07 * stitch_width), 1)
    above = np.roll(deep, (step, step), axis=(0, 1))
    covered = np.clip((around - deep + 0.02) * 2.6, 0.0, 0.78)
    shadow = np.clip((above - deep - 0.06) * 2.2, 0.0, 0.50)
    low = np.clip((deep + 0.75) / 0.75, 0.22, 1.0)
    openness: Floats = (1.0 - covered) * (1.0 - shadow) * low
    return openness


def _blurred(values: Floats, reach: int) -> Floats:
    """Return means over squares of ``2 * reach + 1`` points."""
    for axis in (0, 1):
        room = [(0, 0), (0, 0)]
        room[axis] = (reach + 1, reach)
        sums = np.pad(values, room, mode="edge").cumsum(axis=axis, dtype=np.float64)
        count, span = values.shape[axis], 2 * reach + 1
        high = np.take(sums, np.arange(span, span + count), axis=axis)
        values = ((high - np.take(sums, np.arange(count), axis=axis)) / span).astype(np.float32)
    return values
