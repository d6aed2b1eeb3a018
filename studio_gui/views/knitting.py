"""The stitches of a swatch on the screen: their maps are made while nobody waits for them.

The rule of this module: a frame colours the maps there are; maps are asked for once sizes have come to rest.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QPainter

from studio_gui.document.background import RestedRun
from studio_gui.domain.spinning.swatch import KnittedRows
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.knit.maps import KnitMaps, knit_maps
from studio_gui.drawing.knit.pictures import (
    FloatArray,
    KnitPicture,
    SwatchLayout,
    paint_plain_knit,
    paint_whole,
)
from studio_gui.drawing.knit.place import KnitPlace
from studio_gui.drawing.knit.plain import overview_places
from studio_gui.drawing.look import Look
from studio_gui.drawing.yarn_colours import LayColours


class Knitting(QObject):
    """Keeps the picture of a swatch; `done` when a better one is there."""

    done = Signal()

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._picture: KnitPicture | None = None
        self._colours: LayColours | None = None
        self._linear: tuple[Worksheet, int, KnitPlace, FloatArray] | None = None
        self._whole: tuple[Worksheet, FloatArray] | None = None
        self._wanted: KnitPlace | None = None
        self._run = RestedRun(self._work, self)
        self._run.done.connect(self._adopt)

    def paint(self, painter: QPainter, layout: SwatchLayout, sheet: Worksheet, look: Look) -> None:
        """Paint a swatch, stitch by stitch where there are stitches of its size."""
        linear = self._colours_along(layout, sheet)
        if layout.overview is not None:
            paint_whole(painter, layout, self._colours_of_all(layout, sheet), look)
        picture = self._picture
        if picture is not None and picture.place == layout.place:
            picture.draw(painter, layout, linear)
            return
        paint_plain_knit(painter, layout, linear)
        if self._wanted != layout.place:
            self._wanted = layout.place
            self._run.ask_at_rest()

    def _colours_along(self, layout: SwatchLayout, sheet: Worksheet) -> FloatArray:
        """Return the colours along the yarn seen, the same array as long as it is the same yarn."""
        kept = self._linear
        if kept is None or kept[0] is not sheet or kept[1:3] != (layout.first_row, layout.place):
            kept = (sheet, layout.first_row, layout.place, self._at(layout.places(), sheet))
            self._linear = kept
        return kept[3]

    def _colours_of_all(self, layout: SwatchLayout, sheet: Worksheet) -> FloatArray:
        kept = self._whole
        if kept is None or kept[0] is not sheet:
            kept = self._whole = (sheet, self._at(overview_places(layout.total), sheet))
        return kept[1]

    def _at(self, places: FloatArray, sheet: Worksheet) -> FloatArray:
        if self._colours is None or self._colours.sheet is not sheet:
            self._colours = LayColours(sheet, self._colours)
        return self._colours.along_yarn(KnittedRows(sheet.yarn).laid_m(places))

    def _work(self) -> Callable[[], KnitMaps] | None:
        return None if self._wanted is None else partial(knit_maps, self._wanted)

    def _adopt(self, maps: KnitMaps) -> None:
        self._picture, self._wanted = KnitPicture(maps), None
        self.done.emit()
