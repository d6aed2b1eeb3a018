"""Pictures of single painters, and what is in them."""

from __future__ import annotations

from collections.abc import Callable
from xml.etree import ElementTree

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QBuffer, QIODevice, QRectF, QSizeF
from PySide6.QtGui import QImage, QPainter
from PySide6.QtSvg import QSvgGenerator

from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.drawing.figures_row import paint_figures
from studio_gui.drawing.film_marks import paint_film_marks, paint_stains
from studio_gui.drawing.gauges import paint_gauges
from studio_gui.drawing.lay_layout import LayLayout, lay_layout
from studio_gui.drawing.lay_rows import GAUGE_PX_PER_ML_PER_G
from studio_gui.drawing.lay_state import LayState
from studio_gui.drawing.leg_tags import paint_leg_tags
from studio_gui.drawing.look import LIGHT, Look
from studio_gui.drawing.slips import paint_slips

Columns = tuple[float, float]
Painter = Callable[[QPainter, LayLayout, Look, Columns], None]
Pixels = NDArray[np.uint8]


def slips(painter: QPainter, layout: LayLayout, look: Look, within: Columns) -> None:
    """Paint slips with the first section selected and the second one focused."""
    paint_slips(painter, layout, look, LayState(frozenset({0}), None, ("section", 1)), within)


#: Every painter that paints between two columns.
PAINTERS: dict[str, Painter] = {
    "gauges": paint_gauges,
    "figures": paint_figures,
    "stains": paint_stains,
    "film marks": paint_film_marks,
    "slips": slips,
    "leg tags": paint_leg_tags,
}


def laid(plan: Plan, width: float = 1000.0, height: float = 560.0) -> LayLayout:
    """Return the layout of a plan."""
    return lay_layout(worksheet(plan), QSizeF(width, height), most_px_per_ml_per_g=GAUGE_PX_PER_ML_PER_G)


def pane(layout: LayLayout) -> Columns:
    """Return the columns of the whole pane."""
    return layout.pane.left(), layout.pane.right()


def painted(
    paint: Painter,
    layout: LayLayout,
    within: Columns | None = None,
    *,
    look: Look = LIGHT,
    ratio: float = 1.0,
    grounded: bool = True,
) -> Pixels:
    """Return (rows, columns, 4) what one painter paints on the table, or on nothing if not grounded."""
    image = QImage((layout.size * ratio).toSize(), QImage.Format.Format_ARGB32_Premultiplied)
    image.setDevicePixelRatio(ratio)
    image.fill(look.table if grounded else 0)
    painter = QPainter(image)
    try:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint(painter, layout, look, within or pane(layout))
    finally:
        painter.end()
    return np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.width(), 4).copy()


def box_of(pixels: Pixels) -> QRectF:
    """Return the box round all that is painted on nothing."""
    rows, columns = np.nonzero(pixels[:, :, 3])
    if not len(rows):
        return QRectF()
    left, top = float(columns.min()), float(rows.min())
    return QRectF(left, top, float(columns.max()) + 1.0 - left, float(rows.max()) + 1.0 - top)


def grey(pixels: Pixels) -> NDArray[np.float64]:
    """Return (rows, columns) lightness from 0 to 255, as a printer without colours shows it."""
    blue_green_red = pixels[:, :, :3].astype(np.float64)
    shades: NDArray[np.float64] = blue_green_red @ np.array([0.114, 0.587, 0.299])
    return shades


def texts(paint: Painter, layout: LayLayout, within: Columns | None = None) -> list[str]:
    """Return all that one painter writes."""
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    generator = QSvgGenerator()
    generator.setOutputDevice(buffer)
    generator.setSize(layout.size.toSize())
    painter = QPainter(generator)
    try:
        paint(painter, layout, LIGHT, within or pane(layout))
    finally:
        painter.end()
    root = ElementTree.fromstring(buffer.data().data())  # noqa: S314  (written here, just now)
    return ["".join(node.itertext()).strip() for node in root.iter("{http://www.w3.org/2000/svg}text")]
