"""An image whose pixels are set from light: linear amounts are encoded, and rims let the ground through.

The rule of this module: shade acts on light, not on encoded colours; encoding is one look-up a channel.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray
from PySide6.QtGui import QImage

from studio_gui.domain.colour.spaces import srgb_from_linear

#: Levels that linear light of 0 to 1 is told in.
LEVELS = 4096
#: Encoded value, 0 to 255, of a level of linear light.
_ENCODED = np.rint(255.0 * srgb_from_linear(np.arange(LEVELS) / (LEVELS - 1.0))).astype(np.uint32)
_SHIFTS = (16, 8, 0)

#: Some of the lit pixels, by their places among them, or all.
Which = NDArray[np.intp] | slice
ALL = slice(None)


def which_pixels(wanted: NDArray[np.bool_]) -> Which:
    """Return the pixels that are wanted, or all where they are most: picking takes longer."""
    return ALL if 2 * np.count_nonzero(wanted) > wanted.size else np.flatnonzero(wanted)


class LitPixels:
    """An image of `width` by `height` device pixels, of which those at `pixels` (n,) are lit.

    `cover` (n,) is how far, 0 to 1, each hides what lies beneath; all others hide nothing.
    """

    def __init__(
        self,
        size: tuple[int, int],
        device_pixel_ratio: float,
        pixels: NDArray[np.integer],
        cover: NDArray[np.floating],
    ) -> None:
        width, height = size
        self._where = pixels
        self._argb = np.zeros(width * height, np.uint32)
        self._alpha = np.rint(cover * 255.0).astype(np.uint32)
        # The image reads the array itself, which this object keeps alive.
        self.image = QImage(
            self._argb.data, width, height, 4 * width, QImage.Format.Format_ARGB32_Premultiplied
        )
        self.image.setDevicePixelRatio(device_pixel_ratio)

    def light(
        self,
        linear: NDArray[np.floating],
        level_of: Callable[[NDArray[np.float32]], NDArray[np.float32]],
        which: Which = ALL,
    ) -> QImage:
        """Light `which` pixels from a table (m, 3) of linear colours, and return the image.

        `level_of` makes of one channel of the table (m,) the levels of those pixels, 0 to `LEVELS` - 1 and
        more where light runs over. All others stay as they were.
        """
        table = np.clip(linear, 0.0, 1.0).astype(np.float32)
        alpha = self._alpha[which]
        rim = np.flatnonzero(alpha < 255)
        rim_alpha = alpha[rim]
        argb = alpha << np.uint32(24)
        for channel, bits in enumerate(_SHIFTS):
            level = level_of(np.ascontiguousarray(table[:, channel]))
            np.minimum(level, LEVELS - 1, out=level)
            code = np.take(_ENCODED, level.astype(np.intp))
            code[rim] = (code[rim] * rim_alpha + 127) // 255
            argb |= code << np.uint32(bits)
        self._argb[self._where[which]] = argb
        return self.image
