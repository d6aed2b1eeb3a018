"""If these fail, a column of wool keeps a colour that is no longer there, or shows that of another place."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QSizeF

from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.worksheet import worksheet
from studio_gui.drawing.changes import changed_span
from studio_gui.drawing.colour_row import ColourRow
from studio_gui.drawing.lay_layout import lay_layout
from studio_gui.drawing.lay_view import LayView
from tests.drawing.plans import plain_plan

SIZE = QSizeF(1000.0, 520.0)

pytestmark = pytest.mark.usefixtures("qapp")


@pytest.mark.parametrize("view", [LayView(), LayView(2000.0, 1.5)], ids=["whole", "close"])
@pytest.mark.parametrize("ratio", [1.0, 2.0])
def test_every_column_has_the_colour_of_its_place(view: LayView, ratio: float) -> None:
    layout = lay_layout(worksheet(plain_plan(5)), SIZE, view)
    row = ColourRow(layout, ratio)
    for column in range(0, len(row), 97):
        place_m = layout.lay_m(layout.pane.left() + (column + 0.5) / ratio)
        on_lay = min(max(place_m, 0.0), 4.0)
        expected = layout.sheet.lay_colours([on_lay]).srgb[0] * 255.0
        assert np.abs(row.rgb[column] - expected).max() <= 0.51


@given(st.integers(2, 30), st.data())
def test_refreshing_what_changed_is_as_good_as_all(count: int, data: st.DataObject) -> None:
    plan = plain_plan(count)
    index = data.draw(st.integers(0, count - 2))
    before = lay_layout(worksheet(plan), SIZE)
    low, high = plan.edges_m[index] + 0.01, plan.edges_m[index + 2] - 0.01
    moved = move_boundary(plan, index, data.draw(st.floats(low, high)))
    after = lay_layout(worksheet(moved), SIZE)
    row = ColourRow(before, 1.0)
    span = changed_span(before, after)
    if span is not None:
        row.refresh(after, span)
    assert np.array_equal(row.rgb, ColourRow(after, 1.0).rgb)
