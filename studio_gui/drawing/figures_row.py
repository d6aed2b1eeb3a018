"""The figures under the troughs: ml, ml/g with grams, and what there is to say of each section.

The rule of this module: each section's figures rest on its own width alone. What does not fit is shortened in
steps, never clipped: lines go from below, the ml lose their unit, turn upright, then go; what is wrong stays
as a mark, under the narrowest as a bar: solid where it runs over, hollow where the core may stay white.
Decimals are fixed, so that figures do not jump while they change.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath

from studio_gui.domain.figures import SectionFigures
from studio_gui.drawing.fonts import Lettering, lettering, sized
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
BESIDE_WORDS = 3.0  # px that glyphs and marks may reach over their box

State = Literal["undyed", "under", "in range", "over"]


class _Row(NamedTuple):
    """What a row is painted with: the letters of its figures, and the pixel columns that are painted."""

    painter: QPainter
    layout: LayLayout
    look: Look
    within: tuple[float, float]
    big: Lettering
    bold: Lettering
    small: Lettering
    strong: Lettering

    def shows(self, left: float, right: float) -> bool:
        """Whether anything drawn between two pixel columns, or just beside them, is painted at all."""
        return left - BESIDE_WORDS < self.within[1] and right + BESIDE_WORDS > self.within[0]

    def write(self, letters: Lettering, words: str, left: float, baseline: float, colour: QColor) -> None:
        """Write `words` where they are painted at all."""
        if self.shows(left, left + letters.width(words)):
            self.painter.setFont(letters.font)
            self.painter.setPen(colour)
            self.painter.drawText(QPointF(left, baseline), words)


def state_of(figures: SectionFigures, index: int) -> State:
    """Return how wet a section is; ``undyed`` where it gets no liquor and needs none."""
    saturation = figures.saturation(index)
    return "undyed" if saturation == "under" and not figures.painted[index] else saturation


def paint_figures(painter: QPainter, layout: LayLayout, look: Look, within: tuple[float, float]) -> None:
    """Paint the figures of the sections that show between two pixel columns."""
    row = _row(painter, layout, look, within)
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
        box = _paint_volume(row, index, column)
        if not row.shows(box.left(), box.right()):
            continue
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


def _row(painter: QPainter, layout: LayLayout, look: Look, within: tuple[float, float]) -> _Row:
    return _Row(
        painter,
        layout,
        look,
        within,
        big=lettering(painter, 1.3, bold=True),
        bold=lettering(painter, 1.0, bold=True),
        small=lettering(painter, 0.85),
        strong=lettering(painter, 0.85, bold=True),
    )


def _paint_volume(row: _Row, index: int, column: QRectF) -> QRectF:
    """Paint a section's figures as far as they fit in `column`; return the box of its mark."""
    liquid_ml = float(row.layout.sheet.figures.liquid_ml[index])
    volume = shown(VOLUME, liquid_ml)
    baseline = column.top() + TOP_LINE / 2.0 + row.big.cap_height / 2.0
    centre = column.center().x()
    for letters in (row.big, row.bold):
        whole = letters.width(volume) + MARK_ROOM + 6.0
        if whole <= column.width():
            left = centre - (whole - 6.0) / 2.0
            row.write(letters, volume, left + MARK_ROOM, baseline, row.look.text)
            _paint_lines(row, index, column)
            return QRectF(left, column.top() + (TOP_LINE - MARK_SIDE) / 2.0, MARK_SIDE, MARK_SIDE)
    figure = shown_bare(VOLUME, liquid_ml)
    width = row.bold.width(figure)
    side = min(MARK_SIDE, column.width() - 1.0)
    if width <= column.width() - 4.0:
        row.write(row.bold, figure, centre - width / 2.0, baseline, row.look.text)
        _paint_words(row, index, column, quiet=False)
        return QRectF(centre - side / 2.0, column.top() + TOP_LINE + 5.0, side, side)
    painter = row.painter
    painter.save()
    painter.translate(centre, column.top() + 2.0)
    painter.rotate(90.0)
    painter.setFont(row.bold.font)
    painter.setPen(row.look.text)
    painter.drawText(QPointF(0.0, row.bold.cap_height / 2.0), figure)
    painter.restore()
    return QRectF(centre - side / 2.0, column.top() + max(width, TOP_LINE) + 5.0, side, side)


def _paint_lines(row: _Row, index: int, column: QRectF) -> None:
    """Paint ml/g with grams, and the words, each as far as it fits."""
    figures = row.layout.sheet.figures
    wetness = shown(WETNESS, float(figures.applied_ml_per_g[index]))
    grams = shown(MASS, float(figures.fibre_g[index]))
    baseline = column.top() + TOP_LINE + LINE / 2.0 + row.small.cap_height / 2.0
    _write_fitting(row, row.small, (f"{wetness} · {grams}", wetness), column, baseline, row.look.secondary)
    _paint_words(row, index, column, quiet=True)


def _paint_words(row: _Row, index: int, column: QRectF, *, quiet: bool) -> None:
    """Paint in the last line what there is to say of a section; where all is right only if `quiet`."""
    texts, colour = _words(row.layout, row.look, index)
    alarmed = colour is not row.look.secondary
    if alarmed or quiet:
        baseline = column.top() + TOP_LINE + 1.5 * LINE + row.small.cap_height / 2.0
        _write_fitting(row, row.strong if alarmed else row.small, texts, column, baseline, colour)


def _write_fitting(
    row: _Row, letters: Lettering, texts: tuple[str, ...], column: QRectF, baseline: float, colour: QColor
) -> None:
    """Write the first of `texts` that fits, in the middle of a column."""
    for text in texts:
        width = letters.width(text)
        if width <= column.width() - 4.0:
            row.write(letters, text, column.center().x() - width / 2.0, baseline, colour)
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
