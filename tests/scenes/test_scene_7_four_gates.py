"""If these fail, a fractal yarn is not what its strips make of it: "Four Gates"."""

from __future__ import annotations

import pytest

from studio_gui.domain.worksheet import worksheet
from studio_gui.domain.yarn import Strip
from tests.scenes.scene_plans import four_gates

SINGLES = {
    "AA": 31.25, "AB": 25.0, "AC": 37.5, "AD": 31.25,
    "BA": 31.25, "BB": 25.0, "BC": 37.5, "BD": 6.25,
    "CA": 31.25, "CB": 25.0, "CC": 37.5, "CD": 56.25,
    "DA": 31.25, "DB": 25.0, "DC": 37.5, "DD": 31.25,
}  # fmt: skip


def test_runs_of_both_plies() -> None:
    yarn = worksheet(four_gates(*[Strip()] * 4)).yarn
    assert [one.length_m for one in yarn.strands] == pytest.approx([500.0, 500.0])
    assert [run.length_m for run in yarn.strand_runs(0)] == pytest.approx([125.0, 100.0, 150.0, 125.0])
    assert [run.length_m for run in yarn.strand_runs(1)] == pytest.approx([31.25, 25.0, 37.5, 31.25] * 4)


def test_metres_of_every_pair() -> None:
    plan = four_gates(*[Strip()] * 4)
    pairs = {
        "".join(plan.liquors[liquor].letter for liquor in pair.liquors): pair
        for pair in worksheet(plan).yarn.pairs
    }
    assert {name: pair.laid_m for name, pair in pairs.items()} == pytest.approx(SINGLES, abs=0.05)
    assert all(pair.solid == (name[0] == name[1]) for name, pair in pairs.items())


def test_solid_yarn_after_take_up() -> None:
    yarn = worksheet(four_gates(*[Strip()] * 4)).yarn
    assert (yarn.plied_m, yarn.solid_m, yarn.solid_share) == pytest.approx((475.0, 118.75, 0.25))
    assert yarn.leftover_m == (0.0, 0.0)


@pytest.mark.parametrize(("strips", "solid_m"), [(1, 500.0), (2, 137.5), (3, 150.0), (4, 125.0)])
def test_more_strips_are_not_simply_less_solid(strips: int, solid_m: float) -> None:
    assert worksheet(four_gates(*[Strip()] * strips)).yarn.solid_laid_m == pytest.approx(solid_m, abs=0.05)


def test_strips_by_eye_drift_and_change_what_is_solid() -> None:
    yarn = worksheet(four_gates(*(Strip(grams) for grams in (14.0, 12.0, 13.0, 11.0)))).yarn
    assert yarn.strands[1].piece_ends_m.tolist() == pytest.approx([0.0, 140.0, 260.0, 390.0, 500.0])
    assert (yarn.solid_laid_m, yarn.solid_share) == pytest.approx((145.5, 0.291), abs=0.0005)


def test_a_flipped_strip_is_spun_from_its_other_end() -> None:
    plan = four_gates(Strip(), Strip(flipped=True))
    runs = worksheet(plan).yarn.strand_runs(1)
    assert [plan.liquors[run.liquor].letter for run in runs] == ["A", "B", "C", "D", "C", "B", "A"]
    assert [run.length_m for run in runs] == pytest.approx([62.5, 50.0, 75.0, 125.0, 75.0, 50.0, 62.5])


@pytest.mark.parametrize("strips", [(14.0, 12.0, 13.0, 11.0), (1.0,) * 4, (1.0,)])
def test_the_yarn_has_the_colours_of_the_strip(strips: tuple[float, ...]) -> None:
    plan = four_gates(*(Strip(weight) for weight in strips))
    shares = dict.fromkeys(range(4), 0.0)
    for pair in worksheet(plan).yarn.pairs:
        for liquor in pair.liquors:
            shares[liquor] += pair.laid_m / 1000.0
    assert list(shares.values()) == pytest.approx([0.25, 0.20, 0.30, 0.25])
