"""The whole lay as a narrow strip, with the stretch that a page shows set off.

The rule of this module: a page of many says where it is: by the outline of its stretch, not by colour.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from PySide6.QtCore import QRectF, QSizeF
from PySide6.QtGui import QImage, QPainter

from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.sheets.page import Box, Frame, Mark, Medium, Picture, Shape

#: Height of the strip with the gap beneath it, mm.
OVERVIEW_MM = 7.0
_COLUMNS = 1024
_STRIP_MM = 3.2
#: Beside the strip, for the arrow where the lay begins.
_END_MM = 4.0


def overview(sheet: Worksheet, box: Box, which: range, *, mirrored: bool) -> Iterator[Mark]:
    """Yield the strip of the whole lay in `box`; sections `which` are set off."""
    strip = Box(box.x + _END_MM, box.y + (box.height - _STRIP_MM) / 2.0, box.width - 2.0 * _END_MM, _STRIP_MM)

    def paint(painter: QPainter, size: QSizeF, _medium: Medium) -> None:
        image = _row(sheet)
        if mirrored:
            image = image.mirrored(True, False)
        painter.drawImage(QRectF(0.0, 0.0, size.width(), size.height()), image, QRectF(image.rect()))

    yield Picture(strip, paint)
    yield Frame(strip, 0.2)
    edges_m = sheet.plan.edges_m
    low, high = (edges_m[edge] / edges_m[-1] * strip.width for edge in (which.start, which.stop))
    if mirrored:
        low, high = strip.width - high, strip.width - low
    yield Frame(Box(strip.x + low, box.y + 0.4, high - low, box.height - 0.8), 0.8, 0.6)
    beginning = strip.right + 3.0 if mirrored else strip.x - 3.0
    inwards = -1.0 if mirrored else 1.0
    middle = strip.y + strip.height / 2.0
    yield Shape(((beginning, middle - 1.2), (beginning + inwards * 2.0, middle), (beginning, middle + 1.2)))


def _row(sheet: Worksheet) -> QImage:
    """Return the colours of the whole lay, one pixel high."""
    places = (np.arange(_COLUMNS) + 0.5) * (sheet.plan.lay_length_m / _COLUMNS)
    rgb = np.rint(np.clip(sheet.lay_colours(places).srgb, 0.0, 1.0) * 255.0).astype(np.uint8)
    padded = np.concatenate((rgb, np.full((_COLUMNS, 1), 255, np.uint8)), axis=1)
    return QImage(padded.tobytes(), _COLUMNS, 1, QImage.Format.Format_RGBA8888).copy()
