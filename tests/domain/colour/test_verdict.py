"""If these fail, a doubtful sample passes without a word, or a good one is called into question."""

from __future__ import annotations

import pytest

from studio_gui.domain.colour.verdict import Verdict, verdict


@pytest.mark.parametrize(
    ("miss", "alone", "said"),
    [
        (0.5, True, "met"),
        (0.51, True, "whiter fibre"),
        (3.0, True, "whiter fibre"),
        (3.01, True, "missed"),
        (1.5, False, "met"),
        (1.5 + 1e-12, False, "met"),
        (1.51, False, "doubtful"),
        (3.0, False, "doubtful"),
        (3.01, False, "missed"),
    ],
)
def test_limits_belong_to_what_is_within(miss: float, alone: bool, said: Verdict) -> None:
    assert verdict(miss, alone=alone) == said
