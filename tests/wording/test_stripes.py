"""If these fail, the answer to a plan of stripes is not what a knitter can go by."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio_gui.domain.edits.inputs import set_fibre
from studio_gui.domain.edits.stripes import set_stripes
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.advice import structures_that_would_do
from studio_gui.domain.spinning.stripes import pattern_of_sections, stripe_edges
from studio_gui.domain.yarn import Knitting, Stripe, StripeMeasure, Yarn
from studio_gui.wording.stripes import (
    fit_words,
    parse_stripe,
    place_words,
    ply_name,
    sections_words,
    short_words,
    stripe_name,
)
from studio_gui.wording.translation import ENGLISH, Tongue
from tests.scenes.scene_plans import lantern_row, two_shores

US = Tongue("us", is_english=True)


def wanting(plan: Plan, *rows: float) -> Plan:
    stripes = [Stripe("ABCD"[place % 4], amount) for place, amount in enumerate(rows)]
    return set_stripes(set_yarn(plan, knitting=Knitting(row_m=1.0)), stripes)


@pytest.mark.parametrize(
    ("text", "measure", "read"),
    [
        ("8", "rows", (8.0, "rows")),
        (" 8 Rows ", "metres", (8.0, "rows")),
        ("1 row", "rows", (1.0, "rows")),
        ("12", "metres", (12.0, "metres")),
        ("250 cm", "rows", (2.5, "metres")),
    ],
)
def test_a_stripe_is_typed(text: str, measure: StripeMeasure, read: tuple[float, str]) -> None:
    assert parse_stripe(text, measure, ENGLISH) == read


def test_a_bare_length_is_typed_in_the_units_of_the_user() -> None:
    amount, measure = parse_stripe("10", "metres", US)
    assert amount == pytest.approx(9.144)
    assert measure == "metres"


@pytest.mark.parametrize("text", ["", "rows", "4 g", "0 rows", "999999"])
def test_what_is_no_stripe_is_refused(text: str) -> None:
    for measure in ("rows", "metres"):
        with pytest.raises(InvalidPlan):
            parse_stripe(text, measure, ENGLISH)


def test_a_stripe_is_called_by_letter_and_size() -> None:
    assert stripe_name(two_shores(), Stripe("B", 8.0), ENGLISH) == "B, 8 rows"
    assert stripe_name(two_shores(), Stripe("B", 8.0, "metres"), ENGLISH) == "B, 8 m"


def test_what_just_fits_leaves_nothing() -> None:
    laid = stripe_edges(wanting(lantern_row(), 84.6, 56.4, 112.8, 84.6))
    assert fit_words(laid, ENGLISH) == "Needs 120 g of 120 g: nothing is left."


def test_what_is_left_and_what_is_missing_in_every_measure() -> None:
    some = stripe_edges(wanting(lantern_row(), 84.6, 56.4))
    assert fit_words(some, ENGLISH) == (
        "Needs 50 g of 120 g; 70 g left, which is 197.4 m of yarn or 197.4 rows. The last stripe takes them."
    )
    much = stripe_edges(wanting(lantern_row(), 338.4, 28.2))
    assert fit_words(much, ENGLISH) == (
        "10 g too much: needs 130 g, and there are 120 g. Missing: 28.2 m of yarn or 28.2 rows. Shorten"
        " stripes, knit narrower, or take a heavier roving."
    )
    assert fit_words(much, US).startswith("0.35 oz too much: needs 4.59 oz")


def test_where_nothing_is_plied_there_is_nothing_to_stripe() -> None:
    plan = replace(two_shores(), yarn=Yarn(structure="rovings", offsets_m=(9_999.0,)))
    assert fit_words(stripe_edges(wanting(plan, 4.0)), ENGLISH).startswith("There is no yarn to stripe")
    assert sections_words(plan, pattern_of_sections(plan), ENGLISH) == ""


def test_where_stripes_lie_is_said_where_it_is_not_plain() -> None:
    def said(plan: Plan) -> str:
        return place_words(stripe_edges(plan), ENGLISH)

    assert said(lantern_row()) == ""
    assert said(set_yarn(lantern_row(), structure="both ends")) == (
        "Stripes lie on the first half of the lay and are mirrored on the second."
    )
    assert said(set_yarn(two_shores(), structure="chain")) == (
        "On a folded lay the stripes come 2 times, every second time mirrored."
    )
    assert said(set_fibre(lantern_row(), rovings=3)) == "Grams are of each roving."
    uneven = set_yarn(lantern_row(), structure="lengthwise", splits=(63.0, 57.0))
    assert said(uneven) == "6 g of the roving’s 120 g come into no yarn: wound off, or left over."


def test_plies_are_called_by_what_they_are() -> None:
    fractal = set_yarn(lantern_row(), structure="fractal")
    assert [ply_name(fractal, ply, ENGLISH) for ply in (1, 2)] == ["1, whole", "2, in strips"]
    assert ply_name(set_yarn(fractal, structure="free"), 2, ENGLISH) == "2"


def test_many_stripes_that_are_too_short_are_counted() -> None:
    plan = set_yarn(wanting(lantern_row(), *[5.0] * 10), structure="single")
    laid = stripe_edges(plan)
    short = dict.fromkeys(range(1, 9), 0.1)
    words = short_words(laid, short, structures_that_would_do(plan, 0.1), ENGLISH).split("\n")
    assert words[0] == (
        "Too short for the staple: stripe 2 (B, 5 rows), stripe 3 (C, 5 rows), stripe 4 (D, 5 rows) and 5"
        " more. 10 cm on the roving at the shortest, and under 13.5 cm no stripe stays clean."
    )
    assert len(words) == 5
    assert short_words(laid, {}, (), ENGLISH) == ""


def test_a_long_lay_is_told_as_far_as_a_line_can_hold() -> None:
    plan = lantern_row()
    rows = pattern_of_sections(plan) * 6
    assert sections_words(plan, rows, ENGLISH).endswith(", …")
