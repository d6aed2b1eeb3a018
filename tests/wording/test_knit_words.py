"""If these fail, words about a swatch tell other rows than are knitted."""

from __future__ import annotations

from studio_gui.domain.edits.stripes import set_knitting
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.plan import Plan
from studio_gui.domain.spinning.figures import YarnRun
from studio_gui.domain.spinning.swatch import KnittedRows
from studio_gui.domain.worksheet import worksheet
from studio_gui.wording.knit_words import knitted_run, no_swatch, row_told, swatch_line
from studio_gui.wording.translation import ENGLISH
from tests.drawing.plans import plain_plan


def rows_of(plan: Plan) -> KnittedRows:
    return KnittedRows(worksheet(plan).yarn)


def test_a_row_and_their_number_are_told() -> None:
    rows = rows_of(set_knitting(plain_plan(4), row_m=1.5))
    assert swatch_line(rows, ENGLISH) == f"One row takes 1.50 m of yarn; rows: {rows.rows}"


def test_stretches_are_told_in_rows() -> None:
    rows = rows_of(set_knitting(plain_plan(4), row_m=2.0))
    solid, pole = YarnRun((0, 0), 0.0, 7.8, True), YarnRun((0, 1), 7.8, 11.0, False)
    assert knitted_run(rows, solid, ENGLISH) == "A is solid for 3.9 rows"
    assert knitted_run(rows, pole, ENGLISH) == "A/B is barber-pole for 1.6 rows"
    assert row_told(12, ENGLISH) == "Row 12"


def test_a_yarn_that_is_too_short_says_so_with_both_lengths() -> None:
    plan = set_yarn(set_knitting(plain_plan(4), row_m=100.0), singles_m_per_g=0.5)
    words = swatch_line(rows_of(plan), ENGLISH)
    assert words.startswith("One row takes 100.00 m, and the yarn has ")
    assert words.endswith("Knit narrower, or with less yarn a row.")


def test_no_yarn_at_all_is_told() -> None:
    plan = set_yarn(plain_plan(4, rovings=2), structure="rovings", offsets_m=(0.0, 1e4))
    assert "no yarn" in no_swatch(rows_of(plan), ENGLISH)
