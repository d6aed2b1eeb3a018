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
    assert -180.0 <= there.hue_turn_deg <= 180.0
    assert abs(there.hue_turn_deg) == pytest.approx(abs(back.hue_turn_deg))
