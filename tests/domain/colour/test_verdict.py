"""If these fail, a doubtful sample passes without a word, or a good one is called into question."""

from __future__ import annotations

import pytest

from studio_gui.domain.colour.verdict import Verdict, verdicts


@pytest.mark.parametrize(
    ("misses", "odd_one", "said"),
    [
        ([0.5], None, ["met"]),
        ([0.51], None, ["whiter fibre"]),
        ([3.0], None, ["whiter fibre"]),
        ([3.01], None, ["missed"]),
        ([1.5, 1.5], None, ["met", "met"]),
        ([0.1, 1.51], None, ["one of two", "one of two"]),
        ([9.0, 9.0], None, ["one of two", "one of two"]),
        ([1.5, 1.5 + 1e-12, 0.0], 1, ["met", "met", "met"]),
        ([1.4, 1.51, 0.0], 1, ["met", "doubtful", "met"]),
        ([1.4, 3.0, 0.0], 1, ["met", "doubtful", "met"]),
        ([1.6, 3.01, 0.0], 1, ["led astray", "missed", "met"]),
        ([4.0, 3.01, 0.0], None, ["at odds", "at odds", "met"]),
        ([1.6, 1.4, 0.0], 1, ["at odds", "met", "met"]),
    ],
)
def test_limits_belong_to_what_is_within_and_only_the_odd_one_is_blamed(
    misses: list[float], odd_one: int | None, said: list[Verdict]
) -> None:
    assert list(verdicts(misses, odd_one)) == said


def test_more_blue_light_than_the_fibre_gives_is_asked_about_first() -> None:
    assert verdicts([0.6, 9.0], None, [True, False]) == ("whiter fibre", "one of two")
    assert verdicts([0.5], None, [True]) == ("met",)
