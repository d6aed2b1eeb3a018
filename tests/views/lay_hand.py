"""Somebody at the mouse and keys of a lay canvas."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.plan import Plan
from studio_gui.drawing.lay_layout import ItemKind
from studio_gui.views.lay_canvas import LayCanvas

NONE = Qt.KeyboardModifier.NoModifier
SHIFT, ALT, CONTROL = (
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.AltModifier,
    Qt.KeyboardModifier.ControlModifier,
)
LEFT = Qt.MouseButton.LeftButton


class Hand:
    """Somebody at the mouse and keys of a canvas."""

    def __init__(self, canvas: LayCanvas, document: OpenPlan) -> None:
        self.canvas, self.document = canvas, document

    def peg(self, index: int) -> QPointF:
        return self.canvas.lay.item("boundary", index).slip.center()

    def middle(self, kind: ItemKind, index: int) -> QPoint:
        return self.canvas.lay.item(kind, index).rect.center().toPoint()

    def send(
        self,
        kind: QEvent.Type,
        point: QPointF,
        modifiers: Qt.KeyboardModifier = NONE,
        button: Qt.MouseButton = LEFT,
    ) -> None:
        held = Qt.MouseButton.NoButton if kind == QEvent.Type.MouseButtonRelease else button
        if kind == QEvent.Type.MouseMove:
            button = Qt.MouseButton.NoButton
        there = QPointF(self.canvas.mapToGlobal(point.toPoint()))
        event = QMouseEvent(kind, point, there, button, held, modifiers)
        QApplication.sendEvent(self.canvas, event)

    def take(self, index: int) -> QPointF:
        point = self.peg(index)
        self.send(QEvent.Type.MouseButtonPress, point)
        return point

    def pull(self, point: QPointF, by_m: float, modifiers: Qt.KeyboardModifier = NONE) -> QPointF:
        point = QPointF(point.x() + by_m * self.canvas.lay.px_per_m, point.y())
        self.send(QEvent.Type.MouseMove, point, modifiers)
        return point

    def drag(self, index: int, by_m: float, modifiers: Qt.KeyboardModifier = NONE) -> None:
        point = self.take(index)
        point = self.pull(point, by_m / 2.0, modifiers)
        point = self.pull(point, by_m / 2.0, modifiers)
        self.send(QEvent.Type.MouseButtonRelease, point, modifiers)

    def chosen(self) -> tuple[str, ...]:
        return self.document.selected_ids

    def places(self) -> list[float]:
        return [boundary.position_m for boundary in self.document.plan.boundaries]

    def shown_places(self) -> list[float]:
        return [boundary.position_m for boundary in self.document.sheet.plan.boundaries]

    def key(self, key: Qt.Key, modifiers: Qt.KeyboardModifier = NONE) -> None:
        QTest.keyClick(self.canvas, key, modifiers)

    def wheel(self, point: QPointF, turned: QPoint, modifiers: Qt.KeyboardModifier = NONE) -> None:
        event = QWheelEvent(
            point,
            QPointF(self.canvas.mapToGlobal(point.toPoint())),
            QPoint(),
            turned,
            Qt.MouseButton.NoButton,
            modifiers,
            Qt.ScrollPhase.NoScrollPhase,
            False,
        )
        QApplication.sendEvent(self.canvas, event)


def at_canvas(qtbot: QtBot, plan: Plan) -> Hand:
    """Return a hand at a shown canvas of 1100 by 520 pixels."""
    document = OpenPlan(plan)
    canvas = LayCanvas(document)
    qtbot.addWidget(canvas)
    canvas.resize(1100, 520)
    with qtbot.waitExposed(canvas):
        canvas.show()
    canvas.setFocus()
    return Hand(canvas, document)
