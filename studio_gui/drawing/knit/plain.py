"""Knitting without stitches: rows as plain bands, for the whole of a swatch, and until stitches are there.

The rule of this module: strands are seen as from far away, as one light; rows run as those with stitches do.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QImage, QPainter, QPen

from studio_gui.domain.colour.spaces import srgb_from_linear
from studio_gui.drawing.look import Look

FloatArray = NDArray[np.float64]

#: Colours along a row where the whole swatch is shown.
OVERVIEW_PARTS = 16


def paint_bands(painter: QPainter, box: QRectF, linear: FloatArray, runs_right: list[bool]) -> None:
    """Paint rows into `box`, the first at the bottom.

    `linear` is (strands, rows * parts, 3) linear colours in the order in which they are knitted; `runs_right`
    tells of each row whether that is from left to right.
    """
    rows = linear.mean(axis=0).reshape(len(runs_right), -1, 3)
    turned = ~np.array(runs_right)
    rows[turned] = rows[turned, ::-1]
    codes = np.rint(srgb_from_linear(np.clip(rows[::-1], 0.0, 1.0)) * 255.0).astype(np.uint32)
    pixels = (
        np.uint32(0xFF000000) | codes[..., 0] << np.uint32(16) | codes[..., 1] << np.uint32(8) | codes[..., 2]
    )
    height, width = pixels.shape
    image = QImage(pixels.data, width, height, 4 * width, QImage.Format.Format_RGB32)
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    painter.drawImage(box, image)
    painter.restore()


def overview_places(total: int) -> FloatArray:
    """Return where the colours of a whole swatch lie, (rows * parts,), in rows from the start of the yarn."""
    places: FloatArray = (np.arange(total * OVERVIEW_PARTS) + 0.5) / OVERVIEW_PARTS
    return places


def paint_overview(
    painter: QPainter,
    box: QRectF,
    linear: FloatArray,
    runs_right: list[bool],
    seen: tuple[int, int],
    look: Look,
) -> None:
    """Paint a whole swatch into `box`, and frame the rows `seen` beside it, from one up to another."""
    paint_bands(painter, box, linear, runs_right)
    row_px = box.height() / len(runs_right)
    frame = QRectF(box.left(), box.bottom() - seen[1] * row_px, box.width(), (seen[1] - seen[0]) * row_px)
    if frame.height() < 4.0:
        frame = QRectF(frame.left(), frame.center().y() - 2.0, frame.width(), 4.0)
    painter.save()
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(look.film_edge, 1.0))
    painter.drawRect(box)
    painter.setPen(QPen(look.table, 4.0))  # stands off from wool of any colour
    painter.drawRect(frame.adjusted(-3.0, -1.0, 3.0, 1.0))
    painter.setPen(QPen(look.handle, 2.0))
    painter.drawRect(frame.adjusted(-3.0, -1.0, 3.0, 1.0))
    painter.restore()
