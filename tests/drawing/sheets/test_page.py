"""A sheet as data: boxes that overlap or lie outside are told."""

from hypothesis import given
from hypothesis import strategies as st

from studio_gui.drawing.sheets.page import Box

sides = st.floats(0.1, 300.0)
places = st.floats(-300.0, 300.0)
boxes = st.builds(Box, places, places, sides, sides)


@given(boxes, boxes)
def test_overlapping_is_mutual_and_what_holds_a_box_overlaps_it(one: Box, other: Box) -> None:
    assert one.overlaps(other) == other.overlaps(one)
    if one.holds(other):
        assert one.overlaps(other)


def test_boxes_side_by_side_do_not_overlap() -> None:
    assert not Box(0.0, 0.0, 10.0, 5.0).overlaps(Box(0.0, 5.0, 10.0, 5.0))
    assert Box(0.0, 0.0, 10.0, 5.0).overlaps(Box(9.0, 4.0, 10.0, 5.0))


def test_a_box_outside_by_a_hair_is_not_held() -> None:
    assert Box(0.0, 0.0, 10.0, 5.0).holds(Box(1.0, 1.0, 9.0, 4.0))
    assert not Box(0.0, 0.0, 10.0, 5.0).holds(Box(1.0, 1.0, 9.01, 4.0))
