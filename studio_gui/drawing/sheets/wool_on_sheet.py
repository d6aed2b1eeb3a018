"""Wool on a sheet: a stretch of the lay to scale, as fibre on rasters and as gradients in vector files.

The rule of this module: the picture is the screen's own; seen from the other side it is the same picture
turned round. Pages whose strands lie alike share their fibres: many take little longer than one.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

import numpy as np
from PySide6.QtCore import QPointF, QRectF, QSizeF
from PySide6.QtGui import QPainter

from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.fibre.maps import SHADES, FibreMaps, fibre_maps
from studio_gui.drawing.fibre.picture import WoolPicture, fibre_place
from studio_gui.drawing.fibre.place import FibrePlace
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.lay_rows import SLIP_ROOM, Rows
from studio_gui.drawing.lay_view import LayView
from studio_gui.drawing.sheets.page import MM_PER_PX, Box, Medium
from studio_gui.drawing.wool import gradient_brush, paint_strands

LEAST_STRAND_MM, MOST_STRAND_MM = 1.0, 13.0
LEAST_WOOL_MM = 14.0
#: Above and beneath the strands, for their shadow and hairs.
ROOM_MM = 1.0
#: Pixels to a 96th of an inch: at 144 dpi fibres can be told apart as well as home printers show them.
_FINE, _COARSE = 1.5, 1.0
#: Strands that go on past the edge of a page are alike from here on, px.
_FAR_PX = 300.0


@dataclass(frozen=True)
class WoolOnSheet:
    """The strands of a stretch of lay in `box`.

    `rovings` of the set are drawn: as many as fit on every page. `left_mm` is where the lay would begin, from
    the box's left edge as the painter sees it.
    """

    sheet: Worksheet
    box: Box
    left_mm: float
    mm_per_m: float
    rovings: int
    strand_px: float
    mirrored: bool

    def x(self, lay_m: float) -> float:
        """Return where a place on the lay (m) is on the sheet, mm."""
        from_left = self.left_mm + lay_m * self.mm_per_m
        return self.box.right - from_left if self.mirrored else self.box.x + from_left

    @cached_property
    def layout(self) -> LayLayout:
        """The strands as the screen lays them out, px of 96 dpi from the box's corner."""
        width, height = self.box.width / MM_PER_PX, self.box.height / MM_PER_PX
        passes, plan = self.sheet.plan.lay.passes, self.sheet.plan
        px_per_m = self.mm_per_m / MM_PER_PX
        top = (height - Rows(self.rovings, self.strand_px, 0.0).strands(passes)) / 2.0
        left = self.left_mm / MM_PER_PX - plan.lay.overhang_m / 2.0 * px_per_m
        film_m = plan.lay_length_m + plan.lay.overhang_m
        nowhere = QRectF()
        return LayLayout(
            sheet=self.sheet,
            size=QSizeF(width, height),
            view=LayView(),
            pane=QRectF(0.0, 0.0, width, height),
            rovings_shown=self.rovings,
            strand_height=self.strand_px,
            px_per_m=px_per_m,
            film=QRectF(left, top - SLIP_ROOM, film_m * px_per_m, height),
            tape_start=nowhere,
            tape_end=nowhere,
            gauge=nowhere,
            px_per_ml_per_g=1.0,
            figures_top=0.0,
            overview=nowhere,
        )

    @property
    def beginnings(self) -> list[tuple[float, float]]:
        """Where each roving's first strand is, from the top of the sheet, and how thick it is, mm."""
        firsts = (strand.rect for strand in self.layout.strands if strand.pass_index == 0)
        rows = [(rect.center().y() * MM_PER_PX, rect.height() * MM_PER_PX) for rect in firsts]
        if self.mirrored:
            return [(self.box.bottom - row, height) for row, height in rows]
        return [(self.box.y + row, height) for row, height in rows]

    def paint(self, painter: QPainter, size: QSizeF, medium: Medium) -> None:
        """Paint the wool into its box."""
        if self.mirrored:
            painter.translate(size.width(), size.height())
            painter.rotate(180.0)
        layout = self.layout
        if medium.vector:
            paint_strands(painter, layout, gradient_brush(layout), QRectF(QPointF(), size))
            return
        place = _alike_far_away(fibre_place(layout, _FINE if medium.pixels_per_px > 1.0 else _COARSE))
        picture = WoolPicture(layout, bare_maps(place))
        picture.show(layout)
        picture.draw(painter)


def wool_heights(plan: Plan) -> tuple[float, float]:
    """Return the least and the greatest height of the wool of a plan, mm."""
    passes = plan.lay.passes
    most = (
        Rows(rovings_drawn(plan), MOST_STRAND_MM / MM_PER_PX, 0.0).strands(passes) * MM_PER_PX + 2.0 * ROOM_MM
    )
    return min(LEAST_WOOL_MM, most), most


def strands_on_sheet(
    sheet: Worksheet,
    box: Box,
    stretch_m: tuple[float, float],
    ends_mm: tuple[float, float],
    *,
    mirrored: bool,
) -> WoolOnSheet:
    """Return the lay from one place to another (m) in `box`, with so much room (mm) before and after it."""
    from_m, to_m = stretch_m
    before_mm, after_mm = ends_mm
    mm_per_m = (box.width - before_mm - after_mm) / (to_m - from_m)
    rovings = rovings_drawn(sheet.plan)
    strand_px = _strand_px(sheet.plan, rovings, box.height)
    return WoolOnSheet(
        sheet, box, before_mm - from_m * mm_per_m, mm_per_m, rovings, strand_px, mirrored=mirrored
    )


def rovings_drawn(plan: Plan) -> int:
    """Return how many rovings of the set are drawn: all of them, if their strands can be seen."""
    rovings = plan.fibre.rovings
    while rovings > 1 and _strand_px(plan, rovings, LEAST_WOOL_MM) * MM_PER_PX < LEAST_STRAND_MM:
        rovings -= 1
    return rovings


def _strand_px(plan: Plan, rovings: int, height_mm: float) -> float:
    """Return how thick the strands of so many rovings are in a height, px."""
    room_px = (height_mm - 2.0 * ROOM_MM) / MM_PER_PX
    strand_px = MOST_STRAND_MM / MM_PER_PX
    while (height := Rows(rovings, strand_px, 0.0).strands(plan.lay.passes)) > room_px and strand_px > 1.0:
        strand_px = max(strand_px * max(room_px / height, 0.5) - 0.01, 1.0)
    return strand_px


def _alike_far_away(place: FibrePlace) -> FibrePlace:
    """Return the place with strands that end far outside the picture all ending equally far."""
    far = _FAR_PX * place.device_pixel_ratio
    strands = tuple(
        replace(
            strand,
            left=-far if strand.left < -far else strand.left,
            right=place.width + far if strand.right > place.width + far else strand.right,
        )
        for strand in place.strands
    )
    return replace(place, strands=strands)


@lru_cache(maxsize=8)
def bare_maps(place: FibrePlace) -> FibreMaps:
    """Return the maps of wool that throws no shadow: on paper it would be grey ink around the strands."""
    maps = fibre_maps(place)
    bare = maps.columns * SHADES
    return replace(maps, keys=np.minimum(maps.keys, bare), shadow=np.zeros_like(maps.shadow))
