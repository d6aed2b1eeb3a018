"""If these fail, the screen keeps what is no longer there, or a frame paints more than it has to."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from PySide6.QtCore import QRect, QSizeF
from PySide6.QtGui import QImage, QPainter

from studio_gui.domain.edits.boundaries import boundary_range, gap_range, move_boundary, set_gap
from studio_gui.domain.edits.inputs import fold_by_weight, set_fibre
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.edits.stripes import set_stripes
from studio_gui.domain.fibre import MassMark
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.domain.yarn import Stripe
from studio_gui.drawing.changes import changed_span
from studio_gui.drawing.lay_layout import LayLayout, lay_layout
from studio_gui.drawing.lay_screen import LayScreen
from studio_gui.drawing.lay_state import LayState
from studio_gui.drawing.lay_view import LayView
from studio_gui.drawing.look import DARK, LIGHT
from tests.drawing.plans import plain_plan

SIZE = QSizeF(900.0, 480.0)
WHOLE = QRect(0, 0, 900, 480)

pytestmark = pytest.mark.usefixtures("qapp")

#: Of device pixels to px, as desktops offer them.
RATIOS = (1.0, 1.25, 1.5, 1.75, 2.0)


class Screen:
    """A screen and what is on it."""

    def __init__(self, ratio: float = 1.0) -> None:
        self.screen = LayScreen()
        self.image = QImage(round(900 * ratio), round(480 * ratio), QImage.Format.Format_RGB32)
        self.image.setDevicePixelRatio(ratio)
        self.last: LayLayout | None = None

    def show(self, layout: LayLayout, state: LayState | None = None) -> QImage:
        span = None if self.last is None else changed_span(self.last, layout)
        self.screen.wool.follow(layout, self.image.devicePixelRatioF(), span)
        if span is not None:
            self.screen.touch(span)
        self.last = layout
        painter = QPainter(self.image)
        try:
            self.screen.paint(painter, layout, LIGHT, state or LayState(), WHOLE)
        finally:
            painter.end()
        return self.image.copy()


def pixels(image: QImage) -> NDArray[np.int16]:
    return np.frombuffer(image.constBits(), np.uint8).astype(np.int16)


def laid(plan: Plan, view: LayView | None = None) -> LayLayout:
    return lay_layout(worksheet(plan), SIZE, view)


def changed(plan: Plan, data: st.DataObject) -> Plan:
    """Return the plan after one small edit in one place."""
    index = data.draw(st.integers(0, len(plan.sections) - 2))
    what = data.draw(st.sampled_from(["boundary", "liquid", "gap", "wipe", "name", "stripes"]))
    section_id = plan.sections[index].id
    if what == "stripes":
        rows = data.draw(st.lists(st.floats(1.0, 60.0), max_size=4))
        return set_stripes(plan, [Stripe(plan.liquors[0].id, amount) for amount in rows])
    if what == "boundary":
        low, high = boundary_range(plan, index)
        return move_boundary(plan, index, data.draw(st.floats(low, high)))
    if what == "gap":
        low, high = gap_range(plan, index)
        return set_gap(plan, index, data.draw(st.floats(max(low, -0.05), min(high, 0.05))))
    if what == "liquid":
        return change_section(plan, section_id, fixed_ml=data.draw(st.floats(0.0, 300.0)))
    if what == "wipe":
        return change_section(plan, section_id, wiped_ml=data.draw(st.floats(0.0, 20.0)))
    return change_section(plan, section_id, name=data.draw(st.sampled_from(["Reed", "A much longer name"])))


@settings(deadline=None, max_examples=15)
@given(st.sampled_from([2, 5, 12]), st.booleans(), st.data())
def test_tags_on_eased_legs_come_and_go_with_what_changed(
    count: int, close: bool, data: st.DataObject
) -> None:
    view = LayView(900.0, 0.4) if close else None
    plan = plain_plan(count, passes=2, rovings=2, length_m=8.0)
    plan = fold_by_weight(set_fibre(plan, mass_marks=(MassMark(0.5, 0.53),)))
    kept = Screen()
    kept.show(laid(plan, view))
    for _ in range(3):
        plan = changed(plan, data)
        shown = kept.show(laid(plan, view))
    assert np.abs(pixels(shown) - pixels(Screen().show(laid(plan, view)))).max() <= 2


@settings(deadline=None)
@given(st.sampled_from([2, 5, 24, 90]), st.sampled_from(RATIOS), st.booleans(), st.data())
def test_painting_what_changed_is_as_good_as_painting_all(
    count: int, ratio: float, close: bool, data: st.DataObject
) -> None:
    view = LayView(900.0, 0.4) if close else None
    plan = plain_plan(count, passes=2, rovings=2, length_m=8.0)
    kept = Screen(ratio)
    kept.show(laid(plan, view))
    for _ in range(3):
        plan = changed(plan, data)
        shown = kept.show(laid(plan, view))
    whole = Screen(ratio).show(laid(plan, view))
    # a smooth curve that is cut may round differently in the pixels along the cut
    assert np.abs(pixels(shown) - pixels(whole)).max() <= 2


def test_what_is_not_touched_is_not_painted() -> None:
    screen = Screen()
    layout = laid(plain_plan(6))
    before = screen.show(layout, LayState())
    assert screen.show(layout, LayState(selected=frozenset({2}))) == before, "nobody said that it changed"
    screen.screen.touch()
    assert screen.show(layout, LayState(selected=frozenset({2}))) != before


def test_another_palette_is_painted_once_all_is_forgotten() -> None:
    screen, layout = Screen(), laid(plain_plan(6))
    before = screen.show(layout)
    screen.screen.forget()
    painter = QPainter(screen.image)
    try:
        screen.screen.paint(painter, layout, DARK, LayState(), WHOLE)
    finally:
        painter.end()
    assert screen.image != before


def test_a_touch_outside_the_picture_paints_nothing() -> None:
    screen, layout = Screen(), laid(plain_plan(6))
    before = screen.show(layout)
    screen.screen.touch((2000.0, 2100.0))
    assert screen.show(layout) == before
