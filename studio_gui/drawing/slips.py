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

    Where one section has no room for its ml with their unit, all stand bare under their marks, the narrowest
    upright.
    """
    painter.save()
    sections = [item for item in layout.items if item.kind == "section" and item.rect.width() >= 11.0]
    volumes = layout.sheet.figures.liquid_ml.tolist()
    big = QFontMetricsF(sized(painter, 1.3, bold=True))
    bare = any(
        item.rect.width() < big.horizontalAdvance(shown(VOLUME, volumes[item.index])) + 22.0
        for item in sections
    )
    small = QFontMetricsF(sized(painter, 0.85))
    wetness = layout.sheet.figures.applied_ml_per_g.tolist()
    roomy = all(
        item.rect.width() >= small.horizontalAdvance(shown(WETNESS, wetness[item.index])) + 2.0
        for item in sections
    )
    for item in sections:
        column = QRectF(item.rect.left(), layout.figures_top, item.rect.width(), 70.0)
        if bare:
            _paint_bare_volume(painter, layout, look, item, column)
        else:
            _paint_volume(painter, layout, look, item, column)
        room = column.adjusted(0.0, 34.0 if bare else 26.0, 0.0, 0.0)
        _paint_lines(painter, layout, look, item, room, with_wetness=roomy)
    if bare:
        painter.setFont(sized(painter, 0.85))
        painter.setPen(look.secondary)
        unit = QRectF(8.0, layout.figures_top + 14.0, 92.0, 20.0)
        painter.drawText(unit, Qt.AlignmentFlag.AlignVCenter, VOLUME.shown_in(TRANSLATED)[0])
    painter.restore()


def _paint_volume(painter: QPainter, layout: LayLayout, look: Look, item: LayItem, column: QRectF) -> None:
    """Paint the state's mark and beside it the ml with their unit."""
    figures = layout.sheet.figures
    volume = shown(VOLUME, float(figures.liquid_ml[item.index]))
    base = painter.font()
    painter.setFont(sized(painter, 1.3, bold=True))
    width = QFontMetricsF(painter.font()).horizontalAdvance(volume)
    left = column.center().x() - (width + 18.0) / 2.0
    mark = QRectF(left, column.top() + 5.0, 13.0, 13.0)
    paint_saturation(painter, mark, figures.saturation(item.index), look)
    painter.setPen(look.text)
    place = QRectF(left + 18.0, column.top(), width + 4.0, 24.0)
    painter.drawText(place, Qt.AlignmentFlag.AlignVCenter, volume)
    painter.setFont(base)


def _paint_bare_volume(
    painter: QPainter, layout: LayLayout, look: Look, item: LayItem, column: QRectF
) -> None:
    """Paint the state's mark and beneath it the ml without their unit, upright where that is needed."""
    figures = layout.sheet.figures
    side = min(13.0, column.width() - 2.0)
    box = QRectF(column.center().x() - side / 2.0, column.top(), side, side)
    paint_saturation(painter, box, figures.saturation(item.index), look)
    painter.save()
    painter.setFont(sized(painter, 1.0, bold=True))
    painter.setPen(look.text)
    figure = shown_bare(VOLUME, float(figures.liquid_ml[item.index]))
    if QFontMetricsF(painter.font()).horizontalAdvance(figure) <= column.width() - 6.0:
        place = QRectF(column.left(), column.top() + 14.0, column.width(), 20.0)
        painter.drawText(place, Qt.AlignmentFlag.AlignCenter, figure)
    else:
        painter.translate(QPointF(column.center().x(), column.top() + 18.0))
        painter.rotate(90.0)
        painter.drawText(QRectF(0.0, -9.0, 60.0, 18.0), Qt.AlignmentFlag.AlignVCenter, figure)
    painter.restore()


def _paint_lines(
    painter: QPainter, layout: LayLayout, look: Look, item: LayItem, room: QRectF, *, with_wetness: bool
) -> None:
    """Paint ml/g with grams, and in words what is wrong, each as far as it fits into the section's width."""
    figures = layout.sheet.figures
    saturation = figures.saturation(item.index)
    wetness = shown(WETNESS, float(figures.applied_ml_per_g[item.index]))
    grams = shown(MASS, float(figures.fibre_g[item.index]))
    alarm = {"over": look.over, "under": look.under}.get(saturation, look.secondary)
    lines = (
        (f"{wetness} · {grams}", wetness, look.secondary) if with_wetness else ("", "", look.secondary),
        (_state_words(saturation, float(figures.free_ml[item.index])), "", alarm),
    )
    base = painter.font()
    painter.setFont(sized(painter, 0.85))
    metrics = QFontMetricsF(painter.font())
    for row, (line, short, colour) in enumerate(lines):
        text = line if metrics.horizontalAdvance(line) <= room.width() - 4.0 else short
        if metrics.horizontalAdvance(text) <= room.width() - 2.0:
            painter.setPen(colour)
            place = QRectF(room.left(), room.top() + 18.0 * row, room.width(), 18.0)
            painter.drawText(place, Qt.AlignmentFlag.AlignCenter, text)
    painter.setFont(base)


def _state_words(saturation: Saturation, free_ml: float) -> str:
    """Return what is wrong with a section's wetness in a few words; nothing when it is right."""
    if saturation == "over":
        return translate("LayPicture", "{0} over the brim").format(shown_briefly(VOLUME, free_ml))
    return translate("LayPicture", "core may stay white") if saturation == "under" else ""
