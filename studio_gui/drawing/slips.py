"""Paper slips with the letters.

The rule of this module: nothing is written on wool. What does not fit is shortened in steps, never clipped: a
slip loses its length, then its name, then goes; what is wrong with the section stays in its place as a mark.
"""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from studio_gui.drawing.figures_row import BAR_HEIGHT, bar_rect, paint_bar, state_of
from studio_gui.drawing.fonts import Lettering, lettering
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.lay_rows import SLIP_HEIGHT
from studio_gui.drawing.lay_state import LayState
from studio_gui.drawing.look import Look
from studio_gui.drawing.marks import paint_saturation
from studio_gui.drawing.troughs import is_outline, showing
from studio_gui.wording.quantities import LAY_LENGTH, shown

NARROWEST_SLIP = 16.0  # px: narrower sections have no paper
SHORTENED_FROM_PX = 56.0  # a name is shortened only where this much of it stays
INSET, NARROW_INSET = 4.0, 1.0
LEAST_ALONE = 9.0  # px of a mark where sections are few
SMALLEST_MARK = 5.0  # px: in narrower sections a bar stands for it
MARGIN = 7.0  # between the slip's side and its text
APART = 8.0  # between letter, name and length
BAND = 3.0  # height of the section's colour under the text


class _Letters(NamedTuple):
    letter: Lettering
    name: Lettering
    length: Lettering


def paint_slips(
    painter: QPainter, layout: LayLayout, look: Look, state: LayState, within: tuple[float, float]
) -> None:
    """Paint the slips of the sections that show between two columns: letter, name and length as they fit."""
    which = showing(layout, within)  # the ring of the focus reaches over its section's edges
    if not which:
        return
    painter.save()
    letters = _Letters(lettering(painter, 1.15, bold=True), lettering(painter, 1.0), lettering(painter, 0.9))
    slips = [(index, slip_rect(layout, index)) for index in which]
    papers = [(index, slip) for index, slip in slips if slip is not None]
    painter.setBrush(look.paper)
    painter.setPen(QPen(look.film_edge, 1.0))
    for _, slip in papers:
        painter.drawRoundedRect(slip, 2.0, 2.0)
    _paint_emphasis(painter, look, state, papers)
    srgb = layout.sheet.colours.srgb
    for index, slip in papers:
        band = QRectF(slip.left() + 1.5, slip.bottom() - BAND - 1.5, slip.width() - 3.0, BAND)
        painter.fillRect(band, QColor.fromRgbF(*srgb[index].tolist()))
    for index, slip in papers:
        if slip.left() + 1.0 < within[1] and slip.right() - 1.0 > within[0]:  # words keep so far inside
            _write(painter, layout, look, letters, index, slip)
    for index in which:
        if layout.edges_x[index + 1] - layout.edges_x[index] < NARROWEST_SLIP:
            _mark(painter, layout, look, index)
    painter.restore()


def slip_rect(layout: LayLayout, index: int) -> QRectF | None:
    """Return the paper of a section as far as it lies in the pane, None where there is no room for paper."""
    left, right = layout.edges_x[index], layout.edges_x[index + 1]
    if right - left < NARROWEST_SLIP:
        return None
    inset = INSET if right - left >= 22.0 else NARROW_INSET
    left = max(left + inset, layout.pane.left() + NARROW_INSET)
    right = min(right - inset, layout.pane.right() - NARROW_INSET)
    if right - left < NARROWEST_SLIP - 2.0 * NARROW_INSET:
        return None
    return QRectF(left, layout.film.top() + 6.0, right - left, SLIP_HEIGHT)


def _paint_emphasis(painter: QPainter, look: Look, state: LayState, papers: list[tuple[int, QRectF]]) -> None:
    """Ring the papers of selected sections, of the one pointed at, and, broken, of the one with the focus."""
    for index, slip in papers:
        if state.hovered == ("section", index):
            painter.setPen(QPen(look.handle, 1.4))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(slip.adjusted(-1.5, -1.5, 1.5, 1.5), 3.0, 3.0)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(look.handle)
            painter.drawRect(QRectF(slip.left(), slip.bottom() + 3.0, slip.width(), 2.0))
        if index in state.selected:
            painter.setPen(QPen(look.handle, 2.0))
            painter.setBrush(look.paper)
            painter.drawRoundedRect(slip, 2.0, 2.0)
        if state.focused == ("section", index):
            painter.setPen(QPen(look.handle, 2.0, Qt.PenStyle.DashLine))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(slip.adjusted(-3.0, -3.0, 3.0, 3.0), 4.0, 4.0)


def _write(
    painter: QPainter, layout: LayLayout, look: Look, letters: _Letters, index: int, slip: QRectF
) -> None:
    figures, plan = layout.sheet.figures, layout.sheet.plan
    section, letter = plan.sections[index], plan.liquors[figures.liquor_index[index]].letter
    letter_width = letters.letter.width(letter)
    baseline = slip.top() + (slip.height() - BAND) / 2.0 + letters.letter.cap_height / 2.0
    left, right = slip.left() + MARGIN, slip.right() - MARGIN
    painter.setPen(look.ink)
    painter.setFont(letters.letter.font)
    room = right - left - letter_width - APART
    name_width = letters.name.width(section.name) if room > 0.0 else 0.0
    least = min(name_width, SHORTENED_FROM_PX)
    if room <= 0.0 or room < least:
        if letter_width <= slip.width() - 2.0:
            painter.drawText(QPointF(slip.center().x() - letter_width / 2.0, baseline), letter)
        return
    painter.drawText(QPointF(left, baseline), letter)
    left += letter_width + APART
    length = shown(LAY_LENGTH, figures.length_m(index))
    length_width = letters.length.width(length)
    if room >= least + length_width + APART:
        painter.setFont(letters.length.font)
        painter.setPen(look.ink_secondary)
        painter.drawText(QPointF(right - length_width, baseline), length)
        right -= length_width + APART
        painter.setPen(look.ink)
    name = section.name
    if name_width > right - left:
        name = letters.name.elided(name, right - left)
    painter.setFont(letters.name.font)
    painter.drawText(QPointF(left, baseline), name)


def _mark(painter: QPainter, layout: LayLayout, look: Look, index: int) -> None:
    """Mark what is wrong with a section that has no room for paper."""
    state = state_of(layout.sheet.figures, index)
    if state not in ("over", "under"):
        return
    left, right = layout.edges_x[index], layout.edges_x[index + 1]
    many = is_outline(layout)
    side = min(12.0, max(right - left - 1.0, 0.0 if many else LEAST_ALONE))
    middle = layout.film.top() + 6.0 + SLIP_HEIGHT / 2.0
    if side < SMALLEST_MARK:
        paint_bar(painter, look, bar_rect(left, right, middle - BAR_HEIGHT / 2.0, many=many), state)
        return
    box = QRectF((left + right - side) / 2.0, middle - side / 2.0, side, side)
    paint_saturation(painter, box, state, look)
