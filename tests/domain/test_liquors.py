"""If these fail, a liquor stands on two bases at once, or on none."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.liquors import DyeDepth, Liquor, Part
from tests.scenes.scene_plans import by_depth, by_parts

PARTS = by_parts("A", {"B": 12.0, "AW": 38.0})
DEPTH = by_depth("A", {"B": 0.5})


@pytest.mark.parametrize(
    ("liquor", "changes", "code"),
    [
        (PARTS, {"id": ""}, "text-empty"),
        (PARTS, {"letter": ""}, "text-empty"),
        (PARTS, {"letter": "ABCD"}, "text-too-long"),
        (PARTS, {"name": "\n"}, "text-unprintable"),
        (PARTS, {"basis": "taste"}, "not-one-of"),
        (PARTS, {"depths": (DyeDepth("B", 0.5),)}, "depths-on-parts-basis"),
        (PARTS, {"parts": (Part("B", 1.0), Part("B", 2.0))}, "stock-twice"),
        (PARTS, {"parts": tuple(Part(f"k{n}", 1.0) for n in range(31))}, "too-many"),
        (DEPTH, {"parts": ()}, "depth-without-let-down"),
        (DEPTH, {"parts": (Part("AW", 0.0),)}, "depth-without-let-down"),
        (DEPTH, {"parts": (Part("B", 1.0),)}, "stock-twice"),
    ],
)
def test_a_liquor_that_cannot_be_is_refused(liquor: Liquor, changes: dict[str, Any], code: str) -> None:
    with pytest.raises(InvalidPlan) as refusal:
        replace(liquor, **changes)
    assert refusal.value.code == code


def test_amounts_that_cannot_be_are_refused() -> None:
    with pytest.raises(InvalidPlan, match="out-of-range"):
        Part("B", -1.0)
    with pytest.raises(InvalidPlan, match="out-of-range"):
        DyeDepth("B", 101.0)


def test_what_is_in_a_liquor() -> None:
    assert DEPTH.stock_ids == ("B", "AW")
    assert PARTS.total_parts == 50.0
    assert not PARTS.is_empty
    assert by_parts("A", {}).is_empty
    assert by_parts("A", {"B": 0.0}).is_empty
