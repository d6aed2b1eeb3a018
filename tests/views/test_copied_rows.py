"""If these fail, a spreadsheet gets other figures than the table shows, or runs a name as a formula."""

from __future__ import annotations

import csv
from dataclasses import replace
from functools import partial

from studio_gui.document.section_rows import Column, rows_of
from studio_gui.domain.edits.boundaries import set_gap
from studio_gui.domain.edits.sections import change_section, set_locked
from studio_gui.domain.edits.stocks import change_stock
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.views.copied_rows import copied_rows
from studio_gui.wording.lengths import parse_lengths
from studio_gui.wording.translation import ENGLISH, Tongue
from tests.drawing.plans import plain_plan


def copied(plan: Plan, tongue: Tongue = ENGLISH) -> list[list[str]]:
    text = copied_rows(rows_of(worksheet(plan)), list(Column), tongue)
    return list(csv.reader(text.splitlines(), delimiter="\t"))


def column(plan: Plan, which: Column) -> list[str]:
    return [row[which] for row in copied(plan)]


def test_headings_name_the_units_and_cells_are_bare_numbers() -> None:
    headings, first, *_ = copied(set_gap(plain_plan(3), 0, -0.02))
    assert headings[Column.FROM : Column.APPLIED + 1] == [
        *("from, cm", "to, cm", "length, cm", "fibre, g", "liquid, ml", "liquid per roving, ml"),
        "applied, ml/g",
    ]
    assert first[: Column.PER_ROVING] == ["A", "Section 1", "0", "133.3333", "133.3333", "33.3333", "83.3333"]
    assert first[Column.STATE :] == ["in range", "0", "-2", "no"]


def test_what_is_not_known_is_an_empty_cell_and_words_say_the_state() -> None:
    plan = change_stock(set_locked(plain_plan(3), ["s1"], True), "k2", acid_g_per_l=None)
    assert column(plan, Column.ACID) == ["acid, %", "2.5", "2.5", ""]
    assert column(plan, Column.LOCKED) == ["locked", "yes", "no", "no"]
    flooded = change_section(plan, "s1", fixed_ml=500.0)
    assert column(change_section(flooded, "s2", fixed_ml=1.0), Column.STATE)[1:] == [
        "over",
        "under",
        "in range",
    ]


def test_no_name_becomes_a_formula_or_more_than_one_cell() -> None:
    names = ("=1+1", "@SUM(A1)", '"Dusk', "سماء;-1")
    plan = plain_plan(4)
    sections = tuple(replace(one, name=name) for one, name in zip(plan.sections, names, strict=True))
    assert column(replace(plan, sections=sections), Column.NAME)[1:] == [
        *("'=1+1", "'@SUM(A1)", '"Dusk', "سماء;'-1"),
    ]


def test_what_was_copied_can_be_pasted_as_lengths() -> None:
    plan = plain_plan(3)
    for tongue in (ENGLISH, Tongue("us", is_english=True)):
        text = copied_rows(rows_of(worksheet(plan)), list(Column), tongue)
        assert [round(length, 4) for length in parse_lengths(text, tongue)] == [1.3333] * 3


def test_only_the_columns_that_are_shown_are_copied() -> None:
    copy = partial(copied_rows, rows_of(worksheet(plain_plan(1))))
    assert copy([Column.LETTER, Column.LENGTH], ENGLISH) == "liquor\tlength, cm\nA\t400\n"
