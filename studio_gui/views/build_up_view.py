"""The build-up of a dye with its swatches, beside the fields they are entered in.

The rule of this module: it shows; nothing is edited here.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRectF, QSize
from PySide6.QtGui import QHelpEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from studio_gui.domain.colour.build_up import build_up
from studio_gui.domain.stocks import Stock
from studio_gui.drawing.build_up import paint_build_up
from studio_gui.drawing.look import look_for
from studio_gui.views.labels import call
from studio_gui.views.live import LiveWidget
from studio_gui.wording.colours import build_up_line


class BuildUpView(LiveWidget):
    """The curve of one dye."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._stock: Stock | None = None
        self.setMinimumSize(240, 130)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self._retranslate()

    def sizeHint(self) -> QSize:
        return QSize(360, 170)

    def show_stock(self, stock: Stock) -> None:
        """Show the curve of a dye."""
        if stock is not self._stock:
            self._stock = stock
            self._retranslate()
            self.update()

    def event(self, event: QEvent) -> bool:
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            self.setToolTip(self.accessibleDescription())
        return super().event(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self._stock is None:
            return
        stock, look = self._stock, look_for(self.palette())
        painter = QPainter(self)
        try:
            rising = build_up(stock.curve, stock.swatches)
            paint_build_up(painter, QRectF(self.rect()), stock.curve, stock.swatches, rising, look)
        finally:
            painter.end()

    def _retranslate(self) -> None:
        call(self, self.tr("Build-up: lightness against depth"))
        if self._stock is not None:
            self.setAccessibleDescription(build_up_line(self._stock.curve))
        self.update()
