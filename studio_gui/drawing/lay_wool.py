"""The wool of a lay on the screen, kept from frame to frame.

The rule of this module: a frame computes the colours that changed and nothing else.
"""

from __future__ import annotations

from PySide6.QtCore import QRectF
from PySide6.QtGui import QBrush, QPainter

from studio_gui.drawing.changes import Span
from studio_gui.drawing.colour_row import ColourRow, lay_brush
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.wool import paint_strands


class LayWool:
    """Paints the strands of one lay after another."""

    def __init__(self) -> None:
        self._row: ColourRow | None = None
        self._brush = QBrush()
        self._layout: LayLayout | None = None

    def follow(self, layout: LayLayout, device_pixel_ratio: float, changed: Span | None) -> None:
        """Take up another layout, of which at most the pixel columns `changed` differ from the last one.

        A layout of another size or view, and one that comes without its changes, is taken up as a whole.
        """
        last, self._layout = self._layout, layout
        if last is layout and self._row is not None and self._row.ratio == device_pixel_ratio:
            return
        row = self._row
        if last is None or row is None or changed is None or not _fits(row, last, layout, device_pixel_ratio):
            row = ColourRow(layout, device_pixel_ratio)
        else:
            row.refresh(layout, changed)
        self._row, self._brush = row, row.brush()

    def paint(self, painter: QPainter, layout: LayLayout) -> None:
        """Paint the strands of the layout last taken up."""
        paint_strands(painter, layout, self._brush)

    def lay_brush(self, layout: LayLayout, box: QRectF) -> QBrush:
        """Return a brush that paints the whole lay across `box`."""
        return lay_brush(layout.sheet, box)


def _fits(row: ColourRow, last: LayLayout, layout: LayLayout, device_pixel_ratio: float) -> bool:
    """Tell whether the columns of a row lie under the same places of the lay as before."""
    return (
        row.ratio == device_pixel_ratio
        and last.pane == layout.pane
        and last.px_per_m == layout.px_per_m
        and last.film.left() == layout.film.left()
    )
