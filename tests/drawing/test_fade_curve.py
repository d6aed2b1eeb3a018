"""If these fail, the fade curve draws a run where another one is, or points at the wrong one."""

from __future__ import annotations

from itertools import pairwise

import pytest
from PySide6.QtCore import QSizeF
from PySide6.QtGui import QColor, QImage, QPainter

from studio_gui.domain.figures import section_figures
from studio_gui.domain.strip_curve import strip_curve
from studio_gui.drawing.fade_curve import CurveLayout, paint_curve
from studio_gui.drawing.look import LIGHT
from tests.drawing.plans import plain_plan

LAYOUT = CurveLayout(strip_curve(section_figures(plain_plan(4, passes=2))), QSizeF(700.0, 240.0))


def test_runs_tile_the_strip_and_every_place_is_in_its_run() -> None:
    spans = [LAYOUT.span(place) for place in range(len(LAYOUT.curve.runs))]
    assert spans[0][0] == LAYOUT.strip.left()
    assert spans[-1][1] == pytest.approx(LAYOUT.strip.right())
    for place, (start, end) in enumerate(spans):
        assert LAYOUT.run_at((start + end) / 2.0) == place
    assert [after[0] for after in spans[1:]] == pytest.approx([before[1] for before in spans[:-1]])


def test_beyond_the_ends_is_the_nearest_run() -> None:
    assert LAYOUT.run_at(-50.0) == 0
    assert LAYOUT.run_at(5000.0) == len(LAYOUT.curve.runs) - 1


@pytest.mark.parametrize("height", [60.0, 240.0, 800.0])
def test_rows_lie_over_one_another_inside_the_picture(height: float) -> None:
    layout = CurveLayout(LAYOUT.curve, QSizeF(400.0, height))
    boxes = [*layout.rows, layout.strip]
    assert all(after.top() >= before.bottom() for before, after in pairwise(boxes))
    if height > 100.0:
        assert boxes[-1].bottom() < height


@pytest.mark.usefixtures("qapp")
def test_it_paints_the_strip_in_its_colours_and_marks_what_is_chosen() -> None:
    picture = QImage(700, 240, QImage.Format.Format_RGB32)
    picture.fill(LIGHT.table)
    colours = [QColor("#ff0000"), QColor("#00ff00"), QColor("#0000ff"), *[QColor("#ffff00")] * 10]
    painter = QPainter(picture)
    paint_curve(painter, LAYOUT, colours[: len(LAYOUT.curve.runs)], LIGHT, ("L", "C", "H", "S"), [1])
    painter.end()
    y = round(LAYOUT.strip.center().y())
    middles = [round(sum(LAYOUT.span(place)) / 2.0) for place in (0, 1, 2)]
    assert [picture.pixelColor(x, y).name() for x in middles] == ["#ff0000", "#00ff00", "#0000ff"]
    above = round(LAYOUT.rows[0].top()) + 1
    grounds = [picture.pixelColor(x, above).name() for x in middles]
    assert grounds[0] == grounds[2] != grounds[1]
