"""If these fail, a clean edge is called muddy, or mud passes."""

from __future__ import annotations

import numpy as np
import pytest

from studio_gui.domain.colour.mud import CHROMA_KEPT, LEAST_LOSS, is_muddy, muddiness
from tests.domain.colour.dyes import palette


@pytest.mark.parametrize(
    ("first", "second", "muddy"),
    [
        ("orange", "reddish blue", True),
        ("green", "red", True),
        ("brick", "blue", True),
        ("lemon", "greenish blue", False),
        ("red", "orange", False),
        ("red", "violet", False),
        ("black", "olive", False),
    ],
)
def test_pairs_of_invented_dyes_behave_as_painters_know_them(first: str, second: str, muddy: bool) -> None:
    dyes = palette(first, second)
    assert bool(muddiness(dyes, np.array([1.0, 0.0]), np.array([0.0, 1.0]))[2]) is muddy


def test_it_is_the_same_both_ways_and_the_limits_are_what_they_say() -> None:
    dyes, one, other = palette("orange", "blue"), np.array([1.0, 0.2]), np.array([0.0, 0.8])
    assert muddiness(dyes, one, other)[:2] == pytest.approx(muddiness(dyes, other, one)[:2])
    duller = np.array(2.0 * LEAST_LOSS)
    assert is_muddy(duller - LEAST_LOSS - 0.01, duller)
    assert not is_muddy(duller - LEAST_LOSS + 0.01, duller)
    assert not is_muddy(np.array(100.0 * CHROMA_KEPT), np.array(100.0))
