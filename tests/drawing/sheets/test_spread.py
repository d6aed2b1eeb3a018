"""If these fail, labels under or above a lay are printed over each other or off the sheet."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.drawing.sheets.spread import spread

places = st.lists(st.floats(0.0, 280.0), min_size=1, max_size=12).map(sorted)


@given(places, st.data())
def test_labels_keep_apart_in_their_order_and_on_the_sheet(wanted: list[float], data: st.DataObject) -> None:
    widths = data.draw(st.lists(st.floats(5.0, 20.0), min_size=len(wanted), max_size=len(wanted)))
    middles = spread(wanted, widths, 0.0, 280.0, 2.0)
    for (one, left), (other, right) in pairwise(zip(middles, widths, strict=True)):
        assert other - one >= (left + right) / 2.0 + 2.0 - 1e-9
    assert middles[0] - widths[0] / 2.0 >= -1e-9
    assert middles[-1] + widths[-1] / 2.0 <= 280.0 + 1e-9


def test_labels_with_room_stay_where_they_belong() -> None:
    assert spread((20.0, 60.0, 100.0), (10.0, 10.0, 10.0), 0.0, 200.0, 2.0) == [20.0, 60.0, 100.0]


def test_labels_that_collide_give_way_alike() -> None:
    assert spread((50.0, 50.0), (10.0, 10.0), 0.0, 200.0, 2.0) == pytest.approx([44.0, 56.0])


def test_nothing_is_spread_to_nothing() -> None:
    assert spread((), (), 0.0, 100.0, 2.0) == []


def test_what_has_no_room_at_all_keeps_apart_beyond_the_end() -> None:
    assert spread((5.0, 6.0), (30.0, 30.0), 0.0, 40.0, 0.0) == [15.0, 45.0]
