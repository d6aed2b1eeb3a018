"""Colours on fibre: one look-up a pixel, from a table of every colour column in every shade.

The rule of this module: shade acts on light, not on encoded colours, and only what can have changed is
looked up again.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.colour.spaces import linear_from_srgb, srgb_from_linear
from studio_gui.drawing.fibre.maps import HIGHEST_SHADE, LOWEST_SHADE, SHADES, FibreMaps

_LEVELS = 4096
#: Encoded value, 0 to 255, of a level of linear light.
_ENCODED = np.rint(255.0 * srgb_from_linear(np.arange(_LEVELS) / (_LEVELS - 1.0))).astype(np.uint32)
_RED, _GREEN, _BLUE = _ENCODED << 16 | np.uint32(0xFF000000), _ENCODED << 8, _ENCODED
_STEPS = np.linspace(LOWEST_SHADE, HIGHEST_SHADE, SHADES)
_FACTORS = ((_LEVELS - 1) * _STEPS).astype(np.float32)
# Where light glances off the fibre it is white, and more so off a pale one.
_SHEEN = ((_LEVELS - 1) * 0.16 * np.clip(_STEPS - 0.98, 0.0, None) ** 1.5).astype(np.float32)


class ColouredWool:
    """A picture of maps in colours: `pixels` is (height, width), premultiplied ARGB32 in native order."""

    def __init__(self, maps: FibreMaps) -> None:
        self.maps = maps
        height, width = maps.keys.shape
        self.pixels = np.zeros((height, width), np.uint32)
        # After the colours the table holds black of every alpha, so that bare film is looked up as well.
        self._table = np.empty(maps.columns * SHADES + 256, np.uint32)
        self._table[maps.columns * SHADES :] = np.arange(256, dtype=np.uint32) << 24
        self._light = np.empty((maps.columns, SHADES), np.float32)
        self._level = np.empty((maps.columns, SHADES), np.intp)
        self._part = np.empty((maps.columns, SHADES), np.uint32)
        self._set_edges((maps.cover > 0) & (maps.cover < 255))

    def _set_edges(self, edges: NDArray[np.bool_]) -> None:
        """Note the pixels that are neither bare nor full, by columns."""
        maps = self.maps
        column, row = np.nonzero(edges.T)
        self._edge_starts = np.searchsorted(column, np.arange(maps.place.width + 1))
        self._edge_place = row * maps.place.width + column
        self._edge_key = maps.keys[row, column]
        cover = maps.cover[row, column].astype(np.uint32)
        film = (255 - cover) * maps.shadow[row, column]
        self._edge_cover = cover + (cover > 127)
        self._edge_alpha = cover + (film + 127) // 255 << np.uint32(24)

    def paint(self, srgb: NDArray[np.float64], first: int = 0, last: int | None = None) -> range:
        """Show the colours (columns, 3), sRGB 0 to 1, of the columns from `first` up to `last`.

        Other columns keep the colours they had. Returns the picture's columns that were drawn anew.
        """
        last = self.maps.columns if last is None else last
        self._set_table(srgb[first:last], first, last)
        reach = self.maps.margin
        # Picture column p shows colours p to p + 2 * margin.
        left = max(first - 2 * reach, 0)
        right = min(last, self.maps.place.width)
        if left < right:
            self._look_up(left, right)
        return range(left, max(left, right))

    def _set_table(self, srgb: NDArray[np.float64], first: int, last: int) -> None:
        linear = linear_from_srgb(np.clip(srgb, 0.0, 1.0)).astype(np.float32)
        glance = 0.25 + 0.75 * linear.mean(axis=1, keepdims=True)
        table = self._table[first * SHADES : last * SHADES].reshape(-1, SHADES)
        light, level, part = self._light[first:last], self._level[first:last], self._part[first:last]
        sheen = glance * _SHEEN
        for channel, codes in enumerate((_RED, _GREEN, _BLUE)):
            np.multiply(linear[:, channel : channel + 1], _FACTORS, out=light)
            light += sheen
            np.copyto(level, light, casting="unsafe")
            if channel == 0:
                np.take(codes, level, out=table, mode="clip")
            else:
                np.take(codes, level, out=part, mode="clip")
                table |= part

    def _look_up(self, left: int, right: int) -> None:
        if right - left == self.maps.place.width:
            np.take(self._table, self.maps.keys, out=self.pixels, mode="clip")
        else:
            self.pixels[:, left:right] = np.take(self._table, self.maps.keys[:, left:right], mode="clip")
        edges = slice(self._edge_starts[left], self._edge_starts[right])
        colour = np.take(self._table, self._edge_key[edges], mode="clip")
        cover = self._edge_cover[edges]
        # Red and blue at once, each in a half of the number, then green.
        both = (colour & 0xFF00FF) * cover >> 8 & 0xFF00FF
        both |= (colour & 0xFF00) * cover >> 8 & 0xFF00
        both |= self._edge_alpha[edges]
        self.pixels.reshape(-1)[self._edge_place[edges]] = both
