"""The wool of a lay on the screen, kept from frame to frame.

The rule of this module: a frame computes the colours that changed and nothing else, never waiting for fibre.
Until the maps of a new size or view are there, the old picture is stretched over plain tubes.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF
from PySide6.QtGui import QBrush, QPainter

from studio_gui.drawing.changes import Span
from studio_gui.drawing.colour_row import ColourRow, lay_brush
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.wool import paint_strands

if TYPE_CHECKING:
    from studio_gui.drawing.fibre.maps import FibreMaps
    from studio_gui.drawing.fibre.picture import WoolPicture
    from studio_gui.drawing.fibre.place import FibrePlace


class LayWool:
    """Paints the strands of one lay after another."""

    def __init__(self) -> None:
        self._layout: LayLayout | None = None
        self._ratio = 0.0
        self._picture: WoolPicture | None = None
        self._fits = False  # whether the picture was made for the place where the strands lie now
        self._row: ColourRow | None = None

    @property
    def lacks_fibre(self) -> bool:
        """Whether the maps of the place where the strands lie now are not there yet."""
        return self._layout is not None and not self._fits

    def wanted(self) -> FibrePlace | None:
        """Return the place whose fibre maps are not there yet, None where nothing is wanted."""
        from studio_gui.drawing.fibre.picture import fibre_place  # noqa: PLC0415  (the first paint does without)

        if self._layout is None or self._fits:
            return None
        return fibre_place(self._layout, self._ratio)

    def follow(self, layout: LayLayout, device_pixel_ratio: float, changed: Span | None) -> None:
        """Take up another layout, of which at most the pixel columns `changed` differ from the last one.

        A layout of another size or view, and one that comes without its changes, is taken up as a whole.
        """
        last = self._layout
        if last is layout and self._ratio == device_pixel_ratio:
            return
        same_place = last is not None and _is_same_place(last, layout) and self._ratio == device_pixel_ratio
        self._layout, self._ratio = layout, device_pixel_ratio
        self._fits = self._fits and same_place
        within = changed if same_place else None
        if self._picture is not None and self._fits:
            self._picture.show(layout, within)
        elif self._row is not None and within is not None:
            self._row.refresh(layout, within)
        else:
            self._row = ColourRow(layout, device_pixel_ratio)

    def adopt(self, maps: FibreMaps) -> bool:
        """Paint with fibre from now on, if these are the maps that are wanted; tell whether they are."""
        from studio_gui.drawing.fibre.picture import WoolPicture  # noqa: PLC0415  (the first paint does without)

        if self._layout is None or maps.place != self.wanted():
            return False
        self._picture = WoolPicture(self._layout, maps)
        self._picture.show(self._layout)
        self._fits, self._row = True, None
        return True

    def paint(self, painter: QPainter, layout: LayLayout, area: QRectF) -> None:
        """Paint the part in `area` of the strands of the layout last taken up."""
        if self._picture is not None and self._fits:
            self._picture.draw_part(painter, area)
            return
        if self._row is not None:
            paint_strands(painter, layout, self._row.brush())
        stretched = None if self._picture is None else self._picture.area_in(layout)
        if self._picture is not None and stretched is not None:
            self._picture.draw(painter, stretched)

    def lay_brush(self, layout: LayLayout, box: QRectF) -> QBrush:
        """Return a brush that paints the whole lay across `box`."""
        return lay_brush(layout.sheet, box)


def _is_same_place(one: LayLayout, other: LayLayout) -> bool:
    """Tell whether the strands of two layouts lie in the same place, whatever is painted on them."""
    old, new = one.sheet.plan, other.sheet.plan
    return (
        one.size == other.size
        and one.view == other.view
        and one.px_per_m == other.px_per_m
        and one.film == other.film
        and one.strand_height == other.strand_height
        and one.rovings_shown == other.rovings_shown
        and old.fibre == new.fibre
        and old.lay == new.lay
        and old.wicking_mm == new.wicking_mm
    )
