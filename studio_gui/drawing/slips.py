"""Paper slips with the letters, and the figures under each section.

The rule of this module: nothing is written on wool. What does not fit is shortened in steps, never clipped: a
slip loses its length, then its name; figures lose their lines, then turn upright, then go.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen

from studio_gui.domain.figures import Saturation
from studio_gui.drawing.lay_layout import LayItem, LayLayout
from studio_gui.drawing.look import Look
from studio_gui.drawing.marks import paint_saturation
from studio_gui.drawing.pegs import LayState
from studio_gui.wording.quantities import LAY_LENGTH, MASS, VOLUME, WETNESS, shown, shown_briefly
from studio_gui.wording.translation import translate

NAME_FROM_PX = 56.0  # narrower slips carry the letter alone


def sized(painter: QPainter, factor: float, *, bold: bool = False) -> QFont:
    """Return the painter's font at `factor` of its size."""
    font = QFont(painter.font())
    font.setPointSizeF(font.pointSizeF() * factor)
    font.setBold(bold)
    return font


def paint_slips(painter: QPainter, layout: LayLayout, look: Look, state: LayState) -> None:
    """Paint the paper slip of every section: letter, name and length as far as there is room."""
    painter.save()
    colours = layout.sheet.colours.srgb
    for item in layout.items:
        if item.kind != "section" or item.rect.width() < 16.0:
            continue
        slip = (
            item.slip
            if item.slip.width() >= 14.0
            else QRectF(item.rect.left() + 1.0, item.slip.top(), item.rect.width() - 2.0, item.slip.height())
        )
        chosen = item.index in state.selected
        painter.setPen(QPen(look.handle if chosen else look.film_edge, 2.0 if chosen else 1.0))
        painter.setBrush(look.paper)
        painter.drawRoundedRect(slip, 2.0, 2.0)
        band = QRectF(slip.left() + 1.5, slip.bottom() - 4.5, slip.width() - 3.0, 3.0)
        painter.fillRect(band, QColor.fromRgbF(*colours[item.index].tolist()))
        if state.focused == ("section", item.index):
            painter.setPen(QPen(look.handle, 2.0, Qt.PenStyle.DashLine))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(slip.adjusted(-3.0, -3.0, 3.0, 3.0), 4.0, 4.0)
        _write_slip(painter, layout, look, item, slip)
    painter.restore()


def _write_slip(painter: QPainter, layout: LayLayout, look: Look, item: LayItem, slip: QRectF) -> None:
    plan = layout.sheet.plan
    section = plan.sections[item.index]
    letter = plan.liquor(section.liquor_id).letter
    inner = slip.adjusted(7.0, 0.0, -7.0, -3.0)
    bold, plain, small = sized(painter, 1.15, bold=True), sized(painter, 1.0), sized(painter, 0.9)
    letter_width = QFontMetricsF(bold).horizontalAdvance(letter)
    base = painter.font()
    painter.setPen(look.ink)
    painter.setFont(bold)
    if inner.width() < max(letter_width + 18.0, NAME_FROM_PX - 14.0):
        if letter_width <= slip.width():
            painter.drawText(slip.adjusted(0.0, 0.0, 0.0, -3.0), Qt.AlignmentFlag.AlignCenter, letter)
        painter.setFont(base)
        return
    side = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
    painter.drawText(inner, side, letter)
    inner.setLeft(inner.left() + letter_width + 8.0)
    length = shown(LAY_LENGTH, layout.sheet.figures.length_m(item.index))
    length_width = QFontMetricsF(small).horizontalAdvance(length)
    name_width = QFontMetricsF(plain).horizontalAdvance(section.name)
    if inner.width() >= min(name_width, 48.0) + length_width + 8.0:
        painter.setFont(small)
        painter.setPen(look.ink_secondary)
        painter.drawText(inner, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight, length)
        inner.setRight(inner.right() - length_width - 8.0)
    painter.setFont(plain)
    painter.setPen(look.ink)
    name = QFontMetricsF(plain).elidedText(section.name, Qt.TextElideMode.ElideRight, inner.width())
    painter.drawText(inner, side, name)
    painter.setFont(base)


def paint_figures(painter: QPainter, layout: LayLayout, look: Look) -> None:
    """Paint under each section its ml, its ml/g with grams, and its state in words where it is not right."""
    painter.save()
    for item in layout.items:
        if item.kind == "section" and item.rect.width() >= 11.0:
            _paint_section_figures(painter, layout, look, item)
    painter.restore()


def _paint_section_figures(painter: QPainter, layout: LayLayout, look: Look, item: LayItem) -> None:
    figures = layout.sheet.figures
    saturation = figures.saturation(item.index)
    volume = shown(VOLUME, float(figures.liquid_ml[item.index]))
    column = QRectF(item.rect.left(), layout.figures_top, item.rect.width(), 70.0)
    big, small = sized(painter, 1.3, bold=True), sized(painter, 0.85)
    width = QFontMetricsF(big).horizontalAdvance(volume)
    alarm = {"over": look.over, "under": look.under}.get(saturation, look.secondary)
    if column.width() < width + 22.0:
        _paint_upright(painter, layout, look, item, column)
        return
    left = column.center().x() - (width + 18.0) / 2.0
    paint_saturation(painter, QRectF(left, column.top() + 5.0, 13.0, 13.0), saturation, look)
    base = painter.font()
    painter.setFont(big)
    painter.setPen(look.text)
    painter.drawText(
        QRectF(left + 18.0, column.top(), width + 4.0, 24.0), Qt.AlignmentFlag.AlignVCenter, volume
    )
    wetness = shown(WETNESS, float(figures.applied_ml_per_g[item.index]))
    grams = shown(MASS, float(figures.fibre_g[item.index]))
    words = _state_words(saturation, float(figures.free_ml[item.index]))
    painter.setFont(small)
    metrics = QFontMetricsF(small)
    for row, (line, short, colour) in enumerate(
        ((f"{wetness} · {grams}", wetness, look.secondary), (words, "", alarm))
    ):
        text = line if metrics.horizontalAdvance(line) <= column.width() - 4.0 else short
        if metrics.horizontalAdvance(text) <= column.width():
            painter.setPen(colour)
            place = QRectF(column.left(), column.top() + 26.0 + 18.0 * row, column.width(), 18.0)
            painter.drawText(place, Qt.AlignmentFlag.AlignCenter, text)
    painter.setFont(base)


def _paint_upright(painter: QPainter, layout: LayLayout, look: Look, item: LayItem, column: QRectF) -> None:
    """Paint the state's mark and, turned upright beneath it, the ml."""
    figures = layout.sheet.figures
    side = min(13.0, column.width() - 2.0)
    box = QRectF(column.center().x() - side / 2.0, column.top(), side, side)
    paint_saturation(painter, box, figures.saturation(item.index), look)
    base = painter.font()
    painter.save()
    painter.setFont(sized(painter, 1.0, bold=True))
    painter.setPen(look.text)
    painter.translate(QPointF(column.center().x(), column.top() + 16.0))
    painter.rotate(90.0)
    volume = shown(VOLUME, float(figures.liquid_ml[item.index]))
    painter.drawText(QRectF(0.0, -9.0, 60.0, 18.0), Qt.AlignmentFlag.AlignVCenter, volume)
    painter.restore()
    painter.setFont(base)


def _state_words(saturation: Saturation, free_ml: float) -> str:
    """Return what is wrong with a section's wetness in a few words; nothing when it is right."""
    if saturation == "over":
        return translate("LayPicture", "{0} over the brim").format(shown_briefly(VOLUME, free_ml))
    return translate("LayPicture", "core may stay white") if saturation == "under" else ""
