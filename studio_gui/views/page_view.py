"""One sheet at a time, as it will be printed.

The rule of this module: what is seen is painted by `paint_page`, tile by tile between two events, so that the
window never waits for a page. A sheet is white whatever the palette.
"""

from __future__ import annotations

import math
from collections import OrderedDict
from typing import Literal

from PySide6.QtCore import QPoint, QRect, QRectF, QSize, Qt, QTimer, Signal
from PySide6.QtGui import (
    QColor,
    QImage,
    QKeyEvent,
    QPainter,
    QPaintEvent,
    QPalette,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QAbstractScrollArea, QWidget

from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.sheets.page import Medium, Page
from studio_gui.drawing.sheets.paint import paint_page
from studio_gui.wording.translation import translate

MM_PER_INCH = 25.4
#: A zoom of 1 is a sheet in its true size on a screen of this fineness.
DOTS_PER_INCH = 96.0
LEAST_ZOOM, MOST_ZOOM, ZOOM_STEP = 0.1, 4.0, 1.25
#: Around a sheet, px.
ROOM = 16
TILE_PX = 700
#: Tiles that are kept: a sheet at its largest, and some that were seen before.
MOST_TILES = 48

Zoom = Literal["page", "width"] | float


class PageView(QAbstractScrollArea):
    """A view of pages, of which one is seen.

    Signals
    -------
    turned
        Another page is seen; carries its index.
    zoomed
        It is seen larger or smaller.
    """

    turned = Signal(int)
    zoomed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._pages: tuple[Page, ...] = ()
        self._index = 0
        self._zoom: Zoom = "page"
        self._tiles: OrderedDict[tuple[int, int, float], QImage] = OrderedDict()
        self._painter = QTimer(self, singleShot=True, interval=0)
        self._painter.timeout.connect(self._paint_a_tile)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.viewport().setBackgroundRole(QPalette.ColorRole.Mid)
        self.setMinimumSize(280, 220)

    # -- what is seen --------------------------------------------------------------------------------------

    @property
    def pages(self) -> tuple[Page, ...]:
        """All pages."""
        return self._pages

    @property
    def index(self) -> int:
        """The index of the page that is seen."""
        return self._index

    @property
    def is_painted(self) -> bool:
        """Whether all of the page that is in sight is there."""
        return all(self._key(tile) in self._tiles for tile in self._tiles_in_sight())

    def show_pages(self, pages: tuple[Page, ...]) -> None:
        """Show other pages, the one with the same index if there still is one."""
        self._pages = pages
        self._tiles.clear()
        self.turn_to(self._index)

    def turn_to(self, index: int) -> None:
        """Show the page of an index, or the nearest there is."""
        self._index = min(max(index, 0), max(len(self._pages) - 1, 0))
        self._fit()
        self.verticalScrollBar().setValue(0)
        self.setAccessibleDescription(self._spoken())
        self.turned.emit(self._index)
        self.viewport().update()

    @property
    def zoom(self) -> Zoom:
        """How large a page is seen: as a whole, as wide as the view, or by a factor of its true size."""
        return self._zoom

    def set_zoom(self, zoom: Zoom) -> None:
        """See pages larger or smaller."""
        self._zoom = zoom if isinstance(zoom, str) else min(max(zoom, LEAST_ZOOM), MOST_ZOOM)
        self._fit()
        self.zoomed.emit()
        self.viewport().update()

    @property
    def factor(self) -> float:
        """How large the page is seen, as a factor of its true size."""
        if not isinstance(self._zoom, str) or not self._pages:
            return self._zoom if isinstance(self._zoom, float) else 1.0
        paper, room = self._pages[self._index].paper, self.maximumViewportSize()
        px_per_mm = DOTS_PER_INCH / MM_PER_INCH
        factor = (room.width() - 2 * ROOM) / (paper.width * px_per_mm)
        whole = min(factor, (room.height() - 2 * ROOM) / (paper.height * px_per_mm))
        if self._zoom == "page":
            factor = whole
        elif factor > whole:  # the page is higher than the view, which then has a scroll bar
            bar = self.verticalScrollBar().sizeHint().width()
            factor = max(factor - bar / (paper.width * px_per_mm), whole)
        return min(max(factor, LEAST_ZOOM), MOST_ZOOM)

    def _spoken(self) -> str:
        """Return the words of the page that is seen, for who hears it."""
        if not self._pages:
            return ""
        page = self._pages[self._index]
        return "; ".join((page.name, *(" ".join(words.lines) for words in page.words())))

    # -- places --------------------------------------------------------------------------------------------

    def _size(self) -> QSize:
        """Return the size of the page as it is seen, px."""
        paper = self._pages[self._index].paper
        px_per_mm = self.factor * DOTS_PER_INCH / MM_PER_INCH
        return QSize(round(paper.width * px_per_mm), round(paper.height * px_per_mm))

    def _sheet(self) -> QRect:
        """Return where the page lies on the viewport."""
        size, room = self._size(), self.viewport().size()
        x = max((room.width() - size.width()) // 2, ROOM) - self.horizontalScrollBar().value()
        y = max((room.height() - size.height()) // 2, ROOM) - self.verticalScrollBar().value()
        return QRect(QPoint(x, y), size)

    def _fit(self) -> None:
        """Give the scroll bars their ranges."""
        size = self._size() if self._pages else QSize()
        for bar, length, room in (
            (self.horizontalScrollBar(), size.width(), self.viewport().width()),
            (self.verticalScrollBar(), size.height(), self.viewport().height()),
        ):
            bar.setRange(0, max(length + 2 * ROOM - room, 0) if length > room - 2 * ROOM else 0)
            bar.setPageStep(room)
            bar.setSingleStep(40)

    def _tiles_in_sight(self) -> list[int]:
        """Return the numbers of the tiles, from the top of the page, that are in sight."""
        if not self._pages:
            return []
        sheet = self._sheet()
        seen = sheet & self.viewport().rect()
        if seen.isEmpty():
            return []
        first, last = (seen.top() - sheet.top()) // TILE_PX, (seen.bottom() - sheet.top()) // TILE_PX
        return list(range(first, last + 1))

    def _key(self, tile: int) -> tuple[int, int, float]:
        return self._index, tile, round(self.factor * self.devicePixelRatioF(), 6)

    # -- painting ------------------------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self.viewport())
        try:
            if not self._pages:
                painter.drawText(
                    self.viewport().rect(), Qt.AlignmentFlag.AlignCenter, translate("PageView", "No page")
                )
                return
            sheet = self._sheet()
            painter.fillRect(sheet.adjusted(3, 3, 3, 3), QColor(0, 0, 0, 60))
            painter.fillRect(sheet, QColor("white"))
            lacking = False
            for tile in self._tiles_in_sight():
                image = self._tiles.get(self._key(tile))
                if image is None:
                    lacking = True
                else:
                    painter.drawImage(QPoint(sheet.left(), sheet.top() + tile * TILE_PX), image)
            if lacking:
                self._painter.start()
        finally:
            painter.end()

    def _paint_a_tile(self) -> None:
        """Paint one tile that is in sight and not there yet, and ask for the next."""
        for tile in self._tiles_in_sight():
            key = self._key(tile)
            if key not in self._tiles:
                self._tiles[key] = self._tile(tile)
                while len(self._tiles) > MOST_TILES:
                    self._tiles.popitem(last=False)
                self.viewport().update()
                return

    def _tile(self, tile: int) -> QImage:
        ratio, size = self.devicePixelRatioF(), self._size()
        height = min(TILE_PX, size.height() - tile * TILE_PX)
        image = QImage(math.ceil(size.width() * ratio), math.ceil(height * ratio), QImage.Format.Format_RGB32)
        image.setDevicePixelRatio(ratio)
        image.fill(QColor("white"))
        painter = QPainter(image)
        try:
            with lent_font():
                painter.translate(0.0, -tile * TILE_PX)
                painter.setClipRect(QRectF(0.0, tile * TILE_PX, size.width(), height))
                dots_per_mm = self.factor * DOTS_PER_INCH / MM_PER_INCH
                medium = Medium(max(self.factor * ratio, 0.5))
                paint_page(painter, self._pages[self._index], dots_per_mm, medium)
        finally:
            painter.end()
        return image

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()
        if isinstance(self._zoom, str):
            self.zoomed.emit()

    # -- hands ---------------------------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.key()
        bar = self.verticalScrollBar()
        if key in (Qt.Key.Key_PageDown, Qt.Key.Key_Space):
            if bar.value() < bar.maximum():
                bar.setValue(bar.value() + bar.pageStep())
            else:
                self.turn_to(self._index + 1)
        elif key == Qt.Key.Key_PageUp:
            if bar.value() > 0:
                bar.setValue(bar.value() - bar.pageStep())
            else:
                self.turn_to(self._index - 1)
        elif key == Qt.Key.Key_Home:
            self.turn_to(0)
        elif key == Qt.Key.Key_End:
            self.turn_to(len(self._pages) - 1)
        elif key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal):
            self.set_zoom(self.factor * ZOOM_STEP)
        elif key == Qt.Key.Key_Minus:
            self.set_zoom(self.factor / ZOOM_STEP)
        else:
            super().keyPressEvent(event)

    def wheelEvent(self, event: QWheelEvent) -> None:
        notches = event.angleDelta().y() / 120.0
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.set_zoom(self.factor * ZOOM_STEP**notches)
            event.accept()
        elif self.verticalScrollBar().maximum() == 0 and notches:
            self.turn_to(self._index - (1 if notches > 0 else -1))
            event.accept()
        else:
            super().wheelEvent(event)
