"""A layout that goes on in the next row where a row is full.

The rule of this module: each widget gets the size it asks for, one that is wider than the whole row the row's
width; rows are as high as their highest.
"""

from __future__ import annotations

from functools import partial

import shiboken6
from PySide6.QtCore import QEvent, QPoint, QRect, QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget


class FlowLayout(QLayout):
    """Widgets side by side, in as many rows as they need."""

    def __init__(
        self, parent: QWidget | None = None, spacing: int = 6, *, to_the_right: bool = False
    ) -> None:
        super().__init__(parent)
        self._to_the_right = to_the_right
        self._items: list[QLayoutItem] = []
        self.destroyed.connect(partial(_let_go, self._items))
        self.setContentsMargins(0, 2, 0, 0)
        self.setSpacing(spacing)

    def addItem(self, item: QLayoutItem) -> None:
        self._items.append(item)

    def count(self) -> int:
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return self._place(QRect(0, 0, width, 0), move=False)

    def setGeometry(self, rect: QRect) -> None:
        super().setGeometry(rect)
        self._place(rect, move=True)

    def sizeHint(self) -> QSize:
        return self.minimumSize()

    def minimumSize(self) -> QSize:
        margins = self.contentsMargins()
        widest = max((item.minimumSize().width() for item in self._items), default=0)
        highest = max((item.minimumSize().height() for item in self._items), default=0)
        if not self._items:
            return QSize(0, 0)
        return QSize(widest + margins.left() + margins.right(), highest + margins.top() + margins.bottom())

    def _place(self, rect: QRect, *, move: bool) -> int:
        """Lay the widgets out in `rect` and return the height they need."""
        if not self._items:
            return 0
        margins = self.contentsMargins()
        inner = rect.adjusted(margins.left(), margins.top(), -margins.right(), -margins.bottom())
        x, y, row_height = inner.left(), inner.top(), 0
        row: list[QLayoutItem] = []
        for item in self._items:
            hint = item.sizeHint()
            width = min(hint.width(), inner.width())
            if item.hasHeightForWidth():
                width, height = inner.width(), item.heightForWidth(inner.width())
            else:
                height = hint.height()
            if x > inner.left() and x + width > inner.left() + inner.width():
                self._push_right(row, inner, move=move)
                x, y, row_height, row = inner.left(), y + row_height + self.spacing(), 0, []
            if move:
                item.setGeometry(QRect(QPoint(x, y), QSize(width, height)))
            row.append(item)
            x += width + self.spacing()
            row_height = max(row_height, height)
        self._push_right(row, inner, move=move)
        return y + row_height - rect.top() + margins.bottom()

    def _push_right(self, row: list[QLayoutItem], inner: QRect, *, move: bool) -> None:
        """Put the room that a row leaves before it, where rows stand at the right."""
        if move and self._to_the_right and row:
            room = inner.right() - row[-1].geometry().right()
            for item in row:
                item.setGeometry(item.geometry().translated(room, 0))


def _let_go(items: list[QLayoutItem]) -> None:
    """Free the items that `addWidget` made: they belong to their layout, which has ended."""
    for item in items:
        shiboken6.delete(item)
    items.clear()


class FlowBar(QWidget):
    """Widgets in a `FlowLayout` that takes its height from its width by itself.

    A column takes what one of its parts needs at a width for the least of it, and squeezes all others;
    so this tells the column a plain height.
    """

    def __init__(
        self, parent: QWidget | None = None, spacing: int = 6, *, to_the_right: bool = False
    ) -> None:
        super().__init__(parent)
        self.flow = FlowLayout(self, spacing, to_the_right=to_the_right)

    def hasHeightForWidth(self) -> bool:
        return False

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.setFixedHeight(self.flow.heightForWidth(event.size().width()))

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.LayoutRequest:  # other words, another font
            self.setFixedHeight(self.flow.heightForWidth(self.width()))
        return super().event(event)
