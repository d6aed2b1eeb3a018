"""A field on the lay for an exact place, length or width.

The rule of this module: what is typed goes through the same field, validator and edits as everywhere else;
what is not taken is said right there and the field stays open.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QPoint, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QLabel, QVBoxLayout

from studio_gui.document.open_plan import Edit
from studio_gui.domain.edits.boundaries import move_boundary, set_gap, set_section_length
from studio_gui.domain.edits.folds import fold_place_m, move_fold
from studio_gui.drawing.lay_layout import ItemKind
from studio_gui.views.fields import QuantityField, edit_at
from studio_gui.views.gestures import gap_name, move_name

if TYPE_CHECKING:
    from studio_gui.views.lay_canvas import LayCanvas

WIDTH = 250


class PlaceEntry(QFrame):
    """The field, shown at what it is about; Enter takes what is typed, Esc goes back to the lay."""

    def __init__(self, canvas: LayCanvas) -> None:
        super().__init__(canvas)
        self._canvas = canvas
        self._kind: ItemKind = "boundary"
        self._index = 0
        self.name = QLabel()
        self.name.setTextFormat(Qt.TextFormat.PlainText)
        self.field = QuantityField("boundary_m")
        self.field.entered.connect(self._take)
        self.field.installEventFilter(self)
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.setAutoFillBackground(True)
        self.name.setWordWrap(True)
        self.setFixedWidth(WIDTH)
        self._column = column = QVBoxLayout(self)
        column.setContentsMargins(10, 8, 10, 8)
        column.setSpacing(4)
        column.addWidget(self.name)
        column.addWidget(self.field)
        column.addWidget(self.field.message)
        self.hide()

    def open_at(self, kind: ItemKind, index: int, text: str = "") -> None:
        """Open for one item of the lay; `text` is what has been typed already."""
        self._kind, self._index = kind, index
        words, value = self._about()
        self.name.setText(words)
        self.field.drop()
        self.field.set_value(value)
        self.field.setAccessibleName(words)
        item = self._canvas.lay.item(kind, index)
        self._grow()
        x = round(item.rect.center().x() - self.width() / 2.0)
        room = self._canvas.width() - self.width() - 4
        self.move(QPoint(max(min(x, room), 4), round(self._canvas.lay.film.top()) + 12))
        self.show()
        self.raise_()
        self.field.setFocus(Qt.FocusReason.ShortcutFocusReason)
        if text:
            self.field.clear()
            self.field.insert(text)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            if event.key() == Qt.Key.Key_Escape:
                self._close()
                return True
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
                self.field.finish()
                if self.field.message.text():
                    self._grow()
                else:
                    self._close()
                return True
        elif event.type() == QEvent.Type.FocusOut and not self.field.message.text():
            self.hide()
        return super().eventFilter(watched, event)

    def _grow(self) -> None:
        """Make room for the whole of what is said."""
        self._column.activate()
        self.resize(self.width(), self._column.totalHeightForWidth(self.width()))

    def _close(self) -> None:
        self.field.drop()
        self._canvas.setFocus(
            Qt.FocusReason.OtherFocusReason
        )  # before it hides, or Qt would go on to the next
        self.hide()

    def _about(self) -> tuple[str, float]:
        """Return what is asked for and what it is now, m."""
        plan, index = self._canvas.document.plan, self._index
        letters = [plan.liquor(section.liquor_id).letter for section in plan.sections[index : index + 2]]
        if self._kind == "section":
            length_m = plan.edges_m[index + 1] - plan.edges_m[index]
            return self.tr("Length of {0}").format(letters[0]), length_m
        if self._kind == "gap":
            return self.tr("Gap between {0} and {1}").format(*letters), plan.boundaries[index].gap_m
        if self._kind == "fold":
            return self.tr("Fold, from the start of the lay"), fold_place_m(plan, index)
        words = self.tr("Boundary {0} | {1}, from the start").format(*letters)
        return words, plan.boundaries[index].position_m

    def _take(self, value_m: float) -> None:
        plan, index = self._canvas.document.plan, self._index
        edit: Edit
        if self._kind == "section":
            name, edit = self.tr("Change length"), partial(set_section_length, index=index, length_m=value_m)
        elif self._kind == "gap":
            name, edit = gap_name(plan, index), partial(set_gap, index=index, gap_m=value_m)
        elif self._kind == "fold":
            name, edit = self.tr("Move the fold"), partial(move_fold, index=index, place_m=value_m)
        else:
            name, edit = move_name(plan, index), partial(move_boundary, index=index, position_m=value_m)
        edit_at(self.field, self._canvas.document, name, edit)
