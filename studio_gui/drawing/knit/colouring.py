"""Colours on a knitted swatch: one look-up a pixel, and a second one where two pieces of yarn meet.

The rule of this module: it says how bright each pixel is; `LitPixels` makes a picture of that.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from PySide6.QtGui import QImage

from studio_gui.drawing.knit.maps import KnitMaps
from studio_gui.drawing.lit_pixels import LEVELS, LitPixels

FloatArray = NDArray[np.float64]


class ColouredKnit:
    """A picture of a knitted swatch in colours."""

    def __init__(self, maps: KnitMaps) -> None:
        self.maps = maps
        place = maps.place
        self._picture = LitPixels(
            (place.width, place.height), place.device_pixel_ratio, maps.pixels, maps.cover
        )
        self._light = (maps.light * (LEVELS - 1)).astype(np.float32)
        self._second_light = (maps.second_light * (LEVELS - 1)).astype(np.float32)

    @property
    def image(self) -> QImage:
        """The picture as it was shown last."""
        return self._picture.image

    def show(self, linear: FloatArray) -> QImage:
        """Take on (strands, samples, 3) colours, linear 0 to 1, along the yarn seen; return the picture."""
        return self._picture.light(linear.reshape(-1, 3), self._level)

    def _level(self, table: NDArray[np.float32]) -> NDArray[np.float32]:
        maps = self.maps
        level: NDArray[np.float32] = np.take(table, maps.keys) * self._light
        level[maps.seconds] += np.take(table, maps.second_keys) * self._second_light
        return level
