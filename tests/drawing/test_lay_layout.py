"""If these fail, the pointer takes hold of something else than what is drawn beneath it."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPointF, QSizeF

from studio_gui.domain.edits.inputs import set_lay
from studio_gui.domain.edits.sections import set_locked
from studio_gui.domain.worksheet import worksheet
from studio_gui.drawing.lay_layout import TARGET, LayLayout, lay_layout, pane_of
from studio_gui.drawing.lay_rows import GAUGE_PX_PER_ML_PER_G, PICTURE_STRAND, picture_size
from studio_gui.drawing.lay_view import LayView
from tests.drawing.plans import plain_plan


def laid(count: int = 3, width: float = 1000.0, height: float = 560.0, **how: int) -> LayLayout:
    return lay_layout(worksheet(plain_plan(count, **how)), QSizeF(width, height))


@given(st.floats(0.0, 4.0), st.integers(200, 4000))
def test_metres_to_pixels_and_back(place_m: float, width: int) -> None:
    layout = laid(width=float(width))
    assert layout.lay_m(layout.x(place_m)) == pytest.approx(place_m, abs=1e-9)


@given(st.integers(1, 60))
def test_sections_tile_the_lay_without_gap(count: int) -> None:
    layout = laid(count)
    sections = [item for item in layout.items if item.kind == "section"]
    assert sections[0].rect.left() == pytest.approx(layout.x(0.0))
    assert sections[-1].rect.right() == pytest.approx(layout.x(4.0))
    for before, after in itertools.pairwise(sections):
        assert before.rect.right() == pytest.approx(after.rect.left())


@given(st.integers(2, 60), st.data())
def test_every_boundary_is_hit_on_its_peg_and_every_section_in_its_middle(
    count: int, data: st.DataObject
) -> None:
    layout = laid(count, width=1400.0)
    index = data.draw(st.integers(0, count - 1))
    section = layout.item("section", index)
    assert layout.item_at(section.rect.center()) == section
    if index < count - 1:
        boundary = layout.item("boundary", index)
        assert layout.item_at(boundary.slip.center()) == boundary


def test_boundary_target_is_large_enough() -> None:
    assert laid().item("boundary", 0).rect.width() >= TARGET == 24.0


def test_nothing_is_hit_beside_the_lay() -> None:
    layout = laid()
    assert layout.item_at(QPointF(4.0, 4.0)) is None
    assert layout.item_at(QPointF(layout.x(4.0) + 30.0, layout.film.center().y())) is None


def test_a_boundary_of_a_locked_section_says_so() -> None:
    plan = set_locked(plain_plan(3), ["s1"], locked=True)
    layout = lay_layout(worksheet(plan), QSizeF(1000.0, 560.0))
    assert [item.locked for item in layout.items] == [True, True, False, False, False]


def test_a_folded_roving_has_a_strand_for_each_leg() -> None:
    layout = laid(rovings=2, passes=2)
    assert [(s.roving, s.pass_index, s.turns_after) for s in layout.strands] == [
        (0, 0, True),
        (0, 1, False),
        (1, 0, True),
        (1, 1, False),
    ]
    tops = [strand.rect.top() for strand in layout.strands]
    assert tops == sorted(tops)
    assert layout.strands[-1].rect.bottom() <= layout.film.bottom()


def test_a_shorter_leg_is_drawn_shorter() -> None:
    plan = set_lay(plain_plan(passes=2), fold_positions_m=(2.5,))
    layout = lay_layout(worksheet(plan), QSizeF(1000.0, 560.0))
    long, short = layout.strands
    assert long.rect.right() == pytest.approx(short.rect.right())
    assert (long.rect.width() - short.rect.width()) / layout.px_per_m == pytest.approx(1.0)


def test_one_roving_stands_for_all_where_they_do_not_fit() -> None:
    assert laid(rovings=3).rovings_shown == 3
    assert laid(rovings=40, height=400.0).rovings_shown == 1


def test_a_picture_has_room_for_every_roving_at_full_thickness() -> None:
    sheet = worksheet(plain_plan(rovings=12, passes=2))
    layout = lay_layout(sheet, picture_size(sheet.plan, 1600.0), most_px_per_ml_per_g=GAUGE_PX_PER_ML_PER_G)
    assert layout.rovings_shown == 12
    assert layout.strand_height == pytest.approx(PICTURE_STRAND)


@given(st.integers(2, 200), st.floats(0.0, 1.0), st.floats(0.0, 1.0), st.floats(1.0, 40.0))
def test_any_place_is_hit_by_the_nearest_thing_in_reach(
    count: int, across: float, down: float, closer: float
) -> None:
    layout = laid(count, passes=2)
    view = pane_of(layout).zoomed(LayView(), closer, across * layout.pane.width())
    layout = lay_layout(layout.sheet, layout.size, view)
    point = QPointF(
        layout.pane.left() + across * layout.pane.width(),
        layout.tape_start.top() + down * (layout.film.bottom() - layout.tape_start.top()),
    )
    item = layout.item_at(point)
    near = min(abs(x - point.x()) for x in layout.edges_x[1:-1])
    if item is None:
        on_lay = layout.edges_x[0] <= point.x() <= layout.edges_x[-1]
        assert not on_lay or point.y() < layout.film.top(), "wool that cannot be taken"
    elif item.kind == "section":
        assert item.rect.left() - 1e-6 <= point.x() <= item.rect.right() + 1e-6
    elif item.kind == "boundary":
        assert abs(item.rect.center().x() - point.x()) == pytest.approx(near, abs=1e-9)
        assert near <= TARGET / 2.0
    else:
        assert item.kind == "fold"
        assert item.rect.contains(point)


@given(st.integers(2, 60), st.data())
def test_a_gap_has_its_grip_beneath_the_film(count: int, data: st.DataObject) -> None:
    layout = laid(count, width=1400.0)
    gap = layout.item("gap", data.draw(st.integers(0, count - 2)))
    assert layout.item_at(gap.slip.center()) == gap
    assert gap.rect.width() >= TARGET
    assert gap.rect.height() >= TARGET


def test_a_fold_is_hit_at_the_turns() -> None:
    layout = laid(3, passes=3)
    for index in (0, 1):
        fold = layout.item("fold", index)
        assert layout.item_at(fold.slip.center()) == fold
    assert layout.item("fold", 0).rect.center().x() > layout.x(4.0 / 3.0) - TARGET
    assert layout.item("fold", 1).rect.center().x() < layout.x(0.0) + TARGET
    assert [item.kind for item in layout.items].count("fold") == 2


@given(st.integers(1, 200), st.floats(-500.0, 1500.0), st.floats(0.0, 900.0))
def test_sections_within_are_those_that_show(count: int, left: float, width: float) -> None:
    layout = laid(count)
    shown = [
        index
        for index in range(count)
        if layout.edges_x[index] < left + width and layout.edges_x[index + 1] > left
    ]
    assert [index for index in layout.sections_within(left, left + width) if index in shown] == shown


@pytest.mark.parametrize("length_m", [0.5, 30.0])
@pytest.mark.parametrize("height", [300.0, 520.0, 1200.0])
def test_everything_has_its_place_from_top_to_bottom(length_m: float, height: float) -> None:
    sheet = worksheet(plain_plan(100, rovings=20, passes=4, length_m=length_m))
    layout = lay_layout(sheet, QSizeF(700.0, height))
    tops = [layout.tape_start.top(), layout.film.top(), layout.tape_end.top(), layout.gauge.top()]
    assert tops == sorted(tops)
    assert layout.gauge.height() >= 40.0
    assert layout.strand_height >= 4.0
