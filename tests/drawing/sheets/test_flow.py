"""If these fail, words of a print are lost, cut, or run out of their column."""

from collections.abc import Iterator
from itertools import count

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtWidgets import QApplication

from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.sheets.flow import Entry, flowed
from studio_gui.drawing.sheets.page import Box, Frame, Mark, Page, Words
from tests.drawing.sheets.misfits import misfits

PAPER = Box(0.0, 0.0, 200.0, 120.0)


@pytest.fixture(autouse=True, scope="module")
def _font(qapp: QApplication) -> Iterator[None]:
    assert isinstance(qapp, QApplication)
    with lent_font():
        yield


def _columns() -> Iterator[tuple[int, Box]]:
    for page in count():
        yield page, Box(10.0, 10.0, 80.0, 100.0)
        yield page, Box(100.0, 10.0, 80.0, 100.0)


def _said(marks: list[Mark]) -> str:
    return "".join(line for mark in marks if isinstance(mark, Words) for line in mark.lines).replace(" ", "")


words = st.text(st.sampled_from("abM iW é"), max_size=60)


@given(st.lists(st.builds(Entry, words, st.text("0123 m·%", max_size=30)), max_size=60), st.floats(9.0, 14.0))
def test_no_word_is_lost_and_none_leaves_its_column(entries: list[Entry], text_pt: float) -> None:
    found = flowed(entries, _columns(), text_pt)
    everything = "".join(_said(marks) for _, marks in sorted(found.items()))
    assert everything == "".join(f"{entry.words}{entry.figure}" for entry in entries).replace(" ", "")
    for marks in found.values():
        assert misfits(Page(PAPER, tuple(marks), "flow")) == []
        assert all(mark.box.bottom <= 110.0 + 1e-6 for mark in marks if isinstance(mark, Words))


def test_a_heading_goes_on_with_what_it_is_over() -> None:
    lines = [Entry(f"line {number}") for number in range(17)]
    found = flowed([*lines, Entry("Heading", is_heading=True), Entry("more")], _columns(), 12.0)
    heading, more = (
        next(mark.box for mark in found[0] if isinstance(mark, Words) and mark.lines == (said,))
        for said in ("Heading", "more")
    )
    assert heading.x == more.x == 100.0


def test_a_figure_stands_at_the_right_or_beneath_where_it_is_wide() -> None:
    short, long = (
        Entry("Solid", "30.0 %"),
        Entry("All changes mix", "380.0 cm, 570.0 cm at worst, before take-up"),
    )
    boxes = [mark.box for mark in flowed([short, long], _columns(), 12.0)[0] if isinstance(mark, Words)]
    assert boxes[0].y == boxes[1].y
    assert boxes[1].right == pytest.approx(90.0)
    assert boxes[3].y >= boxes[2].bottom - 1e-6


def test_a_chip_has_every_colour_in_order() -> None:
    marks = flowed([Entry("A/B", colours=("#aa0000", "#00aa00"))], _columns(), 12.0)[0]
    fills = [mark for mark in marks if isinstance(mark, Frame) and mark.fill]
    assert [mark.fill for mark in fills] == ["#aa0000", "#00aa00"]
    assert fills[0].box.right == pytest.approx(fills[1].box.x)
