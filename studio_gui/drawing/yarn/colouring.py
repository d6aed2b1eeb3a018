"""Colours on twisted strands: two look-ups a pixel, one for each place in which it is looked at.

The rule of this module: it says how bright each pixel is; `LitPixels` makes a picture of that.
"""

from __future__ import annotations

from functools import partial

import numpy as np
from numpy.typing import NDArray
from PySide6.QtGui import QImage

from studio_gui.drawing.lit_pixels import LEVELS, LitPixels, Which, which_pixels
from studio_gui.drawing.yarn.twist import TwistMaps

FloatArray = NDArray[np.float64]


class ColouredTwist:
    """A picture of twisted strands in colours."""

    def __init__(self, maps: TwistMaps) -> None:
        self.maps = maps
        place = maps.place
        self._picture = LitPixels(
            (place.width, place.height), place.device_pixel_ratio, maps.pixels, maps.cover
        )
        self._light = (maps.light * (LEVELS - 1)).astype(np.float32)
        self._sheen = (maps.sheen * (LEVELS - 1)).astype(np.float32)
        self._shown = np.full((place.strands * place.columns, 3), np.nan)

    def show(self, linear: FloatArray) -> QImage:
        """Take on (strands, width, 3) colours, linear 0 to 1, a column a device pixel; return the picture.

        Only pixels that show a column whose colour changed are lit anew.
        """
        beyond = (self.maps.place.margin, self.maps.place.margin)
        padded = np.pad(linear, ((0, 0), beyond, (0, 0)), mode="edge").reshape(-1, 3)
        changed = (padded != self._shown).any(axis=1)
        self._shown = padded
        which = which_pixels(changed[self.maps.keys].any(axis=0))
        return self._picture.light(padded, partial(self._level, which), which)

    def _level(self, which: Which, table: NDArray[np.float32]) -> NDArray[np.float32]:
        keys, light = self.maps.keys[:, which], self._light[:, which]
        level: NDArray[np.float32] = np.take(table, keys[0]) * light[0]
        level += np.take(table, keys[1]) * light[1]
        level += self._sheen[which]
        return level
