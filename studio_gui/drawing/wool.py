"""Wool: strands in their predicted colours.

The rule of this module: colour comes from the worksheet's `lay_colours` alone, one colour a pixel column, so
that edges are mixed as dye and never blended as colours.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import (
    QBrush,
    QColor,
    QLinearGradient,
    QPainter,
    QPainterPath,
    QPen,
    QRadialGradient,
)

from studio_gui.domain.figures import SectionFigures
from studio_gui.domain.geometry import lay_mass_to
from studio_gui.drawing.lay_layout import LayLayout, Strand
from studio_gui.drawing.lay_rows import pass_gap


def gradient_brush(layout: LayLayout) -> QBrush:
    """Return a brush for vector pictures: a gradient with enough stops to follow the wicked edges.

    It is good for what of the lay lies in the pane.
    """
    length_m = layout.sheet.plan.lay_length_m
    first_m, last_m = (
        min(max(layout.lay_m(x), 0.0), length_m) for x in (layout.pane.left(), layout.pane.right())
    )
    places = _changing_places_m(layout.sheet.figures)
    places = np.unique(np.concatenate(([first_m], places.clip(first_m, last_m), [last_m])))
    gradient = QLinearGradient(QPointF(layout.x(first_m), 0.0), QPointF(layout.x(last_m), 0.0))
    for place, rgb in zip(places.tolist(), layout.sheet.lay_colours(places).srgb.tolist(), strict=True):
        gradient.setColorAt((place - first_m) / (last_m - first_m), QColor.fromRgbF(*rgb))
    return QBrush(gradient)


def _changing_places_m(figures: SectionFigures) -> NDArray[np.float64]:
    """Return places on the lay, rising, between which the colour runs straight: around each painted edge.

    Dye wicks in the fibre's own mass and from where paint ends, so thin wool and gaps have their places too.
    """
    plan, total_g = figures.plan, float(figures.edges_g[-1])
    half_gaps = np.array([0.0, *(boundary.gap_m for boundary in plan.boundaries), 0.0]) / 2.0
    painted_m = np.concatenate((figures.edges_m - half_gaps, figures.edges_m + half_gaps))
    half_g = max(plan.wicking_mm / 2000.0 / plan.lay_length_m, 1e-4) * total_g
    offsets_g = np.concatenate((np.linspace(-1.0, 1.0, 9), [-1.001, 1.001])) * half_g
    near_g = np.add.outer(lay_mass_to(plan.fibre, plan.lay, painted_m), offsets_g).ravel()
    table_m = np.linspace(0.0, plan.lay_length_m, 2001)
    table_g = lay_mass_to(plan.fibre, plan.lay, table_m)
    return np.unique(np.interp(np.clip(near_g, 0.0, total_g), table_g, table_m))


def paint_strands(painter: QPainter, layout: LayLayout, brush: QBrush, within: QRectF | None = None) -> None:
    """Paint every roving with its folds as turns, in the colours of `brush`, shaded as a soft tube.

    What reaches out of `within` is left away: some vector files know no clipping.
    """
    painter.save()
    painter.setPen(Qt.PenStyle.NoPen)
    pieces: list[tuple[QPainterPath, QBrush]] = []
    for strand in layout.strands:
        leg = QPainterPath()
        leg.addRect(_straight(layout, strand))
        pieces.append((leg, _tube_shade(strand.rect)))
        if strand.turns_after:
            pieces.append((_turn(layout, strand), _turn_shade(layout, strand)))
    if within is not None:
        frame = QPainterPath()
        frame.addRect(within)
        pieces = [(shape.intersected(frame), shade) for shape, shade in pieces]
        pieces = [(shape, shade) for shape, shade in pieces if not shape.isEmpty()]
    # The wool first and as one shape: the film would shine through where two shapes share an edge.
    wool = QPainterPath()
    wool.setFillRule(Qt.FillRule.WindingFill)
    for shape, _ in pieces:
        wool.addPath(shape)
    painter.setBrush(brush)
    painter.drawPath(wool)
    for shape, shade in pieces:
        painter.setBrush(shade)
        painter.drawPath(shape)
    _outline(painter, layout, within)
    painter.restore()


def _outline(painter: QPainter, layout: LayLayout, within: QRectF | None) -> None:
    """Draw the edges of the wool: along the legs, round the turns, and across the free ends only."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(QColor(0, 0, 0, 90), 1.0))
    last_pass = layout.sheet.plan.lay.passes - 1
    for strand in layout.strands:
        whole = _straight(layout, strand)
        rect = whole if within is None else whole & within
        if not rect.isEmpty():
            painter.drawLine(rect.topLeft(), rect.topRight())
            painter.drawLine(rect.bottomLeft(), rect.bottomRight())
        ends = [] if strand.pass_index else [_end_line(whole, right=False)]
        if strand.pass_index == last_pass:
            ends.append(_end_line(whole, right=strand.leg.forward))
        for line in ends:
            if within is None or within.contains(line[0]):
                painter.drawLine(*line)
        if strand.turns_after:
            outer, inner = _turn_boxes(layout, strand)
            if within is None or within.contains(outer.center()):
                start, sweep = (90 * 16, -180 * 16) if strand.leg.forward else (90 * 16, 180 * 16)
                painter.drawArc(outer, start, sweep)
                painter.drawArc(inner, start, sweep)


def _end_line(rect: QRectF, *, right: bool) -> tuple[QPointF, QPointF]:
    return (rect.topRight(), rect.bottomRight()) if right else (rect.topLeft(), rect.bottomLeft())


def _straight(layout: LayLayout, strand: Strand) -> QRectF:
    """Return the straight part of a strand, without the turns it shares with its neighbours."""
    radius = layout.strand_height + pass_gap(layout.strand_height) / 2.0
    rect = QRectF(strand.rect)
    if strand.turns_after:
        rect = _shortened(rect, radius, right=strand.leg.forward)
    if strand.pass_index > 0:
        rect = _shortened(rect, radius, right=not strand.leg.forward)
    return rect


def _shortened(rect: QRectF, by: float, *, right: bool) -> QRectF:
    """Return `rect` less `by` at one end, cut on a whole pixel so that no seam shows where the turn joins."""
    by = min(by, rect.width())
    if right:
        rect.setRight(round(rect.right() - by))
    else:
        rect.setLeft(round(rect.left() + by))
    return rect


def _turn_boxes(layout: LayLayout, strand: Strand) -> tuple[QRectF, QRectF]:
    """Return the squares round the outer and the inner circle of the turn that follows a strand."""
    gap = pass_gap(layout.strand_height)
    radius = layout.strand_height + gap / 2.0
    x = round(strand.rect.right() - radius if strand.leg.forward else strand.rect.left() + radius)
    centre = QPointF(x, strand.rect.bottom() + gap / 2.0)
    outer, inner = (QRectF(centre.x() - r, centre.y() - r, 2.0 * r, 2.0 * r) for r in (radius, gap / 2.0))
    return outer, inner


def _turn(layout: LayLayout, strand: Strand) -> QPainterPath:
    """Return the half ring in which a strand turns to the next one, drawn clockwise like a leg."""
    outer, inner = _turn_boxes(layout, strand)
    sweep = -180.0 if strand.leg.forward else 180.0
    ring = QPainterPath()
    ring.arcMoveTo(outer, 90.0)
    ring.arcTo(outer, 90.0, sweep)
    ring.arcTo(inner, 270.0, -sweep)
    ring.closeSubpath()
    return ring if strand.leg.forward else ring.toReversed()


def _tube_stops(gradient: QLinearGradient | QRadialGradient, low: float) -> None:
    """Shade a tube alike towards both edges: the upper one of a leg is the lower one of the next."""
    span = 1.0 - low
    for share, colour in (
        (0.0, QColor(0, 0, 0, 95)),
        (0.1, QColor(0, 0, 0, 56)),
        (0.2, QColor(0, 0, 0, 27)),
        (0.3, QColor(0, 0, 0, 8)),
        (0.4, QColor(255, 255, 255, 6)),
        (0.5, QColor(255, 255, 255, 20)),
        (0.6, QColor(255, 255, 255, 6)),
        (0.7, QColor(0, 0, 0, 8)),
        (0.8, QColor(0, 0, 0, 27)),
        (0.9, QColor(0, 0, 0, 56)),
        (1.0, QColor(0, 0, 0, 95)),
    ):
        gradient.setColorAt(low + share * span, colour)


def _tube_shade(rect: QRectF) -> QBrush:
    gradient = QLinearGradient(rect.topLeft(), rect.bottomLeft())
    _tube_stops(gradient, 0.0)
    return QBrush(gradient)


def _turn_shade(layout: LayLayout, strand: Strand) -> QBrush:
    outer, inner = _turn_boxes(layout, strand)
    gradient = QRadialGradient(outer.center(), outer.width() / 2.0)
    _tube_stops(gradient, inner.width() / outer.width())
    return QBrush(gradient)
