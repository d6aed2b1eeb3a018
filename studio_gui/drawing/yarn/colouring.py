"""Colours on twisted strands: two look-ups a pixel, one for each place in which it is looked at.

The rule of this module: shade acts on light, not on encoded colours.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from PySide6.QtGui import QImage

from studio_gui.domain.colour.spaces import srgb_from_linear
from studio_gui.drawing.yarn.twist import TwistMaps

FloatArray = NDArray[np.float64]

_LEVELS = 4096
#: Encoded value, 0 to 255, of a level of linear light.
_ENCODED = np.rint(255.0 * srgb_from_linear(np.arange(_LEVELS) / (_LEVELS - 1.0))).astype(np.uint32)
_SHIFTS = (16, 8, 0)


class ColouredTwist:
    """A picture of twisted strands in colours."""

    def __init__(self, maps: TwistMaps) -> None:
        self.maps = maps
        place = maps.place
        self._pixels = np.zeros(place.width * place.height, np.uint32)
        self._alpha = np.rint(maps.cover * 255.0).astype(np.uint32)
        self._is_rim = np.flatnonzero(self._alpha < 255)
        self._rim_alpha = self._alpha[self._is_rim]
        self._light = (maps.light * (_LEVELS - 1)).astype(np.float32)
        self._sheen = (maps.sheen * (_LEVELS - 1)).astype(np.float32)
        # The image reads the array itself, which this object keeps alive.
        self.image = QImage(
            self._pixels.data,
            place.width,
            place.height,
            4 * place.width,
            QImage.Format.Format_ARGB32_Premultiplied,
        )
        self.image.setDevicePixelRatio(place.device_pixel_ratio)

    def show(self, linear: FloatArray) -> QImage:
        """Take on (strands, width, 3) colours, linear 0 to 1, a column a device pixel; return the picture."""
        maps = self.maps
        beyond = (maps.place.margin, maps.place.margin)
        padded = np.pad(linear, ((0, 0), beyond, (0, 0)), mode="edge").astype(np.float32)
        flat = np.clip(padded, 0.0, 1.0).reshape(-1, 3)
        argb = self._alpha << np.uint32(24)
        for channel, bits in enumerate(_SHIFTS):
            table = np.ascontiguousarray(flat[:, channel])
            level = np.take(table, maps.keys[0]) * self._light[0]
            level += np.take(table, maps.keys[1]) * self._light[1]
            level += self._sheen
            np.minimum(level, _LEVELS - 1, out=level)
            code = np.take(_ENCODED, level.astype(np.intp))
            code[self._is_rim] = (code[self._is_rim] * self._rim_alpha + 127) // 255
            argb |= code << np.uint32(bits)
        self._pixels[maps.pixels] = argb
        return self.image
