"""If these fail, the picture shows another colour, place or figure than the worksheet."""

from __future__ import annotations

import dataclasses
from functools import partial

import numpy as np
import pytest
from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QImage, QPainter

from studio_gui.domain.edits.boundaries import set_gap
from studio_gui.domain.edits.sections import change_section, set_locked
from studio_gui.domain.fibre import MassMark
from studio_gui.domain.figures import Saturation
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.drawing.colour_row import ColourRow
from studio_gui.drawing.fonts import lettering
from studio_gui.drawing.lay_layout import LayLayout, lay_layout
from studio_gui.drawing.lay_picture import paint_lay
from studio_gui.drawing.lay_state import LayState
from studio_gui.drawing.look import DARK, LIGHT, Look
from studio_gui.drawing.marks import paint_saturation, paint_severity
from studio_gui.drawing.tags import boundary_tag, paint_tag, tag_rect
from studio_gui.drawing.wool import gradient_brush, paint_strands
from tests.drawing.plans import plain_plan

SIZE = QSizeF(1000.0, 520.0)

pytestmark = pytest.mark.usefixtures("qapp")


def picture(
    layout: LayLayout, look: Look = LIGHT, state: LayState | None = None, *, vector: bool = False
) -> QImage:
    image = QImage(layout.size.toSize(), QImage.Format.Format_RGB32)
    painter = QPainter(image)
    try:
        brush = gradient_brush(layout) if vector else ColourRow(layout, 1.0).brush()
        wool = partial(paint_strands, layout=layout, brush=brush)
        paint_lay(painter, layout, look, state or LayState(), wool)
    finally:
        painter.end()
    return image


def laid(plan: Plan) -> LayLayout:
    return lay_layout(worksheet(plan), SIZE)


def difference(one: QColor, other: QColor) -> int:
    return max(abs(one.red() - other.red()), abs(one.green() - other.green()), abs(one.blue() - other.blue()))


def changed_box(one: QImage, other: QImage) -> QRectF:
    """Return the box round all pixels in which two pictures differ."""
    width, height = one.width(), one.height()
    first, second = (np.frombuffer(i.constBits(), np.uint8).reshape(height, width, 4) for i in (one, other))
    rows, columns = np.nonzero((first != second).any(axis=2))
    top, left = int(rows.min()), int(columns.min())
    return QRectF(left, top, int(columns.max()) - left + 1, int(rows.max()) - top + 1)


@pytest.mark.parametrize("vector", [False, True], ids=["columns", "gradient"])
def test_the_middle_of_each_section_has_its_predicted_colour(vector: bool) -> None:
    layout = laid(plain_plan(3, rovings=2, passes=2))
    image = picture(layout, vector=vector)
    for index, rgb in enumerate(layout.sheet.colours.srgb.tolist()):
        x = int(layout.item("section", index).rect.center().x())
        strand = layout.strands[0].rect
        # where the shade of the tube is clear the wool shows as it is
        clear = image.pixelColor(x, int(strand.top() + 0.60 * strand.height()))
        assert difference(clear, QColor.fromRgbF(*rgb)) <= 12


def test_a_gap_shows_undyed_wool() -> None:
    layout = laid(set_gap(plain_plan(3), 0, 0.2))
    row = ColourRow(layout, 1.0)
    middle = row.rgb[round(layout.edges_x[1] - row.left)].tolist()
    assert difference(QColor(*middle), QColor("#f3eee2")) <= 3


@pytest.mark.parametrize("gap_m", [-0.2, 0.0, 0.2])
@pytest.mark.parametrize("marks", [(), (MassMark(0.2, 0.5), MassMark(0.6, 0.6))], ids=["even", "uneven"])
def test_the_gradient_shows_the_colours_of_the_columns(gap_m: float, marks: tuple[MassMark, ...]) -> None:
    plan = set_gap(plain_plan(3), 0, gap_m)
    layout = laid(dataclasses.replace(plan, fibre=dataclasses.replace(plan.fibre, mass_marks=marks)))
    brush = gradient_brush(layout)  # kept, because the gradient is the brush's own
    stops = brush.gradient().stops()
    places, reached = [place for place, _ in stops], (np.arange(1600) + 0.5) / 1600.0
    expected = layout.sheet.lay_colours(reached * layout.sheet.plan.lay_length_m).srgb
    for channel, of in enumerate((QColor.redF, QColor.greenF, QColor.blueF)):
        shown = np.interp(reached, places, [of(colour) for _, colour in stops])
        assert np.abs(shown - expected[:, channel]).max() * 255.0 <= 6.0


@pytest.mark.parametrize("look", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("count", [1, 2, 12, 50, 200])
def test_any_number_of_sections_can_be_painted(count: int, look: Look) -> None:
    layout = laid(plain_plan(count, rovings=3, passes=2))
    state = LayState(frozenset({0}), ("boundary", 0), ("section", 0))
    assert picture(layout, look, state) != picture(layout, look)


def test_under_and_over_are_told_in_words() -> None:
    plan = plain_plan(3)
    dry = change_section(plan, "s2", fixed_ml=10.0)
    box = changed_box(picture(laid(plan)), picture(laid(dry)))
    column = laid(plan).item("section", 1).rect
    assert box.bottom() > laid(plan).figures_top + 44.0, "the line with words changed"
    assert column.left() - 12.0 <= box.left()
    assert box.right() <= column.right() + 12.0


def test_a_locked_peg_looks_different() -> None:
    plan = plain_plan(3)
    locked = set_locked(plan, ["s1"], locked=True)
    box = changed_box(picture(laid(plan)), picture(laid(locked)))
    assert laid(plan).item("boundary", 0).slip.adjusted(-4, -4, 4, 4).contains(box)


@pytest.mark.parametrize("x", [120.0, 500.0, 990.0])
@pytest.mark.parametrize("y", [60.0, 500.0])
def test_the_live_tag_stays_inside_the_picture(x: float, y: float) -> None:
    plan = plain_plan(3)
    layout = laid(change_section(plan, "s1", fixed_ml=80.0))
    plain = picture(layout)
    tagged = QImage(plain)
    painter = QPainter(tagged)
    try:
        columns = boundary_tag(layout.sheet, 0, plan)
        box = tag_rect(lettering(painter, 1.0, bold=True), layout, columns, layout.edges_x[1], QPointF(x, y))
        paint_tag(painter, LIGHT, columns, box)
    finally:
        painter.end()
    box = changed_box(plain, tagged)
    assert box.width() >= 200.0
    assert QRectF(0.0, 0.0, SIZE.width(), SIZE.height()).contains(box)
    assert box.bottom() < SIZE.height() - 1.0


def _mark(paint: object, *arguments: object) -> QImage:
    image = QImage(24, 24, QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    try:
        paint(painter, QRectF(2.0, 2.0, 20.0, 20.0), *arguments)  # type: ignore[operator]
    finally:
        painter.end()
    return image.convertToFormat(QImage.Format.Format_Mono, Qt.ImageConversionFlag.ThresholdDither)


def test_marks_differ_in_shape_not_only_in_hue() -> None:
    states: tuple[Saturation, ...] = ("under", "in range", "over")
    wetness = [_mark(paint_saturation, state, LIGHT) for state in states]
    severities = [_mark(paint_severity, severity, LIGHT) for severity in ("note", "warning", "error")]
    for marks in (wetness, severities):
        for number, mark in enumerate(marks):
            assert all(mark != other for other in marks[number + 1 :])
