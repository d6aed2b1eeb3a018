"""The wool of strip and yarn on the screen: its maps are made while nobody waits for them.

The rule of this module: a frame colours the maps there are; maps are asked for once sizes have come to rest.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QPainter

from studio_gui.document.background import RestedRun
from studio_gui.domain.spinning.plies import strands_twisted
from studio_gui.drawing.fibre.maps import FibreMaps, fibre_maps
from studio_gui.drawing.fibre.place import FibrePlace
from studio_gui.drawing.patterns import is_vector
from studio_gui.drawing.yarn.pictures import (
    StripPicture,
    TwistPicture,
    paint_plain_strip,
    paint_plain_yarn,
    strip_place,
    twist_place,
)
from studio_gui.drawing.yarn.twist import TwistMaps, TwistPlace, twist_maps
from studio_gui.drawing.yarn_colours import LayColours
from studio_gui.drawing.yarn_layout import YarnLayout


class YarnSpinning(QObject):
    """Keeps the pictures of strip and yarn; `done` when better ones are there."""

    done = Signal()

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._strip: StripPicture | None = None
        self._twist: TwistPicture | None = None
        self._colours: LayColours | None = None
        self._wanted: tuple[FibrePlace, TwistPlace] | None = None
        self._run = RestedRun(self._work, self)
        self._run.done.connect(self._adopt)

    def paint(self, painter: QPainter, layout: YarnLayout, device_pixel_ratio: float) -> None:
        """Paint strip and yarn of a layout, as fibre where there is fibre of its size."""
        colours = self._colours
        if colours is None or colours.sheet is not layout.sheet:
            colours = self._colours = LayColours(layout.sheet, colours)
        columns = math.ceil(layout.strip.width() * device_pixel_ratio)
        along_strip = colours.along_strip(columns)
        along_yarn = colours.along_yarn(layout.laid_m(columns), layout.spun)
        strip = strip_place(layout.strip, device_pixel_ratio)
        twist = twist_place(layout.yarn, strands_twisted(layout.sheet.plan), device_pixel_ratio)
        if self._strip is not None and self._strip.place == strip and not is_vector(painter):
            self._strip.draw(painter, layout.strip, along_strip)
        else:
            paint_plain_strip(painter, layout.strip, along_strip)
        if layout.spun.laid_m > 0.0:
            if self._twist is not None and self._twist.place == twist and not is_vector(painter):
                self._twist.draw(painter, layout.yarn, along_yarn)
            else:
                paint_plain_yarn(painter, layout.yarn, along_yarn)
        self._look_after(strip, twist)

    def _look_after(self, strip: FibrePlace, twist: TwistPlace) -> None:
        has_strip = self._strip is not None and self._strip.place == strip
        has_twist = self._twist is not None and self._twist.place == twist
        if has_strip and has_twist:
            return
        if self._wanted != (strip, twist):
            self._wanted = (strip, twist)
            self._run.ask_at_rest()

    def _work(self) -> Callable[[], tuple[FibreMaps, TwistMaps]] | None:
        return None if self._wanted is None else partial(_maps, *self._wanted)

    def _adopt(self, maps: tuple[FibreMaps, TwistMaps]) -> None:
        self._strip, self._twist = StripPicture(maps[0]), TwistPicture(maps[1])
        self.done.emit()


def _maps(strip: FibrePlace, twist: TwistPlace) -> tuple[FibreMaps, TwistMaps]:
    return fibre_maps(strip), twist_maps(twist)
