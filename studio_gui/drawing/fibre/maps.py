"""Fibre maps: for every pixel of a picture which column's colour it shows, how light and how opaque.

The rule of this module: maps depend on the place alone, never on colours; they are pure numpy and may be made
on any thread. A colour column stands for one pixel column; `margin` columns more at each side give fibres at
the edges of the picture the colours that lie outside it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from studio_gui.drawing.fibre.ground import Frame, Ground, ground
from studio_gui.drawing.fibre.place import LEAST_FIBRE_HEIGHT, FibrePlace, Piece, pieces
from studio_gui.drawing.fibre.strand import Strand, Wool, fibre_wool, plain_wool, reach_px
from studio_gui.drawing.fibre.tile import Floats, fibre_tile

SHADES = 64
#: Shade 1, the dye's own colour, is at step 63 * (1 - LOWEST) / (HIGHEST - LOWEST).
LOWEST_SHADE, HIGHEST_SHADE = 0.14, 1.50
#: Farthest displacement of a fibre's colour, in deviations.
FARTHEST = 2.5
#: Deviation of the displacement, as a share of the wicking width.
DEVIATION = 0.4
_SHADOW = 0.42
_WIDEST_BLUR = 26


@dataclass(frozen=True, eq=False)
class FibreMaps:
    """Maps of a picture, each (height, width).

    `keys` is ``column * SHADES + shade step`` where there is wool, and ``columns * SHADES + shadow`` on bare
    film. `cover` is the wool's alpha and `shadow` the alpha of the black under it, 0 to 255. `margin` colour
    columns lie left of the picture, and as many right of it.
    """

    place: FibrePlace
    keys: NDArray[np.intp]
    cover: NDArray[np.uint8]
    shadow: NDArray[np.uint8]
    margin: int

    @property
    def columns(self) -> int:
        """Number of colour columns."""
        return self.place.width + 2 * self.margin

    @property
    def column_index(self) -> NDArray[np.int32]:
        """The colour column of every pixel; the last one on bare film."""
        return np.minimum(self.keys // SHADES, self.columns - 1).astype(np.int32)

    @property
    def shade_step(self) -> NDArray[np.uint8]:
        """The shade step of every pixel, 0 to 63."""
        return (self.keys % SHADES).astype(np.uint8)


def fibre_maps(place: FibrePlace) -> FibreMaps:
    """Return the maps of a picture: about 0.3 s a megapixel of wool."""
    shift_px = DEVIATION * place.wicking_px
    margin = int(np.ceil(FARTHEST * shift_px)) + 1
    height = max((strand.height for strand in place.strands), default=0.0)
    blur = min(max(round(0.11 * height), 1), _WIDEST_BLUR)
    frame = Frame(place.width, place.height, 4 * blur + 2)
    shape = (frame.height + 2 * frame.pad, frame.width + 2 * frame.pad)
    cover = np.zeros(shape, np.float32)
    keys = np.zeros(shape, np.int32)
    for piece in pieces(place):
        _add(piece, place, frame, shift_px, margin, cover, keys)
    inner = (slice(frame.pad, -frame.pad), slice(frame.pad, -frame.pad))
    alpha = np.rint(cover * 255.0).astype(np.uint8)
    shadow = np.ascontiguousarray(_shadow(alpha, blur)[inner])
    alpha = np.ascontiguousarray(alpha[inner])
    bare = (place.width + 2 * margin) * SHADES + shadow.astype(np.intp)
    return FibreMaps(place, np.where(alpha == 0, bare, keys[inner]), alpha, shadow, margin)


def _add(
    piece: Piece,
    place: FibrePlace,
    frame: Frame,
    shift_px: float,
    margin: int,
    cover: Floats,
    keys: NDArray[np.int32],
) -> None:
    """Lay a piece of wool into the picture; where two meet, the one that covers more gives the colour."""
    ratio = place.device_pixel_ratio
    fray = min(piece.height, 0.7 * place.extra_px)
    strand = Strand(piece.height, piece.roving, max(fray, 1.0), ratio)
    plain = piece.height < LEAST_FIBRE_HEIGHT * ratio
    under = ground(piece, frame, reach_px(strand, plain=plain), fray)
    if under is None:
        return
    wool = plain_wool(under, strand) if plain else fibre_wool(under, strand, fibre_tile(ratio))
    part = (under.rows, under.columns)
    nearer = wool.cover > cover[part]
    keys[part][nearer] = _keys(under, wool, frame, shift_px, margin)[nearer]
    cover[part] += wool.cover * (1.0 - cover[part])


def _keys(under: Ground, wool: Wool, frame: Frame, shift_px: float, margin: int) -> NDArray[np.int32]:
    x = frame.places(under.columns)[np.newaxis, :].astype(np.float32)
    column = np.floor(x + wool.shift * under.along_x * np.float32(shift_px)).astype(np.int32) + margin
    np.clip(column, 0, frame.width + 2 * margin - 1, out=column)
    step = (wool.shade - LOWEST_SHADE) * ((SHADES - 1) / (HIGHEST_SHADE - LOWEST_SHADE))
    column *= SHADES
    column += np.clip(np.rint(step), 0, SHADES - 1).astype(np.int32)
    return column


def _shadow(cover: NDArray[np.uint8], blur: int) -> NDArray[np.uint8]:
    """Return the soft shadow that wool lit from the upper left throws on the film.

    In whole numbers, whose sums do not depend on where the picture begins. They run over, but what is left
    when one is taken from another fits again: 255 * (2 * _WIDEST_BLUR + 1)**4 is less than 2**31.
    """
    fallen = np.roll(cover, (round(1.3 * blur), round(0.5 * blur)), axis=(0, 1)).astype(np.int32)
    for axis in (0, 1, 0, 1):
        fallen = _box_sums(fallen, blur, axis)
    return (fallen * np.float32(_SHADOW / (2 * blur + 1) ** 4)).astype(np.uint8)


def _box_sums(values: NDArray[np.int32], reach: int, axis: int) -> NDArray[np.int32]:
    """Return the sums of 2 * reach + 1 values, with nothing outside the picture."""
    width = [(0, 0), (0, 0)]
    width[axis] = (reach + 1, reach)
    sums = np.pad(values, width).cumsum(axis=axis, dtype=np.int32)
    high, low = [slice(None)] * 2, [slice(None)] * 2
    high[axis], low[axis] = slice(2 * reach + 1, None), slice(0, values.shape[axis])
    difference: NDArray[np.int32] = sums[tuple(high)] - sums[tuple(low)]
    return difference
