"""How cells of the tables are painted and edited.

The rule of this module: a delegate shows what its model says and hands back what was chosen.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from PySide6.QtCore import QAbstractItemModel, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPalette, QPen
from PySide6.QtWidgets import (
    QComboBox,
    QLineEdit,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from studio_gui.document.row_model import SATURATION_ROLE, SEVERITY_ROLE, Index
from studio_gui.domain.checks.check import SEVERITIES
from studio_gui.drawing.look import Look, look_for
from studio_gui.drawing.marks import paint_saturation, paint_severity
from studio_gui.views.labels import paint_swatch

SWATCH_SIDE = 14
GAP = 6

#: What may be chosen: the words for it, and what the model is given.
Choices = Callable[[], Sequence[tuple[str, str]]]


class PlainDelegate(QStyledItemDelegate):
    """Text that is typed over: the editor starts with everything selected, without a frame of its own."""

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        editor = QLineEdit(parent)
        editor.setFrame(False)
        editor.setAlignment(option.displayAlignment)
        editor.setAutoFillBackground(True)
        return editor

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        super().paint(painter, option, index)
        paint_cell_focus(painter, option)


class SwatchDelegate(PlainDelegate):
    """A swatch of the decoration's colour before the text."""

    def initStyleOption(self, option: QStyleOptionViewItem, index: Index) -> None:
        super().initStyleOption(option, index)
        if index.data(Qt.ItemDataRole.DecorationRole) is None:
            return
        option.features |= QStyleOptionViewItem.ViewItemFeature.HasDecoration
        option.decorationSize = QSize(SWATCH_SIDE + 2, SWATCH_SIDE)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        drawn = QStyleOptionViewItem(option)
        self.initStyleOption(drawn, index)
        colour = index.data(Qt.ItemDataRole.DecorationRole)
        style = drawn.widget.style()
        place = style.subElementRect(QStyle.SubElement.SE_ItemViewItemDecoration, drawn, drawn.widget)
        drawn.icon = type(drawn.icon)()
        style.drawControl(QStyle.ControlElement.CE_ItemViewItem, drawn, painter, drawn.widget)
        if isinstance(colour, QColor):
            side = QRect(0, 0, SWATCH_SIDE, SWATCH_SIDE)
            side.moveCenter(place.center())
            paint_swatch(painter, QRectF(side), colour, drawn.palette)
        paint_cell_focus(painter, option)


class ChoiceDelegate(SwatchDelegate):
    """A cell whose value is chosen from a list, which opens at once."""

    def __init__(self, choices: Choices, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._choices = choices

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        editor = QComboBox(parent)
        for words, value in self._choices():
            editor.addItem(words, value)
        editor.view().setMinimumWidth(editor.view().sizeHintForColumn(0))  # in a narrow column too
        editor.activated.connect(lambda: self._done(editor))
        return editor

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        if isinstance(editor, QComboBox):
            editor.setCurrentIndex(editor.findData(index.data(Qt.ItemDataRole.EditRole)))

    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:
        if isinstance(editor, QComboBox):
            model.setData(index, editor.currentData())

    def updateEditorGeometry(self, editor: QWidget, option: QStyleOptionViewItem, index: Index) -> None:
        place = QRect(option.rect)
        place.setWidth(max(place.width(), editor.sizeHint().width()))
        editor.setGeometry(place)

    def _done(self, editor: QWidget) -> None:
        self.commitData.emit(editor)
        self.closeEditor.emit(editor, QStyledItemDelegate.EndEditHint.NoHint)


class MarkDelegate(QStyledItemDelegate):
    """A mark, then what it says in words."""

    def paint_mark(self, painter: QPainter, box: QRectF, index: Index, look: Look) -> None:
        """Paint the mark of a cell into `box`."""
        raise NotImplementedError

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        drawn = QStyleOptionViewItem(option)
        self.initStyleOption(drawn, index)
        words, drawn.text = drawn.text, ""
        style = drawn.widget.style()
        style.drawControl(QStyle.ControlElement.CE_ItemViewItem, drawn, painter, drawn.widget)
        look = look_for(drawn.palette)
        chosen = bool(drawn.state & QStyle.StateFlag.State_Selected)
        text = drawn.palette.color(QPalette.ColorRole.HighlightedText if chosen else QPalette.ColorRole.Text)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        side = SWATCH_SIDE - 2.0
        top = drawn.rect.center().y() - side / 2.0 + 1.0
        mark = QRectF(drawn.rect.left() + GAP, top, side, side)
        self.paint_mark(painter, mark, index, _in_one(look, text) if chosen else look)
        painter.setPen(text)
        room = drawn.rect.adjusted(GAP + SWATCH_SIDE + 4, 0, -2, 0)
        shown = drawn.fontMetrics.elidedText(words, Qt.TextElideMode.ElideRight, room.width())
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, shown)
        painter.restore()
        paint_cell_focus(painter, option)

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        hint = super().sizeHint(option, index)
        return QSize(hint.width() + SWATCH_SIDE + GAP, hint.height())


class SaturationDelegate(MarkDelegate):
    """The mark of a section's wetness, then what is wrong with it in words."""

    def paint_mark(self, painter: QPainter, box: QRectF, index: Index, look: Look) -> None:
        paint_saturation(painter, box, index.data(SATURATION_ROLE), look)


class SeverityDelegate(MarkDelegate):
    """The mark of how bad something is, none where it is not, then the word for it."""

    def paint_mark(self, painter: QPainter, box: QRectF, index: Index, look: Look) -> None:
        severity = index.data(SEVERITY_ROLE)
        if severity in SEVERITIES:
            paint_severity(painter, box, severity, look)


def paint_cell_focus(painter: QPainter, option: QStyleOptionViewItem) -> None:
    """Paint the ring inside the cell that keys go to, if `option` is that cell's."""
    if not option.state & QStyle.StateFlag.State_HasFocus:
        return
    chosen = bool(option.state & QStyle.StateFlag.State_Selected)
    on_chosen = option.palette.color(QPalette.ColorRole.HighlightedText)
    painter.save()
    painter.setPen(QPen(on_chosen if chosen else look_for(option.palette).handle, 2.0))
    painter.drawRect(option.rect.adjusted(1, 1, -1, -1))
    painter.restore()


def _in_one(look: Look, colour: QColor) -> Look:
    """Return a look whose marks are all of one colour, for the ground of a selected row."""
    return replace(look, under=colour, over=colour, secondary=colour)
