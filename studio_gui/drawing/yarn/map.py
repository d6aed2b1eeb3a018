"""The map of a yarn: which stretches are solid, which are barber-pole, and of what.

The rule of this module: pattern and letters tell it, hue only helps. A solid stretch is plain and has its
letter inside; a barber-pole has diagonal stripes of all its strands' colours, and their letters beneath.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPixmap, QPolygonF, QTransform

from studio_gui.drawing.fonts import Advances, sized
from studio_gui.drawing.look import Look, contrast
from studio_gui.drawing.patterns import is_vector, pixel_ratio

STRIPE_PX = 7.0
#: Height of the bar; the rest of the box is for letters beneath.
BAR_HEIGHT = 20.0
#: A narrower barber-pole stretch is painted half and half.
LEAST_FOR_STRIPES = 4.0
#: Cuts closer together than this are drawn as one.
LEAST_APART = 2.5
#: Half of the shortest name that is written beneath.
LEAST_NAME_PX = 4.0
_DARK, _LIGHT = QColor("#000000"), QColor("#ffffff")


@dataclass(frozen=True, slots=True)
class MapRun:
    """A stretch of yarn, m from its start: letter and colour (#rrggbb) of every strand, and whether solid."""

    start: float
    end: float
    letters: tuple[str, ...]
    srgb: tuple[str, ...]
    solid: bool


def paint_map(
    painter: QPainter, box: QRectF, runs: Sequence[MapRun], span: tuple[float, float], look: Look
) -> None:
    """Paint the runs of the yarn between two places (m) across `box`."""
    scale = box.width() / max(span[1] - span[0], 1e-12)
    bar = QRectF(box.left(), box.top(), box.width(), BAR_HEIGHT)
    boxes = [(run, _part(bar, (run.start - span[0]) * scale, (run.end - span[0]) * scale)) for run in runs]
    painter.save()
    painter.fillRect(bar, look.film)
    for run, part in boxes:
        _paint_run(painter, run, part)
    painter.setPen(QPen(look.film_edge, 1.0))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(bar)
    cuts = _apart([part.left() for _, part in boxes[1:]])
    painter.drawLines([QLineF(x, bar.top(), x, bar.bottom()) for x in cuts])
    _write(painter, boxes, box, look)
    painter.restore()


@lru_cache(maxsize=512)
def readable_ink(srgb: str) -> QColor:
    """Return black or white ink, whichever reads better on a colour: at least 4.5 to 1."""
    colour = QColor(srgb)
    return max((_DARK, _LIGHT), key=lambda ink: contrast(ink, colour))


def _part(bar: QRectF, left: float, right: float) -> QRectF:
    left, right = max(left, 0.0), min(right, bar.width())
    return QRectF(bar.left() + left, bar.top(), max(right - left, 0.0), bar.height())


def _paint_run(painter: QPainter, run: MapRun, part: QRectF) -> None:
    colours = [QColor(srgb) for srgb in run.srgb]
    painter.fillRect(part, colours[0])
    if run.solid or len(colours) < 2:
        return
    if part.width() < LEAST_FOR_STRIPES:
        lower = QRectF(part.left(), part.center().y(), part.width(), part.height() / 2.0)
        painter.fillRect(lower, colours[1])
        return
    if is_vector(painter):
        _paint_stripes(painter, part, colours)
        return
    brush = QBrush(_stripes(run.srgb, pixel_ratio(painter)))
    brush.setTransform(QTransform.fromTranslate(0.0, part.top()))
    painter.fillRect(part, brush)


@lru_cache(maxsize=256)
def _stripes(srgb: tuple[str, ...], ratio: float) -> QPixmap:
    """Return a tile of stripes as high as the bar and as wide as they come again."""
    period = STRIPE_PX * len(srgb)
    tile = QPixmap(round(period * ratio), round(BAR_HEIGHT * ratio))
    tile.setDevicePixelRatio(ratio)
    tile.fill(QColor(srgb[0]))
    painter = QPainter(tile)
    try:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        _paint_stripes(painter, QRectF(0.0, 0.0, period, BAR_HEIGHT), [QColor(one) for one in srgb])
    finally:
        painter.end()
    return tile


def _paint_stripes(painter: QPainter, part: QRectF, colours: Sequence[QColor]) -> None:
    """Paint the stripes of all colours but the first, which lies beneath them."""
    painter.save()
    painter.setClipRect(part)
    painter.setPen(Qt.PenStyle.NoPen)
    period = STRIPE_PX * len(colours)
    lean = period * max(round(part.height() * 0.7 / period), 1)  # so that they go on in the next tile
    for number, colour in enumerate(colours[1:], start=1):
        painter.setBrush(colour)
        x = part.left() - part.left() % period + number * STRIPE_PX - period
        while x < part.right() + lean:
            corners = (
                QPointF(x, part.top()),
                QPointF(x + STRIPE_PX, part.top()),
                QPointF(x + STRIPE_PX - lean, part.bottom()),
                QPointF(x - lean, part.bottom()),
            )
            painter.drawPolygon(QPolygonF(corners))
            x += period
    painter.restore()


def _write(painter: QPainter, boxes: Sequence[tuple[MapRun, QRectF]], box: QRectF, look: Look) -> None:
    bold, small = sized(painter, 0.92, bold=True), sized(painter, 0.85)
    advance, small_advance = Advances(bold), Advances(small)
    beneath = QRectF(box.left(), box.top() + BAR_HEIGHT, box.width(), max(box.height() - BAR_HEIGHT, 0.0))
    free_from = box.left() - 1e9
    for run, part in boxes:
        letters = tuple(dict.fromkeys(run.letters)) if run.solid else run.letters
        words = "/".join(letters)
        if run.solid:
            if advance.of(words) + 6.0 <= part.width():
                painter.setFont(bold)
                painter.setPen(readable_ink(run.srgb[0]))
                painter.drawText(part, Qt.AlignmentFlag.AlignCenter, words)
            continue
        if part.width() <= 0.0 or part.center().x() + LEAST_NAME_PX < free_from:
            continue
        half = small_advance.of(words) / 2.0 + 2.0
        middle = min(max(part.center().x(), box.left() + half), box.right() - half)
        if middle - half >= free_from and beneath.height() > 0.0:
            painter.setFont(small)
            painter.setPen(look.secondary)
            area = QRectF(middle - half, beneath.top(), 2.0 * half, beneath.height())
            painter.drawText(area, Qt.AlignmentFlag.AlignCenter, words)
            free_from = middle + half + 4.0


def _apart(places: Sequence[float]) -> list[float]:
    kept: list[float] = []
    for place in places:
        if not kept or place - kept[-1] >= LEAST_APART:
            kept.append(place)
    return kept
