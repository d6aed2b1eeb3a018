"""If these fail, strip and yarn are not where they are pointed at, or a section is lit where it is not."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPointF, QSizeF

from studio_gui.domain.edits.boundaries import boundary_range, move_boundary
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.plies import strands_twisted
from studio_gui.domain.spinning.simulation import simulate
from studio_gui.domain.worksheet import worksheet
from studio_gui.domain.yarn import Yarn
from studio_gui.drawing.lay_view import LayView
from studio_gui.drawing.strip_and_yarn import lit_on_yarn, map_runs, row_word_boxes
from studio_gui.drawing.yarn_colours import LayColours
from studio_gui.drawing.yarn_layout import YarnLayout, yarn_layout
from tests.scenes.scene_plans import two_shores
from tests.strategies import plans

SIZE = QSizeF(900.0, 190.0)


def broken() -> Plan:
    return replace(two_shores(), yarn=Yarn(structure="broken at the fold"))


def laid(plan: Plan, view: LayView | None = None) -> YarnLayout:
    return yarn_layout(worksheet(plan), SIZE, view)


@pytest.mark.parametrize("size", [(900, 190), (400, 132), (1400, 400), (60, 20)])
def test_rows_lie_beneath_one_another(size: tuple[int, int]) -> None:
    layout = yarn_layout(worksheet(broken()), QSizeF(*size))
    rows = [layout.strip, layout.letters, layout.yarn, layout.map, layout.names, layout.line]
    for above, below in pairwise(rows):
        assert above.bottom() <= below.top() + 1e-9
    if size[1] >= 132:
        assert layout.line.bottom() <= size[1] + 1.0


@given(st.floats(104.0, 400.0), st.floats(10.0, 34.0), st.floats(8.0, 30.0))
def test_names_and_figures_of_rows_touch_nowhere(height: float, name: float, figure: float) -> None:
    layout = yarn_layout(worksheet(broken()), QSizeF(900.0, height))
    boxes = [box for row in row_word_boxes(layout, name, figure) for box in row if box is not None]
    assert len(boxes) == (6 if 3.0 * (name + figure) <= height else 3)
    assert all(above.bottom() <= below.top() + 1e-6 for above, below in pairwise(boxes))
    assert boxes[0].top() >= -1e-6
    assert boxes[-1].bottom() <= height + 1e-6


def test_in_a_high_pane_names_stand_beside_their_rows() -> None:
    layout = laid(broken())
    (name, figure), *_ = row_word_boxes(layout, 16.0, 15.0)
    assert figure is not None
    assert (name.top() + figure.bottom()) / 2.0 == pytest.approx(layout.strip.center().y())


def test_a_point_on_the_strip_is_in_its_section() -> None:
    layout = laid(broken())
    found = [
        layout.section_at(QPointF(layout.strip_x(place), layout.strip.center().y()))
        for place in (0.3, 0.8, 3.0, 5.9)
    ]
    assert found == [0, 1, 4, 0]
    assert layout.section_at(QPointF(2.0, 30.0)) is None


def test_a_point_on_the_yarn_is_in_its_run() -> None:
    layout = laid(broken())
    run = layout.run_at(QPointF(layout.yarn_x(10.0), layout.map.center().y()))
    assert run is not None
    assert (run.start_m, run.solid) == (0.0, True)
    assert layout.run_at(QPointF(layout.yarn_x(10.0), layout.strip.center().y())) is None


@given(plans(), st.floats(0.0, 1.0), st.floats(1.0, 400.0))
def test_pixels_and_metres_invert_in_any_view(plan: Plan, share: float, factor: float) -> None:
    layout = laid(plan)
    closer = yarn_layout(layout.sheet, SIZE, layout.pane.zoomed(layout.view, factor, share * 500.0))
    x = closer.yarn.left() + share * closer.yarn.width()
    assert closer.yarn_x(closer.plied_m(x)) == pytest.approx(x, abs=1e-3)
    places = closer.laid_m(40)
    assert np.all(np.diff(places) >= 0.0)
    assert places.min() >= 0.0
    assert places.max() <= closer.sheet.yarn.laid_m


@given(plans())
def test_colours_are_those_of_the_lay_for_every_strand(plan: Plan) -> None:
    layout = laid(plan)
    colours = LayColours(layout.sheet)
    along = colours.along_yarn(layout.laid_m(30))
    assert along.shape == (strands_twisted(plan), 30, 3)
    known = {tuple(rgb) for rgb in colours.linear.tolist()}
    assert {tuple(rgb) for rgb in along.reshape(-1, 3).tolist()} <= known
    assert colours.along_strip(25).shape == (25, 3)


@given(plans(), plans(), st.floats(0.0, 1.0))
def test_colours_made_of_those_before_are_those_made_anew(plan: Plan, other: Plan, share: float) -> None:
    moved = plan
    with suppress(EditRefused, IndexError):  # locked, or one section alone
        low, high = boundary_range(plan, 0)
        moved = move_boundary(plan, 0, low + share * (high - low))
    for after in (moved, other):
        sheet = worksheet(after)
        colours = LayColours(sheet, LayColours(worksheet(plan)))
        assert colours.linear == pytest.approx(LayColours(sheet).linear, abs=1e-9)


def test_a_section_is_lit_wherever_it_is_in_the_yarn() -> None:
    layout = laid(broken())
    spans = lit_on_yarn(layout, 2)  # C is from 100 to 180 cm of 300 on both bobbins
    assert len(spans) == 1
    yarn = layout.yarn
    assert (spans[0][0] - yarn.left()) / yarn.width() == pytest.approx(1.0 / 3.0)
    assert (spans[0][1] - yarn.left()) / yarn.width() == pytest.approx(0.6)
    from_both_ends = replace(broken(), yarn=Yarn(structure="single"))
    assert len(lit_on_yarn(laid(from_both_ends), 2)) == 2


def test_the_map_names_runs_by_their_letters() -> None:
    layout = laid(broken())
    assert [run.letters for run in map_runs(layout.sheet, layout.runs_in_sight)] == [
        (letter, letter) for letter in "ABCDE"
    ]


def test_a_yarn_spun_unevenly_is_shown_in_place_of_the_even_one() -> None:
    sheet = worksheet(broken())
    spun = simulate(sheet.yarn, 0.3).typical
    layout = yarn_layout(sheet, SIZE, spun=spun)
    assert layout.runs_in_sight == spun.runs
    assert not all(run.solid for run in spun.runs), "this spread slides colours apart"
    assert layout.yarn_x(spun.plied_m) == pytest.approx(layout.yarn.right())
    assert layout.laid_m(40).max() <= spun.laid_m
    spans = lit_on_yarn(layout, 2)
    assert spans != lit_on_yarn(yarn_layout(sheet, SIZE), 2)
    first, second = LayColours(sheet).along_yarn(layout.laid_m(900), spun)
    apart = np.any(first != second, axis=1).mean()
    assert apart == pytest.approx(1.0 - spun.solid_share, abs=0.05), "the yarn shows what its map tells"
