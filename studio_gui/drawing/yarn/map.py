"""The map of a yarn: which stretches are solid, which are barber-pole, and of what.

The rule of this module: pattern and letters tell it, hue only helps. A solid stretch is plain; a barber-pole
has diagonal stripes of all its strands' colours. Letters, those of strand A first, stand in the stretch where
they have room, else beneath it, and are left out where they would touch others. Stretches begin and end on
device pixels, and those of one look are filled together.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QImage, QPainter, QPixmap, QPolygonF, QTransform

from studio_gui.drawing.fonts import Lettering, lettering
from studio_gui.drawing.look import Look, contrast
from studio_gui.drawing.patterns import is_vector, pixel_ratio

STRIPE_PX = 7.0
#: Height of the bar; the rest of the box is for letters beneath.
BAR_HEIGHT = 20.0
#: Parts of a px to which stretches are snapped where the painter enlarges what is painted.
ENLARGED_RATIO = 2.0
#: A narrower barber-pole stretch is painted in bands above each other.
LEAST_FOR_STRIPES = 4.0
#: Cuts closer together than this are drawn as one.
LEAST_APART = 2.5
#: Stripes that stay in sight at each side of letters among them, and room beside letters on plain colour.
STRIPES_BESIDE, ROOM_BESIDE = 9.0, 3.0
#: A narrower stretch has no letters beneath: nobody could tell which it is.
LEAST_NAMED = 4.0
_DARK, _LIGHT = QColor("#000000"), QColor("#ffffff")


class MapRun(NamedTuple):
    """A stretch of yarn, m from its start: letter and colour (#rrggbb) of every strand, and whether solid."""

    start: float
    end: float
    letters: tuple[str, ...]
    srgb: tuple[str, ...]
    solid: bool


class _Kind(NamedTuple):
    """What runs that are alike look like: letters as written, and whether one colour shows all of it."""

    words: str
    srgb: tuple[str, ...]
    is_plain: bool


class _Part(NamedTuple):
    """A run in sight and the pixel columns that it fills in the bar."""

    kind: _Kind
    left: float
    right: float

    @property
    def width(self) -> float:
        """How wide it is, px."""
        return self.right - self.left


def paint_map(
    painter: QPainter,
    box: QRectF,
    runs: Sequence[MapRun],
    span: tuple[float, float],
    look: Look,
    *,
    enlarged: bool = False,
) -> None:
    """Paint the runs of the yarn between two places (m) across `box`; `enlarged` on painters that scale."""
    shapes = enlarged or is_vector(painter)
    ratio = ENLARGED_RATIO if enlarged else pixel_ratio(painter)
    bar = QRectF(_snapped(box.left(), ratio), _snapped(box.top(), ratio), box.width(), BAR_HEIGHT)
    parts = _parts(bar, runs, span, ratio)
    painter.save()
    # on device pixels there is nothing to smooth, and fills are several times as fast
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    if shapes:
        painter.fillRect(bar, look.film)
        _fill_plain(painter, parts, bar)
    else:
        _fill_columns(painter, parts, bar, look)
    _fill_barber_poles(painter, parts, bar, shapes=shapes)
    _outline(painter, bar, parts, look, 1.0 / ratio)
    painter.restore()
    painter.save()
    _write(painter, parts, bar, box, look)
    painter.restore()


@lru_cache(maxsize=512)
def readable_ink(srgb: str) -> QColor:
    """Return black or white ink, whichever reads better on a colour: at least 4.5 to 1."""
    colour = QColor(srgb)
    return max((_DARK, _LIGHT), key=lambda ink: contrast(ink, colour))


def _snapped(px: float, ratio: float) -> float:
    return round(px * ratio) / ratio


def _parts(bar: QRectF, runs: Sequence[MapRun], span: tuple[float, float], ratio: float) -> list[_Part]:
    """Return the runs in sight that fill a device pixel or more."""
    scale = bar.width() / max(span[1] - span[0], 1e-12)
    places_m = np.array([run[:2] for run in runs]).reshape(-1, 2)
    within = np.clip((places_m - span[0]) * scale, 0.0, bar.width())
    snapped = np.rint((bar.left() + within) * ratio) / ratio
    return [
        _Part(_kind(*runs[index][2:]), *snapped[index].tolist())
        for index in np.flatnonzero(snapped[:, 1] > snapped[:, 0]).tolist()
    ]


@lru_cache(maxsize=1024)
def _kind(letters: tuple[str, ...], srgb: tuple[str, ...], solid: bool) -> _Kind:
    words = "/".join(dict.fromkeys(letters) if solid else letters)
    return _Kind(words, srgb, solid or len(set(srgb)) < 2)


# -- colours -------------------------------------------------------------------------------------------------


def _fill_plain(painter: QPainter, parts: Iterable[_Part], bar: QRectF) -> None:
    """Fill solid stretches, and the bands of barber-poles that are too narrow for stripes."""
    boxes: defaultdict[str, list[QRectF]] = defaultdict(list)
    top, height = bar.top(), bar.height()
    for kind, left, right in parts:
        if kind.is_plain:
            boxes[kind.srgb[0]].append(QRectF(left, top, right - left, height))
        elif right - left < LEAST_FOR_STRIPES:
            high = height / len(kind.srgb)
            for number, colour in enumerate(kind.srgb):
                boxes[colour].append(QRectF(left, top + number * high, right - left, high))
    painter.setPen(Qt.PenStyle.NoPen)
    for colour, filled in boxes.items():
        painter.setBrush(QColor(colour))
        painter.drawRects(filled)


def _fill_columns(painter: QPainter, parts: Iterable[_Part], bar: QRectF, look: Look) -> None:
    """Fill the bar as `_fill_plain` does, with one image: hundreds of boxes take several times as long."""
    ratio = pixel_ratio(painter)
    rows, columns = round(bar.height() * ratio), math.ceil(bar.width() * ratio)
    looks, shown = [_column((look.film.name(),), rows)], np.zeros(columns, np.intp)
    for kind, left, right in parts:
        shown[round((left - bar.left()) * ratio) : round((right - bar.left()) * ratio)] = len(looks)
        looks.append(_column(kind.srgb[:1] if kind.is_plain else kind.srgb, rows))
    pixels = np.ascontiguousarray(np.stack(looks)[shown].T)
    image = QImage(pixels.data, columns, rows, 4 * columns, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(ratio)
    painter.drawImage(bar.topLeft(), image)


@lru_cache(maxsize=1024)
def _column(srgb: tuple[str, ...], rows: int) -> NDArray[np.uint32]:
    """Return (rows,) pixels of colours in bands above each other."""
    codes = np.array([QColor(one).rgb() for one in srgb], np.uint32)
    bands = (np.arange(rows) + 0.5) * (len(codes) / rows)
    return codes[bands.astype(np.intp)]


def _fill_barber_poles(painter: QPainter, parts: Iterable[_Part], bar: QRectF, *, shapes: bool) -> None:
    """Fill barber-poles with stripes, which all go on in one another wherever they begin."""
    boxes: defaultdict[tuple[str, ...], list[QRectF]] = defaultdict(list)
    for kind, left, right in parts:
        if not kind.is_plain and right - left >= LEAST_FOR_STRIPES:
            boxes[kind.srgb].append(QRectF(left, bar.top(), right - left, bar.height()))
    painter.setPen(Qt.PenStyle.NoPen)
    for srgb, filled in boxes.items():
        if shapes:
            for box in filled:
                painter.fillRect(box, QColor(srgb[0]))
                _paint_stripes(painter, box, [QColor(one) for one in srgb])
            continue
        brush = QBrush(_stripes(srgb, pixel_ratio(painter)))
        brush.setTransform(QTransform.fromTranslate(0.0, bar.top()))
        painter.setBrush(brush)
        painter.drawRects(filled)


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
    """Paint the stripes of all colours but the first, which lies beneath them; SVG knows no clipping."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
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
            painter.drawPolygon(QPolygonF(corners).intersected(QPolygonF(part)))
            x += period
    painter.restore()


def _outline(painter: QPainter, bar: QRectF, parts: Iterable[_Part], look: Look, line: float) -> None:
    """Draw the outline of the bar and the cuts in it, one device pixel wide."""
    left, right, top, bottom = bar.left(), bar.right(), bar.top(), bar.bottom()
    lines = [
        QRectF(left, top, bar.width(), line),
        QRectF(left, bottom - line, bar.width(), line),
        QRectF(left, top, line, bar.height()),
        QRectF(right - line, top, line, bar.height()),
    ]
    kept = left
    for part in parts:
        if part.left - kept >= LEAST_APART:
            kept = part.left
            lines.append(QRectF(kept, top, line, bar.height()))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.film_edge)
    painter.drawRects(lines)


# -- letters -------------------------------------------------------------------------------------------------


def _write(painter: QPainter, parts: Iterable[_Part], bar: QRectF, box: QRectF, look: Look) -> None:
    bold, small = lettering(painter, 0.92, bold=True), lettering(painter, 0.85)
    painter.setFont(bold.font)
    beneath = []
    for part in parts:
        kind = part.kind
        room = part.width - 2.0 * (ROOM_BESIDE if kind.is_plain else STRIPES_BESIDE + 4.0)
        if room <= 0.0 or (width := bold.width(kind.words)) > room:
            beneath.append(part)
            continue
        stretch = QRectF(part.left, bar.top(), part.width, bar.height())
        if kind.is_plain:
            painter.setPen(readable_ink(kind.srgb[0]))
        else:
            _paint_slip(painter, stretch, width + 8.0, look)
        painter.drawText(stretch, Qt.AlignmentFlag.AlignCenter, kind.words)
    painter.setFont(small.font)
    painter.setPen(look.secondary)
    _write_beneath(painter, beneath, box, small)


def _paint_slip(painter: QPainter, box: QRectF, width: float, look: Look) -> None:
    """Lay a slip of paper under letters, which could not be read on stripes."""
    slip = QRectF(0.0, 0.0, width, box.height() - 5.0)
    slip.moveCenter(box.center())
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.paper)
    painter.drawRoundedRect(slip, 2.0, 2.0)
    painter.setPen(look.ink)


def _write_beneath(painter: QPainter, parts: Iterable[_Part], box: QRectF, letters: Lettering) -> None:
    """Write letters beneath the bar from left to right, leaving out those that would touch others."""
    top, height = box.top() + BAR_HEIGHT, box.height() - BAR_HEIGHT
    if height <= 0.0:
        return
    free_from = box.left()
    for part in parts:
        middle = (part.left + part.right) / 2.0
        if part.width < LEAST_NAMED or middle < free_from:
            continue
        half = letters.width(part.kind.words) / 2.0 + 2.0
        middle = min(max(middle, box.left() + half), box.right() - half)
        if middle - half < free_from:
            continue
        area = QRectF(middle - half, top, 2.0 * half, height)
        painter.drawText(area, Qt.AlignmentFlag.AlignCenter, part.kind.words)
        free_from = middle + half + 4.0
