"""The scale beside the troughs: how much the fibre holds, when the core is wet, and the soak, ml a gram.

The rule of this module: words stand at their own level or as near to it as they can without touching.
"""

from __future__ import annotations

import math

from PySide6.QtCore import QLineF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen

from studio_gui.drawing.fonts import sized
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.look import Look
from studio_gui.drawing.patterns import pixel_ratio
from studio_gui.drawing.troughs import core_ml_per_g, level_y
from studio_gui.wording.quantities import WETNESS, one_shown, shown_bare
from studio_gui.wording.translation import TRANSLATED, translate

LEFT, WORDS_RIGHT, AXIS_X = 4.0, 80.0, 92.0
LEAST_TICK_PX = 6.0
LONG_TICK, SHORT_TICK = 8.0, 4.0


def paint_gauge_axis(painter: QPainter, layout: LayLayout, look: Look) -> None:
    """Paint the scale left of the troughs: ticks at halves of the shown unit or wider, and three levels."""
    painter.save()
    painter.setPen(QPen(look.secondary, 1.0))
    ratio = pixel_ratio(painter)
    x = round(AXIS_X * ratio) / ratio + 0.5
    bottom, top = layout.gauge.bottom(), layout.gauge.top()
    lines = [QLineF(x, top, x, bottom)]
    half_unit = 0.5 * one_shown(WETNESS)
    step = half_unit * _widening(LEAST_TICK_PX / (half_unit * layout.px_per_ml_per_g))
    limit = layout.sheet.plan.liquid.limit_ml_per_g
    for number in range(math.floor(limit / step * (1.0 + 1e-9)) + 1):
        y = round(level_y(layout, number * step)) + 0.5
        lines.append(QLineF(x - (SHORT_TICK if number % 2 else LONG_TICK), y, x, y))
    painter.drawLines(lines)
    _paint_words(painter, layout, look)
    painter.restore()


def spread(wanted: list[float], apart: float) -> list[float]:
    """Return places, in the order of `wanted` (falling), at least `apart` from each other and near to them.

    >>> spread([90.0, 60.0, 55.0, 0.0], 10.0)
    [90.0, 62.5, 52.5, 0.0]
    """
    groups: list[list[float]] = []
    for place in wanted:
        groups.append([place])
        while len(groups) > 1 and _lowest(groups[-2], apart) - _highest(groups[-1], apart) < apart:
            groups[-2:] = [groups[-2] + groups[-1]]
    return [_highest(group, apart) - apart * number for group in groups for number in range(len(group))]


def _highest(group: list[float], apart: float) -> float:
    return sum(group) / len(group) + apart * (len(group) - 1) / 2.0


def _lowest(group: list[float], apart: float) -> float:
    return _highest(group, apart) - apart * (len(group) - 1)


def _widening(least: float) -> int:
    """Return the smallest of 1, 2, 4, 10, 20, 40, ... that is at least `least`."""
    power = 1
    while True:
        for factor in (1, 2, 4):
            if factor * power >= least:
                return factor * power
        power *= 10


def _paint_words(painter: QPainter, layout: LayLayout, look: Look) -> None:
    """Write limit, core, soak and the unit, each at its level; the core's above all where it is never wet."""
    liquid = layout.sheet.plan.liquid
    marks = [
        (liquid.limit_ml_per_g, translate("LayPicture", "holds {0}"), True),
        (core_ml_per_g(layout), translate("LayPicture", "core {0}"), True),
        (liquid.soak_ml_per_g, translate("LayPicture", "soak {0}"), False),
    ]
    marks.sort(key=lambda mark: -mark[0])
    plain, bold = sized(painter, 0.85), sized(painter, 0.85, bold=True)
    metrics, bold_metrics = QFontMetricsF(plain), QFontMetricsF(bold)
    apart = metrics.ascent() + 2.0
    highest = layout.gauge.top() - 8.0
    rows = [max(level_y(layout, level), highest) for level, _, _ in marks] + [layout.gauge.bottom()]
    places = [-row for row in spread([-row for row in rows], apart)]
    low = layout.gauge.bottom() + 4.0
    if places[-1] > low:
        places = [place - (places[-1] - low) for place in places]
    unit = WETNESS.shown_in(TRANSLATED)[0]
    texts = [(words.format(shown_bare(WETNESS, level)), heavy) for level, words, heavy in marks]
    for (text, heavy), row, y in zip([*texts, (unit, False)], rows, places, strict=True):
        painter.setFont(bold if heavy else plain)
        painter.setPen(look.text if heavy else look.secondary)
        room = QRectF(LEFT, y - apart / 2.0 - 2.0, WORDS_RIGHT - LEFT, apart + 4.0)
        fitting = (bold_metrics if heavy else metrics).elidedText(
            text, Qt.TextElideMode.ElideRight, room.width()
        )
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight, fitting)
        if heavy:
            painter.setPen(QPen(look.text, 1.2))
            painter.drawLine(QLineF(WORDS_RIGHT + 3.0, y, AXIS_X, round(row) + 0.5))
