"""Strip and yarn as fibre: maps of a picture's place, coloured for every frame.

The rule of this module: maps hang on sizes alone and are made while nobody waits; until they are there, and
on vector painters, plain tubes stand in.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QImage, QLinearGradient, QPainter, QPainterPath, QPen

from studio_gui.domain.colour.spaces import srgb_from_linear
from studio_gui.drawing.colour_row import row_brush
from studio_gui.drawing.fibre.colouring import ColouredWool
from studio_gui.drawing.fibre.maps import FibreMaps
from studio_gui.drawing.fibre.place import FibrePlace, StrandPlace
from studio_gui.drawing.patterns import is_vector, pixel_ratio
from studio_gui.drawing.yarn.colouring import ColouredTwist
from studio_gui.drawing.yarn.form import YARN_RADIUS
from studio_gui.drawing.yarn.hairs import StrayHairs
from studio_gui.drawing.yarn.twist import TwistMaps, TwistPlace, pitch_for

FloatArray = NDArray[np.float64]

#: Room above and below a strip for its shadow, and how far its colours wick, px.
STRIP_ROOM = 6.0
_WICKING_PX = 6.0
#: Colours that a vector picture has along a strip at most; places where these run straight are left out.
MOST_STOPS, LEAST_TURN = 600, 1e-3
#: How far hairs may leave the box of the yarn upwards and downwards, px.
HAIR_ROOM = 4.0


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
    return TwistPlace(width, height, strands, pitch_for(2.0 * YARN_RADIUS * height, strands), ratio)


class StripPicture:
    """The fibre of a strip in colours; `place` is what its maps were made for."""

    def __init__(self, maps: FibreMaps) -> None:
        self._wool = ColouredWool(maps)
        self._shown = np.full((maps.columns, 3), np.nan)
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
        changed = np.flatnonzero((padded != self._shown).any(axis=1))
        if changed.size:
            srgb = srgb_from_linear(padded)
            for stretch in np.split(changed, np.flatnonzero(np.diff(changed) > 2 * margin) + 1):
                self._wool.paint(srgb, int(stretch[0]), int(stretch[-1]) + 1)
            self._shown = padded
        painter.drawImage(QPointF(box.left(), box.top() - STRIP_ROOM), self._image)


class TwistPicture:
    """The twisted yarn in colours; `place` is what its maps were made for."""

    def __init__(self, maps: TwistMaps) -> None:
        self._twist = ColouredTwist(maps)
        self._hairs = StrayHairs(maps)

    @property
    def place(self) -> TwistPlace:
        """What the maps were made for."""
        return self._twist.maps.place

    def draw(self, painter: QPainter, box: QRectF, linear: FloatArray) -> None:
        """Draw the yarn into `box` in (strands, width, 3) linear colours, one a device pixel."""
        painter.drawImage(box.topLeft(), self._twist.show(linear))
        painter.save()
        painter.setClipRect(box.adjusted(0.0, -HAIR_ROOM, 0.0, HAIR_ROOM), Qt.ClipOperation.IntersectClip)
        painter.translate(box.topLeft())
        self._hairs.draw(painter, linear)
        painter.restore()


def paint_plain_strip(painter: QPainter, box: QRectF, linear: FloatArray) -> None:
    """Paint a strip as a soft tube in (columns, 3) linear colours."""
    painter.save()
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(_gradient(linear, box) if is_vector(painter) else _row(linear, box))
    painter.drawRoundedRect(box, 3.0, 3.0)
    painter.setBrush(_tube(box))
    painter.drawRoundedRect(box, 3.0, 3.0)
    painter.restore()


def paint_plain_yarn(painter: QPainter, box: QRectF, linear: FloatArray) -> None:
    """Paint a yarn as a row of leaning lobes in (strands, columns, 3) linear colours, with no image in it.

    The lobes lie where those of the twisted yarn will come.
    """
    strands, columns = linear.shape[:2]
    radius = YARN_RADIUS * box.height()
    if strands == 1:
        inner = QRectF(box.left(), box.center().y() - radius, box.width(), 2.0 * radius)
        paint_plain_strip(painter, inner, linear[0])
        return
    pitch = pitch_for(2.0 * radius, strands)
    step = pitch / strands
    codes = np.rint(255.0 * srgb_from_linear(np.clip(linear, 0.0, 1.0))).astype(np.uint8)
    lobes: dict[tuple[int, ...], QPainterPath] = {}
    whole = QPainterPath()
    whole.addRect(box)
    for number in range(-2, math.ceil(box.width() / step) + 1):
        x = 0.25 * pitch + number * step  # where a strand passes in front
        column = min(max(int(x / box.width() * columns), 0), columns - 1)
        colour = tuple(codes[-number % strands, column].tolist())
        lobe = _lobe(QPointF(box.left() + x, box.center().y()), step, radius)
        if not box.contains(lobe.controlPointRect()):
            lobe &= whole  # SVG knows no clipping
        lobes.setdefault(colour, QPainterPath()).addPath(lobe)
    painter.save()
    painter.setPen(QPen(QColor(0, 0, 0, 110), 1.0 / pixel_ratio(painter)))
    for colour, path in lobes.items():
        painter.setBrush(QColor(*colour))
        painter.drawPath(path)
    painter.restore()


def _lobe(middle: QPointF, step: float, radius: float) -> QPainterPath:
    """Return the part of a strand that is seen on one turn: it leans to the right and touches the next."""
    path = QPainterPath()
    half, lean, high = QPointF(0.5 * step, 0.0), QPointF(0.42 * step, -0.72 * radius), 0.5 * radius
    upper, lower = middle + lean, middle - lean
    path.moveTo(lower - half)
    path.lineTo(upper - half)
    path.quadTo(upper + QPointF(0.35 * step, -high), upper + half)
    path.lineTo(lower + half)
    path.quadTo(lower + QPointF(-0.35 * step, high), lower - half)
    path.closeSubpath()
    return path


def _row(linear: FloatArray, box: QRectF) -> QBrush:
    rgb = np.rint(srgb_from_linear(np.clip(linear, 0.0, 1.0)) * 255.0).astype(np.uint8)
    return row_brush(rgb, box.left(), box.width() / len(rgb))


def _gradient(linear: FloatArray, box: QRectF) -> QBrush:
    """Return the colours for vector pictures, whose viewers seldom show images as brushes."""
    even = np.linspace(0, len(linear) - 1, min(len(linear), MOST_STOPS)).round().astype(np.intp)
    rgb = srgb_from_linear(np.clip(linear[even], 0.0, 1.0))
    turns = np.ones(len(even), dtype=np.bool_)
    turns[1:-1] = np.abs(rgb[2:] - 2.0 * rgb[1:-1] + rgb[:-2]).max(axis=1) > LEAST_TURN
    gradient = QLinearGradient(box.topLeft(), box.topRight())
    for place, colour in zip((even[turns] + 0.5) / len(linear), rgb[turns].tolist(), strict=True):
        gradient.setColorAt(float(place), QColor.fromRgbF(*colour))
    return QBrush(gradient)


def _tube(box: QRectF) -> QBrush:
    shade = QLinearGradient(box.topLeft(), box.bottomLeft())
    for place, alpha in ((0.0, 70), (0.3, 0), (0.65, 30), (1.0, 120)):
        shade.setColorAt(place, QColor(0, 0, 0, alpha))
    return QBrush(shade)
