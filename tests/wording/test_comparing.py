"""If these fail, a difference of colours is told the wrong way round, or where there is none."""

from __future__ import annotations

import pytest

from studio_gui.domain.colour.compare import compare
from studio_gui.domain.comparing import plan_colours
from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.wording.comparing import colour_name, difference_line, directions_line
from studio_gui.wording.translation import ENGLISH


@pytest.mark.parametrize(
    ("second", "looks", "direction"),
    [
        ("#336699", "one colour to most eyes", "The second is the same."),
        ("#3a6d9f", "close", "lighter"),
        ("#99bbdd", "clearly two colours", "lighter"),
        ("#112233", "clearly two colours", "darker"),
        ("#996633", "clearly two colours", "hue"),
        ("#666666", "clearly two colours", "duller"),
        ("#0066cc", "clearly two colours", "more vivid"),
    ],
)
def test_a_difference_is_told_as_an_eye_sees_it(second: str, looks: str, direction: str) -> None:
    comparison = compare("#336699", second)
    assert looks in difference_line(comparison, ENGLISH)
    assert direction in directions_line(comparison, ENGLISH)


def test_every_colour_of_a_plan_has_a_name_of_its_own() -> None:
    plan = new_plan()
    names = [colour_name(colour, plan, ENGLISH) for colour in plan_colours(worksheet(plan))]
    assert len(set(names)) == len(names)
    assert names[-1] == "Undyed fibre"
    assert any(name.startswith("Swatch of ") and name.endswith("1 %") for name in names)
