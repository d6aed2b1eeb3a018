"""If these fail, a slip cannot be read, or does not fit its section."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QSizeF

from studio_gui.drawing.lay_layout import lay_layout
from studio_gui.drawing.lay_view import LayView
from studio_gui.drawing.slips import NARROWEST_SLIP, slip_rect
from studio_gui.drawing.troughs import BLEED, showing
from tests.drawing.pictures import box_of, laid, painted, slips, texts
from tests.drawing.plans import plain_plan, plan_of_states

pytestmark = pytest.mark.usefixtures("qapp")


@given(st.integers(1, 200), st.data(), st.sampled_from([420.0, 1000.0]))
def test_slips_stay_over_their_section(count: int, data: st.DataObject, width: float) -> None:
    layout = laid(plan_of_states(count), width)
    index = data.draw(st.integers(0, count - 1))
    middle = (layout.edges_x[index] + layout.edges_x[index + 1]) / 2.0
    box = box_of(painted(slips, layout, (middle, middle + 0.01), grounded=False))
    which = showing(layout, (middle, middle + 0.01))
    if not box.isNull():
        assert layout.edges_x[which.start] - BLEED <= box.left()
        assert box.right() <= layout.edges_x[which.stop] + BLEED


@pytest.mark.parametrize(
    "name",
    [
        "",
        "Reed",
        "\u05e9\u05dc\u05d5\u05dd \u05e2\u05d5\u05dc\u05dd",
        "\U0001f9f6\U0001f411",
        "W" * 60,
    ],
)
@pytest.mark.parametrize("count", [2, 6, 12, 20])
def test_any_name_stays_on_its_paper(name: str, count: int) -> None:
    plan = plain_plan(count)
    plan = dataclasses.replace(
        plan, sections=tuple(dataclasses.replace(section, name=name) for section in plan.sections)
    )
    layout = laid(plan)
    slip = slip_rect(layout, count - 1)
    assert slip is not None
    middle = slip.center().x()
    box = box_of(painted(slips, layout, (middle, middle + 0.01), grounded=False))
    assert slip.adjusted(-5.0, -5.0, 5.0, 5.0).contains(box)


def test_slips_lose_length_then_name_then_paper() -> None:
    said = [texts(slips, laid(plain_plan(count)))[:3] for count in (2, 8, 30)]
    assert said[0] == ["A", "200.0 cm", "Section 1"]
    assert said[1][:2] == ["A", "Section 1"]
    assert said[2] == ["A", "B", "C"]
    assert texts(slips, laid(plain_plan(100))) == []


def test_trouble_is_marked_where_there_is_no_paper() -> None:
    layout = laid(plan_of_states(140))
    assert layout.edges_x[1] - layout.edges_x[0] < NARROWEST_SLIP
    pixels = painted(slips, layout, grounded=False)
    marked = pixels[:, :, 3].max(axis=0) > 0
    middles = [int((layout.edges_x[index] + layout.edges_x[index + 1]) / 2.0) for index in range(7)]
    assert [bool(np.any(marked[x - 1 : x + 2])) for x in middles] == [False, True, True, *[False] * 4]


def test_a_slip_stands_in_what_shows_of_its_section() -> None:
    sheet = laid(plain_plan(2)).sheet
    layout = lay_layout(sheet, QSizeF(1000.0, 560.0), LayView(px_per_m=2000.0, left_m=0.6))
    slip = slip_rect(layout, 0)
    assert slip is not None
    assert layout.pane.left() <= slip.left()
    assert slip.right() <= layout.pane.right()
    assert slip_rect(layout, 1) is None
