"""If these fail, labels of a print run into each other or into lines."""

from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtWidgets import QApplication

from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.sheets.lane import Lane
from studio_gui.drawing.sheets.page import Box, Words

BOX = Box(10.0, 20.0, 100.0, 8.0)


@pytest.fixture(autouse=True, scope="module")
def _font(qapp: QApplication) -> Iterator[None]:
    assert isinstance(qapp, QApplication)
    with lent_font():
        yield


@given(st.lists(st.tuples(st.floats(10.0, 110.0), st.text("0123.", max_size=6)), max_size=20))
def test_labels_touch_neither_each_other_nor_lines(wanted: list[tuple[float, str]]) -> None:
    lane = Lane(BOX, [x for x, _ in wanted])
    tried = [lane.beside(x, words, (18.0, 10.0)) for x, words in wanted]
    written = [words for words in tried if words is not None]
    for number, one in enumerate(written):
        assert BOX.holds(one.box)
        assert not any(one.box.overlaps(other.box) for other in written[:number])
        assert not any(one.box.x + 1e-6 < x < one.box.right - 1e-6 for x, _ in wanted)


def test_a_label_stands_right_of_its_line_and_left_of_it_at_the_end() -> None:
    lane = Lane(BOX)
    first, last = lane.beside(10.0, "0.0", (18.0,)), lane.beside(110.0, "320.0", (18.0,))
    assert isinstance(first, Words)
    assert isinstance(last, Words)
    assert (first.align, last.align) == ("left", "right")
    assert 10.0 < first.box.x < 12.0
    assert 108.0 < last.box.right < 110.0


def test_a_label_is_smaller_between_lines_that_are_close_and_left_out_where_they_are_closer() -> None:
    close, closer = Lane(BOX, (10.0, 50.0, 60.0)), Lane(BOX, (47.0, 50.0, 53.0))
    small = close.beside(50.0, "99.5", (18.0, 10.0), sides=("left",))
    assert isinstance(small, Words)
    assert small.size_pt == 10.0
    assert closer.beside(50.0, "99.5", (18.0, 10.0)) is None


def test_room_that_is_kept_is_neither_written_on_nor_kept_again() -> None:
    lane = Lane(BOX)
    assert lane.keeps(40.0, 60.0)
    assert not lane.keeps(55.0, 70.0)
    assert lane.about(50.0, "A", 10.0) is None
    assert lane.about(80.0, "A", 10.0) is not None
    assert not lane.keeps(105.0, 120.0)
