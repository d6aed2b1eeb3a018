"""If these fail, an old recipe comes out in another shade from today's bottles: "Bramble"."""

from __future__ import annotations

import pytest

from studio_gui.domain.dye import depth_pct_owf, spoon_strength, stock_ml
from studio_gui.domain.edits.liquors import set_depths
from studio_gui.domain.edits.stocks import change_stock, change_strength_keeping_depth
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from tests.scenes.scene_plans import bramble, ink


def amounts_ml(plan: Plan) -> dict[str, float]:
    (amounts,) = worksheet(plan).figures.amounts_ml.tolist()
    return dict(zip((stock.id for stock in plan.stocks), amounts, strict=True))


def todays_shelf() -> Plan:
    plan = change_strength_keeping_depth(bramble(), "Red", 20.0)
    return change_strength_keeping_depth(plan, "Blue", 5.0)


def test_the_old_sheet_reads_as_it_was_written() -> None:
    assert amounts_ml(bramble()) == pytest.approx({"Red": 60.0, "Blue": 24.0, "Water": 86.0}, abs=0.05)
    assert worksheet(bramble()).figures.applied_ml_per_g.tolist() == pytest.approx([1.499], abs=0.0005)


def test_amounts_follow_todays_strengths_and_the_jar_keeps_its_volume() -> None:
    assert amounts_ml(todays_shelf()) == pytest.approx({"Red": 30.0, "Blue": 48.0, "Water": 92.0}, abs=0.05)
    assert sum(amounts_ml(todays_shelf()).values()) == pytest.approx(170.0)


@pytest.mark.parametrize("plan", [bramble(), todays_shelf()], ids=["old", "today"])
def test_the_depth_does_not_move(plan: Plan) -> None:
    (depths,) = worksheet(plan).figures.depth_pct_owf.tolist()
    assert depths == pytest.approx([0.529, 0.212], abs=0.0005)
    assert sum(depths) == pytest.approx(0.741, abs=0.0005)


def test_ink_is_impossible_from_a_1_pct_stock_and_the_refusal_says_what_to_change() -> None:
    with pytest.raises(EditRefused) as refusal:
        set_depths(ink(1.0), "I", {"Ink": 3.0})
    assert refusal.value.code == "depth-unreachable"
    told = refusal.value.params
    assert told["wanted_pct_owf"] == pytest.approx(3.0)
    assert told["reach_pct_owf"] == pytest.approx(1.5)
    assert (told["stock"], told["strength_g_per_l"]) == ("Ink", 10.0)
    assert told["needed_strength_g_per_l"] == pytest.approx(20.0)
    assert told["applied_ml_per_g"] == pytest.approx(1.5)
    assert told["needed_ml_per_g"] == pytest.approx(3.0)


def test_ink_from_a_2_pct_stock_is_neat_and_warned_of() -> None:
    sheet = worksheet(set_depths(ink(2.0), "I", {"Ink": 3.0}))
    assert sheet.figures.amounts_ml.tolist() == [pytest.approx([150.0, 0.0])]
    assert ("no-room-for-let-down", "warning") in [(check.code, check.severity) for check in sheet.checks]


def test_ink_from_a_4_pct_stock_is_half_stock_half_acid_water() -> None:
    sheet = worksheet(set_depths(ink(4.0), "I", {"Ink": 3.0}))
    assert sheet.figures.amounts_ml.tolist() == [pytest.approx([75.0, 75.0])]
    assert sheet.figures.depth_pct_owf.tolist() == [pytest.approx([3.0])]
    assert not [
        check for check in sheet.checks if check.code in ("no-room-for-let-down", "depth-out-of-reach")
    ]


def test_a_mislabelled_bottle() -> None:
    # 15 g/L labelled "1 %" is 1.5 %
    assert stock_ml(1100.0, 2.0, 1.5) == pytest.approx(1466.7, abs=0.05)
    assert stock_ml(1100.0, 2.0, 1.0) == pytest.approx(2200.0)
    assert depth_pct_owf(2200.0, 1.5, 1100.0) == pytest.approx(3.0)


def test_a_stock_by_spoon_is_flagged_until_weighed() -> None:
    spoon = spoon_strength(3.8, 4.9, 240.0)
    assert spoon.low_pct == pytest.approx(1.58, abs=0.005)
    assert spoon.high_pct == pytest.approx(2.04, abs=0.005)
    assert spoon.middle_pct == pytest.approx(1.81, abs=0.005)
    assert 100.0 * spoon.spread_share == pytest.approx(13.0, abs=0.5)
    by_spoon = change_stock(
        bramble(), "Red", strength_g_per_l=10.0 * spoon.middle_pct, strength_known="spoon"
    )
    assert "strength-by-spoon" in [check.code for check in worksheet(by_spoon).checks]
    weighed = change_stock(by_spoon, "Red", strength_known="weighed")
    assert "strength-by-spoon" not in [check.code for check in worksheet(weighed).checks]
