"""The picture of a lay on a screen, kept from frame to frame.

The rule of this module: what did not change is not painted again. The ground is kept by itself; what lies on
it is painted anew between the pixel columns that were touched; a frame then copies what it needs.
"""

from __future__ import annotations

import math

from PySide6.QtCore import QRect, QRectF, QSize
from PySide6.QtGui import QPainter, QPixmap

from studio_gui.drawing.changes import Span
from studio_gui.drawing.fonts import forget_fonts
from studio_gui.drawing.ground import Ground, copy_part
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.lay_picture import paint_on_ground
from studio_gui.drawing.lay_state import LayState
from studio_gui.drawing.lay_wool import LayWool
from studio_gui.drawing.look import Look

EVERYTHING: Span = (-math.inf, math.inf)


class LayScreen:
    """Paints one lay after another, each as far as it differs from the last."""

    def __init__(self) -> None:
        self.wool = LayWool()
        self._ground = Ground()
        self._picture = QPixmap()
        self._stale: Span | None = EVERYTHING

    def touch(self, span: Span = EVERYTHING) -> None:
        """Paint anew, the next time, what lies between two pixel columns."""
        stale = self._stale
        self._stale = span if stale is None else (min(stale[0], span[0]), max(stale[1], span[1]))

    def forget(self) -> None:
        """Paint everything anew, the ground too: language, units, font or palette have changed."""
        self._ground.forget()
        forget_fonts()
        self.touch()

    def paint(self, painter: QPainter, layout: LayLayout, look: Look, state: LayState, area: QRect) -> None:
        """Bring the picture up to date and copy the part of it in `area`; `wool` has to follow before."""
        ratio = painter.device().devicePixelRatioF()
        size = QSize(math.ceil(layout.size.width() * ratio), math.ceil(layout.size.height() * ratio))
        if self._picture.size() != size or self._picture.devicePixelRatio() != ratio:
            self._picture = QPixmap(size)
            self._picture.setDevicePixelRatio(ratio)
            self._picture.fill(look.table)  # at a broken ratio the last pixels are only partly painted over
            self.touch()
        if self._stale is not None:
            self._refresh(painter, layout, look, state)
        copy_part(painter, self._picture, area)

    def _refresh(self, painter: QPainter, layout: LayLayout, look: Look, state: LayState) -> None:
        low, high = self._stale or EVERYTHING
        left = max(math.floor(max(low, 0.0)), 0)
        right = math.ceil(min(high, layout.size.width()))
        self._stale = None
        if right <= left:
            return
        area = QRect(left, 0, right - left, math.ceil(layout.size.height()))
        on_picture = QPainter(self._picture)
        try:
            on_picture.setRenderHint(QPainter.RenderHint.Antialiasing)
            on_picture.setFont(painter.font())
            on_picture.setClipRect(area)
            self._ground.paint(on_picture, layout, look, area)

            def paint_wool(brush: QPainter) -> None:
                self.wool.paint(brush, layout, QRectF(area))

            paint_on_ground(on_picture, layout, look, state, paint_wool, (float(left), float(right)))
        finally:
            on_picture.end()
