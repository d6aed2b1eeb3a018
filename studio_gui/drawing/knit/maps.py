"""Maps of a knitted swatch: which piece of yarn each pixel shows, how light, how opaque.

The rule of this module: maps depend on sizes, strands and the way rows run, never on colours; they are pure
numpy and may be made on any thread. A swatch is laid from one patch: its edges once, its middle as often as
need be.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from studio_gui.drawing.fibre.tile import Floats
from studio_gui.drawing.knit.patch import EDGE_COLUMNS, EDGE_ROWS, REPEAT, PatchSize, knitted_patch
from studio_gui.drawing.knit.place import SAMPLES, KnitPlace, runs_right

IndexArray = NDArray[np.int32]


@dataclass(frozen=True, eq=False)
class KnitMaps:
    """Maps of the m pixels of a swatch that show yarn.

    `pixels` (m,) are places in the flattened picture; `keys` (m,) are ``strand * samples + sample``, samples
    in the order in which the yarn is knitted from the lowest row shown; `light` (m,) is how much of its
    colour the pixel gives back; `cover` (m,) is 0 to 1. Pixels that show a second piece of yarn are `seconds`
    (r,), places in those arrays, with `second_keys` and `second_light`.
    """

    place: KnitPlace
    pixels: NDArray[np.intp]
    keys: IndexArray
    light: Floats
    cover: Floats
    seconds: NDArray[np.intp]
    second_keys: IndexArray
    second_light: Floats


def knit_maps(place: KnitPlace) -> KnitMaps:
    """Return the maps of a swatch: about 0.1 s for 900 by 600 px, and the patch when it is new."""
    patch = knitted_patch(_patch_size(place))
    size = patch.size
    from_x, more_columns = _laid(
        place.columns, size.columns, EDGE_COLUMNS, place.stitch_width, place.margin_x
    )
    from_y, more_rows = _laid(place.rows, size.rows, EDGE_ROWS, place.stitch_height, place.margin_y)
    from_y, more_rows = size.rows * size.stitch_height + 2 * size.margin_y - 1 - from_y[::-1], more_rows[::-1]
    spread = np.ix_(from_y, from_x)
    cover = patch.cover[spread].ravel()
    pixels = np.flatnonzero(cover > 1.0 / 255.0)
    moved = np.broadcast_arrays(more_rows[:, np.newaxis], more_columns)
    rows, columns = (one.ravel()[pixels] for one in moved)
    second_light = patch.second_light[spread].ravel()[pixels]
    seconds = np.flatnonzero(second_light > 1.0 / 512.0)
    return KnitMaps(
        place=place,
        pixels=pixels,
        keys=_keys(place, size, patch.first[spread].ravel()[pixels], rows, columns),
        light=patch.first_light[spread].ravel()[pixels],
        cover=cover[pixels],
        seconds=seconds,
        second_keys=_keys(
            place, size, patch.second[spread].ravel()[pixels][seconds], rows[seconds], columns[seconds]
        ),
        second_light=second_light[seconds],
    )


def _patch_size(place: KnitPlace) -> PatchSize:
    return PatchSize(
        columns=min(place.columns, REPEAT + 2 * EDGE_COLUMNS),
        rows=min(place.rows, REPEAT + 2 * EDGE_ROWS),
        stitch_width=place.stitch_width,
        stitch_height=place.stitch_height,
        margin_x=place.margin_x,
        margin_y=place.margin_y,
        strands=place.strands,
        device_pixel_ratio=place.device_pixel_ratio,
    )


def _laid(count: int, there: int, edge: int, stitch: int, margin: int) -> tuple[NDArray[np.intp], IndexArray]:
    """Lay `there` stitches of a patch out as `count` of a swatch, one way.

    Return for each device pixel of the swatch the patch's pixel, and how many stitches farther on it lies.
    """
    numbers = np.arange(count)
    if count > there:
        middle = edge + (numbers - edge) % REPEAT
        numbers = np.where(numbers < edge, numbers, middle)
        numbers[count - edge :] = np.arange(there - edge, there)
    farther = np.arange(count) - numbers
    pixels = margin + numbers[:, np.newaxis] * stitch + np.arange(stitch)
    before, after = np.arange(margin), margin + there * stitch + np.arange(margin)
    return (
        np.concatenate((before, pixels.ravel(), after)).astype(np.intp),
        np.concatenate((np.zeros(margin), np.repeat(farther, stitch), np.full(margin, farther[-1]))).astype(
            np.int32
        ),
    )


def _keys(
    place: KnitPlace, size: PatchSize, codes: IndexArray, rows: IndexArray, columns: IndexArray
) -> IndexArray:
    """Return keys of pieces of yarn of a patch, `rows` and `columns` of stitches farther on."""
    piece, strand = np.divmod(codes, place.strands)
    stitch, sample = np.divmod(piece, SAMPLES)
    row, column = np.divmod(stitch, size.columns)
    row = np.clip(row + rows, 0, place.rows - 1)
    along = np.clip(column + columns, 0, place.columns - 1) * SAMPLES + sample
    is_rightwards = np.array([runs_right(place, number) for number in range(place.rows)])
    along = np.where(is_rightwards[row], along, place.samples_per_row - 1 - along)
    keys: IndexArray = (strand * place.samples + row * place.samples_per_row + along).astype(np.int32)
    return keys
