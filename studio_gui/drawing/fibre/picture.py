"""Wool of a lay as a picture: maps of a layout, coloured by its worksheet, ready to draw.

The rule of this module: maps are made for a place (`fibre_place`), which no move of a boundary changes; a
picture made for one place is drawn at that place, or stretched to another until its maps are there.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter

from studio_gui.domain.geometry import lay_mass_to
from studio_gui.drawing.fibre.colouring import ColouredWool
from studio_gui.drawing.fibre.maps import FibreMaps, fibre_maps
from studio_gui.drawing.fibre.place import FibrePlace, StrandPlace
from studio_gui.drawing.lay_layout import LayLayout

#: Smallest difference of sRGB, 0 to 1, for which a column is painted anew.
_SEEN = 0.0005
#: Room for shadow and hairs above and below the strands, px.
_LEAST_ROOM, _MOST_ROOM = 4.0, 14.0


def wool_area(layout: LayLayout, device_pixel_ratio: float) -> QRectF:
    """Return where on the canvas the picture of the wool lies: the pane's width, on whole device pixels."""
    strands = layout.strands
    room = min(max(0.4 * layout.strand_height, _LEAST_ROOM), _MOST_ROOM)
    left, top, right, bottom = (
        edge * device_pixel_ratio
        for edge in (
            layout.pane.left(),
            strands[0].rect.top() - room,
            layout.pane.right(),
            strands[-1].rect.bottom() + room,
        )
    )
    x, y = math.floor(left), math.floor(top)
    width, height = math.ceil(right) - x, math.ceil(bottom) - y
    return QRectF(*(edge / device_pixel_ratio for edge in (x, y, width, height)))


def fibre_place(layout: LayLayout, device_pixel_ratio: float) -> FibrePlace:
    """Return all that the maps of a layout's wool depend on."""
    area, ratio = wool_area(layout, device_pixel_ratio), device_pixel_ratio
    strands = tuple(
        StrandPlace(
            roving=strand.roving,
            left=(strand.rect.left() - area.left()) * ratio,
            right=(strand.rect.right() - area.left()) * ratio,
            top=(strand.rect.top() - area.top()) * ratio,
            height=strand.rect.height() * ratio,
            forward=strand.leg.forward,
        )
        for strand in layout.strands
    )
    return FibrePlace(
        width=round(area.width() * ratio),
        height=round(area.height() * ratio),
        device_pixel_ratio=ratio,
        strands=strands,
        extra_px=layout.overhang_px * ratio,
        wicking_px=layout.sheet.plan.wicking_mm / 1000.0 * layout.px_per_m * ratio,
    )


class WoolPicture:
    """The wool of a layout, in colours.

    `layout` is the one that the maps were made for.
    """

    def __init__(self, layout: LayLayout, maps: FibreMaps) -> None:
        self.layout = layout
        self._wool = ColouredWool(maps)
        self._area = wool_area(layout, maps.place.device_pixel_ratio)
        # A move of a boundary changes neither the columns nor the roving under them, so they are kept.
        self._places_g = lay_mass_to(layout.sheet.plan.fibre, layout.sheet.plan.lay, self._places_m())
        self._shown = np.full((maps.columns, 3), np.nan)
        height, width = self._wool.pixels.shape
        # The image reads the array itself, which this object keeps alive.
        self._image = QImage(
            self._wool.pixels.data, width, height, 4 * width, QImage.Format.Format_ARGB32_Premultiplied
        )

    @property
    def place(self) -> FibrePlace:
        """What the maps were made for; compare with `fibre_place` to know whether they still hold."""
        return self._wool.maps.place

    @property
    def area(self) -> QRectF:
        """Where the picture lies on the canvas of its own layout."""
        return self._area

    def show(self, layout: LayLayout, within: tuple[float, float] | None = None) -> QRectF:
        """Take on the colours of a layout of the same place; return what was drawn anew, on the canvas.

        Only columns whose colour changed are painted: two sections for a boundary that is dragged. `within`
        (px on the canvas, left and right) spares asking for colours where none can have changed.
        """
        maps, ratio = self._wool.maps, self.place.device_pixel_ratio
        first, last = 0, maps.columns
        if within is not None:
            first, last = (
                min(max(round((x - self._area.left()) * ratio) + maps.margin + more, 0), maps.columns)
                for x, more in zip(within, (-1, 1), strict=True)
            )
        srgb = layout.sheet.colours_at(self._places_g[first:last]).srgb
        changed = np.flatnonzero(~(np.abs(srgb - self._shown[first:last]) <= _SEEN).all(axis=1))
        if not changed.size:
            return QRectF()
        some, end = int(changed[0]), int(changed[-1]) + 1
        self._shown[first + some : first + end] = srgb[some:end]
        drawn = self._wool.paint(self._shown, first + some, first + end)
        return QRectF(
            self._area.left() + drawn.start / ratio, self._area.top(), len(drawn) / ratio, self._area.height()
        )

    def _places_m(self) -> NDArray[np.float64]:
        """Return the place on the lay (m) of the middle of every colour column."""
        maps, layout = self._wool.maps, self.layout
        middles = (np.arange(maps.columns) - maps.margin + 0.5) / maps.place.device_pixel_ratio
        places_m = layout.lay_m(self._area.left()) + middles / layout.px_per_m
        return np.clip(places_m, 0.0, layout.sheet.plan.lay_length_m)

    def area_in(self, layout: LayLayout) -> QRectF | None:
        """Return where this picture lies, stretched, in another layout; None where it shows other wool.

        For the time until the other layout's own maps are there. It may leave parts of the pane bare.
        """
        mine, plan = self.layout.sheet.plan, layout.sheet.plan
        if (mine.fibre, mine.lay) != (plan.fibre, plan.lay) or len(self.layout.strands) != len(
            layout.strands
        ):
            return None
        left, right = (layout.x(self.layout.lay_m(x)) for x in (self._area.left(), self._area.right()))
        mine_top, top = self.layout.strands[0].rect.top(), layout.strands[0].rect.top()
        scale = layout.strand_height / self.layout.strand_height
        return QRectF(
            left, top - (mine_top - self._area.top()) * scale, right - left, self._area.height() * scale
        )

    def draw_part(self, painter: QPainter, area: QRectF) -> None:
        """Draw what of the picture lies in `area` of the canvas, at its own place."""
        ratio, part = self.place.device_pixel_ratio, area.intersected(self._area)
        if part.isEmpty():
            return
        left, right = (math.floor(part.left() * ratio), math.ceil(part.right() * ratio))
        target = QRectF(left / ratio, self._area.top(), (right - left) / ratio, self._area.height())
        target &= self._area
        first = target.translated(-self._area.left(), -self._area.top())
        source = QRectF(first.left() * ratio, 0.0, first.width() * ratio, first.height() * ratio)
        painter.drawImage(target, self._image, source)

    def draw(self, painter: QPainter, target: QRectF | None = None) -> None:
        """Draw the picture at its own place, or stretched to `target`."""
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.drawImage(self._area if target is None else target, self._image, QRectF(self._image.rect()))
        painter.restore()


def fibre_picture(layout: LayLayout, device_pixel_ratio: float) -> WoolPicture:
    """Return the picture of a layout's wool at once: for files, where nobody waits at a screen."""
    picture = WoolPicture(layout, fibre_maps(fibre_place(layout, device_pixel_ratio)))
    picture.show(layout)
    return picture
