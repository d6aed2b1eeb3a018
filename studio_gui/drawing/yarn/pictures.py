"""Strip and yarn as fibre: maps of a picture's place, coloured for every frame.

The rule of this module: maps hang on sizes alone and are made while nobody waits; until they are there, and
on vector painters, plain tubes stand in.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QImage, QLinearGradient, QPainter, QPen

from studio_gui.domain.colour.spaces import srgb_from_linear
from studio_gui.drawing.colour_row import row_brush
from studio_gui.drawing.fibre.colouring import ColouredWool
from studio_gui.drawing.fibre.maps import FibreMaps
from studio_gui.drawing.fibre.place import FibrePlace, StrandPlace
from studio_gui.drawing.yarn.colouring import ColouredTwist
from studio_gui.drawing.yarn.twist import TwistMaps, TwistPlace, pitch_for

FloatArray = NDArray[np.float64]

#: Room above and below a strip for its shadow, and how far its colours wick, px.
STRIP_ROOM = 6.0
_WICKING_PX = 6.0


def strip_place(box: QRectF, device_pixel_ratio: float) -> FibrePlace:
    """Return what the fibre of a straight strip in `box` depends on."""
    ratio = device_pixel_ratio
    room = STRIP_ROOM * ratio
    width, height = math.ceil(box.width() * ratio), math.ceil(box.height() * ratio)
    strand = StrandPlace(0, 0.0, float(width), room, float(height), forward=True)
    return FibrePlace(width, height + round(2.0 * room), ratio, (strand,), 0.0, _WICKING_PX * ratio)


def twist_place(box: QRectF, strands: int, device_pixel_ratio: float) -> TwistPlace:
    """Return what the twist of a yarn in `box` depends on."""
    ratio = device_pixel_ratio
    width, height = math.ceil(box.width() * ratio), math.ceil(box.height() * ratio)
    return TwistPlace(width, height, strands, pitch_for(height * 0.86, strands), ratio)


class StripPicture:
    """The fibre of a strip in colours; `place` is what its maps were made for."""

    def __init__(self, maps: FibreMaps) -> None:
        self._wool = ColouredWool(maps)
        height, width = self._wool.pixels.shape
        # The image reads the array itself, which this object keeps alive.
        self._image = QImage(
            self._wool.pixels.data, width, height, 4 * width, QImage.Format.Format_ARGB32_Premultiplied
        )
        self._image.setDevicePixelRatio(maps.place.device_pixel_ratio)

    @property
    def place(self) -> FibrePlace:
        """What the maps were made for."""
        return self._wool.maps.place

    def draw(self, painter: QPainter, box: QRectF, linear: FloatArray) -> None:
        """Draw the strip into `box` in (width, 3) linear colours, one a device pixel."""
        margin = self._wool.maps.margin
        padded = np.pad(linear, ((margin, margin), (0, 0)), mode="edge")
        self._wool.paint(srgb_from_linear(padded))
        painter.drawImage(QPointF(box.left(), box.top() - STRIP_ROOM), self._image)


class TwistPicture:
    """The twisted yarn in colours; `place` is what its maps were made for."""

    def __init__(self, maps: TwistMaps) -> None:
        self._twist = ColouredTwist(maps)
        self._hairs = _hairs(maps.place)

    @property
    def place(self) -> TwistPlace:
        """What the maps were made for."""
        return self._twist.maps.place

    def draw(self, painter: QPainter, box: QRectF, linear: FloatArray) -> None:
        """Draw the yarn into `box` in (strands, width, 3) linear colours, one a device pixel."""
        painter.drawImage(box.topLeft(), self._twist.show(linear))
        painter.save()
        painter.setClipRect(box)
        painter.translate(box.topLeft())
        hairs = self._hairs
        codes = srgb_from_linear(np.clip(linear[hairs.strands, hairs.columns], 0.0, 1.0)).tolist()
        for (red, green, blue), lines in zip(codes, hairs.lines, strict=True):
            painter.setPen(QPen(QColor.fromRgbF(red, green, blue, 0.5), 0.8))
            painter.drawLines(lines)
        painter.restore()


@dataclass(frozen=True, eq=False)
class _Hairs:
    """Stray hairs: strand and colour column of each (h,), and its lines in px of the picture."""

    strands: NDArray[np.intp]
    columns: NDArray[np.intp]
    lines: list[list[QLineF]]


def _hairs(place: TwistPlace) -> _Hairs:
    ratio, height = place.device_pixel_ratio, place.height / place.device_pixel_ratio
    width = place.width / ratio
    draw = np.random.default_rng(5)
    hairs, strands, columns = [], [], []
    for _ in range(round(width * height / 1200.0) if height >= 20.0 else 0):
        x, side = draw.uniform(0.0, width - 1.0), draw.choice([-1.0, 1.0])
        along, out = draw.uniform(-0.8, 0.8) * height, draw.uniform(0.02, 0.10) * height
        y = height / 2.0 + side * height * draw.uniform(0.34, 0.41)
        t = np.linspace(0.0, 1.0, 5)
        xs, ys = x + along * t, y + side * out * np.sin(t * draw.uniform(1.6, 3.0))
        points = [QPointF(px, py) for px, py in zip(xs, ys, strict=True)]
        hairs.append([QLineF(a, b) for a, b in pairwise(points)])
        strands.append(int(draw.integers(place.strands)))
        columns.append(min(int(x * ratio), place.width - 1))
    return _Hairs(np.array(strands, dtype=np.intp), np.array(columns, dtype=np.intp), hairs)


def paint_plain_strip(painter: QPainter, box: QRectF, linear: FloatArray) -> None:
    """Paint a strip as a soft tube in (columns, 3) linear colours."""
    painter.save()
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(_row(linear, box))
    painter.drawRoundedRect(box, 3.0, 3.0)
    painter.setBrush(_tube(box))
    painter.drawRoundedRect(box, 3.0, 3.0)
    painter.restore()


def paint_plain_yarn(painter: QPainter, box: QRectF, linear: FloatArray) -> None:
    """Paint a yarn as a row of leaning lobes in (strands, columns, 3) linear colours, with no image in it."""
    strands, columns = linear.shape[:2]
    pitch = pitch_for(box.height() * 0.86, strands)
    step = pitch / strands
    codes = srgb_from_linear(np.clip(linear, 0.0, 1.0))
    painter.save()
    painter.setClipRect(box)
    painter.setPen(QPen(QColor(0, 0, 0, 90), 0.8))
    lobe = QRectF(-step * 0.72, -box.height() * 0.40, step * 1.44, box.height() * 0.80)
    for number in range(-1, math.ceil(box.width() / step) + 1):
        x = number * step
        column = min(max(int(x / box.width() * columns), 0), columns - 1)
        painter.setBrush(QColor.fromRgbF(*codes[number % strands, column].tolist()))
        painter.save()
        painter.translate(box.left() + x, box.center().y())
        painter.shear(-0.45, 0.0)
        painter.drawRoundedRect(lobe, step * 0.6, box.height() * 0.3)
        painter.restore()
    painter.restore()


def _row(linear: FloatArray, box: QRectF) -> QBrush:
    rgb = np.rint(srgb_from_linear(np.clip(linear, 0.0, 1.0)) * 255.0).astype(np.uint8)
    return row_brush(rgb, box.left(), box.width() / len(rgb))


def _tube(box: QRectF) -> QBrush:
    shade = QLinearGradient(box.topLeft(), box.bottomLeft())
    for place, alpha in ((0.0, 70), (0.3, 0), (0.65, 30), (1.0, 120)):
        shade.setColorAt(place, QColor(0, 0, 0, alpha))
    return QBrush(shade)
