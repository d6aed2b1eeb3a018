"""The lay's colours, one a pixel column, kept from frame to frame.

The rule of this module: colour comes from the worksheet's `lay_colours` alone, so that edges are mixed as
dye; only the columns that can have changed are asked for anew.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray
from PySide6.QtCore import QRectF
from PySide6.QtGui import QBrush, QImage, QPixmap, QTransform

from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.changes import Span
from studio_gui.drawing.lay_layout import LayLayout

ColumnArray = NDArray[np.uint8]


def colours_at(sheet: Worksheet, places_m: ArrayLike) -> ColumnArray:
    """Return (p, 3) sRGB, 0 to 255, at (p,) places on the lay (m); off the lay, that of its end."""
    on_lay = np.clip(places_m, 0.0, sheet.plan.lay_length_m)
    return np.rint(sheet.lay_colours(on_lay).srgb * 255.0).astype(np.uint8)


class ColourRow:
    """The colour of every device column of a layout's pane, from left to right."""

    def __init__(self, layout: LayLayout, device_pixel_ratio: float) -> None:
        self.ratio = device_pixel_ratio
        self.left = layout.pane.left()
        self.rgb: ColumnArray = np.zeros((math.ceil(layout.pane.width() * device_pixel_ratio), 3), np.uint8)
        self.refresh(layout, (layout.pane.left(), layout.pane.right()))

    def __len__(self) -> int:
        return len(self.rgb)

    def refresh(self, layout: LayLayout, within: Span) -> tuple[int, int]:
        """Ask anew for the columns between two pixel columns; return the first and the one past the last."""
        first = max(math.floor((within[0] - self.left) * self.ratio), 0)
        last = min(math.ceil((within[1] - self.left) * self.ratio), len(self.rgb))
        if last <= first:
            return first, first
        middles_x = self.left + (np.arange(first, last) + 0.5) / self.ratio
        places_m = (middles_x - layout.x(0.0)) / layout.px_per_m
        self.rgb[first:last] = colours_at(layout.sheet, places_m)
        return first, last

    def brush(self) -> QBrush:
        """Return a brush that paints every column in its own colour."""
        return row_brush(self.rgb, self.left, 1.0 / self.ratio)


def row_brush(rgb: ColumnArray, left: float, px_per_column: float) -> QBrush:
    """Return a brush that paints columns of `px_per_column` from `left` in the (p, 3) colours of `rgb`."""
    pixels = np.full((1, len(rgb), 4), 255, dtype=np.uint8)
    pixels[0, :, :3] = rgb
    image = QImage(pixels.tobytes(), len(rgb), 1, 4 * len(rgb), QImage.Format.Format_RGBX8888)
    brush = QBrush(QPixmap.fromImage(image))
    brush.setTransform(QTransform.fromTranslate(left, 0.0).scale(px_per_column, 1.0))
    return brush


def lay_brush(sheet: Worksheet, box: QRectF) -> QBrush:
    """Return a brush that paints the whole lay, from its start to its end, across `box`."""
    columns = max(math.ceil(box.width()), 1)
    places_m = (np.arange(columns) + 0.5) * (sheet.plan.lay_length_m / columns)
    return row_brush(colours_at(sheet, places_m), box.left(), box.width() / columns)
