"""A knitted swatch in a box: how much of it fits, its stitches in colours, and figures of its rows.

The rule of this module: a whole row is always seen, so that stripes and pools are where they will be. Where a
row has more stitches than there is room for, each one drawn stands for more of the yarn.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen

from studio_gui.domain.spinning.plies import strands_twisted
from studio_gui.domain.spinning.swatch import KnittedRows
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.fonts import sized
from studio_gui.drawing.knit.colouring import ColouredKnit
from studio_gui.drawing.knit.maps import KnitMaps, knit_maps
from studio_gui.drawing.knit.place import (
    LEAST_STITCH_PX,
    ROWS_WANTED,
    STITCH_SHAPE,
    WIDEST_STITCH_PX,
    KnitPlace,
    runs_right,
    stitch_at,
)
from studio_gui.drawing.knit.plain import overview_places, paint_bands, paint_overview
from studio_gui.drawing.look import LIGHT, Look
from studio_gui.drawing.patterns import pixel_ratio
from studio_gui.drawing.yarn_colours import LayColours
from studio_gui.wording.numbers import shown_number

FloatArray = NDArray[np.float64]

#: Room left of the stitches for the figures of rows, px.
FIGURES_WIDTH = 40.0
#: Rows between figures; the first of these that leaves room for them.
STEPS = (10, 20, 50, 100)
#: Room at the right for the whole of a swatch of which only some rows are seen, and its width, px.
OVERVIEW_ROOM, OVERVIEW_WIDTH = 58.0, 46.0


@dataclass(frozen=True, slots=True)
class SwatchLayout:
    """Rows `first_row` to ``first_row + place.rows`` of `total` knitted in `box`, stitches in `fabric`."""

    place: KnitPlace
    first_row: int
    total: int
    box: QRectF
    fabric: QRectF

    @property
    def row_px(self) -> float:
        """Height of a row, px."""
        return self.place.stitch_height / self.place.device_pixel_ratio

    @property
    def picture(self) -> QRectF:
        """Where the picture lies, with the room round its stitches."""
        ratio = self.place.device_pixel_ratio
        aside, above = self.place.margin_x / ratio, self.place.margin_y / ratio
        return self.fabric.adjusted(-aside, -above, aside, above)

    @property
    def seen(self) -> QRectF:
        """The part of `picture` that is shown: cut where the knitting goes on."""
        cut_above = self.first_row + self.place.rows < self.total
        seen = QRectF(self.picture)
        if cut_above:
            seen.setTop(self.fabric.top())
        if self.first_row > 0:
            seen.setBottom(self.fabric.bottom())
        return seen

    @property
    def overview(self) -> QRectF | None:
        """Where the whole swatch is shown; None where all of its rows are seen anyway."""
        if self.place.rows >= self.total:
            return None
        left = self.box.right() - OVERVIEW_WIDTH - 4.0
        return QRectF(left, self.box.top() + 2.0, OVERVIEW_WIDTH, self.box.height() - 4.0)

    def overview_row(self, y: float) -> int:
        """Return the first row to be seen so that a place on the overview is in the middle."""
        box = self.overview or self.box
        return round((box.bottom() - y) / box.height() * self.total - self.place.rows / 2.0)

    @property
    def runs_right(self) -> list[bool]:
        """Whether each row of the whole swatch, from the start of the yarn, is knitted from left to right."""
        return [not self.place.in_the_round and row % 2 == 1 for row in range(self.total)]

    def rows_at(self, point: QPointF) -> float | None:
        """Return the place of the yarn at a point, in rows from its start; None beside the stitches."""
        ratio, corner = self.place.device_pixel_ratio, self.picture.topLeft()
        there = stitch_at(self.place, (point.x() - corner.x()) * ratio, (point.y() - corner.y()) * ratio)
        return None if there is None else self.first_row + there[0] + there[1]

    def places(self) -> FloatArray:
        """Return where the samples of the yarn seen lie, (samples,), in rows from the start of the yarn."""
        return self.first_row + (np.arange(self.place.samples) + 0.5) / self.place.samples_per_row

    def row_line(self, row: int) -> float:
        """Return the y of the lower edge of a row, counted from 0 at the start of the yarn."""
        return self.fabric.bottom() - (row - self.first_row) * self.row_px


def swatch_layout(
    rows: KnittedRows, box: QRectF, device_pixel_ratio: float = 1.0, first_row: int = 0
) -> SwatchLayout:
    """Lay out a yarn of at least one row in `box`; `first_row` is moved so that what is seen is full.

    Where rows go to and fro, the lowest one seen is even but at the end, so that scrolling turns none round.
    """
    ratio, total = device_pixel_ratio, rows.rows
    room = QSizeF(max(box.width() - FIGURES_WIDTH, 8.0) * ratio - 4.0, max(box.height(), 8.0) * ratio - 4.0)
    stitch_width, stitch_height, columns, seen = _fitting(room, rows, ratio)
    if seen < total:
        room.setWidth(max(room.width() - OVERVIEW_ROOM * ratio, 1.0))
        stitch_width, stitch_height, columns, seen = _fitting(room, rows, ratio)
    last = total - seen
    first = min(max(first_row, 0), last)
    first = first if first == last else first // 2 * 2
    knitting = rows.plan.yarn.knitting
    place = KnitPlace(
        columns,
        seen,
        stitch_width,
        stitch_height,
        strands_twisted(rows.plan),
        ratio,
        knitting.in_the_round,
        first_is_back=not knitting.in_the_round and first % 2 == 1,
    )
    bottom = math.floor(box.bottom() * ratio) - place.margin_y
    left = math.ceil((box.left() + FIGURES_WIDTH) * ratio) + place.margin_x
    fabric = QRectF(
        left / ratio,
        (bottom - seen * stitch_height) / ratio,
        columns * stitch_width / ratio,
        seen * stitch_height / ratio,
    )
    return SwatchLayout(place, first, total, QRectF(box), fabric)


def _fitting(room: QSizeF, rows: KnittedRows, ratio: float) -> tuple[int, int, int, int]:
    """Return width and height of stitches, device pixels, and how many fit across and up, margins and all."""
    wanted = min(rows.rows, ROWS_WANTED)
    width = min(room.width() / (rows.stitches + 0.34), room.height() / (wanted + 2.3) / STITCH_SHAPE)
    stitch_width = math.floor(min(max(width, LEAST_STITCH_PX * ratio), WIDEST_STITCH_PX * ratio))
    stitch_height = max(round(stitch_width * STITCH_SHAPE), 2)
    columns = min(max(math.floor(room.width() / stitch_width - 0.34), 1), rows.stitches)
    return (
        stitch_width,
        stitch_height,
        columns,
        min(max(math.floor(room.height() / stitch_height - 2.3), 1), rows.rows),
    )


class KnitPicture:
    """A swatch stitch by stitch in colours; `place` is what its maps were made for."""

    def __init__(self, maps: KnitMaps) -> None:
        self._knit = ColouredKnit(maps)
        self._shown: FloatArray | None = None

    @property
    def place(self) -> KnitPlace:
        """What the maps were made for."""
        return self._knit.maps.place

    def draw(self, painter: QPainter, layout: SwatchLayout, linear: FloatArray) -> None:
        """Draw the swatch in (strands, samples, 3) linear colours; the same array is not coloured anew."""
        if self._shown is not linear:
            self._knit.show(linear)
            self._shown = linear
        painter.save()
        painter.setClipRect(layout.seen, Qt.ClipOperation.IntersectClip)
        painter.drawImage(layout.picture.topLeft(), self._knit.image)
        painter.restore()


def paint_plain_knit(painter: QPainter, layout: SwatchLayout, linear: FloatArray) -> None:
    """Paint rows as plain bands in (strands, samples, 3) linear colours."""
    rows = [runs_right(layout.place, row) for row in range(layout.place.rows)]
    paint_bands(painter, layout.fabric, linear, rows)


def paint_row_figures(painter: QPainter, layout: SwatchLayout, look: Look) -> None:
    """Write the number of every tenth row at the left (every twentieth, and so on, where rows are low)."""
    painter.save()
    painter.setFont(sized(painter, 0.85))
    metrics = QFontMetricsF(painter.font())
    step = next((one for one in STEPS if one * layout.row_px >= metrics.height()), STEPS[-1])
    right = layout.picture.left() - 2.0
    for row in range(layout.first_row + 1, layout.first_row + layout.place.rows + 1):
        if row % step and row != 1:
            continue
        y = layout.row_line(row) + layout.row_px / 2.0
        painter.setPen(QPen(look.film_edge, 1.0))
        painter.drawLine(QPointF(right - 5.0, y), QPointF(right, y))
        words = QRectF(layout.box.left(), y - metrics.height() / 2.0, right - 8.0 - layout.box.left(), 0.0)
        words.setHeight(metrics.height())
        painter.setPen(look.secondary)
        painter.drawText(
            words, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, shown_number(row, 0)
        )
    painter.restore()


def paint_whole(painter: QPainter, layout: SwatchLayout, linear: FloatArray, look: Look) -> None:
    """Paint the whole swatch at the right in colours at `overview_places`, with the rows seen framed."""
    if layout.overview is not None:
        seen = (layout.first_row, layout.first_row + layout.place.rows)
        paint_overview(painter, layout.overview, linear, layout.runs_right, seen, look)


def paint_swatch_of(
    painter: QPainter,
    box: QRectF,
    sheet: Worksheet,
    look: Look = LIGHT,
    first_row: int = 0,
    *,
    ratio: float | None = None,
    maps_of: Callable[[KnitPlace], KnitMaps] | None = knit_maps,
) -> SwatchLayout | None:
    """Paint the knitted swatch of a worksheet's yarn into `box`, stitches and figures, from `first_row` up.

    On vector painters stitches are a picture of their own, fine enough to be enlarged; `ratio` is how many of
    its pixels there are to one of `box`, `maps_of` where its maps come from. With None rows are plain bands.
    Return how it is laid out; None, with nothing painted, where the yarn makes no row. Takes about 0.2 s,
    0.6 s when stitches of that size are new.
    """
    rows = KnittedRows(sheet.yarn)
    if rows.rows == 0:
        return None
    layout = swatch_layout(rows, box, ratio or pixel_ratio(painter), first_row)
    colours = LayColours(sheet)
    linear = colours.along_yarn(rows.laid_m(layout.places()))
    if maps_of is None:
        paint_plain_knit(painter, layout, linear)
    else:
        KnitPicture(maps_of(layout.place)).draw(painter, layout, linear)
    paint_row_figures(painter, layout, look)
    if layout.overview is not None:
        paint_whole(painter, layout, colours.along_yarn(rows.laid_m(overview_places(layout.total))), look)
    return layout
