"""The figures under the troughs: ml, ml/g with grams, and what there is to say of each section.

The rule of this module: each section's figures rest on its own width alone. What does not fit is shortened in
steps, never clipped: lines go from below, the ml lose their unit, turn upright, then go; what is wrong stays
as a mark, under the narrowest as a bar: solid where it runs over, hollow where the core may stay white.
Decimals are fixed, so that figures do not jump while they change.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPainterPath

from studio_gui.domain.figures import SectionFigures
from studio_gui.drawing.fonts import sized
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.look import Look
from studio_gui.drawing.marks import paint_saturation, paint_undyed
from studio_gui.drawing.troughs import in_trouble, is_outline, showing
from studio_gui.wording.quantities import MASS, VOLUME, WETNESS, shown, shown_bare
from studio_gui.wording.translation import TRANSLATED, translate

NARROWEST_FIGURE = 11.0  # px: under narrower sections stand bars alone
MARK_SIDE, MARK_ROOM = 12.0, 18.0
TOP_LINE, LINE = 24.0, 18.0  # heights, px
BAR_HEIGHT, LEAST_BAR = 5.0, 5.0

State = Literal["undyed", "under", "in range", "over"]


class _Pens(NamedTuple):
    """Fonts with their metrics, made once for a row."""

    big: QFont
    big_metrics: QFontMetricsF
    bold: QFont
    bold_metrics: QFontMetricsF
    small: QFont
    small_metrics: QFontMetricsF
    strong: QFont
    strong_metrics: QFontMetricsF


def state_of(figures: SectionFigures, index: int) -> State:
    """Return how wet a section is; ``undyed`` where it gets no liquor and needs none."""
    saturation = figures.saturation(index)
    return "undyed" if saturation == "under" and not figures.painted[index] else saturation


def paint_figures(painter: QPainter, layout: LayLayout, look: Look, within: tuple[float, float]) -> None:
    """Paint the figures of the sections that show between two pixel columns."""
    pens = _pens(painter)
    figures = layout.sheet.figures
    edges = layout.edges_x
    many = is_outline(layout)
    discs = QPainterPath()
    painter.save()
    for index in showing(layout, within):
        left = max(edges[index], layout.pane.left())
        right = min(edges[index + 1], layout.pane.right())
        state = state_of(figures, index)
        column = QRectF(left, layout.figures_top, right - left, TOP_LINE + 2.0 * LINE)
        if many or column.width() < NARROWEST_FIGURE:
            _paint_bar(painter, look, column, state, many=many)
            continue
        box = _paint_volume(painter, layout, look, pens, index, column)
        if state == "in range":
            discs.addEllipse(box.center(), box.width() * 0.38, box.height() * 0.38)
        elif state == "undyed":
            paint_undyed(painter, box, look)
        else:
            paint_saturation(painter, box, state, look)
    painter.fillPath(discs, look.secondary)
    painter.restore()


def paint_figures_heading(painter: QPainter, layout: LayLayout, look: Look) -> None:
    """Paint beside the row the unit of its figures; beside bars, how many sections they mark."""
    painter.save()
    painter.setFont(sized(painter, 0.85))
    painter.setPen(look.secondary)
    figures = layout.sheet.figures
    top = layout.figures_top
    side = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight
    room = QRectF(4.0, top, 76.0, TOP_LINE)
    if not is_outline(layout):
        painter.drawText(room, side, VOLUME.shown_in(TRANSLATED)[0])
        painter.restore()
        return
    over, under = in_trouble(figures)
    rows = (
        (over, "over", translate("LayPicture", "{0} over"), look.over),
        (under, "under", translate("LayPicture", "{0} under"), look.under),
    )
    room = QRectF(4.0, top + 3.0, 76.0, LINE)
    for count, state, words, colour in rows:
        if count:
            painter.setPen(colour)
            painter.drawText(room, side, words.format(count))
            bar = QRectF(room.right() + 5.0, room.center().y() - BAR_HEIGHT / 2.0, 10.0, BAR_HEIGHT)
            paint_bar(painter, look, bar, state)
            room.translate(0.0, LINE)
    painter.restore()


def _pens(painter: QPainter) -> _Pens:
    fonts = (
        sized(painter, 1.3, bold=True),
        sized(painter, 1.0, bold=True),
        sized(painter, 0.85),
        sized(painter, 0.85, bold=True),
    )
    both = [part for font in fonts for part in (font, QFontMetricsF(font))]
    return _Pens(*both)  # type: ignore[arg-type]  # fonts and metrics in turn


def _whole_width(metrics: QFontMetricsF, volume: str) -> float:
    return metrics.horizontalAdvance(volume) + MARK_ROOM + 6.0


def _paint_volume(
    painter: QPainter, layout: LayLayout, look: Look, pens: _Pens, index: int, column: QRectF
) -> QRectF:
    """Paint a section's figures as far as they fit in `column`; return the box of its mark."""
    liquid_ml = float(layout.sheet.figures.liquid_ml[index])
    volume = shown(VOLUME, liquid_ml)
    painter.setPen(look.text)
    baseline = column.top() + TOP_LINE / 2.0 + pens.big_metrics.capHeight() / 2.0
    for font, metrics in ((pens.big, pens.big_metrics), (pens.bold, pens.bold_metrics)):
        whole = _whole_width(metrics, volume)
        if whole <= column.width():
            left = column.center().x() - (whole - 6.0) / 2.0
            painter.setFont(font)
            painter.drawText(QPointF(left + MARK_ROOM, baseline), volume)
            _paint_lines(painter, layout, look, pens, index, column)
            return QRectF(left, column.top() + (TOP_LINE - MARK_SIDE) / 2.0, MARK_SIDE, MARK_SIDE)
    figure = shown_bare(VOLUME, liquid_ml)
    painter.setFont(pens.bold)
    width = pens.bold_metrics.horizontalAdvance(figure)
    side = min(MARK_SIDE, column.width() - 1.0)
    centre = column.center().x()
    if width <= column.width() - 4.0:
        painter.drawText(QPointF(centre - width / 2.0, baseline), figure)
        _paint_words(painter, layout, look, pens, index, column, quiet=False)
        return QRectF(centre - side / 2.0, column.top() + TOP_LINE + 5.0, side, side)
    painter.save()
    painter.translate(centre, column.top() + 2.0)
    painter.rotate(90.0)
    painter.drawText(QPointF(0.0, pens.bold_metrics.capHeight() / 2.0), figure)
    painter.restore()
    return QRectF(centre - side / 2.0, column.top() + max(width, TOP_LINE) + 5.0, side, side)


def _paint_lines(
    painter: QPainter, layout: LayLayout, look: Look, pens: _Pens, index: int, column: QRectF
) -> None:
    """Paint ml/g with grams, and the words, each as far as it fits."""
    figures = layout.sheet.figures
    wetness = shown(WETNESS, float(figures.applied_ml_per_g[index]))
    grams = shown(MASS, float(figures.fibre_g[index]))
    room = column.width() - 4.0
    middle = column.top() + TOP_LINE + LINE / 2.0 + pens.small_metrics.capHeight() / 2.0
    painter.setFont(pens.small)
    painter.setPen(look.secondary)
    for text in (f"{wetness} · {grams}", wetness):
        width = pens.small_metrics.horizontalAdvance(text)
        if width <= room:
            painter.drawText(QPointF(column.center().x() - width / 2.0, middle), text)
            break
    _paint_words(painter, layout, look, pens, index, column, quiet=True)


def _paint_words(
    painter: QPainter,
    layout: LayLayout,
    look: Look,
    pens: _Pens,
    index: int,
    column: QRectF,
    *,
    quiet: bool,
) -> None:
    """Paint in the last line what there is to say of a section; where all is right only if `quiet`."""
    texts, colour = _words(layout, look, index)
    alarmed = colour is not look.secondary
    if not (alarmed or quiet):
        return
    room = column.width() - 4.0
    y = column.top() + TOP_LINE + 1.5 * LINE + pens.small_metrics.capHeight() / 2.0
    metrics = pens.strong_metrics if alarmed else pens.small_metrics
    painter.setFont(pens.strong if alarmed else pens.small)
    painter.setPen(colour)
    for text in texts:
        width = metrics.horizontalAdvance(text)
        if width <= room:
            painter.drawText(QPointF(column.center().x() - width / 2.0, y), text)
            break


def _words(layout: LayLayout, look: Look, index: int) -> tuple[tuple[str, ...], QColor]:
    """Return what there is to say of a section, the longer words first, and their colour."""
    figures = layout.sheet.figures
    section = layout.sheet.plan.sections[index]
    state = state_of(figures, index)
    if state == "over":
        free = shown(VOLUME, float(figures.free_ml[index]))
        return (
            translate("LayPicture", "{0} over the brim").format(free),
            translate("LayPicture", "{0} over").format(free),
            translate("LayPicture", "over"),
        ), look.over
    if state == "under":
        return (
            translate("LayPicture", "core may stay white"),
            translate("LayPicture", "dry core"),
        ), look.under
    if state == "undyed":
        return (translate("LayPicture", "stays undyed"), translate("LayPicture", "undyed")), look.secondary
    if section.wiped_ml > 0.0:
        wiped = shown(VOLUME, section.wiped_ml)
        return (translate("LayPicture", "wiped {0}").format(wiped),), look.text
    if section.second_pass_ml > 0.0:
        later = shown(VOLUME, min(section.second_pass_ml, float(figures.liquid_ml[index])))
        return (
            translate("LayPicture", "{0} in a second pass").format(later),
            translate("LayPicture", "{0} later").format(later),
        ), look.text
    held = shown_bare(WETNESS, float(figures.held_ml_per_g[index]))
    limit = shown_bare(WETNESS, layout.sheet.plan.liquid.limit_ml_per_g)
    return (
        translate("LayPicture", "holding {0} of {1}").format(held, limit),
        translate("LayPicture", "{0} of {1}").format(held, limit),
    ), look.secondary


def _paint_bar(painter: QPainter, look: Look, column: QRectF, state: State, *, many: bool) -> None:
    """Mark under a section too narrow for figures what is wrong with it, as wide as it is."""
    if state in ("over", "under"):
        paint_bar(
            painter, look, bar_rect(column.left(), column.right(), column.top() + 2.0, many=many), state
        )


def bar_rect(left: float, right: float, top: float, *, many: bool) -> QRectF:
    """Return the bar of a section between two columns; one that stands alone can be seen however narrow."""
    width = max(right - left - 1.0, 1.0 if many else LEAST_BAR)
    return QRectF((left + right - width) / 2.0, top, width, BAR_HEIGHT)


def paint_bar(painter: QPainter, look: Look, bar: QRectF, state: str) -> None:
    """Paint the bar that marks a narrow section: solid where it is ``over``, hollow where it is not."""
    if state == "over":
        painter.fillRect(bar, look.over)
        return
    painter.setPen(Qt.PenStyle.NoPen)
    painter.fillRect(QRectF(bar.left(), bar.top(), bar.width(), 1.5), look.under)
    painter.fillRect(QRectF(bar.left(), bar.bottom() - 1.5, bar.width(), 1.5), look.under)
