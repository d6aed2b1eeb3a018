"""Strip, yarn, map and swatch as pictures on a sheet.

The rule of this module: they are the screen's own, twice as fine; vector files have the plain ones. What
hangs on sizes alone is made once, however often a page is painted.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

import numpy as np
from PySide6.QtCore import QRectF, QSizeF
from PySide6.QtGui import QColor, QPainter

from studio_gui.domain.spinning.plies import strands_twisted
from studio_gui.domain.spinning.swatch import KnittedRows
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.knit.maps import KnitMaps, knit_maps
from studio_gui.drawing.knit.pictures import paint_swatch_of, swatch_layout
from studio_gui.drawing.knit.place import KnitPlace
from studio_gui.drawing.look import LIGHT
from studio_gui.drawing.sheets.page import MM_PER_PX, Medium
from studio_gui.drawing.sheets.wool_on_sheet import bare_maps
from studio_gui.drawing.strip_and_yarn import map_runs
from studio_gui.drawing.yarn.map import paint_map
from studio_gui.drawing.yarn.pictures import (
    HAIR_ROOM,
    STRIP_ROOM,
    StripPicture,
    TwistPicture,
    paint_plain_strip,
    paint_plain_yarn,
    strip_place,
    twist_place,
)
from studio_gui.drawing.yarn.twist import TwistMaps, TwistPlace, twist_maps
from studio_gui.drawing.yarn_colours import FloatArray, LayColours

Paint = Callable[[QPainter, QSizeF, Medium], None]

#: Above and beneath the wool of a strip, and of a yarn with its hairs, mm.
STRIP_ROOM_MM, HAIR_ROOM_MM = STRIP_ROOM * MM_PER_PX, HAIR_ROOM * MM_PER_PX
#: The map's letters are larger on paper than on the screen, and so is all of it.
MAP_SCALE = 1.5
SWATCH_SCALE = 1.35
#: On paper nothing lies on a table.
PAPER = replace(
    LIGHT,
    table=QColor("#ffffff"),
    film=QColor("#ffffff"),
    secondary=QColor("#000000"),
    handle=QColor("#000000"),
)
_FINE, _COARSE = 2.0, 1.0


@dataclass(frozen=True)
class YarnPictures:
    """Pictures of a worksheet's yarn, to be painted into boxes of any size."""

    sheet: Worksheet

    @cached_property
    def _colours(self) -> LayColours:
        return LayColours(self.sheet)

    def strip(self, painter: QPainter, size: QSizeF, medium: Medium) -> None:
        """Paint the roving unrolled, with `STRIP_ROOM_MM` above and beneath it."""
        box = QRectF(0.0, STRIP_ROOM, size.width(), size.height() - 2.0 * STRIP_ROOM)
        ratio = _ratio(medium)
        linear = self._colours.along_strip(math.ceil(box.width() * ratio))
        if medium.vector:
            paint_plain_strip(painter, box, linear)
        else:
            StripPicture(bare_maps(strip_place(box, ratio))).draw(painter, box, linear)

    def yarn(self, painter: QPainter, size: QSizeF, medium: Medium) -> None:
        """Paint the whole yarn, with `HAIR_ROOM_MM` above and beneath it; its twist is not to scale."""
        box = QRectF(0.0, HAIR_ROOM, size.width(), size.height() - 2.0 * HAIR_ROOM)
        ratio = _ratio(medium)
        linear = self._along_yarn(math.ceil(box.width() * ratio))
        if medium.vector:
            paint_plain_yarn(painter, box, linear)
            return
        place = twist_place(box, strands_twisted(self.sheet.plan), ratio)
        TwistPicture(_twist_maps(place)).draw(painter, box, linear)

    def map(self, painter: QPainter, size: QSizeF, _medium: Medium) -> None:
        """Paint which stretches of the whole yarn are solid and which barber-pole, with their letters."""
        painter.scale(MAP_SCALE, MAP_SCALE)
        box = QRectF(0.0, 0.5, size.width() / MAP_SCALE, size.height() / MAP_SCALE - 0.5)
        yarn = self.sheet.yarn
        paint_map(painter, box, map_runs(self.sheet, yarn.runs), (0.0, yarn.plied_m), PAPER, enlarged=True)

    def swatch(self, painter: QPainter, size: QSizeF, medium: Medium) -> None:
        """Paint the yarn as it is knitted, with figures of its rows; nothing where it makes no row."""
        painter.scale(SWATCH_SCALE, SWATCH_SCALE)
        box = QRectF(0.0, 0.0, size.width() / SWATCH_SCALE, size.height() / SWATCH_SCALE)
        ratio = _ratio(medium) * SWATCH_SCALE
        paint_swatch_of(
            painter,
            box,
            self.sheet,
            PAPER,
            self._first_row(box, ratio),
            ratio=ratio,
            maps_of=None if medium.vector else _knit_maps,
        )

    def swatch_shows_all(self, width_mm: float, height_mm: float) -> bool:
        """Whether all rows of the yarn have room in a picture of this size."""
        box = QRectF(0.0, 0.0, width_mm / MM_PER_PX / SWATCH_SCALE, height_mm / MM_PER_PX / SWATCH_SCALE)
        layout = swatch_layout(KnittedRows(self.sheet.yarn), box, _FINE * SWATCH_SCALE)
        return layout.overview is None

    def _first_row(self, box: QRectF, ratio: float) -> int:
        """Return the row from which most changes are seen where not all rows have room, well inside."""
        rows = KnittedRows(self.sheet.yarn)
        if rows.rows == 0:
            return 0
        seen = swatch_layout(rows, box, ratio).place.rows
        changes = np.array([run.start_m / rows.row_m for run in rows.yarn.runs[1:]])
        firsts = np.arange(max(rows.rows - seen, 0) + 1)
        counts = np.searchsorted(changes, firsts + seen) - np.searchsorted(changes, firsts, side="right")
        first = np.searchsorted(changes, firsts, side="right")
        inside = np.minimum(
            np.append(changes, np.inf)[first] - firsts,
            firsts + seen - np.insert(changes, 0, 0.0)[first + counts],
        )
        return int(np.argmax(np.where(counts == counts.max(), inside, -1.0)))

    def _along_yarn(self, columns: int) -> FloatArray:
        yarn = self.sheet.yarn
        middles = np.linspace(0.0, yarn.laid_m, 2 * columns + 1)[1::2]
        return self._colours.along_yarn(middles)


def _ratio(medium: Medium) -> float:
    return _FINE if medium.pixels_per_px > 1.0 and not medium.vector else _COARSE


@lru_cache(maxsize=4)
def _twist_maps(place: TwistPlace) -> TwistMaps:
    return twist_maps(place)


@lru_cache(maxsize=4)
def _knit_maps(place: KnitPlace) -> KnitMaps:
    return knit_maps(place)
