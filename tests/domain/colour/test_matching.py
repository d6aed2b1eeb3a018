"""If these fail, a wanted colour is missed although the bottles on the shelf reach it."""

from __future__ import annotations

import numpy as np
import pytest

from studio_gui.domain.colour.deliverable import Measuring
from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.ipt import ipt_from_lab, is_opposite
from studio_gui.domain.colour.matching import (
    FAR,
    LEAST_CHROMA_OF_FAR,
    WORTH_A_BOTTLE,
    match_colour,
)
from studio_gui.domain.colour.nearest_doses import MOST_BOTTLES
from studio_gui.domain.colour.spaces import Array, lab_from_hex
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


VIVID = ["#ff00ff", "#0000ff", "#00ff00", "#00ffff", "#8000ff", "#00ff80"]


def random_labs(count: int) -> list[Array]:
    generator = np.random.default_rng(1998)
    return [generator.uniform((5.0, -90.0, -90.0), (98.0, 90.0, 90.0)) for _ in range(count)]


def test_what_is_offered_is_never_worse_than_any_single_dye_however_far_the_colour_is() -> None:
    # the nearest of the list, that is: of a far colour another liquor may come first
    amounts = np.arange(0.0, 51.0)
    alone = ALL.lab(0.1 * amounts[:, np.newaxis, np.newaxis] * np.eye(12))
    far = 0
    for wanted in [*random_labs(60), *(lab_from_hex(srgb) for srgb in VIVID)]:
        matches = match_colour(ALL, TWELVE, wanted)
        differences = [match.difference for match in matches.found]
        assert min(differences) <= float(ciede2000(alone, wanted).min()) + 1e-9
        assert matches.exact_difference <= min(differences)
        for match in matches.found:
            assert match.difference == pytest.approx(float(ciede2000(match.lab, wanted)))
        far += matches.is_far
        if not matches.is_far:
            assert differences == sorted(differences)
            assert matches.exact_difference <= FAR or np.hypot(*wanted[1:]) < LEAST_CHROMA_OF_FAR
    assert 20 < far < 60  # both rules were tried


def test_a_far_colour_is_ranked_by_ipt_and_keeps_to_its_hue_but_for_the_nearest() -> None:
    for wanted in [*random_labs(60), *(lab_from_hex(srgb) for srgb in VIVID)]:
        matches = match_colour(ALL, TWELVE, wanted)
        if not matches.is_far:
            continue
        ipt = ipt_from_lab(np.array([match.lab for match in matches.found]))
        away = np.linalg.norm(ipt - ipt_from_lab(wanted), axis=1)
        nearest = min(range(len(matches.found)), key=lambda place: matches.found[place].difference)
        kept = np.arange(len(matches.found)) != nearest
        assert (np.diff(away[kept]) >= 0.0).all()
        assert not is_opposite(ipt, ipt_from_lab(wanted))[kept].any()


def test_a_grey_no_longer_comes_before_the_hue_that_is_wanted() -> None:
    # by CIEDE2000 blue with brick, a greyish brown, is nearest to magenta
    dull = palette("greenish blue", "brick", "green")
    matches = match_colour(dull, jars(1, (1.0,) * 3), lab_from_hex("#ff00ff"))
    first, nearest = matches.found[0], min(matches.found, key=lambda match: match.difference)
    assert matches.is_far
    assert nearest is not first
    assert np.hypot(*first.lab[1:]) > 2.0 * np.hypot(*nearest.lab[1:])


def test_without_much_chroma_or_within_reach_ciede2000_ranks() -> None:
    one = palette("lemon")
    dark_grey = match_colour(one, jars(1), np.array([20.0, 5.0, 5.0]))
    assert (dark_grey.is_far, dark_grey.exact_difference > FAR) == (False, True)
    assert not match_colour(one, jars(1), one.lab(np.array([1.0]))).is_far


def test_of_few_rows_one_is_the_nearest() -> None:
    wanted = lab_from_hex("#0000ff")
    differences = [match.difference for match in match_colour(ALL, TWELVE, wanted).found]
    few = [match.difference for match in match_colour(ALL, TWELVE, wanted, most=2).found]
    assert few == [differences[0], min(differences)]


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
