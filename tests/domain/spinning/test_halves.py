"""If these fail, halves are told to match where their colours slide, or the wrong colour is told to slide."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.edits.inputs import set_passes
from studio_gui.domain.fibre import Fibre, MassMark, Roving
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning import halves as module
from studio_gui.domain.spinning.halves import HalfColour, Halves, halves, matched, most_uneven_roving
from studio_gui.domain.worksheet import worksheet
from studio_gui.domain.yarn import Yarn
from tests.scenes.scene_plans import straight, two_shores
from tests.strategies import plans


def letters_of(found: Halves) -> list[tuple[str, str]]:
    """The letters of every pair, "-" where a half has none."""

    def letter(one: HalfColour | None) -> str:
        return "-" if one is None else found.plan.liquors[one.liquor].letter

    return [(letter(pair.first), letter(pair.second)) for pair in found.pairs]


def test_a_straight_roving_is_broken_where_half_its_weight_lies() -> None:
    found = halves(straight("A", (), (MassMark(0.5, 0.6),)))
    assert found.break_m == pytest.approx(2.5)
    assert found.weights_g == (75.0, 75.0)
    assert found.are_alike


def test_sections_of_one_liquor_are_one_colour() -> None:
    found = halves(straight("AABBA", (0.5, 1.5, 3.0, 4.5)))
    assert letters_of(found) == [("A", "A"), ("B", "B")]
    assert found.pairs[0].slide_m == pytest.approx(0.0)


def test_colours_that_differ_are_matched_in_their_order_and_the_others_named() -> None:
    # outer ends: A B C and A C; B has no match
    found = halves(straight("ABCA", (1.0, 2.0, 5.0)))
    assert letters_of(found) == [("A", "A"), ("B", "-"), ("C", "C")]
    assert [pair.liquor for pair in found.unmatched] == [1]
    assert not found.are_alike
    assert found.apart_share == found.difference_share == 0.0


def test_halves_that_only_end_together_are_apart_where_a_colour_starts() -> None:
    found = halves(straight("ABCD", (1.0, 2.44, 4.56)))
    assert found.widest_slide_m == pytest.approx(0.0)
    assert found.widest_start is not None
    assert found.widest_start.start_slide_m == pytest.approx(250.0)


def test_halves_that_share_no_colour_have_no_slide() -> None:
    found = halves(straight("AB", (3.0,)))
    assert found.widest_start is None
    assert found.pairs[0].start_slide_m is None
    assert letters_of(found) == [("A", "-"), ("-", "B")]
    assert found.widest is None
    assert found.widest_slide_m == 0.0


def test_lists_too_long_to_match_agree_at_their_start(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "MOST_STEPS", 1)
    one, two, three = (HalfColour(liquor, 0.0, 1.0, 1.0) for liquor in (0, 1, 2))
    pairs = matched([one, two, three], [one, three, two])
    assert [(pair.first is None, pair.second is None) for pair in pairs] == [
        (False, False),
        (False, True),
        (False, True),
        (True, False),
        (True, False),
    ]


def test_four_passes_have_two_legs_a_half() -> None:
    found = halves(set_passes(two_shores(), 4))
    assert found.break_m == 3.0
    assert "".join(first for first, _ in letters_of(found)) == "ABCDEDCBA"
    assert found.apart_share == pytest.approx(0.0, abs=1e-12)


def test_the_roving_whose_halves_differ_most_is_found() -> None:
    like = two_shores()
    assert most_uneven_roving(like) == 0
    measured = (Roving(150.0), Roving(150.0, (MassMark(0.5, 0.48),)), Roving(150.0, (MassMark(0.5, 0.51),)))
    plan = replace(like, fibre=Fibre(150.0, 6.0, 3, measured=measured))
    assert most_uneven_roving(plan) == 1
    assert halves(plan, 1).difference_g == pytest.approx(-6.0)


@given(plans())
def test_halves_have_the_grams_of_the_roving_and_metres_go_with_them(plan: Plan) -> None:
    found = halves(plan)
    for which in ("first", "second"):
        colours = [one for pair in found.pairs if (one := getattr(pair, which)) is not None]
        side = which == "second"
        assert sum(one.weight_g for one in colours) == pytest.approx(found.weights_g[side], abs=1e-6)
        assert colours[-1].end_m == pytest.approx(found.lengths_m[side], abs=1e-6)
        assert all(a.end_m == b.start_m and a.liquor != b.liquor for a, b in pairwise(colours))
    assert sum(found.weights_g) == pytest.approx(plan.fibre.roving(0).mass_g)


@given(plans())
def test_halves_are_the_strands_of_a_roving_broken_at_its_fold(plan: Plan) -> None:
    yarn = worksheet(replace(plan, yarn=replace(plan.yarn, structure="broken at the fold"))).yarn
    found = halves(plan)
    for number, which in enumerate(("first", "second")):
        runs = yarn.strand_runs(number)
        colours = [one for pair in found.pairs if (one := getattr(pair, which)) is not None]
        assert [one.liquor for one in colours] == [run.liquor for run in runs]
        assert [one.length_m for one in colours] == pytest.approx([run.length_m for run in runs], abs=1e-6)


@given(plans(), st.integers(1, 2))
def test_equal_legs_of_an_even_top_match_whatever_is_painted(plan: Plan, pairs: int) -> None:
    even = replace(plan, fibre=Fibre(plan.fibre.mass_g, plan.fibre.length_m), yarn=Yarn())
    even = replace(even, sections=tuple(replace(one, locked=False) for one in even.sections))
    found = halves(set_passes(even, 2 * pairs))
    assert found.are_alike
    assert found.apart_share == pytest.approx(0.0, abs=1e-9)
