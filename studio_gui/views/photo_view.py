"""A photo that a patch is pointed at, by mouse or by keys.

The rule of this module: places are pixels of the photo, whatever size it is shown at; the square that is
drawn is the one that will be averaged.
"""

from __future__ import annotations

from PySide6.QtCore import QPoint, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QImage, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QPixmap, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from studio_gui.drawing.look import look_for

#: Keys move the patch by so many pixels on the screen; with Shift ten times as far.
STEP_PX = 2.0
_FAR = 10.0
_LEAST_PX = 6.0


class PhotoView(QWidget):
    """A photo, as large as there is room.

    Signals
    -------
    pointed
        The patch moved to a pixel of the photo.
    picked
        A pixel of the photo was clicked on, or Enter pressed.
    """

    pointed = Signal(QPoint)
    picked = Signal(QPoint)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._photo: QImage | None = None
        self._pixmap = QPixmap()
        self._place = QPointF()
        self._marks: list[QPoint] = []
        self._side = 25
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.CrossCursor)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(160, 120)

    def sizeHint(self) -> QSize:
        return QSize(360, 240)

    @property
    def photo(self) -> QImage | None:
        """The photo that is shown."""
        return self._photo

    @property
    def side(self) -> int:
        """Side of the patch in pixels of the photo."""
        return self._side

    def show_photo(self, photo: QImage) -> None:
        """Show a photo, with the patch in its middle and without marks."""
        self._photo, self._marks = photo, []
        self._place = QPointF(photo.width() / 2.0, photo.height() / 2.0)
        self._scale_pixmap()
        self.update()

    def set_side(self, side: int) -> None:
        """Make the patch so many pixels of the photo wide and high."""
        self._side = side
        self.update()

    def mark(self, *places: QPoint) -> None:
        """Keep a mark at places that were picked."""
        self._marks = list(places)
        self.update()

    def place_on_screen(self, pixel: QPoint) -> QPoint:
        """Return where a pixel of the photo is in the widget."""
        frame = self._frame
        scale = self._scale
        return QPointF(frame.left() + pixel.x() * scale, frame.top() + pixel.y() * scale).toPoint()

    # -- by mouse and keys ---------------------------------------------------------------------------------

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._photo is not None:
            self._point_at(self._pixel(event.position()))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        pixel = self._pixel(event.position())
        if event.button() != Qt.MouseButton.LeftButton or self._photo is None:
            event.ignore()
        elif self._photo.rect().contains(pixel.toPoint()):
            self._point_at(pixel)
            self.picked.emit(self._place.toPoint())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        moves = {
            Qt.Key.Key_Left: QPointF(-1.0, 0.0),
            Qt.Key.Key_Right: QPointF(1.0, 0.0),
            Qt.Key.Key_Up: QPointF(0.0, -1.0),
            Qt.Key.Key_Down: QPointF(0.0, 1.0),
        }
        move = moves.get(Qt.Key(event.key()))
        if self._photo is None:
            super().keyPressEvent(event)
        elif move is not None:
            far = _FAR if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1.0
            self._point_at(self._place + move * (STEP_PX * far / self._scale))
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self.picked.emit(self._place.toPoint())
        else:
            super().keyPressEvent(event)

    def _point_at(self, pixel: QPointF) -> None:
        if self._photo is None:
            return
        self._place = QPointF(
            min(max(pixel.x(), 0.0), self._photo.width() - 1.0),
            min(max(pixel.y(), 0.0), self._photo.height() - 1.0),
        )
        self.update()
        self.pointed.emit(self._place.toPoint())

    # -- painting ------------------------------------------------------------------------------------------

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._scale_pixmap()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        try:
            look = look_for(self.palette())
            painter.fillRect(self.rect(), look.table)
            if self._photo is not None:
                painter.drawPixmap(self._frame.topLeft(), self._pixmap)
                for place in self._marks:
                    self._paint_patch(painter, QPointF(place), 1.0)
                self._paint_patch(painter, self._place, 2.0 if self.hasFocus() else 1.5)
            else:
                painter.setPen(look.secondary)
                words = self.tr(
                    "No photo yet. Open one that was taken in even light, with something white in it."
                )
                room = self.rect().adjusted(12, 12, -12, -12)
                painter.drawText(room, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, words)
        finally:
            painter.end()

    def _paint_patch(self, painter: QPainter, place: QPointF, width: float) -> None:
        """Paint the square in white in black, which shows on any photo."""
        half = max(self._side * self._scale, _LEAST_PX) / 2.0
        middle = self._frame.topLeft() + place * self._scale
        box = QRectF(middle.x() - half, middle.y() - half, 2.0 * half, 2.0 * half)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(Qt.GlobalColor.black, width))
        painter.drawRect(box.adjusted(-width, -width, width, width))
        painter.setPen(QPen(Qt.GlobalColor.white, width))
        painter.drawRect(box)

    @property
    def _scale(self) -> float:
        """Pixels of the screen for one of the photo."""
        if self._photo is None:
            return 1.0
        return min(self.width() / self._photo.width(), self.height() / self._photo.height())

    @property
    def _frame(self) -> QRectF:
        """Where the photo is in the widget."""
        if self._photo is None:
            return QRectF()
        width, height = self._photo.width() * self._scale, self._photo.height() * self._scale
        return QRectF((self.width() - width) / 2.0, (self.height() - height) / 2.0, width, height)

    def _pixel(self, position: QPointF) -> QPointF:
        return (position - self._frame.topLeft()) / self._scale

    def _scale_pixmap(self) -> None:
        if self._photo is not None:
            ratio = self.devicePixelRatioF()
            size = (self._frame.size() * ratio).toSize().expandedTo(QSize(1, 1))
            self._pixmap = QPixmap.fromImage(
                self._photo.scaled(
                    size, Qt.AspectRatioMode.IgnoreAspectRatio, Qt.TransformationMode.SmoothTransformation
                )
            )
            self._pixmap.setDevicePixelRatio(ratio)
