"""Light on twisted strands, fibre by fibre.

The rule of this module: it adds light to a form and knows no colour. Light comes from the upper left, dark
stands in the valleys between strands. Fibres of plied yarn lie along it, because plying undoes the twist of
its singles; those of a lone single show that twist.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from studio_gui.drawing.fibre.tile import Floats, fibre_tile
from studio_gui.drawing.yarn.form import Seen, Twist, wander

#: Thinner yarn, in px of the screen's scale, shows its lobes and no fibre.
LEAST_FIBRE_HEIGHT = 12.0
#: Farthest displacement of a fibre's colour, in deviations.
FARTHEST = 2.5
_LIGHT = (-0.34, -0.62, 0.71)  # towards the light: x rightwards, y downwards, z to the eye
#: How much of a strand's lean its fibres keep in plied yarn, and the lean of fibre in a single; by eye.
_KEPT_LEAN, _SINGLE_LEAN = 0.30, 0.42
_HAIRS_A_FIBRE = 2.3
#: Height of yarn, px of the screen's scale, at which fibre has its natural thickness.
_NATURAL_HEIGHT = 26.0


@dataclass(frozen=True, eq=False)
class ShadedStrands:
    """What every point shows, each (h, w).

    `light` 1 gives the dye's own colour, `sheen` is the white that glances off, `shift` says how far its
    fibre's colour has wandered along the yarn, in deviations, -2.5 to 2.5.
    """

    light: Floats
    sheen: Floats
    shift: Floats


def shaded(twist: Twist, form: Seen, x: Floats) -> ShadedStrands:
    """Return the light on the strands seen at columns `x` (w,) px along the yarn."""
    rise = np.sqrt(1.0 - form.across * form.across)
    steep = np.sqrt(1.0 + form.slope * form.slope)
    sideways = (_LIGHT[1] - _LIGHT[0] * form.slope) / steep
    facing = form.across * sideways + _LIGHT[2] * rise
    # light goes round and into wool: the side away from it is not black
    wrapped = np.clip((facing + 0.35) / 1.35, 0.0, 1.0)
    open_ = _openness(form, twist)
    light = (0.22 + 0.92 * wrapped) * open_
    glance = np.clip(0.58 * form.across * sideways + 0.90 * rise, 0.0, 1.0) ** 10 * open_
    if twist.height_px < LEAST_FIBRE_HEIGHT * twist.device_pixel_ratio:
        return ShadedStrands(_plain(light), _plain(0.02 * glance), np.zeros_like(form.across))
    grain, lock, shift = _fibre(twist, form, x)
    light = light * (1.0 + 0.80 * grain + 0.16 * lock)
    sheen = glance * (0.010 + 0.09 * np.clip(grain + 0.3 * lock, 0.0, 1.0))
    return ShadedStrands(_plain(np.maximum(light, 0.03)), _plain(sheen), shift)


def _plain(values: Floats) -> Floats:
    narrow: Floats = values.astype(np.float32)
    return narrow


def _openness(form: Seen, twist: Twist) -> Floats:
    """Return the share of light that gets to each point past the other strands."""
    if twist.strands == 1:
        return np.ones_like(form.across)
    deep = np.clip((form.height + 0.45) / 1.05, 0.0, 1.0)
    deep = deep * deep * (3.0 - 2.0 * deep)
    # where two strands touch they are equally near
    touch = np.exp(form.gap * np.float32(-5.5))
    kept: Floats = (0.38 + 0.62 * deep) * (1.0 - 0.60 * touch)
    return kept


def _fibre(twist: Twist, form: Seen, x: Floats) -> tuple[Floats, Floats, Floats]:
    """Return how much lighter its fibre makes each point, its lock, and how far its colour has wandered."""
    tile = fibre_tile(twist.device_pixel_ratio)
    # how far across the yarn from where it passes the middle a fibre lies that keeps its course
    about = form.half * np.arcsin(form.across)
    if twist.strands == 1:
        about = about + np.float32(_SINGLE_LEAN) * x
    else:
        about = about + np.float32(1.0 - _KEPT_LEAN) * form.middle
    # locks of fibre sway together
    about = about + np.float32(0.10 * twist.strand_radius_px) * (
        wander(x, 0.31 * twist.pitch_px, 13) * np.cos(3.0 * form.across + 2.0 * form.strand)
        + 0.6 * wander(x, 0.13 * twist.pitch_px, 14) * np.sin(7.0 * form.across)
    )
    coarse = (twist.height_px / twist.device_pixel_ratio / _NATURAL_HEIGHT) ** -0.3
    row = about * np.float32(tile.rows_per_px * min(coarse, 1.2)) + 97.0 * form.strand
    along = x * np.float32(tile.columns_per_px * min(coarse, 1.0) * 1.5)
    columns = tile.light.shape[1]
    column = (along.astype(np.intp)[np.newaxis] + 333 * form.strand) % columns
    grain, lock = _between_rows(row, column, tile.light, tile.lock)
    # colour wanders hair by hair, of which several lie on every fibre that is drawn
    (shift,) = _between_rows(_HAIRS_A_FIBRE * row, column, tile.shift)
    return grain, lock, shift


def _between_rows(row: Floats, column: NDArray[np.intp], *layers: Floats) -> Iterator[Floats]:
    """Yield the layers' values at rows and columns of a tile that closes below, blended between rows."""
    rows, columns = layers[0].shape
    low = np.floor(row)
    part = (row - low).astype(np.float32)
    flat = low.astype(np.intp) % (rows - 1) * columns + column
    for layer in layers:
        upper, lower = np.take(layer, flat), np.take(layer, flat + columns)
        yield upper + (lower - upper) * part
