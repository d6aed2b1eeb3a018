"""If these fail, a bottle stands on the shelf that contradicts itself."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.errors import InvalidPlan
from tests.scenes.scene_plans import WOOL, dye, let_down


@pytest.mark.parametrize(
    ("changes", "code", "field"),
    [
        ({"id": " "}, "text-empty", "stock_id"),
        ({"name": ""}, "text-empty", "stock_name"),
        ({"role": "mordant"}, "not-one-of", "role"),
        ({"strength_known": "guessed"}, "not-one-of", "strength_known"),
        ({"strength_g_per_l": 0.0}, "out-of-range", "strength_g_per_l"),
        ({"take_up_pct_owf": 0.0}, "out-of-range", "take_up_pct_owf"),
        ({"acid_g_per_l": -1.0}, "out-of-range", "acid_g_per_l"),
        ({"swatches": ()}, "dye-without-swatch", "swatches"),
        ({"swatches": (Swatch(1.0, "#2a5d8f", WOOL),) * 51}, "too-many", "swatches"),
    ],
)
def test_a_dye_that_cannot_be_is_refused(changes: dict[str, Any], code: str, field: str) -> None:
    with pytest.raises(InvalidPlan) as refusal:
        replace(dye("k1"), **changes)
    assert (refusal.value.code, refusal.value.params["field"]) == (code, field)


@pytest.mark.parametrize(
    "changes",
    [
        {"strength_g_per_l": 10.0},
        {"swatches": (Swatch(1.0, "#2a5d8f", WOOL),)},
        {"is_fluorescent": True},
    ],
)
def test_a_let_down_holds_no_dye(changes: dict[str, Any]) -> None:
    with pytest.raises(InvalidPlan, match="let-down-with-dye"):
        replace(let_down("AW"), **changes)


def test_unknown_acid_is_not_none() -> None:
    assert let_down("AW", None) != let_down("AW", 0.0)


def test_ten_grams_per_litre_are_one_per_cent() -> None:
    assert dye("k1", 1.5).strength_pct == pytest.approx(1.5)
    assert dye("k1").is_dye
    assert not let_down("AW").is_dye
