"""If these fail, a spreadsheet shows wrong numbers or broken names, or runs a name as a formula."""

from __future__ import annotations

import codecs
import csv
import dataclasses
import io
import math

import pytest
from hypothesis import given

from studio_gui.domain.edits.boundaries import set_gap
from studio_gui.domain.edits.sections import set_locked
from studio_gui.domain.liquors import Liquor
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.export.table import harmless, table_bytes
from tests.drawing.plans import plain_plan
from tests.export.plans import plans_of_one_colour, sample

TEXT_COLUMNS = {"locked", "name", "letter", "liquor", "liquid", "saturation", "colour"}
FORMULAS = [
    "=1+1",
    "+1",
    "-1",
    "@SUM(A1)",
    '=HYPERLINK("http://example.invalid","x")',
    "＝1",  # noqa: RUF001
    "＋1",  # noqa: RUF001
    "－1",  # noqa: RUF001
    "＠a",  # noqa: RUF001
    "  =1",
    "\u3000=1",
    "Slate;=1",
    "Slate; =1",
]


def rows_of(plan: Plan) -> list[list[str]]:
    text = table_bytes(worksheet(plan)).decode("utf-8-sig")
    return list(csv.reader(io.StringIO(text, newline=""), strict=True))


def column(plan: Plan, header: str) -> list[str]:
    headers, *rows = rows_of(plan)
    return [row[headers.index(header)] for row in rows]


def numbers(plan: Plan, header: str) -> list[float]:
    return [float(cell) for cell in column(plan, header)]


@given(plans_of_one_colour())
def test_it_is_a_rectangle_with_one_row_a_section(plan: Plan) -> None:
    rows = rows_of(plan)
    assert len(rows) == 1 + len(plan.sections)
    assert {len(row) for row in rows} == {len(rows[0])}


@given(plans_of_one_colour())
def test_every_header_is_there_once(plan: Plan) -> None:
    headers = rows_of(plan)[0]
    assert len(set(headers)) == len(headers)
    assert all(headers)


@given(plans_of_one_colour())
def test_no_cell_begins_a_formula(plan: Plan) -> None:
    for row in rows_of(plan):
        for cell in row:
            for piece in cell.split(";"):
                assert not piece.lstrip().startswith(tuple("=+-@＝＋－＠")), cell  # noqa: RUF001


@given(plans_of_one_colour())
def test_numbers_are_plain_decimals_or_empty_where_unknown(plan: Plan) -> None:
    headers, *rows = rows_of(plan)
    for row in rows:
        for header, cell in zip(headers, row, strict=True):
            if header not in TEXT_COLUMNS:
                assert cell == "" if header == "acid (% owf)" and not cell else math.isfinite(float(cell))


@given(plans_of_one_colour())
def test_amounts_add_up_to_the_liquid(plan: Plan) -> None:
    headers, *rows = rows_of(plan)
    first = headers.index("wiped (ml)") + 1
    amounts = range(first, first + sum(worksheet(plan).figures.used_stocks))
    for row in rows:
        total = sum(float(row[index]) for index in amounts)
        assert total == pytest.approx(float(row[headers.index("liquid (ml)")]), rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("formula", FORMULAS)
def test_a_hostile_name_is_text_wherever_it_stands(formula: str) -> None:
    plan = sample("two-shores")
    plan = dataclasses.replace(
        plan,
        stocks=tuple(dataclasses.replace(stock, name=formula + stock.id) for stock in plan.stocks),
        liquors=tuple(dataclasses.replace(liquor, name=formula) for liquor in plan.liquors),
        sections=tuple(dataclasses.replace(section, name=formula) for section in plan.sections),
    )
    assert column(plan, "name") == [harmless(formula)] * len(plan.sections)
    assert column(plan, "liquor") == [harmless(formula)] * len(plan.sections)
    assert harmless(f"ml of {formula}plum") in rows_of(plan)[0]
    assert "'" in harmless(formula)


@pytest.mark.parametrize("sign", ["=", "+", "-", "@"])
def test_a_letter_that_is_a_sign_is_text(sign: str) -> None:
    plan = sample("two-shores")
    first = dataclasses.replace(plan.liquors[0], letter=sign)
    assert column(dataclasses.replace(plan, liquors=(first, *plan.liquors[1:])), "letter")[0] == f"'{sign}"


@pytest.mark.parametrize(
    "name", ["Slate, deep", 'the "good" one', "Ключ", "藍 🐑", "a - b", "'quoted'", "3=4"]
)
def test_a_harmless_name_stays_as_it_is(name: str) -> None:
    plan = sample("two-shores")
    first = dataclasses.replace(plan.sections[0], name=name)
    assert column(dataclasses.replace(plan, sections=(first, *plan.sections[1:])), "name")[0] == name


def test_it_is_marked_as_utf8_and_its_lines_end_as_rfc_4180_has_them() -> None:
    data = table_bytes(worksheet(sample("two-shores")))
    assert data.startswith(codecs.BOM_UTF8)
    assert data.count(b"\r\n") == data.count(b"\n") == 6
    assert data.endswith(b"\r\n")


def test_a_matching_set_is_told_for_the_set_and_for_one_roving() -> None:
    """Four rovings of 100 g at 1.5 ml/g: worked by hand."""
    plan = sample("harbour-thaw")
    assert numbers(plan, "section") == [1, 2, 3, 4, 5]
    assert numbers(plan, "start (m)") == [0, 0.8, 1.4, 2.6, 3]
    assert numbers(plan, "end (m)") == [0.8, 1.4, 2.6, 3, 4]
    assert numbers(plan, "length (m)") == [0.8, 0.6, 1.2, 0.4, 1.0]
    assert numbers(plan, "liquid (ml)") == [120, 90, 180, 60, 150]
    assert numbers(plan, "liquid per roving (ml)") == [30, 22.5, 45, 15, 37.5]
    assert numbers(plan, "ml of Harbour blue") == [72, 13.5, 36, 0, 0]
    assert numbers(plan, "% owf of Harbour blue") == [0.9, 0.225, 0.3, 0, 0]
    assert numbers(plan, "acid (% owf)") == [1.5] * 5
    assert column(plan, "letter") == list("ABCDE")


def test_no_cell_shows_the_dust_of_binary_fractions() -> None:
    assert "1.2" in column(sample("harbour-thaw"), "length (m)")  # 2.6 - 1.4 in binary is a little more


def test_acid_that_is_not_known_is_an_empty_cell() -> None:
    plan = sample("storm-kettle")
    acid = column(plan, "acid (% owf)")
    assert [section.name for section, cell in zip(plan.sections, acid, strict=True) if not cell] == [
        "Unlabelled reed"
    ]


def test_a_stock_that_is_not_used_has_no_column() -> None:
    headers = rows_of(sample("storm-kettle"))[0]
    assert not any(header.endswith("Soot black") for header in headers)


def test_bottles_of_one_name_are_told_apart_by_their_ids() -> None:
    plan = sample("two-shores")
    plan = dataclasses.replace(
        plan, stocks=tuple(dataclasses.replace(stock, name="Blue") for stock in plan.stocks)
    )
    assert {"ml of Blue [plum]", "ml of Blue [red]"} <= set(rows_of(plan)[0])


def test_a_plan_that_paints_nothing_is_still_a_table() -> None:
    plan = sample("two-shores")
    bare = tuple(Liquor(liquor.id, liquor.letter, "") for liquor in plan.liquors)
    assert numbers(dataclasses.replace(plan, liquors=bare), "liquid (ml)") == [0.0] * 5


def test_gaps_overlaps_and_locks_are_told() -> None:
    plan = set_gap(set_gap(plain_plan(3), 0, 0.02), 1, -0.03)
    headers, *rows = rows_of(set_locked(plan, ["s3"], locked=True))
    told = [
        [row[headers.index(name)] for row in rows]
        for name in ("gap after (m)", "overlap after (m)", "locked")
    ]
    assert told == [["0.02", "0", "0"], ["0", "0.03", "0"], ["no", "no", "yes"]]
