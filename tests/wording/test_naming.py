"""If these fail, a sentence speaks of the wrong section, or nobody can tell of which."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.plan import Plan
from studio_gui.domain.sections import Boundary, Section
from studio_gui.wording.naming import (
    in_a_row,
    liquor_name,
    neighbour_letters,
    section_letters,
    section_name,
    section_names,
    stock_name,
)
from studio_gui.wording.translation import ENGLISH

FOUR: Plan = replace(
    new_plan(),
    sections=(
        Section("s1", "Deep", "q1"),
        Section("s2", "", "q2"),
        Section("s3", "Deep", "q1"),
        Section("s4", "Pale", "q2"),
    ),
    boundaries=(Boundary(1.0), Boundary(2.0), Boundary(3.0)),
)


@pytest.mark.parametrize(
    ("section_id", "name"),
    [
        ("s1", "A Deep (section 1)"),
        ("s2", "B"),
        ("s3", "A Deep (section 3)"),
        ("s4", "B Pale"),
        ("gone", "gone"),
    ],
)
def test_a_section_is_named_so_that_it_is_no_other(section_id: str, name: str) -> None:
    assert section_name(FOUR, section_id, ENGLISH) == name


def test_many_names_stop_at_the_third() -> None:
    assert section_names(FOUR, ["s2", "s4"], ENGLISH) == "B and B Pale"
    assert (
        section_names(FOUR, ["s2", "s4", "s1", "s3"], ENGLISH) == "B, B Pale, A Deep (section 1) and 1 more"
    )


def test_letters_are_said_once_each_in_the_order_of_the_lay() -> None:
    assert section_letters(FOUR, ["s1", "s2", "s3", "gone"], ENGLISH) == "A and B"


@pytest.mark.parametrize(
    ("section_id", "letters"), [("s1", "B"), ("s2", "A"), ("s3", "B"), ("s4", "A"), ("gone", "")]
)
def test_neighbours_are_the_sections_on_both_sides(section_id: str, letters: str) -> None:
    assert neighbour_letters(FOUR, section_id, ENGLISH) == letters


def test_what_is_not_in_the_plan_is_named_by_its_id() -> None:
    assert (liquor_name(FOUR, "q1"), liquor_name(FOUR, "gone")) == ("A Deep", "gone")
    assert (stock_name(FOUR, "k1"), stock_name(FOUR, "gone")) == ("Blue", "gone")


def test_nothing_in_a_row_is_nothing() -> None:
    assert in_a_row([], ENGLISH) == ""
