"""If these fail, a painter is told another evenness, amount or lack than was reckoned."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from studio_gui.domain.at_hand import at_hand
from studio_gui.domain.colour.evenness import Evenness
from studio_gui.domain.colour.shortfall import Lack, Shortfall
from studio_gui.domain.colour.spaces import lab_from_hex
from studio_gui.domain.edits.fades import FadeWish, plan_fade, weak_stock_that_mends
from studio_gui.domain.edits.matching import match_section
from studio_gui.domain.edits.stocks import change_stock
from studio_gui.domain.liquors import DyeDepth
from studio_gui.wording.fade_words import (
    coarse_words,
    end_words,
    equal_words,
    evenness_words,
    fade_depth_words,
    guess_words,
    jar_stocks,
    jar_words,
    match_depth_words,
    match_difference_words,
    match_words,
    offer_words,
    shortfall_words,
    undyed_words,
    weak_name,
)
from studio_gui.wording.translation import ENGLISH
from tests.drawing.plans import plain_plan

PLAN = plain_plan(4)
COARSE = plan_fade(PLAN, 0, 3, FadeWish(((), (DyeDepth("k1", 1.5),)), 12))


@pytest.mark.parametrize(
    ("steps", "words"),
    [
        ((2.0, 3.0), "largest step 1.5 times the smallest, spread 20 %"),
        ((1.0, 0.0), "a colour comes twice, spread 100 %"),
        ((0.0, 0.0), "nothing changes"),
        ((0.001, 9.0), "largest step over 100.0 times the smallest, spread 100 %"),
    ],
)
def test_evenness_is_said_with_what_it_compares(steps: tuple[float, ...], words: str) -> None:
    assert evenness_words(Evenness(steps), ENGLISH) == words


def test_a_coarse_graduation_is_said_with_the_stock_that_mends() -> None:
    assert coarse_words(COARSE, ENGLISH).startswith("One graduation (1 ml) of Blue changes colour ")
    offer = weak_stock_that_mends(COARSE)
    assert offer is not None
    assert offer_words(COARSE, offer, ENGLISH).startswith("With Blue 0.")
    assert weak_name(COARSE, offer, ENGLISH).startswith("Blue 0.")
    fine = plan_fade(
        replace(PLAN, bench=replace(PLAN.bench, graduation_ml=0.01)),
        0,
        3,
        FadeWish(((DyeDepth("k1", 0.1),), (DyeDepth("k1", 1.5),))),
    )
    assert (coarse_words(fine, ENGLISH), equal_words(fine, ENGLISH)) == ("", "")


def test_neighbours_that_come_out_alike_are_named() -> None:
    tight = plan_fade(PLAN, 0, 3, FadeWish(((), (DyeDepth("k1", 0.2),)), 12))
    alike = replace(tight.solved, evenness=Evenness((2.0, 0.0, 0.0, 2.0, 2.0, 0.0)))
    assert equal_words(replace(tight, solved=alike), ENGLISH) == (
        "Alike: 2–4, 6–7. No graduation lies between them."
    )
    apart = replace(tight.solved, evenness=Evenness((0.0, 2.0, 0.0)))
    assert equal_words(replace(tight, solved=apart), ENGLISH).startswith("Alike: 1–2, 3–4. ")


def test_sections_without_dye_and_ends_that_are_off_are_said_with_what_mends_them() -> None:
    bare = plan_fade(PLAN, 0, 3, FadeWish(((), (DyeDepth("k1", 0.2),)), 40))
    assert undyed_words(bare, ENGLISH).startswith("Undyed for want of a fine enough measure: 2–")
    assert end_words(COARSE, ENGLISH) == ""
    off = plan_fade(PLAN, 0, 3, FadeWish(((DyeDepth("k1", 0.01),), (DyeDepth("k1", 1.0),))))
    assert undyed_words(off, ENGLISH) == ""
    assert end_words(off, ENGLISH) == (
        "Section 1 is dyed 0.04 % owf, not 0.01 %, in whole graduations of 1 ml. A weaker stock or a finer"
        " measure would come nearer."
    )


def test_of_an_end_of_two_dyes_it_is_said_which_is_off() -> None:
    wanted = (DyeDepth("k1", 0.1), DyeDepth("k2", 0.02))
    off = plan_fade(PLAN, 0, 3, FadeWish((wanted, (DyeDepth("k1", 1.0),))))
    assert off.ends_off == (0,)
    said = end_words(off, ENGLISH)
    blue, red = off.solved.doses_pct_owf[0].tolist()
    assert said.startswith(
        f"Section 1 is dyed {blue:.2f} % Blue + {red:.2f} % Red owf, not 0.10 % Blue + 0.02 % Red, in whole "
    )


def test_a_weak_stock_is_called_by_its_own_strength_alone() -> None:
    offer = weak_stock_that_mends(COARSE)
    assert offer is not None
    for name in ("Blue", "Blue 0.2 %", "Blue (1 %)", "Blue, 0,5%"):
        named = change_stock(PLAN, "k1", name=name)
        assert weak_name(replace(COARSE, plan=named), replace(offer, strength_g_per_l=0.4), ENGLISH) == (
            "Blue 0.04 %"
        )
    bare = replace(COARSE, plan=change_stock(PLAN, "k1", name="2 %"))
    assert weak_name(bare, replace(offer, strength_g_per_l=0.4), ENGLISH) == "2 % 0.04 %"


def test_a_jar_is_said_dyes_first_and_full() -> None:
    for place, graduations in enumerate(COARSE.measuring.graduations.tolist()):
        amounts = [float(one) for one in jar_words(COARSE, place, ENGLISH).split(" + ")]
        assert sum(amounts) == pytest.approx(graduations * PLAN.bench.graduation_ml)
        assert len(jar_stocks(COARSE, place).split(" + ")) == len(amounts)
    assert jar_stocks(COARSE, 11) == "Blue + Acid water"
    assert fade_depth_words(COARSE, 0, ENGLISH) == "0.00 %"


def test_a_match_is_said_with_its_bottles_and_its_depth() -> None:
    matched = match_section(PLAN, "s1", lab_from_hex("#6a5a80"))
    assert match_words(matched, 0, ENGLISH) == "7 ml Blue + 4 ml Red + 55 ml Acid water"
    assert match_depth_words(matched, 0, ENGLISH).endswith(" % owf")


@pytest.mark.parametrize(
    ("lack", "words"),
    [
        ("light", "It is lighter than this fibre and these dyes can be."),
        ("depth", "It is deeper than these stocks can dye with this liquid."),
        ("yellow-green", "A yellowish green is missing."),
        ("orange", "An orange is missing."),
    ],
)
def test_what_is_missing_is_said(lack: Lack, words: str) -> None:
    matched = match_section(PLAN, "s1", lab_from_hex("#6a5a80"))
    best = replace(matched.found[matched.nearest], difference=9.04)
    matched = replace(matched, exact=Shortfall(8.8, lack), found=(best,))
    assert shortfall_words(matched, ENGLISH) == (
        f"No set of these bottles reaches it: the nearest is Blue + Red, CIEDE2000 9.0 away. {words}"
    )
    undyed = replace(best, counts=np.zeros(2))
    assert shortfall_words(replace(matched, found=(undyed,)), ENGLISH) == (
        f"No set of these bottles reaches it: the nearest is undyed fibre, CIEDE2000 9.0 away. {words}"
    )


def test_a_hue_that_is_there_but_not_quite_is_told_by_where_it_would_have_to_go() -> None:
    matched = match_section(PLAN, "s1", lab_from_hex("#6a5a80"))
    matched = replace(matched, exact=Shortfall(9.04, "blue", "red"))
    assert shortfall_words(matched, ENGLISH).endswith(" away. Missing is a red that is bluer.")


def test_of_a_far_colour_it_is_said_which_liquor_is_nearest_and_how_they_stand() -> None:
    matched = match_section(PLAN, "s1", lab_from_hex("#ff00ff"))
    assert matched.is_far
    nearest = f"CIEDE2000 {matched.found[matched.nearest].difference:.1f} away. A magenta is missing. "
    said = shortfall_words(matched, ENGLISH)
    assert said.endswith(nearest + "So far away, liquors that keep to its hue (by IPT) come first.")
    marked = [match_difference_words(matched, place, ENGLISH) for place in range(len(matched.found))]
    assert [place for place, words in enumerate(marked) if "nearest" in words] == [matched.nearest]
    alone = replace(matched, found=matched.found[:1])
    assert "nearest" not in match_difference_words(alone, 0, ENGLISH)


def test_a_graduation_that_is_too_coarse_for_a_colour_is_said_and_a_match_is_not() -> None:
    palette = match_section(PLAN, "s1", lab_from_hex("#6a5a80")).hand.palette
    trace, plenty = palette.lab(np.array([[0.02, 0.0], [0.8, 0.4]]))
    assert shortfall_words(match_section(PLAN, "s1", trace), ENGLISH).startswith(
        "The bottles reach it, but not in graduations of 1 ml"
    )
    assert shortfall_words(match_section(PLAN, "s1", plenty), ENGLISH) == ""


def test_mixes_with_a_fluorescent_dye_are_called_guesses_and_the_dye_alone_is_not() -> None:
    hand = at_hand(change_stock(PLAN, "k2", is_fluorescent=True))
    alone, mixed = np.array([[3.0, 0.0], [0.0, 2.0]]), np.array([[3.0, 2.0]])
    assert guess_words(hand, alone, ENGLISH) == ""
    assert guess_words(hand, mixed, ENGLISH) == (
        "Fluorescent: Red. What its mixes look like is a guess; dye a sample of the mix."
    )
    assert guess_words(at_hand(PLAN), mixed, ENGLISH) == ""
