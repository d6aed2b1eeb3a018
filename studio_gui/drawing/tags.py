"""Live tags: the numbers beside the pointer while something is dragged.

The rule of this module: a tag shows what the worksheet says, in columns whose widths do not change with the
last digit, and never leaves the picture.
"""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from studio_gui.domain.figures import Saturation
from studio_gui.domain.geometry import legs, mass_to
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.fonts import Lettering, sized
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.look import LIGHT, Look
from studio_gui.drawing.marks import paint_saturation
from studio_gui.wording.quantities import LAY_LENGTH, MASS, VOLUME, WETNESS, shown
from studio_gui.wording.translation import translate

ROW = 18.0
PADDING = 10.0
SWATCH = 11.0
LEAST_COLUMN = 84.0
_STEP = 12.0  # columns grow in steps, so that a digit more or less does not make them tremble
_LEFT = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
_RIGHT = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight


@dataclass(frozen=True, slots=True)
class TagColumn:
    """One column: what it is about, how that changed, and its figures; a mark where wetness is moving."""

    head: str
    change: str
    figures: tuple[str, ...]
    colour: QColor | None = None
    saturation: Saturation | None = None


def boundary_tag(sheet: Worksheet, index: int, before: Plan) -> tuple[TagColumn, ...]:
    """Return length, change, grams and ml of both neighbours of a boundary; ml/g where a volume is fixed."""
    return tuple(_section_column(sheet, one, before) for one in (index, index + 1))


def sections_tag(sheet: Worksheet, first: int, last: int) -> tuple[TagColumn, ...]:
    """Return from where to where a run of sections would lie, with its grams and ml."""
    figures, plan = sheet.figures, sheet.plan
    letters = [plan.liquor(section.liquor_id).letter for section in plan.sections[first : last + 1]]
    between = translate("LayPicture", "{0} to {1}")
    head = letters[0] if first == last else between.format(letters[0], letters[-1])
    start, end = (shown(LAY_LENGTH, float(figures.edges_m[place])) for place in (first, last + 1))
    grams = shown(MASS, float(figures.fibre_g[first : last + 1].sum()))
    volume = shown(VOLUME, float(figures.liquid_ml[first : last + 1].sum()))
    colour = QColor.fromRgbF(*sheet.colours.srgb[first].tolist()) if first == last else None
    return (TagColumn(head, "", (between.format(start, end), grams, volume), colour),)


def gap_tag(sheet: Worksheet, index: int) -> tuple[TagColumn, ...]:
    """Return the width of the gap or overlap on a boundary."""
    gap_m = sheet.plan.boundaries[index].gap_m
    words = translate("LayPicture", "overlap") if gap_m < 0.0 else translate("LayPicture", "gap")
    return (TagColumn(words, "", (shown(LAY_LENGTH, abs(gap_m)),)),)


def fold_tag(sheet: Worksheet, index: int) -> tuple[TagColumn, ...]:
    """Return length and weight of the two legs beside a fold, of one roving."""
    plan = sheet.plan
    columns = []
    for number in (index, index + 1):
        leg = legs(plan.fibre, plan.lay)[number]
        low, high = mass_to(plan.fibre, (leg.strip_from_m, leg.strip_to_m)).tolist()
        figures = (shown(LAY_LENGTH, leg.strip_to_m - leg.strip_from_m), shown(MASS, high - low))
        columns.append(TagColumn(translate("LayPicture", "leg {0}").format(number + 1), "", figures))
    return tuple(columns)


def tag_box(letters: Lettering, columns: tuple[TagColumn, ...]) -> tuple[float, float]:
    """Return the width of a column and the height of the tag."""
    texts = [figure for column in columns for figure in column.figures]
    heads = [column.head + column.change for column in columns]
    widest = max(letters.width(text) for text in texts) + 4.0
    widest = max(widest, *(letters.width(head) + SWATCH + 16.0 for head in heads))
    if any(column.saturation for column in columns):
        widest += 20.0
    width = max(LEAST_COLUMN, _STEP * -(-widest // _STEP)) + 2.0 * PADDING
    rows = max(len(column.figures) for column in columns)
    return width, ROW * (rows + 1) + 14.0


def place_tag(size: tuple[float, float], x: float, pointer: QPointF, room: QRectF) -> QRectF:
    """Return where a tag of `size` stands: centred on `x` below the pointer, turned over at the edges.

    >>> place_tag((100.0, 50.0), 10.0, QPointF(10.0, 20.0), QRectF(0.0, 0.0, 300.0, 200.0)).left()
    4.0
    """
    width, height = size
    left = min(max(x - width / 2.0, room.left() + 4.0), max(room.right() - width - 4.0, room.left() + 4.0))
    top = pointer.y() + 20.0
    if top + height > room.bottom() - 4.0:
        top = max(pointer.y() - height - 20.0, room.top() + 4.0)
    return QRectF(left, top, width, height)


def tag_rect(
    bold: Lettering, layout: LayLayout, columns: tuple[TagColumn, ...], x: float, pointer: QPointF
) -> QRectF:
    """Return the rectangle in which `paint_tag` paints with `bold`, the painter's font."""
    width, height = tag_box(bold, columns)
    room = QRectF(0.0, 0.0, layout.size.width(), layout.size.height())
    return place_tag((width * len(columns), height), x, pointer, room)


def paint_tag(painter: QPainter, look: Look, columns: tuple[TagColumn, ...], tag: QRectF) -> None:
    """Paint a live tag: one column for each thing that changes, a line between two."""
    painter.save()
    painter.setPen(QPen(look.handle, 2.0))
    painter.setBrush(look.paper)
    painter.drawRoundedRect(tag, 5.0, 5.0)
    width = tag.width() / len(columns)
    for number, column in enumerate(columns):
        left = tag.left() + number * width
        if number:
            painter.setPen(QPen(look.film_edge, 1.0))
            painter.drawLine(QPointF(left, tag.top() + 8.0), QPointF(left, tag.bottom() - 8.0))
        half = QRectF(left + PADDING, tag.top() + 7.0, width - 2.0 * PADDING, tag.height() - 14.0)
        _paint_column(painter, look, half, column)
    painter.restore()


def _paint_column(painter: QPainter, look: Look, half: QRectF, column: TagColumn) -> None:
    line = QRectF(half.left(), half.top(), half.width(), ROW)
    indent = 0.0
    if column.colour is not None:
        painter.setPen(QPen(look.film_edge, 1.0))
        painter.setBrush(column.colour)
        painter.drawRect(QRectF(half.left(), half.top() + 3.0, SWATCH, SWATCH))
        indent = SWATCH + 5.0
    base = painter.font()
    painter.setFont(sized(painter, 1.0, bold=True))
    painter.setPen(look.ink)
    painter.drawText(line.adjusted(indent, 0.0, 0.0, 0.0), _LEFT, column.head)
    for row, figure in enumerate(column.figures, start=1):
        painter.drawText(line.translated(0.0, ROW * row), _RIGHT, figure)
    if column.saturation is not None:
        mark = QRectF(half.left(), half.top() + ROW * len(column.figures) + 3.0, 13.0, 13.0)
        paint_saturation(painter, mark, column.saturation, LIGHT)  # paper is light in both palettes
    painter.setFont(base)
    painter.setFont(sized(painter, 0.85))
    painter.setPen(look.ink_secondary)
    painter.drawText(line, _RIGHT, column.change)
    painter.setFont(base)


def _section_column(sheet: Worksheet, index: int, before: Plan) -> TagColumn:
    figures, plan = sheet.figures, sheet.plan
    change_m = figures.length_m(index) - (before.edges_m[index + 1] - before.edges_m[index])
    sign = "+" if change_m > 5e-5 else "–" if change_m < -5e-5 else "±"
    fixed = plan.sections[index].fixed_ml is not None
    lines = [
        shown(LAY_LENGTH, figures.length_m(index)),
        shown(MASS, float(figures.fibre_g[index])),
        shown(VOLUME, float(figures.liquid_ml[index])),
    ]
    if fixed:
        lines.append(shown(WETNESS, float(figures.applied_ml_per_g[index])))
    return TagColumn(
        plan.liquors[figures.liquor_index[index]].letter,
        sign + shown(LAY_LENGTH, abs(change_m)),
        tuple(lines),
        QColor.fromRgbF(*sheet.colours.srgb[index].tolist()),
        figures.saturation(index) if fixed else None,
    )
