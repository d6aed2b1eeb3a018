"""The picture of a lay: table, film, wool, tapes, boundaries, slips and figures.

The rule of this module: screen, SVG and PNG are the same drawing; only the brush of the wool differs.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFontMetricsF, QPainter, QPen, QPolygonF

from studio_gui.domain.plan import Plan
from studio_gui.drawing.figures_row import paint_figures, paint_figures_heading
from studio_gui.drawing.film_marks import paint_film_marks, paint_stains
from studio_gui.drawing.fonts import sized
from studio_gui.drawing.gauge_axis import paint_gauge_axis
from studio_gui.drawing.gauges import paint_gauges
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.look import Look
from studio_gui.drawing.pegs import LayState, paint_boundaries
from studio_gui.drawing.ruler import INCH_M, ruler_unit_m
from studio_gui.drawing.slips import paint_slips
from studio_gui.drawing.tape import paint_tape
from studio_gui.drawing.wool import paint_strands
from studio_gui.wording.quantities import LAY_LENGTH, MASS, VOLUME, WETNESS, shown
from studio_gui.wording.translation import translate

TAG_WIDTH = 208.0


def paint_lay(painter: QPainter, layout: LayLayout, look: Look, state: LayState, brush: QBrush) -> None:
    """Paint the whole lay. `brush` paints wool in the lay's own colours (`wool.column_brush` or another)."""
    painter.fillRect(QRectF(0.0, 0.0, layout.size.width(), layout.size.height()), look.table)
    _paint_film(painter, layout, look)
    paint_tape(painter, layout, look, layout.tape_start, from_end=False)
    paint_tape(painter, layout, look, layout.tape_end, from_end=True)
    _paint_words(painter, layout, look)
    paint_gauge_axis(painter, layout, look)
    paint_figures_heading(painter, layout, look)
    within = layout.pane.left(), layout.pane.right()
    paint_stains(painter, layout, look, within)
    paint_strands(painter, layout, brush)
    _paint_selection(painter, layout, look, state)
    paint_slips(painter, layout, look, state, within)
    paint_boundaries(painter, layout, look, state)
    paint_film_marks(painter, layout, look, within)
    paint_gauges(painter, layout, look, within)
    paint_figures(painter, layout, look, within)


def _paint_film(painter: QPainter, layout: LayLayout, look: Look) -> None:
    painter.save()
    painter.setPen(QPen(look.film_edge, 1.0))
    painter.setBrush(look.film)
    painter.drawRoundedRect(layout.film, 3.0, 3.0)
    painter.setPen(QPen(look.film_edge, 1.0, Qt.PenStyle.DashLine))
    for place_m in (0.0, layout.sheet.plan.lay_length_m):
        x = round(layout.x(place_m)) + 0.5
        painter.drawLine(QPointF(x, layout.film.top() + 4.0), QPointF(x, layout.film.bottom() - 4.0))
    painter.restore()


def _paint_words(painter: QPainter, layout: LayLayout, look: Look) -> None:
    """Paint what the tapes count from, the mark at the start, and how many rovings lie there."""
    painter.save()
    plan = layout.sheet.plan
    base = painter.font()
    painter.setFont(sized(painter, 0.85))
    painter.setPen(look.secondary)
    left = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
    from_start, from_fold, from_end = _tape_words()
    far = from_fold if plan.lay.passes > 1 else from_end
    for box, words in ((layout.tape_start, from_start), (layout.tape_end, far)):
        painter.drawText(QRectF(8.0, box.top(), 92.0, box.height()), left, words)
    if plan.fibre.rovings > 1:
        all_shown = layout.rovings_shown == plan.fibre.rovings
        words = (
            translate("LayPicture", "{0} rovings")
            if all_shown
            else translate("LayPicture", "one of {0} rovings")
        )
        painter.drawText(
            QRectF(8.0, layout.film.top() + 2.0, 92.0, 20.0), left, words.format(plan.fibre.rovings)
        )
    painter.setFont(base)
    _paint_start_mark(painter, layout, look)
    painter.restore()


def _tape_words() -> tuple[str, str, str]:
    """Return what the tapes are in and count from: the start, the fold, the end."""
    if ruler_unit_m() == INCH_M:
        return (
            translate("LayPicture", "in from start"),
            translate("LayPicture", "in from fold"),
            translate("LayPicture", "in from end"),
        )
    return (
        translate("LayPicture", "cm from start"),
        translate("LayPicture", "cm from fold"),
        translate("LayPicture", "cm from end"),
    )


def _paint_start_mark(painter: QPainter, layout: LayLayout, look: Look) -> None:
    middle = layout.film.center().y() + 10.0
    slip = QRectF(10.0, middle - 22.0, 62.0, 44.0)
    corners = [slip.topLeft(), slip.topRight(), QPointF(86.0, middle), slip.bottomRight(), slip.bottomLeft()]
    painter.setPen(QPen(look.film_edge, 1.0))
    painter.setBrush(look.paper)
    painter.drawPolygon(QPolygonF(corners))
    painter.setPen(look.ink)
    painter.setFont(sized(painter, 1.0, bold=True))
    words = translate("LayPicture", "Start here")
    flags = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignHCenter | Qt.TextFlag.TextWordWrap
    painter.drawText(slip.adjusted(4.0, 2.0, 0.0, -2.0), int(flags), words)


def _paint_selection(painter: QPainter, layout: LayLayout, look: Look, state: LayState) -> None:
    """Mark the span of the selected sections on the tape."""
    painter.save()
    for item in layout.items:
        if item.kind == "section" and item.index in state.selected:
            y = layout.tape_start.bottom() + 1.5
            painter.setPen(QPen(look.handle, 3.0))
            painter.drawLine(QPointF(item.rect.left() + 1.0, y), QPointF(item.rect.right() - 1.0, y))
    painter.restore()


def paint_drag_tag(
    painter: QPainter, layout: LayLayout, look: Look, index: int, before: Plan, pointer: QPointF
) -> None:
    """Paint the live tag of boundary `index`: length, change, grams and ml of both neighbours."""
    painter.save()
    columns = [_tag_column(layout, one, before) for one in (index, index + 1)]
    fixed = any(len(column) > 5 for column in columns)
    x = layout.x(float(layout.sheet.figures.edges_m[index + 1]))
    height = 104.0 if fixed else 84.0
    left = min(max(x - TAG_WIDTH / 2.0, 4.0), layout.size.width() - TAG_WIDTH - 4.0)
    top = pointer.y() + 18.0
    if top + height > layout.size.height():
        top = max(pointer.y() - height - 18.0, 4.0)
    tag = QRectF(left, top, TAG_WIDTH, height)
    painter.setPen(QPen(look.handle, 2.0))
    painter.setBrush(look.paper)
    painter.drawRoundedRect(tag, 5.0, 5.0)
    painter.setPen(QPen(look.film_edge, 1.0))
    painter.drawLine(
        QPointF(tag.center().x(), tag.top() + 8.0), QPointF(tag.center().x(), tag.bottom() - 8.0)
    )
    for number, column in enumerate(columns):
        half = QRectF(tag.left() + number * TAG_WIDTH / 2.0, tag.top(), TAG_WIDTH / 2.0, height)
        _paint_tag_half(painter, layout, look, half.adjusted(9.0, 6.0, -9.0, -6.0), index + number, column)
    _paint_place(painter, layout, look, x, shown(LAY_LENGTH, float(layout.sheet.figures.edges_m[index + 1])))
    painter.restore()


def _tag_column(layout: LayLayout, index: int, before: Plan) -> list[str]:
    """Return letter, change of length, length, grams, ml and, for a fixed volume, ml/g."""
    figures = layout.sheet.figures
    plan = layout.sheet.plan
    change_m = figures.length_m(index) - (before.edges_m[index + 1] - before.edges_m[index])
    sign = "+" if change_m > 5e-5 else "–" if change_m < -5e-5 else "±"
    column = [
        plan.liquor(plan.sections[index].liquor_id).letter,
        sign + shown(LAY_LENGTH, abs(change_m)),
        shown(LAY_LENGTH, figures.length_m(index)),
        shown(MASS, float(figures.fibre_g[index])),
        shown(VOLUME, float(figures.liquid_ml[index])),
    ]
    if plan.sections[index].fixed_ml is not None:
        column.append(shown(WETNESS, float(figures.applied_ml_per_g[index])))
    return column


def _paint_tag_half(
    painter: QPainter, layout: LayLayout, look: Look, half: QRectF, index: int, column: list[str]
) -> None:
    colour = QColor.fromRgbF(*layout.sheet.colours.srgb[index].tolist())
    painter.setPen(QPen(look.film_edge, 1.0))
    painter.setBrush(colour)
    painter.drawRect(QRectF(half.left(), half.top() + 3.0, 11.0, 11.0))
    base = painter.font()
    painter.setFont(sized(painter, 1.0, bold=True))
    painter.setPen(look.ink)
    right = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight
    line = QRectF(half.left(), half.top(), half.width(), 18.0)
    painter.drawText(line.adjusted(16.0, 0.0, 0.0, 0.0), Qt.AlignmentFlag.AlignVCenter, column[0])
    for row, figure in enumerate(column[2:], start=1):
        painter.drawText(line.translated(0.0, 18.0 * row), right, figure)
    painter.setFont(sized(painter, 0.85))
    painter.setPen(look.ink_secondary)
    painter.drawText(line, right, column[1])
    painter.setFont(base)


def _paint_place(painter: QPainter, layout: LayLayout, look: Look, x: float, place: str) -> None:
    """Paint the boundary's place as a filled slip on the tape."""
    font = sized(painter, 1.0, bold=True)
    width = QFontMetricsF(font).horizontalAdvance(place) + 14.0
    slip = QRectF(x - width / 2.0, layout.tape_start.top() - 8.0, width, 20.0)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.handle)
    painter.drawRoundedRect(slip, 3.0, 3.0)
    painter.setFont(font)
    painter.setPen(look.paper if look.handle.lightness() < 140 else look.ink)
    painter.drawText(slip, Qt.AlignmentFlag.AlignCenter, place)
