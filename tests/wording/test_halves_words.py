"""If these fail, somebody spins a half from the wrong end, or breaks the roving in the wrong place."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio_gui.domain.edits.inputs import set_fibre, set_passes
from studio_gui.domain.fibre import MassMark
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.halves import Halves, halves
from studio_gui.domain.yarn import STRUCTURES, Ply, Structure, Yarn
from studio_gui.wording.halves_words import (
    break_words,
    difference_words,
    half_words,
    slide_words,
    spin_words,
    unmatched_words,
)
from studio_gui.wording.translation import ENGLISH, Tongue
from tests.scenes.scene_plans import straight, two_shores

US = Tongue("us", is_english=True)


def found(plan: Plan, structure: Structure = "broken at the fold", first: float = 0.52) -> Halves:
    uneven = set_fibre(plan, mass_marks=(MassMark(0.5, first),))
    return halves(replace(uneven, yarn=Yarn(structure=structure, plies=(Ply(),))))


def test_halves_are_told_in_grams_and_metres_or_ounces_and_yards() -> None:
    assert half_words(found(two_shores()), 0, ENGLISH) == "78.0 g · 780.0 m"
    assert half_words(found(two_shores()), 1, ENGLISH) == "72.0 g · 720.0 m"
    assert half_words(found(two_shores()), 0, US) == "2.75 oz · 853.0 yd"


@pytest.mark.parametrize(
    ("first", "words"),
    [(0.52, "half 1 by 6.0 g (8.0 %)"), (0.48, "half 2 by 6.0 g (8.0 %)"), (0.5, "neither")],
)
def test_the_heavier_half_is_named(first: float, words: str) -> None:
    assert difference_words(found(two_shores(), first=first), ENGLISH) == words


def test_the_widest_slide_is_told_with_its_colour() -> None:
    assert slide_words(found(two_shores()), ENGLISH) == "up to 60 m, in E E at the break"
    assert slide_words(found(two_shores(), first=0.5), ENGLISH) == "none"


def test_colours_that_have_no_match_cannot_slide_and_are_not_said_to_be_in_step() -> None:
    nothing = halves(straight("AB", (3.0,)))
    assert slide_words(nothing, ENGLISH) == "no colour of one half has a match in the other"
    some = halves(straight("ABA", (2.0, 4.0)))
    assert slide_words(some, ENGLISH) == "none"
    unlike = halves(straight("ABCA", (2.0, 3.0, 4.0)))
    assert slide_words(unlike, ENGLISH) == "none where colours match"


def test_halves_that_only_end_together_are_apart_where_a_colour_starts() -> None:
    """C starts a metre of roving (25 g, 250 m of singles) later in one half, though both end with it."""
    late = halves(straight("ABCD", (1.0, 2.44, 4.56)))
    assert late.widest_slide_m == pytest.approx(0.0)
    assert slide_words(late, ENGLISH) == "up to 250 m, at the start of C C"


def test_the_break_is_at_the_fold_or_by_the_scale() -> None:
    assert break_words(found(two_shores()), ENGLISH) == "Break at the fold, 300.0 cm along the roving."
    assert break_words(found(set_passes(two_shores(), 4)), ENGLISH).startswith("Break at fold 2, 300.0 cm")
    assert break_words(found(straight("A", ())), ENGLISH) == (
        "Break where half the weight lies, 288.5 cm along the roving."
    )


def test_every_structure_has_its_way_to_spin() -> None:
    words = {structure: spin_words(found(two_shores(), structure), ENGLISH) for structure in STRUCTURES}
    assert "half 2 from the other end" in words["broken at the fold"]
    assert words["broken at the fold"].startswith("Break at the fold")
    assert "in one go, the end marked start first" in words["both ends"]
    assert len({words[structure] for structure in set(STRUCTURES) - {"both ends", "broken at the fold"}}) == 1


def test_colours_without_a_match_are_named_half_by_half() -> None:
    assert unmatched_words(found(two_shores()), ENGLISH) == ""
    assert unmatched_words(halves(straight("ABCA", (1.0, 2.0, 5.0))), ENGLISH) == (
        "Without a match in half 2: B B."
    )
    assert unmatched_words(halves(straight("AB", (3.0,))), ENGLISH) == (
        "Without a match in half 2: A A. Without a match in half 1: B B."
    )
