"""If these fail, a lot that went wrong teaches the wrong limit, or lots that lie are believed."""

from __future__ import annotations

from dataclasses import replace
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.liquid import above
from studio_gui.domain.lots import (
    Bounds,
    Clash,
    Learned,
    Lot,
    Seen,
    learn,
    limit_to_use,
    penetration_to_use,
    uptake_to_use,
)
from studio_gui.domain.ranges import exceeds

WHITE = Lot(50.0, 60.0, 1.0, "white core")  # 1.2 ml/g
RIGHT = Lot(50.0, 80.0, 1.0, "right")  # 1.6 ml/g, 2.6 held
WETTER = Lot(50.0, 100.0, 1.0, "right")  # 2.0 ml/g, 3.0 held
POOLED = Lot(50.0, 125.0, 1.0, "pooled")  # 2.5 ml/g, 3.5 held


@st.composite
def told_truly(draw: st.DrawFn) -> tuple[float, float, list[Lot]]:
    """What a fibre really takes to wet and holds, and lots of it that were seen for what they were."""
    penetration, limit = draw(st.floats(0.5, 2.0)), draw(st.floats(2.5, 5.0))
    lots = []
    for _ in range(draw(st.integers(0, 8))):
        lot = Lot(
            draw(st.floats(1.0, 200.0)), draw(st.floats(0.0, 800.0)), draw(st.floats(0.0, 2.0)), "right"
        )
        lots.append(replace(lot, seen=as_seen(lot, penetration, limit)))
    return penetration, limit, lots


def as_seen(lot: Lot, penetration: float, limit: float) -> Seen:
    """What is seen of a lot when these are the limits; a pool hides a white core."""
    if above(lot.held_ml_per_g, limit):
        return "pooled"
    return "white core" if above(penetration, lot.applied_ml_per_g) else "right"


def test_a_single_lot_gives_one_bound() -> None:
    assert learn([WHITE]) == Learned(penetration=Bounds(low=1.2))
    assert learn([RIGHT]) == Learned(Bounds(high=1.6), Bounds(low=2.6))
    assert learn([POOLED]) == Learned(limit=Bounds(high=3.5))
    assert learn([]) == Learned()


def test_several_lots_narrow_the_bounds_in_any_order() -> None:
    wanted = Learned(Bounds(1.2, 1.6), Bounds(3.0, 3.5))
    for lots in permutations([WHITE, RIGHT, WETTER, POOLED]):
        assert learn(lots) == wanted


def test_lots_that_speak_against_each_other_are_named_and_teach_nothing() -> None:
    dry_but_right = replace(RIGHT, liquid_ml=60.0)  # as much as left a white core elsewhere
    learned = learn([WETTER, WHITE, dry_but_right])
    assert learned.penetration == Bounds()
    assert learned.clashes == (Clash("white core", 1, 2),)
    assert learned.limit == Bounds(low=3.0), "what they do not speak of is still learned"
    pooled_early = replace(POOLED, liquid_ml=90.0)  # 2.8 held, less than came out right
    learned = learn([WETTER, pooled_early])
    assert (learned.limit, learned.clashes) == (Bounds(), (Clash("pooled", 1, 0),))


@given(told_truly())
def test_what_is_true_lies_within_the_bounds(told: tuple[float, float, list[Lot]]) -> None:
    penetration, limit, lots = told
    learned = learn(lots)
    assert learned.clashes == ()
    for bounds, truth in ((learned.penetration, penetration), (learned.limit, limit)):
        assert bounds.low is None or not exceeds(bounds.low, truth)
        assert bounds.high is None or not exceeds(truth, bounds.high)


@given(told_truly(), st.floats(0.0, 4.0), st.floats(0.5, 6.0))
def test_with_the_figures_to_use_every_lot_is_judged_as_it_was_seen(
    told: tuple[float, float, list[Lot]], penetration_now: float, limit_now: float
) -> None:
    _, _, lots = told
    learned = learn(lots)
    penetration = penetration_to_use(learned.penetration, penetration_now)
    limit = limit_to_use(learned.limit, limit_now)
    for lot in lots:
        if penetration is not None and lot.seen == "white core":
            assert above(penetration, lot.applied_ml_per_g)
        if penetration is not None and lot.seen == "right":
            assert not above(penetration, lot.applied_ml_per_g)
        if limit is not None and lot.seen != "white core":
            assert bool(above(lot.held_ml_per_g, limit)) == (lot.seen == "pooled")


@given(told_truly())
def test_another_lot_never_widens_what_is_known(told: tuple[float, float, list[Lot]]) -> None:
    _, _, lots = told
    before, after = learn(lots[:-1]), learn(lots)
    for old, new in ((before.penetration, after.penetration), (before.limit, after.limit)):
        assert old.low is None or (new.low is not None and new.low >= old.low)
        assert old.high is None or (new.high is not None and new.high <= old.high)


@pytest.mark.parametrize(
    ("bounds", "now", "to_use"),
    [
        (Bounds(1.2, 1.6), 1.5, 1.5),
        (Bounds(1.2, 1.6), 1.6, 1.6),
        (Bounds(1.2, 1.6), 1.2, 1.6),
        (Bounds(1.2, 1.6), 2.0, 1.6),
        (Bounds(1.2, None), 1.0, None),
        (Bounds(1.2, None), 1.5, 1.5),
        (Bounds(), 1.5, 1.5),
    ],
)
def test_a_penetration_limit_moves_to_what_wetted(bounds: Bounds, now: float, to_use: float | None) -> None:
    assert penetration_to_use(bounds, now) == to_use


@pytest.mark.parametrize(
    ("bounds", "now", "to_use"),
    [
        (Bounds(3.0, 3.5), 3.2, 3.2),
        (Bounds(3.0, 3.5), 3.0, 3.0),
        (Bounds(3.0, 3.5), 3.5, 3.0),
        (Bounds(3.0, 3.5), 2.0, 3.0),
        (Bounds(None, 3.5), 4.0, None),
        (Bounds(None, 3.5), 3.0, 3.0),
        (Bounds(), 4.0, 4.0),
    ],
)
def test_a_holding_limit_moves_to_what_was_held(bounds: Bounds, now: float, to_use: float | None) -> None:
    assert limit_to_use(bounds, now) == to_use


def test_an_uptake_moves_to_what_came_out_right_on_this_soak() -> None:
    learned = learn([RIGHT, WETTER])
    assert uptake_to_use(learned, 1.0, 2.5) == pytest.approx(2.0)
    assert uptake_to_use(learned, 1.0, 1.8) == 1.8
    assert uptake_to_use(learned, 1.0, 1.0) == 1.6
    assert uptake_to_use(learned, 0.5, 2.5) == pytest.approx(2.5), "spun out, there is room for more"
    assert uptake_to_use(learned, 1.5, 2.5) is None, "soaked wetter, none of these would come out right"
    assert uptake_to_use(learn([WHITE, POOLED]), 1.0, 2.5) is None


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"fibre_g": 0.0}, "out-of-range"),
        ({"liquid_ml": -1.0}, "out-of-range"),
        ({"soak_ml_per_g": 21.0}, "out-of-range"),
        ({"seen": "blue"}, "not-one-of"),
    ],
)
def test_what_is_no_lot_is_refused(changes: dict[str, float], code: str) -> None:
    with pytest.raises(InvalidPlan, match=code):
        replace(RIGHT, **changes)  # type: ignore[arg-type]  # wrong on purpose
