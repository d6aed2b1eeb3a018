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
from studio_gui.wording.quantities import LAY_LENGTH, MASS, VOLUME, WETNESS, shown, shown_bare, shown_briefly
from studio_gui.wording.translation import TRANSLATED, translate

SHORTENED_FROM_PX = 56.0  # a name is shortened only where this much of it stays


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
    bold, plain, small = sized(painter, 1.15, bold=True), sized(painter, 1.0), sized(painter, 0.9)
    letter_width = QFontMetricsF(bold).horizontalAdvance(letter)
    name_width = QFontMetricsF(plain).horizontalAdvance(section.name)
    length = shown(LAY_LENGTH, layout.sheet.figures.length_m(item.index))
    length_width = QFontMetricsF(small).horizontalAdvance(length)
    line = slip.adjusted(7.0, 0.0, -7.0, -3.0)
    room = QRectF(line)
    room.setLeft(line.left() + letter_width + 8.0)
    base = painter.font()
    painter.setPen(look.ink)
    painter.setFont(bold)
    if room.width() < min(name_width, SHORTENED_FROM_PX):
        if letter_width <= slip.width():
            painter.drawText(slip.adjusted(0.0, 0.0, 0.0, -3.0), Qt.AlignmentFlag.AlignCenter, letter)
        painter.setFont(base)
        return
    side = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
    painter.drawText(line, side, letter)
    if room.width() >= min(name_width, SHORTENED_FROM_PX) + length_width + 8.0:
        painter.setFont(small)
        painter.setPen(look.ink_secondary)
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight, length)
        room.setRight(room.right() - length_width - 8.0)
    painter.setFont(plain)
    painter.setPen(look.ink)
    name = QFontMetricsF(plain).elidedText(section.name, Qt.TextElideMode.ElideRight, room.width())
    painter.drawText(room, side, name)
    painter.setFont(base)


def paint_figures(painter: QPainter, layout: LayLayout, look: Look) -> None:
    """Paint under each section its ml, its ml/g with grams, and its state in words where it is not right.

    Where there is no room for all three, the figure stands alone under its mark; then upright; then it goes.
    """
    painter.save()
    narrow = False
    for item in layout.items:
        if item.kind == "section" and item.rect.width() >= 11.0:
            narrow |= _paint_section_figures(painter, layout, look, item)
    if narrow:
        painter.setFont(sized(painter, 0.85))
        painter.setPen(look.secondary)
        unit = QRectF(8.0, layout.figures_top + 16.0, 92.0, 20.0)
        painter.drawText(unit, Qt.AlignmentFlag.AlignVCenter, VOLUME.shown_in(TRANSLATED)[0])
    painter.restore()


def _paint_section_figures(painter: QPainter, layout: LayLayout, look: Look, item: LayItem) -> bool:
    """Paint one section's figures; return whether its ml stand without their unit."""
    figures = layout.sheet.figures
    saturation = figures.saturation(item.index)
    volume = shown(VOLUME, float(figures.liquid_ml[item.index]))
    column = QRectF(item.rect.left(), layout.figures_top, item.rect.width(), 70.0)
    big, small = sized(painter, 1.3, bold=True), sized(painter, 0.85)
    width = QFontMetricsF(big).horizontalAdvance(volume)
    alarm = {"over": look.over, "under": look.under}.get(saturation, look.secondary)
    if column.width() < width + 22.0:
        _paint_bare_figure(painter, layout, look, item, column)
        return True
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
    return False


def _paint_bare_figure(
    painter: QPainter, layout: LayLayout, look: Look, item: LayItem, column: QRectF
) -> None:
    """Paint the state's mark and beneath it the ml without their unit, upright where that is needed."""
    figures = layout.sheet.figures
    side = min(13.0, column.width() - 2.0)
    box = QRectF(column.center().x() - side / 2.0, column.top(), side, side)
    paint_saturation(painter, box, figures.saturation(item.index), look)
    painter.save()
    font = sized(painter, 1.0, bold=True)
    painter.setFont(font)
    painter.setPen(look.text)
    figure = shown_bare(VOLUME, float(figures.liquid_ml[item.index]))
    if QFontMetricsF(font).horizontalAdvance(figure) <= column.width() - 6.0:
        place = QRectF(column.left(), column.top() + 16.0, column.width(), 20.0)
        painter.drawText(place, Qt.AlignmentFlag.AlignCenter, figure)
    else:
        painter.translate(QPointF(column.center().x(), column.top() + 18.0))
        painter.rotate(90.0)
        painter.drawText(QRectF(0.0, -9.0, 60.0, 18.0), Qt.AlignmentFlag.AlignVCenter, figure)
    painter.restore()


def _state_words(saturation: Saturation, free_ml: float) -> str:
    """Return what is wrong with a section's wetness in a few words; nothing when it is right."""
    if saturation == "over":
        return translate("LayPicture", "{0} over the brim").format(shown_briefly(VOLUME, free_ml))
    return translate("LayPicture", "core may stay white") if saturation == "under" else ""
