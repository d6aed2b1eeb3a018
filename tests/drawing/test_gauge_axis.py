"""If these fail, the scale beside the troughs says another level, or its words run together."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtGui import QPainter

from studio_gui.domain.plan import Liquid
from studio_gui.drawing.gauge_axis import paint_gauge_axis, spread
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.lay_rows import MARGIN_LEFT
from studio_gui.drawing.look import Look
from studio_gui.wording.translation import install_units
from tests.drawing.pictures import Columns, box_of, laid, painted, texts
from tests.drawing.plans import plan_of_states

pytestmark = pytest.mark.usefixtures("qapp")


def axis(painter: QPainter, layout: LayLayout, look: Look, _: Columns) -> None:
    paint_gauge_axis(painter, layout, look)


@pytest.fixture
def _us_units() -> Iterator[None]:
    install_units("us")
    yield
    install_units("metric")


@given(st.lists(st.floats(0.0, 200.0), min_size=1, max_size=6), st.floats(1.0, 30.0))
def test_spread_words_never_touch_and_keep_their_order(wanted: list[float], apart: float) -> None:
    wanted.sort(reverse=True)
    places = spread(wanted, apart)
    assert all(above - below >= apart - 1e-9 for above, below in pairwise(places))
    assert sum(places) == pytest.approx(sum(wanted))
    if all(above - below >= apart for above, below in pairwise(wanted)):
        assert places == pytest.approx(wanted)


def test_the_scale_names_its_levels() -> None:
    assert texts(axis, laid(plan_of_states())) == ["holds 3.00", "core 2.20", "soak 1.00", "ml/g"]


@pytest.mark.usefixtures("_us_units")
def test_the_scale_follows_the_units() -> None:
    said = texts(axis, laid(plan_of_states()))
    assert said[-1] == "US fl oz/oz"
    assert said[0] == "holds 2.88"  # 3.0 ml/g * 28.3495 g/oz / 29.5735 ml/fl oz


@pytest.mark.parametrize(
    "liquid",
    [Liquid(2.0, 1.0, 3.0, 1.2), Liquid(2.0, 2.0, 0.1, 20.0), Liquid(2.0, 0.0, 40.0, 0.0)],
    ids=["usual", "limit below soak", "deep"],
)
@pytest.mark.parametrize("height", [420.0, 700.0])
def test_the_scale_keeps_to_its_margin(liquid: Liquid, height: float) -> None:
    layout = laid(plan_of_states(liquid=liquid), 700.0, height)
    box = box_of(painted(axis, layout, grounded=False))
    assert box.left() >= 2.0
    assert box.right() <= MARGIN_LEFT - 8.0
    assert box.top() >= layout.tape_end.top()
    assert box.bottom() <= layout.figures_top + 10.0
