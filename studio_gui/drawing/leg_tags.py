"""Tags on the strands with the place of a boundary on that very leg, where legs eased by weight differ.

The rule of this module: a tag says what a tape along that one leg shows, from its outer end. Where all legs
agree the tapes along the film say it, and there are no tags; nor where there is no room for all of a tag.
"""

from __future__ import annotations

import numpy as np
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from studio_gui.domain.legs import FloatArray, leg_marks, marks_apart
from studio_gui.domain.plan import Plan
from studio_gui.drawing.fonts import lettering
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.look import Look
from studio_gui.wording.quantities import LAY_LENGTH, shown

#: How far a tag reaches to either side of its boundary, px; larger ones are left out.
TAG_REACH_PX = 48.0
_BESIDE_TEXT = 3.0
_APART = 4.0  # px between two tags
_INSIDE = 1.5  # px from a strand's upper edge


def may_have_tags(plan: Plan) -> bool:
    """Tell whether legs may differ in where boundaries fall on them: only eased by weight."""
    return plan.lay.matching == "by weight" and (plan.lay.passes > 1 or bool(plan.fibre.measured))


def strand_marks(layout: LayLayout) -> FloatArray:
    """Return (strands drawn, boundaries) metres from each leg's outer end."""
    plan = layout.sheet.plan
    rovings = range(layout.rovings_shown)
    if plan.fibre.measured:
        return np.concatenate([leg_marks(plan, roving) for roving in rovings])
    return np.tile(leg_marks(plan), (len(rovings), 1))


def paint_leg_tags(painter: QPainter, layout: LayLayout, look: Look, within: tuple[float, float]) -> None:
    """Paint a tag on every strand at the boundaries that reach between two columns."""
    if not may_have_tags(layout.sheet.plan):
        return
    marks_m = strand_marks(layout)
    apart = marks_apart(marks_m)
    sections = layout.sections_within(within[0] - TAG_REACH_PX, within[1] + TAG_REACH_PX)
    which = [index for index in sections if index < len(apart) and apart[index]]
    painter.save()
    small = lettering(painter, 0.75)
    painter.setFont(small.font)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    height = small.height
    if layout.strand_height >= height + 2.0 * _INSIDE:
        for index in which:
            words = [shown(LAY_LENGTH, place) for place in marks_m[:, index].tolist()]
            width = max(small.width(one) for one in words) + 2.0 * _BESIDE_TEXT
            if width <= min(_room(layout, index) - _APART, 2.0 * TAG_REACH_PX):
                _paint_tags(painter, layout, look, index, words, width, height)
    painter.restore()


def _room(layout: LayLayout, index: int) -> float:
    """Return the width of the narrower of the sections beside a boundary."""
    before, here, after = layout.edges_x[index : index + 3]
    return min(here - before, after - here)


def _paint_tags(
    painter: QPainter,
    layout: LayLayout,
    look: Look,
    index: int,
    words: list[str],
    width: float,
    height: float,
) -> None:
    left = round(layout.edges_x[index + 1] - width / 2.0) + 0.5
    for strand, one in zip(layout.strands, words, strict=True):
        tag = QRectF(left, strand.rect.top() + _INSIDE, width, height)
        painter.setPen(QPen(look.film_edge, 1.0))
        painter.setBrush(look.paper)
        painter.drawRoundedRect(tag, 2.0, 2.0)
        painter.setPen(look.ink)
        painter.drawText(tag, Qt.AlignmentFlag.AlignCenter, one)
