"""If these fail, the tape shows wanted stripes where they are not, or not where they are."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import QSizeF
from PySide6.QtGui import QColor, QImage, QPainter

from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.domain.yarn import Knitting, Stripe, Yarn
from studio_gui.drawing.lay_layout import LayLayout, lay_layout
from studio_gui.drawing.look import DARK, LIGHT, Look, contrast
from studio_gui.drawing.stripe_marks import paint_stripe_marks
from tests.drawing.plans import plain_plan

SIZE = QSizeF(900.0, 480.0)

pytestmark = pytest.mark.usefixtures("qapp")


def wanting(*rows: float) -> Plan:
    """Return 4 m of roving, of which 250 rows are 1 m."""
    stripes = tuple(Stripe("q1", amount) for amount in rows)
    yarn = Yarn(structure="single", knitting=Knitting(row_m=1.0), stripes=stripes)
    return replace(plain_plan(4), yarn=yarn)


def painted(layout: LayLayout, look: Look = LIGHT) -> list[int]:
    """Return the pixel columns that are painted just under the tape's upper edge."""
    image = QImage(900, 480, QImage.Format.Format_RGB32)
    image.fill(look.tape)
    painter = QPainter(image)
    try:
        paint_stripe_marks(painter, layout, look)
    finally:
        painter.end()
    row = round(layout.tape_start.top()) + 4
    return [x for x in range(900) if image.pixelColor(x, row) != QColor(look.tape)]


def test_a_wedge_hangs_wherever_a_stripe_starts_or_ends() -> None:
    layout = lay_layout(worksheet(wanting(250.0, 100.0, 150.0)), SIZE)
    columns = painted(layout)
    for place_m in (1.0, 1.4, 2.0):
        assert round(layout.x(place_m)) in columns
    assert round(layout.x(0.5)) not in columns
    assert len(columns) < 15


def test_no_stripes_leave_the_tape_as_it_is() -> None:
    assert painted(lay_layout(worksheet(plain_plan(4)), SIZE)) == []


def test_wedges_that_would_run_together_are_left_out() -> None:
    columns = painted(lay_layout(worksheet(wanting(*[2.0] * 400)), SIZE))
    assert columns
    assert len(columns) < 0.9 * (max(columns) - min(columns))


@pytest.mark.parametrize("look", [LIGHT, DARK])
def test_wedges_stand_out_from_the_tape(look: Look) -> None:
    assert contrast(look.handle, look.tape) >= 3.0
