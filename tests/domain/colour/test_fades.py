"""If these fail, a fade is painted in steps that jump, or in amounts that nobody can measure."""

from __future__ import annotations

import numpy as np
import pytest

from studio_gui.domain.colour.deliverable import Measuring
from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.fades import ideal_fade, naive_fades, solve_fade
from tests.domain.colour.dyes import jars, palette, random_fade

PALE_TO_DEEP = np.array([[0.05], [4.0]])


def test_ideal_steps_are_equal_and_begin_and_end_at_the_ends() -> None:
    ideal = ideal_fade(palette("blue"), PALE_TO_DEEP, 12)
    steps = ciede2000(ideal.labs[:-1], ideal.labs[1:])
    assert steps == pytest.approx(np.full(11, ideal.step), rel=0.01)
    assert ideal.doses_pct_owf[[0, -1]] == pytest.approx(PALE_TO_DEEP)


def test_a_colour_between_is_passed() -> None:
    stops = np.array([[2.0, 0.0], [0.5, 0.5], [0.0, 2.0]])
    ideal = ideal_fade(palette("red", "lemon"), stops, 9)
    middle = palette("red", "lemon").lab(stops[1])
    assert ciede2000(ideal.labs, middle).min() <= ideal.step / 2.0 + 0.1
    assert set(ideal.leg_of.tolist()) == {0, 1}


def test_doses_do_not_turn_back_on_the_way() -> None:
    fade = solve_fade(palette("red", "blue"), jars(12, (1.0, 1.0)), np.array([[3.0, 0.0], [0.0, 3.0]]))
    change = np.diff(fade.doses_pct_owf, axis=0)
    assert (change[:, 0] <= 1e-9).all()
    assert (change[:, 1] >= -1e-9).all()


@pytest.mark.parametrize("kept", [0.3, 1.04, 2.0])
def test_a_dye_that_both_ends_have_alike_stays_as_it_is(kept: float) -> None:
    """Steps alike in size, but lighter and darker by turns, are no fade."""
    stops = np.array([[kept, 2.0], [kept, 0.0]])
    fade = solve_fade(palette("blue", "lemon"), jars(8, (1.0, 1.0)), stops)
    assert np.ptp(fade.doses_pct_owf[:, 0]) < 1e-9
    assert (np.diff(fade.doses_pct_owf[:, 1]) <= 1e-9).all()
    lightness = np.diff(fade.labs[:, 0])
    assert (lightness >= -1e-6).all()


def test_where_every_row_turns_back_it_is_as_even_as_a_painter_s() -> None:
    """Jars so unlike that each measures other doses, for ends that are nearly the same."""
    of_one = np.array([[0.95, 0.326], [0.435, 0.831], [0.421, 0.559], [0.047, 0.758], [0.547, 0.343]])
    unlike = Measuring(np.array([16.0, 23.0, 28.0, 2.0, 6.0]), of_one, (0, 1), 2)
    stops = np.array([[0.6, 0.9], [0.6, 0.8]])
    fade = solve_fade(palette("red", "blue"), unlike, stops)
    naive = naive_fades(palette("red", "blue"), unlike, stops)
    assert fade.evenness.rank == min(one.evenness.rank for one in naive)


def test_a_weak_stock_on_the_shelf_makes_a_fade_more_even() -> None:
    strong = solve_fade(palette("blue"), jars(), PALE_TO_DEEP)
    both = solve_fade(palette("blue"), jars(12, (1.0, 0.1), (0, 0)), PALE_TO_DEEP)
    assert both.evenness.ratio < 1.2 < strong.evenness.ratio


def test_neighbours_are_equal_where_there_are_fewer_amounts_than_sections() -> None:
    fade = solve_fade(palette("blue"), jars(8, liquid_ml=4.0), np.array([[0.0], [0.4]]))
    assert len(fade.evenness.equal_neighbours) == 3
    assert len(set(fade.counts[:, 0].tolist())) == 5


def test_equal_shares_and_halves_are_as_a_painter_reckons_them() -> None:
    equal, halved = naive_fades(palette("blue"), jars(5), np.array([[4.0], [0.0]]))
    assert equal.doses_pct_owf[:, 0] == pytest.approx([4.0, 3.0, 2.0, 1.0, 0.0])
    assert halved.doses_pct_owf[:, 0] == pytest.approx([4.0, 2.0, 1.0, 0.5, 0.0])
    rising = naive_fades(palette("blue"), jars(5), np.array([[0.0], [4.0]]))[1]
    assert rising.doses_pct_owf[:, 0] == pytest.approx([0.0, 0.5, 1.0, 2.0, 4.0])


def test_ends_are_what_was_asked_for_as_near_as_can_be_measured() -> None:
    fade = solve_fade(palette("red", "lemon"), jars(8, (1.0, 1.0)), np.array([[2.34, 0.0], [0.0, 1.11]]))
    assert fade.doses_pct_owf[0] == pytest.approx([2.3, 0.0], abs=0.1001)
    assert fade.doses_pct_owf[-1] == pytest.approx([0.0, 1.1], abs=0.1001)


def test_solved_fades_are_never_less_even_than_naive_ones_and_mostly_far_more() -> None:
    generator = np.random.default_rng(1976)
    solved, naive = [], []
    for _ in range(200):
        case = random_fade(generator)
        fade = solve_fade(case.palette, case.measuring, case.stops_pct_owf)
        equal, halved = naive_fades(case.palette, case.measuring, case.stops_pct_owf)
        assert case.measuring.fits(fade.counts).all()
        assert np.array_equal(fade.counts, np.rint(fade.counts))
        assert fade.evenness.rank <= min(equal.evenness.rank, halved.evenness.rank)
        solved.append(fade.evenness.ratio)
        naive.append(equal.evenness.ratio)
    assert np.median(solved) <= 0.5 * np.median(naive)
    assert np.median(np.array(solved) / np.array(naive)) <= 0.5
