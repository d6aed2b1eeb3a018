"""Strip, yarn and map as one picture, for the pane and for prints.

The rule of this module: letters stand on the film or beside the wool, never on it; a section that is pointed
at is lit wherever it comes, on the strip and in the yarn.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from studio_gui.domain.colour.spaces import hex_from_srgb
from studio_gui.domain.spinning.figures import YarnRun
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.fonts import lettering
from studio_gui.drawing.look import Look
from studio_gui.drawing.sheets.spread import spread
from studio_gui.drawing.yarn.map import MapRun, paint_map
from studio_gui.drawing.yarn_layout import MARGIN_LEFT, YarnLayout

#: Of a run narrower than this (px) no letter is written.
LEAST_FOR_LETTER = 11.0
#: How high the bar is that shows which part of the yarn is in sight.
SIGHT_HEIGHT = 4.0


@dataclass(frozen=True, slots=True)
class RowWords:
    """What stands left of a row: its name and a figure."""

    name: str
    figure: str


@dataclass(frozen=True, slots=True)
class YarnWords:
    """The words of the picture, in the language and the units of whoever looks."""

    strip: RowWords
    yarn: RowWords
    map: RowWords
    fold: str
    line: str


def paint_row_words(painter: QPainter, layout: YarnLayout, look: Look, words: YarnWords) -> None:
    """Write the name and the figure of every row left of it."""
    painter.save()
    small, bold = lettering(painter, 0.85), lettering(painter, 0.92, bold=True)
    boxes = row_word_boxes(layout, bold.height, small.height)
    for (upper, lower), told in zip(boxes, (words.strip, words.yarn, words.map), strict=True):
        painter.setPen(look.text)
        painter.setFont(bold.font)
        painter.drawText(upper, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, told.name)
        if lower is None:
            continue
        painter.setPen(look.secondary)
        painter.setFont(small.font)
        figure = small.elided(told.figure, lower.width())
        painter.drawText(lower, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, figure)
    painter.restore()


def row_word_boxes(
    layout: YarnLayout, name_height: float, figure_height: float
) -> list[tuple[QRectF, QRectF | None]]:
    """Return where the name and the figure of strip, yarn and map are written, left of them.

    In a low pane they stand as near to their rows as they can without touching; where that is too much, there
    are no figures.
    """
    height = layout.size.height()
    if 3.0 * (name_height + figure_height) > height:
        figure_height = 0.0
    block = name_height + figure_height
    rows = [row.center().y() for row in (layout.strip, layout.yarn, layout.map)]
    boxes: list[tuple[QRectF, QRectF | None]] = []
    for middle in spread(rows, [block] * 3, 0.0, height, 0.0):
        upper = QRectF(4.0, middle - block / 2.0, MARGIN_LEFT - 12.0, name_height)
        lower = QRectF(4.0, upper.bottom(), upper.width(), figure_height) if figure_height else None
        boxes.append((upper, lower))
    return boxes


def paint_line(painter: QPainter, layout: YarnLayout, look: Look, words: YarnWords) -> None:
    """Write the figures beneath the map, cut at the right where they have no room."""
    painter.save()
    small = lettering(painter, 0.85)
    painter.setFont(small.font)
    painter.setPen(look.secondary)
    fitting = small.elided(words.line, layout.line.width())
    painter.drawText(layout.line, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, fitting)
    painter.restore()


def paint_strip_letters(painter: QPainter, layout: YarnLayout, look: Look, words: YarnWords) -> None:
    """Write the letter of every run beneath the strip, with ticks between them, and mark the folds above."""
    plan = layout.sheet.plan
    letters = {liquor.id: liquor.letter for liquor in plan.liquors}
    painter.save()
    painter.setPen(QPen(look.film_edge, 1.0))
    edges = layout.strip_edges_x
    top = layout.letters.top() + 3.0
    painter.drawLines([QLineF(x, top, x, layout.letters.bottom() - 3.0) for x in _apart(edges[1:-1], 3.0)])
    painter.setPen(look.text)
    bold = lettering(painter, 0.92, bold=True)
    painter.setFont(bold.font)
    top, height = layout.letters.top(), layout.letters.height()
    for run, (left, right) in zip(layout.strip_runs, pairwise(edges), strict=True):
        if right - left < LEAST_FOR_LETTER:
            continue
        letter = letters[plan.sections[run.section_index].liquor_id]
        if right - left >= bold.width(letter) + 3.0:
            box = QRectF(left, top, right - left, height)
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, letter)
    _paint_folds(painter, layout, look, words.fold)
    painter.restore()


def _paint_folds(painter: QPainter, layout: YarnLayout, look: Look, fold: str) -> None:
    small = lettering(painter, 0.85)
    painter.setFont(small.font)
    free_from, width = layout.strip.left(), small.width(fold)
    for place_m in layout.sheet.plan.lay.fold_positions_m:
        x = layout.strip_x(place_m)
        painter.setPen(QPen(look.secondary, 1.0, Qt.PenStyle.DashLine))
        painter.drawLine(QPointF(x, layout.strip.top() - 12.0), QPointF(x, layout.strip.top() - 1.0))
        if x + 4.0 >= free_from and x + 4.0 + width <= layout.strip.right():
            painter.setPen(look.secondary)
            painter.drawText(QPointF(x + 4.0, layout.strip.top() - 4.0), fold)
            free_from = x + 4.0 + width


def paint_stretches(painter: QPainter, layout: YarnLayout, look: Look) -> None:
    """Paint the map of solid and barber-pole stretches in sight."""
    rows = map_runs(layout.sheet, layout.runs_in_sight)
    low, high = layout.plied_m(layout.map.left()), layout.plied_m(layout.map.right())
    box = layout.map.united(layout.names)
    paint_map(painter, box, rows, (low, high), look)


def map_runs(sheet: Worksheet, runs: Sequence[YarnRun]) -> list[MapRun]:
    """Return runs of the yarn as the map shows them."""
    plan = sheet.plan
    colours = [hex_from_srgb(rgb) for rgb in sheet.liquor_colours.srgb]
    letters = [liquor.letter for liquor in plan.liquors]

    @cache  # hundreds of runs look like a few dozen
    def told(liquors: tuple[int, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
        return tuple(letters[liquor] for liquor in liquors), tuple(colours[liquor] for liquor in liquors)

    return [MapRun(run.start_m, run.end_m, *told(run.liquors), run.solid) for run in runs]


def paint_sight(painter: QPainter, layout: YarnLayout, look: Look) -> None:
    """Show under the line which part of the yarn is in sight; nothing where all of it is."""
    if layout.view.is_fitted:
        return
    track = QRectF(layout.line.left(), layout.line.bottom() + 1.0, layout.line.width(), SIGHT_HEIGHT)
    scale = track.width() / layout.pane.film_m
    left = track.left() + layout.view.left_m * scale
    seen = QRectF(left, track.top(), max(layout.yarn.width() / layout.px_per_m * scale, 6.0), SIGHT_HEIGHT)
    painter.save()
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.film_edge)
    painter.drawRect(track.adjusted(0.0, 1.5, 0.0, -1.5))
    painter.setBrush(look.handle)
    painter.drawRoundedRect(seen.intersected(track), 2.0, 2.0)
    painter.restore()


def paint_lit(painter: QPainter, layout: YarnLayout, look: Look, section: int) -> None:
    """Light a section wherever it comes: frames on the strip, bars along the yarn."""
    painter.save()
    painter.setPen(QPen(look.handle, 2.0))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for run in layout.strip_runs:
        if run.section_index == section:
            painter.drawRoundedRect(layout.strip_rect(run).adjusted(0.0, -2.0, 0.0, 2.0), 3.0, 3.0)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.handle)
    for left, right in lit_on_yarn(layout, section):
        painter.drawRect(QRectF(left, layout.yarn.top() - 4.0, max(right - left, 2.0), 3.0))
        painter.drawRect(QRectF(left, layout.yarn.bottom() + 1.0, max(right - left, 2.0), 3.0))
    painter.restore()


def lit_on_yarn(layout: YarnLayout, section: int) -> list[tuple[float, float]]:
    """Return the pixel columns between which any strand of the yarn in sight comes from a section."""
    yarn = layout.spun
    kept = 1.0 - yarn.take_up
    here = (yarn.sections == section).any(axis=1)
    spans: list[tuple[float, float]] = []
    for index in here.nonzero()[0].tolist():
        left = layout.yarn_x(float(yarn.cuts_m[index]) * kept)
        right = layout.yarn_x(float(yarn.cuts_m[index + 1]) * kept)
        left, right = max(left, layout.yarn.left()), min(right, layout.yarn.right())
        if right < left:
            continue
        if spans and left - spans[-1][1] < 0.5:
            spans[-1] = (spans[-1][0], right)
        else:
            spans.append((left, right))
    return spans


def paint_selected(painter: QPainter, layout: YarnLayout, look: Look, sections: frozenset[int]) -> None:
    """Mark the selected sections beneath the strip, wherever they come."""
    for run in layout.strip_runs:
        if run.section_index in sections:
            box = layout.strip_rect(run)
            painter.fillRect(
                QRectF(box.left() + 1.0, layout.letters.bottom() - 3.0, box.width() - 2.0, 2.0), look.handle
            )


def _apart(places: Sequence[float], least: float) -> list[float]:
    """Return places without those that come closer than `least` to the one kept before."""
    kept: list[float] = []
    for place in places:
        if not kept or place - kept[-1] >= least:
            kept.append(place)
    return kept
