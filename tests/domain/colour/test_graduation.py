"""If these fail, nobody says that the syringe is too coarse, or a weak stock that is no help is praised."""

from __future__ import annotations

import numpy as np
import pytest

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.fades import ideal_fade, solve_fade
from studio_gui.domain.colour.graduation import WEAKER, too_coarse, weaker_that_mends, with_weaker
from tests.domain.colour.dyes import jars, palette

BLUE, PALE_TO_DEEP = palette("blue"), np.array([[0.0], [4.0]])


def test_the_first_drop_into_white_is_where_one_graduation_does_most() -> None:
    measuring = jars()
    fade, ideal = solve_fade(BLUE, measuring, PALE_TO_DEEP), ideal_fade(BLUE, PALE_TO_DEEP, 12)
    (coarse,) = too_coarse(BLUE, measuring, fade, ideal)
    assert (coarse.bottle, coarse.section) == (0, 0)
    first = ciede2000(BLUE.lab(np.array([0.0])), BLUE.lab(np.array([0.1])))
    assert coarse.step == pytest.approx(float(first))
    assert coarse.step > ideal.step


def test_a_fine_graduation_is_not_spoken_of() -> None:
    measuring = jars(graduation_ml=0.01)
    fade, ideal = solve_fade(BLUE, measuring, PALE_TO_DEEP), ideal_fade(BLUE, PALE_TO_DEEP, 12)
    assert too_coarse(BLUE, measuring, fade, ideal) == ()


def test_a_dye_is_not_judged_where_it_is_not_used() -> None:
    measuring = jars(4, (0.01, 50.0))
    dyes, stops = palette("blue", "red"), np.array([[0.0, 0.0], [0.05, 0.0]])
    fade, ideal = solve_fade(dyes, measuring, stops), ideal_fade(dyes, stops, 4)
    assert too_coarse(dyes, measuring, fade, ideal) == ()


def test_the_weak_stock_that_is_offered_makes_the_fade_as_even_as_it_says() -> None:
    share, promised = weaker_that_mends(BLUE, jars(), PALE_TO_DEEP, 0)
    assert share in WEAKER
    with_it = solve_fade(BLUE, with_weaker(jars(), 0, share), PALE_TO_DEEP)
    assert with_it.evenness == promised.evenness
    assert promised.evenness.ratio < solve_fade(BLUE, jars(), PALE_TO_DEEP).evenness.ratio / 2.0
