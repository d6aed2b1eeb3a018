"""Small marks: how wet a section is, by shape as well as by colour, and how serious a check is.

The rule of this module: no mark speaks by hue alone.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPolygonF

from studio_gui.domain.checks.check import Severity
from studio_gui.domain.figures import Saturation
from studio_gui.drawing.look import Look


def paint_saturation(painter: QPainter, box: QRectF, saturation: Saturation, look: Look) -> None:
    """Paint a strand's cross-section: a full disc, a ring (dry core), or a disc above a puddle."""
    side = min(box.width(), box.height())
    square = QRectF(box.center().x() - side / 2.0, box.center().y() - side / 2.0, side, side)
    painter.save()
    if saturation == "under":
        inset = side * 0.2
        painter.setPen(QPen(look.under, side * 0.18))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawEllipse(square.adjusted(inset, inset, -inset, -inset))
    elif saturation == "over":
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QBrush(look.over))
        painter.drawEllipse(
            QRectF(square.left() + side * 0.25, square.top() + side * 0.05, side * 0.5, side * 0.5)
        )
        painter.drawRoundedRect(
            QRectF(square.left() - side * 0.1, square.bottom() - side * 0.28, side * 1.2, side * 0.2),
            1.5,
            1.5,
        )
    else:
        inset = side * 0.14
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QBrush(look.secondary))
        painter.drawEllipse(square.adjusted(inset, inset, -inset, -inset))
    painter.restore()


def paint_undyed(painter: QPainter, box: QRectF, look: Look) -> None:
    """Paint the cross-section of a strand that gets no liquor: a thin broken circle."""
    side = min(box.width(), box.height())
    painter.save()
    pen = QPen(look.secondary, 1.1)
    pen.setDashPattern([2.0, 1.6])
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawEllipse(box.center(), side * 0.36, side * 0.36)
    painter.restore()


def paint_wipe(painter: QPainter, box: QRectF, look: Look) -> None:
    """Paint a pad of cloth drawn to the right, with the streaks behind it: something is wiped out here."""
    side = box.width()
    painter.save()
    painter.translate(box.topLeft())
    painter.scale(side / 12.0, side / 12.0)
    painter.setPen(QPen(look.text, 1.3))
    for y, start in ((3.0, 1.8), (6.0, 0.0), (9.0, 2.2)):
        painter.drawLine(QPointF(start, y), QPointF(4.6, y))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.text)
    pad = [QPointF(7.0, 1.0), QPointF(12.0, 1.0), QPointF(10.6, 11.0), QPointF(5.6, 11.0)]
    painter.drawPolygon(QPolygonF(pad))
    painter.restore()


def paint_severity(painter: QPainter, box: QRectF, severity: Severity, look: Look) -> None:
    """Paint a slip with a hole (note), a diamond with a bar (warning) or a square with a cross (error)."""
    painter.save()
    inset = box.width() * 0.08
    inner = box.adjusted(inset, inset, -inset, -inset)
    centre = inner.center()
    if severity == "note":
        painter.setPen(QPen(look.secondary, 1.4))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        slip = QRectF(inner.left(), inner.top() + inner.height() * 0.2, inner.width(), inner.height() * 0.6)
        painter.drawRoundedRect(slip, 2.0, 2.0)
        painter.drawEllipse(QPointF(slip.left() + slip.height() * 0.4, centre.y()), 1.2, 1.2)
    elif severity == "warning":
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QBrush(look.under))
        diamond = [
            QPointF(centre.x(), inner.top()),
            QPointF(inner.right(), centre.y()),
            QPointF(centre.x(), inner.bottom()),
            QPointF(inner.left(), centre.y()),
        ]
        painter.drawPolygon(QPolygonF(diamond))
        _stroke(painter, look.paper if look.under.lightness() < 140 else look.ink, box.width() * 0.13)
        painter.drawLine(
            QPointF(centre.x(), inner.top() + inner.height() * 0.27),
            QPointF(centre.x(), inner.bottom() - inner.height() * 0.27),
        )
    else:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QBrush(look.over))
        painter.drawRoundedRect(inner, 2.0, 2.0)
        _stroke(painter, look.paper if look.over.lightness() < 140 else look.ink, box.width() * 0.13)
        arm = inner.width() * 0.24
        painter.drawLine(centre - QPointF(arm, arm), centre + QPointF(arm, arm))
        painter.drawLine(centre + QPointF(-arm, arm), centre + QPointF(arm, -arm))
    painter.restore()


def _stroke(painter: QPainter, colour: QColor, width: float) -> None:
    pen = QPen(colour, width)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    painter.setPen(pen)
