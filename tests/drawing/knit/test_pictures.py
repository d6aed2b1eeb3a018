"""If these fail, a swatch does not fit its box, shows other rows than it says, or wrong colours in them."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QGuiApplication, QImage, QPainter
from PySide6.QtSvg import QSvgGenerator
from pytestqt.qtbot import QtBot

from studio_gui.domain.edits.stripes import set_knitting
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.swatch import KnittedRows
from studio_gui.domain.worksheet import worksheet
from studio_gui.drawing.knit.pictures import (
    FIGURES_WIDTH,
    SwatchLayout,
    paint_plain_knit,
    paint_swatch_of,
    swatch_layout,
)
from studio_gui.drawing.yarn_colours import LayColours
from tests.drawing.plans import plain_plan

BOX = QRectF(10.0, 6.0, 700.0, 300.0)


def knitted(**knitting: object) -> KnittedRows:
    return KnittedRows(worksheet(set_knitting(plain_plan(4), **knitting)).yarn)


def laid_out(first_row: int = 0, ratio: float = 1.0, box: QRectF = BOX, **knitting: object) -> SwatchLayout:
    return swatch_layout(knitted(**knitting), box, ratio, first_row)


@pytest.mark.parametrize("width_m", [0.02, 0.2, 0.5, 2.0, 10.0])
@pytest.mark.parametrize("ratio", [1.0, 1.5, 2.0])
@pytest.mark.parametrize("size", [(700.0, 300.0), (1200.0, 120.0), (220.0, 500.0)])
def test_the_picture_stays_in_its_box(width_m: float, ratio: float, size: tuple[float, float]) -> None:
    box = QRectF(10.0, 6.0, *size)
    layout = laid_out(ratio=ratio, box=box, width_m=width_m, row_m=0.5)
    assert box.adjusted(FIGURES_WIDTH - 1e-6, 0.0, 0.0, 1e-6).contains(layout.picture)
    if layout.overview is not None:
        assert box.contains(layout.overview)
        assert layout.overview.left() > layout.fabric.right()
    assert (layout.overview is None) == (layout.place.rows == layout.total)
    assert 1 <= layout.place.rows <= layout.total
    assert 1 <= layout.place.columns <= knitted(width_m=width_m).stitches


def test_a_box_of_nothing_still_has_a_stitch() -> None:
    place = laid_out(box=QRectF(0.0, 0.0, 5.0, 5.0)).place
    assert (place.columns, place.rows) == (1, 1)


def test_scrolling_ends_with_the_last_row_and_turns_no_row_round_before() -> None:
    lasts = []
    for first_row in range(-3, 1000):
        layout = laid_out(first_row, row_m=0.5)
        last = layout.first_row + layout.place.rows
        assert last <= layout.total
        assert last == layout.total or layout.first_row % 2 == 0
        assert layout.place.first_is_back == (layout.first_row % 2 == 1)
        lasts.append(last)
    assert lasts[-1] == laid_out(row_m=0.5).total
    assert laid_out(-3).first_row == 0


def test_points_are_told_in_rows() -> None:
    layout = laid_out(6, row_m=0.5)
    x = layout.fabric.right() - 1e-6
    assert layout.rows_at(QPointF(x, layout.row_line(6) - 1.0)) == pytest.approx(6.0, abs=1e-6)
    assert layout.rows_at(QPointF(x, layout.row_line(7) - 1.0)) == pytest.approx(8.0, abs=1e-6)
    assert layout.rows_at(QPointF(0.0, 0.0)) is None
    assert layout.seen.bottom() == layout.fabric.bottom(), "the rows below are cut away"
    assert laid_out(row_m=0.5).seen.bottom() > layout.seen.bottom(), "there is the cast-on"


def painted(plan: Plan, first_row: int = 0) -> tuple[QImage, SwatchLayout]:
    image = QImage(720, 320, QImage.Format.Format_ARGB32_Premultiplied)
    image.fill(QColor("white"))
    painter = QPainter(image)
    try:
        layout = paint_swatch_of(painter, BOX, worksheet(plan), first_row=first_row)
    finally:
        painter.end()
    assert layout is not None
    return image, layout


def test_each_row_has_the_colours_of_its_yarn(qapp: QGuiApplication) -> None:  # noqa: ARG001  (fonts)
    plan = set_knitting(plain_plan(4), row_m=1.0)
    image, layout = painted(plan)
    rows = KnittedRows(worksheet(plan).yarn)
    colours = LayColours(worksheet(plan))
    for row in range(1, layout.place.rows - 1, 3):
        box = QRectF(layout.fabric.left() + 40.0, layout.row_line(row + 1), 60.0, layout.row_px)
        cut = image.copy(box.toRect())
        mean = cut.scaled(1, 1).pixelColor(0, 0)
        at = layout.rows_at(box.center())
        assert at is not None
        red, _, blue = colours.along_yarn(rows.laid_m([at])).mean(axis=(0, 1))
        assert (mean.red() > mean.blue()) == (red > blue)


def test_a_yarn_without_a_row_paints_nothing(qtbot: QtBot) -> None:  # noqa: ARG001  (fonts)
    plan = set_knitting(plain_plan(1), row_m=100.0)
    plan = replace(plan, yarn=replace(plan.yarn, singles_m_per_g=0.5))
    image = QImage(200, 100, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    try:
        assert paint_swatch_of(painter, QRectF(0.0, 0.0, 200.0, 100.0), worksheet(plan)) is None
    finally:
        painter.end()


def test_prints_get_stitches_too(qtbot: QtBot, tmp_path: Path) -> None:  # noqa: ARG001  (fonts)
    generator = QSvgGenerator()
    path = tmp_path / "swatch.svg"
    generator.setFileName(str(path))
    painter = QPainter(generator)
    try:
        layout = paint_swatch_of(painter, BOX, worksheet(plain_plan(4)))
    finally:
        painter.end()
    assert layout is not None
    assert layout.place.device_pixel_ratio > 1.0
    assert "<image" in path.read_text()


@pytest.mark.parametrize("in_the_round", [False, True])
def test_until_there_are_stitches_bands_stand_in_for_them(qtbot: QtBot, in_the_round: bool) -> None:  # noqa: ARG001  (fonts)
    plan = set_knitting(set_yarn(plain_plan(4), structure="single"), row_m=20.0, in_the_round=in_the_round)
    stitches, layout = painted(plan)
    bands = QImage(stitches.size(), stitches.format())
    bands.fill(QColor("white"))
    sheet = worksheet(plan)
    painter = QPainter(bands)
    try:
        places = KnittedRows(sheet.yarn).laid_m(layout.places())
        paint_plain_knit(painter, layout, LayColours(sheet).along_yarn(places))
    finally:
        painter.end()
    columns, rows = layout.place.columns // 4, layout.place.rows
    one, other = (
        picture.copy(layout.fabric.toRect()).scaled(
            columns, rows, mode=Qt.TransformationMode.SmoothTransformation
        )
        for picture in (stitches, bands)
    )
    reddish = [
        [image.pixelColor(x, y).red() > image.pixelColor(x, y).blue() for x in range(columns)]
        for image in (one, other)
        for y in range(rows)
    ]
    differing = sum(
        a != b
        for left, right in zip(reddish[:rows], reddish[rows:], strict=True)
        for a, b in zip(left, right, strict=True)
    )
    assert differing <= 0.08 * columns * rows
