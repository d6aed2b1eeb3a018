"""The whole film in little, beneath a lay that is looked at closely.

The rule of this module: it shows itself only while a part of the film is out of sight.
"""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen

from studio_gui.drawing.lay_layout import LayLayout, pane_of
from studio_gui.drawing.look import Look


def is_overview_shown(layout: LayLayout) -> bool:
    """Tell whether a part of the film is out of sight."""
    return not layout.view.is_fitted


def film_m_at(layout: LayLayout, x: float) -> float:
    """Return the place on the film (m from its left end) at a pixel column of the overview."""
    share = (x - layout.overview.left()) / layout.overview.width()
    return share * pane_of(layout).film_m


def window_in_overview(layout: LayLayout) -> QRectF:
    """Return the part of the overview that is in sight."""
    scale = layout.overview.width() / pane_of(layout).film_m
    left = layout.overview.left() + layout.view.left_m * scale
    width = max(layout.pane.width() / layout.px_per_m * scale, 6.0)
    box = QRectF(left, layout.overview.top() - 2.0, width, layout.overview.height() + 4.0)
    return box.intersected(layout.overview.adjusted(-2.0, -2.0, 2.0, 2.0))


def paint_overview(painter: QPainter, layout: LayLayout, look: Look, lay_brush: QBrush) -> None:
    """Paint the film with its lay in `lay_brush`, which runs over `lay_in_overview`, and what is in sight."""
    painter.save()
    painter.setPen(QPen(look.film_edge, 1.0))
    painter.setBrush(look.film)
    painter.drawRoundedRect(layout.overview, 2.0, 2.0)
    painter.fillRect(lay_in_overview(layout).adjusted(0.0, 2.0, 0.0, -2.0), lay_brush)
    window = window_in_overview(layout)
    veil = QColor(look.table)
    veil.setAlpha(150)
    painter.fillRect(QRectF(layout.overview.topLeft(), window.bottomLeft()), veil)
    painter.fillRect(QRectF(window.topRight(), layout.overview.bottomRight()), veil)
    painter.setPen(QPen(look.handle, 2.0))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRoundedRect(window, 3.0, 3.0)
    painter.restore()


def lay_in_overview(layout: LayLayout) -> QRectF:
    """Return the part of the overview that the lay takes up."""
    plan = layout.sheet.plan
    scale = layout.overview.width() / pane_of(layout).film_m
    left = layout.overview.left() + plan.lay.overhang_m / 2.0 * scale
    return QRectF(left, layout.overview.top(), plan.lay_length_m * scale, layout.overview.height())
