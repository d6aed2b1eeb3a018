"""Painting a sheet, the same for every device.

The rule of this module: the painter's unit is a hundredth of a millimetre, whatever the device; nothing is
measured or moved here, marks are painted where the page says.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPolygonF

from studio_gui.drawing.sheets.page import (
    MM_PER_PT,
    MM_PER_PX,
    Box,
    Frame,
    Mark,
    Medium,
    Page,
    Picture,
    Rule,
    Shape,
    Words,
)
from studio_gui.drawing.sheets.type import BASELINE, LINE, type_font, width_mm

#: Units of the painter to a millimetre.
UNITS_PER_MM = 100.0


def paint_page(painter: QPainter, page: Page, dots_per_mm: float, medium: Medium) -> None:
    """Paint all marks: the painter's origin is the corner of the sheet, its units `dots_per_mm`."""
    painter.save()
    try:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.scale(dots_per_mm / UNITS_PER_MM, dots_per_mm / UNITS_PER_MM)
        for mark in page.marks:
            _paint(painter, mark, medium)
    finally:
        painter.restore()


def _paint(painter: QPainter, mark: Mark, medium: Medium) -> None:
    match mark:
        case Words():
            _paint_words(painter, mark)
        case Rule():
            painter.setPen(_rule_pen(mark))
            painter.drawLine(_point(mark.x1, mark.y1), _point(mark.x2, mark.y2))
        case Frame():
            painter.setPen(_pen(mark.colour, mark.width_mm) if mark.width_mm else Qt.PenStyle.NoPen)
            painter.setBrush(QColor(mark.fill) if mark.fill else QBrush(Qt.BrushStyle.NoBrush))
            radius = mark.radius_mm * UNITS_PER_MM
            painter.drawRoundedRect(_rectangle(mark.box), radius, radius)
        case Shape():
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(mark.fill))
            painter.drawPolygon(QPolygonF([_point(x, y) for x, y in mark.corners]))
        case Picture():
            _paint_picture(painter, mark, medium)


def _paint_words(painter: QPainter, words: Words) -> None:
    box, em = words.box, words.size_pt * MM_PER_PT
    painter.setFont(type_font(round(em * UNITS_PER_MM), bold=words.bold))
    painter.setPen(QColor(words.colour))
    top = box.y + (box.height - len(words.lines) * LINE * em) / 2.0
    for number, line in enumerate(words.lines):
        x = box.x
        if words.align != "left":
            left_over = box.width - width_mm(line, words.size_pt, bold=words.bold)
            x += left_over if words.align == "right" else left_over / 2.0
        painter.drawText(_point(x, top + (number * LINE + BASELINE) * em), line)


def _paint_picture(painter: QPainter, picture: Picture, medium: Medium) -> None:
    painter.save()
    try:
        painter.translate(_point(picture.box.x, picture.box.y))
        painter.scale(MM_PER_PX * UNITS_PER_MM, MM_PER_PX * UNITS_PER_MM)
        size = QSizeF(picture.box.width / MM_PER_PX, picture.box.height / MM_PER_PX)
        painter.setPen(QPen())
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setFont(type_font(13, bold=False))
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.setClipRect(QRectF(0.0, 0.0, size.width(), size.height()))
        picture.paint(painter, size, medium)
    finally:
        painter.restore()


def _rule_pen(rule: Rule) -> QPen:
    pen = _pen(rule.colour, rule.width_mm)
    if rule.dash_mm:
        pen.setDashPattern([rule.dash_mm / rule.width_mm] * 2)
    return pen


def _pen(colour: str, width_mm: float) -> QPen:
    pen = QPen(QColor(colour), width_mm * UNITS_PER_MM)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    return pen


def _point(x_mm: float, y_mm: float) -> QPointF:
    return QPointF(x_mm * UNITS_PER_MM, y_mm * UNITS_PER_MM)


def _rectangle(box: Box) -> QRectF:
    return QRectF(*(side * UNITS_PER_MM for side in (box.x, box.y, box.width, box.height)))
