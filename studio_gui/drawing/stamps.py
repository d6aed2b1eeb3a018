"""Small drawings that stand in many places: drawn once for the device's pixels, then stamped.

The rule of this module: a stamp on the screen and the drawing in a vector picture come from one function, and
what a stamp shows rests on the arguments of that function alone.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from functools import lru_cache

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QImage, QPainter

from studio_gui.drawing.patterns import is_vector, pixel_ratio

#: Left, top, width and height of what is drawn, about the place of the stamp, px.
Box = tuple[float, float, float, float]
Argument = float | tuple[float, ...]
Draw = Callable[..., None]


def paint_stamps(
    painter: QPainter, draw: Draw, arguments: tuple[Argument, ...], box: Box, places: Iterable[QPointF]
) -> None:
    """Paint ``draw(painter, *arguments)`` about each of `places`, which lie on corners of device pixels."""
    if is_vector(painter):
        for place in places:
            painter.save()
            painter.translate(place)
            draw(painter, *arguments)
            painter.restore()
        return
    image = _stamp(draw, arguments, box, pixel_ratio(painter))
    corner = QPointF(box[0], box[1])
    for place in places:
        painter.drawImage(place + corner, image)


@lru_cache(maxsize=1024)
def _stamp(draw: Draw, arguments: tuple[Argument, ...], box: Box, ratio: float) -> QImage:
    left, top, width, height = box
    image = QImage(
        math.ceil(width * ratio), math.ceil(height * ratio), QImage.Format.Format_ARGB32_Premultiplied
    )
    image.setDevicePixelRatio(ratio)
    image.fill(Qt.GlobalColor.transparent)
    painter = QPainter(image)
    try:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.translate(-left, -top)
        draw(painter, *arguments)
    finally:
        painter.end()
    return image
