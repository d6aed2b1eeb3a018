"""A slider over an amount, in graduations.

The rule of this module: a hand on the slider, by mouse or by a held key, is one gesture. It moves, and it
ends by settling or, on Esc, as if it had never been.
"""

from __future__ import annotations

import math

from PySide6.QtCore import QPoint, QRect, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QSlider, QStyle, QStyleOptionSlider, QWidget

#: Places of the handle; what they mean in ml or % is the amount's business.
PLACES = 10_000
PAGE = 10


class GraduatedSlider(QSlider):
    """A slider from 0 to a highest amount.

    Arrow keys go to the next graduation, Page keys ten, Home and End to the ends. A wheel that scrolls the
    pane does not move it.

    Signals
    -------
    moved
        The hand moved it; carries the amount.
    settled
        The hand let go.
    dropped
        Esc: nothing shall have been moved.
    """

    moved = Signal(float)
    settled = Signal()
    dropped = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self._amount, self._highest, self._graduation = 0.0, 1.0, 1.0
        self._held = False
        self._grip_px = 0  # from the middle of the handle to where it was gripped
        self.setRange(0, PLACES)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.valueChanged.connect(self._set_from_outside)

    @property
    def amount(self) -> float:
        """The amount it stands on."""
        return self._amount

    @property
    def highest(self) -> float:
        """The amount at its end."""
        return self._highest

    def show_amount(self, amount: float, highest: float, graduation: float) -> None:
        """Show `amount` between 0 and `highest`; a handle in somebody's hand stays there."""
        self._highest, self._graduation = highest, graduation
        if not self._held:
            self._go_to(amount)

    # -- by mouse ------------------------------------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() != Qt.MouseButton.LeftButton:
            event.ignore()
            return
        handle = self._part(QStyle.SubControl.SC_SliderHandle)
        point = event.position().toPoint()
        self._held = True
        self.setSliderDown(True)
        self._grip_px = point.x() - handle.center().x() if handle.contains(point) else 0
        if not handle.contains(point):
            self._follow(point)
        event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._held:
            self._follow(event.position().toPoint())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton:
            self._settle()

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()

    # -- by keys -------------------------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self._held:
            self._let_go()
            self.dropped.emit()
            return
        wanted = self._by_key(event.key())
        if wanted is None:
            super().keyPressEvent(event)
        elif not self.isSliderDown():  # a mouse that holds it has the say
            self._held = True
            self._move_to(wanted)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        if not event.isAutoRepeat() and not self.isSliderDown():
            self._settle()
        super().keyReleaseEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        self._settle()
        super().focusOutEvent(event)

    def _by_key(self, key: int) -> float | None:
        """Return the amount that a key goes to, None for a key that moves nothing."""
        forward = -1 if self.layoutDirection() == Qt.LayoutDirection.RightToLeft else 1
        steps = {
            Qt.Key.Key_Right: forward,
            Qt.Key.Key_Left: -forward,
            Qt.Key.Key_Up: 1,
            Qt.Key.Key_Down: -1,
            Qt.Key.Key_PageUp: PAGE,
            Qt.Key.Key_PageDown: -PAGE,
        }
        if key in (Qt.Key.Key_Home, Qt.Key.Key_End):
            return 0.0 if key == Qt.Key.Key_Home else self._highest
        step = steps.get(Qt.Key(key))
        if step is None:
            return None
        here = self._amount / self._graduation
        whole = math.floor(here + 1e-6) if step > 0 else math.ceil(here - 1e-6)
        return (whole + step) * self._graduation

    # -- one gesture ---------------------------------------------------------------------------------------

    def _follow(self, point: QPoint) -> None:
        option = QStyleOptionSlider()
        self.initStyleOption(option)
        groove = self._part(QStyle.SubControl.SC_SliderGroove)
        handle_px = self._part(QStyle.SubControl.SC_SliderHandle).width()
        start = groove.left() + handle_px // 2
        place = QStyle.sliderValueFromPosition(
            0, PLACES, point.x() - self._grip_px - start, groove.width() - handle_px, option.upsideDown
        )
        if place in (0, PLACES):
            self._move_to(self._highest * place / PLACES)
            return
        wanted = self._highest * place / PLACES
        self._move_to(round(wanted / self._graduation) * self._graduation)

    def _move_to(self, wanted: float) -> None:
        amount = min(max(round(wanted, 9), 0.0), self._highest)
        if amount != self._amount:
            self._go_to(amount)
            self.moved.emit(amount)

    def _go_to(self, amount: float) -> None:
        self._amount = amount
        share = amount / self._highest if self._highest > 0.0 else 0.0
        self.blockSignals(True)
        self.setValue(round(PLACES * min(share, 1.0)))
        self.blockSignals(False)

    def _settle(self) -> None:
        if self._held:
            self._let_go()
            self.settled.emit()

    def _let_go(self) -> None:
        self._held = False
        self.setSliderDown(False)

    def _set_from_outside(self, place: int) -> None:
        """Take a value that a screen reader's user has set."""
        self._amount = self._highest * place / PLACES
        self.moved.emit(self._amount)
        self.settled.emit()

    def _part(self, part: QStyle.SubControl) -> QRect:
        option = QStyleOptionSlider()
        self.initStyleOption(option)
        return self.style().subControlRect(QStyle.ComplexControl.CC_Slider, option, part, self)
