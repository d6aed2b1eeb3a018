"""If these fail, a wanted colour is missed although the bottles on the shelf reach it."""

from __future__ import annotations

import numpy as np
import pytest

from studio_gui.domain.colour.deliverable import Measuring
from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.matching import MOST_BOTTLES, WORTH_A_BOTTLE, match_colour
from tests.domain.colour.dyes import COLOURS, jars, palette

ALL = palette(*COLOURS)
TWELVE = jars(1, (1.0,) * 12)


def test_known_mixes_come_back_before_rounding_and_no_single_dye_does_better() -> None:
    generator = np.random.default_rng(1931)
    amounts = np.arange(0.0, 51.0)
    for _ in range(200):
        dyes = int(generator.integers(1, 4))
        doses = np.zeros(12)
        doses[generator.choice(12, dyes, replace=False)] = 10.0 ** generator.uniform(-1.0, 0.2, dyes)
        wanted = ALL.lab(doses)
        matches = match_colour(ALL, TWELVE, wanted)
        assert matches.exact_difference < 1.0
        alone = ALL.lab(0.1 * amounts[:, np.newaxis, np.newaxis] * np.eye(12))
        assert matches.found[0].difference <= float(ciede2000(alone, wanted).min()) + 1e-9


@pytest.mark.parametrize("wanted", [(50.0, 80.0, 60.0), (90.0, -60.0, 40.0), (30.0, 20.0, -80.0)])
def test_a_colour_out_of_reach_is_come_near_to_as_no_single_dye_can(
    wanted: tuple[float, float, float],
) -> None:
    lab = np.array(wanted)
    matches = match_colour(ALL, TWELVE, lab)
    alone = ALL.lab(np.geomspace(1e-4, 5.0, 300)[:, np.newaxis, np.newaxis] * np.eye(12))
    assert 2.0 < matches.exact_difference <= float(ciede2000(alone, lab).min()) + 1e-6


def test_liquors_are_measurable_different_and_nearest_first() -> None:
    matches = match_colour(ALL, TWELVE, np.array([45.0, -20.0, 15.0]))
    differences = [match.difference for match in matches.found]
    assert differences == sorted(differences)
    sets = [frozenset(np.flatnonzero(match.counts).tolist()) for match in matches.found]
    assert len(set(sets)) == len(sets) > 1
    for match in matches.found:
        assert np.array_equal(match.counts, np.rint(match.counts))
        assert match.counts.sum() <= 50.0
        assert (match.counts > 0.0).sum() <= MOST_BOTTLES
        assert ALL.lab(match.doses_pct_owf) == pytest.approx(match.lab)


def test_a_bottle_more_has_to_be_worth_it() -> None:
    matches = match_colour(ALL, TWELVE, ALL.lab(np.eye(12)[3] * 1.2))
    best = matches.found[0]
    assert np.flatnonzero(best.counts).tolist() == [3]
    for other in matches.found[1:]:
        if other.counts[3] > 0.0:
            assert other.difference <= best.difference - WORTH_A_BOTTLE


def test_a_weak_stock_brings_pale_colours_nearer() -> None:
    one = palette("blue")
    wanted = one.lab(np.array([0.034]))
    strong = match_colour(one, jars(1), wanted).found[0]
    both = match_colour(one, jars(1, (1.0, 0.1), (0, 0)), wanted).found[0]
    assert both.difference < 1.0 < strong.difference


def test_what_the_jar_cannot_hold_is_not_offered() -> None:
    # 2 ml of a 1 % stock on a gram are 2 % owf at most, however deep the wanted colour
    deep = palette("blue").lab(np.array([5.0]))
    (match, *_) = match_colour(palette("blue"), jars(1, liquid_ml=20.0), deep).found
    assert match.counts.tolist() == [20.0]


def test_a_fine_graduation_is_met_near_the_best_dose() -> None:
    wanted = palette("blue").lab(np.array([1.2345]))
    matches = match_colour(palette("blue"), jars(1, graduation_ml=0.01), wanted)
    assert matches.found[0].difference < 0.05


def test_the_undyed_fibre_is_a_match_too() -> None:
    matches = match_colour(ALL, TWELVE, ALL.lab(np.zeros(12)))
    assert matches.found[0].counts.sum() == 0.0
    assert matches.found[0].difference == pytest.approx(0.0, abs=1e-9)


def test_without_any_dye_the_fibre_is_all_there_is() -> None:
    nothing = Measuring(np.array([50.0]), np.zeros((1, 0)), (), 0)
    matches = match_colour(palette(), nothing, ALL.lab(np.eye(12)[0]))
    assert [match.counts.tolist() for match in matches.found] == [[]]
    assert matches.exact_difference == pytest.approx(matches.found[0].difference)
