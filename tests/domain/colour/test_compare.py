"""If these fail, two colours are said to differ otherwise than they do."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.colour.compare import compare
from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.spaces import lab_from_hex

colours = st.integers(0, 0xFFFFFF).map(lambda code: f"#{code:06x}")


def test_black_and_white_differ_in_lightness_alone() -> None:
    there = compare("#000000", "#ffffff")
    assert there.lighter == pytest.approx(100.0)
    assert there.more_vivid == pytest.approx(0.0, abs=1e-6)
    assert there.grade == "1"


@given(colours, colours)
def test_the_other_way_round_every_direction_turns(first: str, second: str) -> None:
    there, back = compare(first, second), compare(second, first)
    assert there.difference == pytest.approx(back.difference)
    assert there.difference == pytest.approx(float(ciede2000(lab_from_hex(first), lab_from_hex(second))))
    assert (there.lighter, there.more_vivid) == (-back.lighter, -back.more_vivid)
    assert there.grade == back.grade
    assert (there.hue_turn_deg is None) == (back.hue_turn_deg is None)
    if there.hue_turn_deg is not None and back.hue_turn_deg is not None:
        assert -180.0 <= there.hue_turn_deg <= 180.0
        assert abs(there.hue_turn_deg) == pytest.approx(abs(back.hue_turn_deg))


@pytest.mark.parametrize(
    ("first", "second"), [("#808080", "#404040"), ("#808080", "#818080"), ("#a03030", "#808080")]
)
def test_a_grey_has_no_hue_to_be_away_from(first: str, second: str) -> None:
    assert compare(first, second).hue_turn_deg is None


def test_two_hues_are_told_apart_by_their_turn() -> None:
    assert compare("#a03030", "#30a030").hue_turn_deg == pytest.approx(112.0, abs=5.0)
