"""The picture of a lay: ground, wool, boundaries, slips and gauges.

The rule of this module: screen, SVG and PNG are the same drawing; only how the wool is painted differs. What
lies outside the pixel columns `within` is left alone.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter, QPen

from studio_gui.drawing.changes import Span
from studio_gui.drawing.figures_row import paint_figures, paint_figures_heading
from studio_gui.drawing.film_marks import paint_film_marks, paint_stains
from studio_gui.drawing.gauges import paint_gauges
from studio_gui.drawing.grips import paint_grips, paint_guide, paint_lifted, paint_note
from studio_gui.drawing.ground import clip_to_pane, paint_ground
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.lay_state import LayState
from studio_gui.drawing.leg_tags import paint_leg_tags
from studio_gui.drawing.look import Look
from studio_gui.drawing.pegs import paint_boundaries
from studio_gui.drawing.slips import paint_slips
from studio_gui.wording.quantities import LAY_LENGTH, shown


def paint_lay(
    painter: QPainter, layout: LayLayout, look: Look, state: LayState, paint_wool: Callable[[QPainter], None]
) -> None:
    """Paint the whole lay; `paint_wool` paints the strands."""
    paint_ground(painter, layout, look)
    paint_on_ground(painter, layout, look, state, paint_wool, (0.0, layout.size.width()))


def paint_on_ground(
    painter: QPainter,
    layout: LayLayout,
    look: Look,
    state: LayState,
    paint_wool: Callable[[QPainter], None],
    within: Span,
) -> None:
    """Paint between two pixel columns all that lies on the ground; `paint_wool` paints the strands."""
    if within[0] < layout.pane.left():
        paint_figures_heading(painter, layout, look)
    painter.save()
    clip_to_pane(painter, layout, 0.0)
    paint_stains(painter, layout, look, within)
    paint_wool(painter)
    _paint_selection(painter, layout, look, state, within)
    paint_gauges(painter, layout, look, within)
    painter.restore()
    painter.save()
    clip_to_pane(painter, layout)
    paint_slips(painter, layout, look, state, within)
    paint_boundaries(painter, layout, look, state, within)
    paint_film_marks(painter, layout, look, within)
    paint_leg_tags(painter, layout, look, within)
    paint_grips(painter, layout, look, state, within)
    paint_figures(painter, layout, look, within)
    painter.restore()


def paint_in_hand(
    painter: QPainter, layout: LayLayout, look: Look, state: LayState, place_m: float, tag: QRectF
) -> None:
    """Paint over the lay what belongs to a gesture: lifted slips, the guide, and the place on the tape.

    The guide's words keep clear of the `tag` that is painted afterwards.
    """
    painter.save()
    clip_to_pane(painter, layout)
    if state.lifted is not None:
        paint_lifted(painter, layout, look, state.lifted)
    if state.guide is not None:
        paint_guide(painter, layout, look, state.guide, tag)
    painter.restore()
    words = shown(LAY_LENGTH, place_m)
    paint_note(painter, layout, look, layout.x(place_m), words, layout.tape_start.top() + 2.0)


def _paint_selection(painter: QPainter, layout: LayLayout, look: Look, state: LayState, within: Span) -> None:
    """Mark the span of the selected sections on the tape."""
    painter.save()
    painter.setPen(QPen(look.handle, 3.0))
    y = layout.tape_start.bottom() + 1.5
    edges = layout.edges_x
    for index in layout.sections_within(*within):
        if index in state.selected:
            painter.drawLine(QPointF(edges[index] + 1.0, y), QPointF(edges[index + 1] - 1.0, y))
    painter.restore()
