"""Stray hairs that leave a yarn and bow back to it: an ornament.

The rule of this module: a hair has the colour of the strand that it leaves, and a place along the yarn has
the same hairs in pictures of any width.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen

from studio_gui.domain.colour.spaces import srgb_from_linear
from studio_gui.drawing.fibre.tile import Floats
from studio_gui.drawing.patterns import pixel_ratio
from studio_gui.drawing.yarn.twist import TwistMaps

#: Thinner yarn, px of the screen's scale, has none.
LEAST_HEIGHT = 18.0
#: Hairs along a stretch of yarn as long as it is thick, and most hairs of one picture.
_PER_THICKNESS, _MOST = 4.0, 160
_SEED = 5


@dataclass(frozen=True, eq=False)
class _Hair:
    strand: int
    column: int
    alpha: float
    path: QPainterPath


class StrayHairs:
    """The hairs of a yarn whose maps are known."""

    def __init__(self, maps: TwistMaps) -> None:
        self._hairs = tuple(_hairs(maps))

    def __len__(self) -> int:
        return len(self._hairs)

    def draw(self, painter: QPainter, linear: Floats) -> None:
        """Draw the hairs of a picture at the origin in (strands, width, 3) linear colours."""
        if not self._hairs:
            return
        places = [one.strand for one in self._hairs], [one.column for one in self._hairs]
        # one device pixel: hairs are as fine as the screen, and finer lines are drawn several times as fast
        thin = 1.0 / pixel_ratio(painter)
        codes = srgb_from_linear(np.clip(linear[places], 0.0, 1.0)).tolist()
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for hair, (red, green, blue) in zip(self._hairs, codes, strict=True):
            painter.setPen(QPen(QColor.fromRgbF(red, green, blue, hair.alpha), thin))
            painter.drawPath(hair.path)


def _hairs(maps: TwistMaps) -> list[_Hair]:
    place, ratio = maps.place, maps.place.device_pixel_ratio
    width, height = place.width / ratio, place.height / ratio
    if height < LEAST_HEIGHT:
        return []
    flat = np.full(place.height * place.width, -1)
    flat[maps.pixels] = maps.strands[0]
    strands = flat.reshape(place.height, place.width)
    count = min(round(width / height * _PER_THICKNESS), _MOST)
    # each hair takes its numbers in turn, so that a wider picture adds hairs and moves none
    numbers = np.random.Generator(np.random.PCG64(_SEED)).random((count, 7)).tolist()
    hairs = []
    for number, (near, side, length, out, bend, tip, faint) in enumerate(numbers):
        x = (number + near) * width / count
        column = min(int(x * ratio), place.width - 1)
        rows = np.flatnonzero(strands[:, column] >= 0)
        if len(rows) == 0:
            continue
        outwards = -1.0 if side < 0.5 else 1.0
        row = rows[0] if side < 0.5 else rows[-1]
        # from a little inside the edge
        start = QPointF(x, (row + 0.5) / ratio - outwards * 0.05 * height)
        along = (0.25 + 0.75 * length) * height * (1.0 if bend < 0.5 else -1.0)
        bow = outwards * (0.05 + 0.07 * out) * height
        path = QPainterPath(start)
        path.cubicTo(
            start + QPointF(0.3 * along, 0.9 * bow),
            start + QPointF(0.6 * along, 1.3 * bow),
            start + QPointF(along, bow * (0.1 + 1.0 * tip)),
        )
        hairs.append(_Hair(int(strands[row, column]), column, 0.25 + 0.35 * faint, path))
    return hairs
