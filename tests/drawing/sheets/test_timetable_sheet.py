"""If these fail, a step is done at the wrong time, or without the caution that belongs to it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import QLocale

from studio_gui.domain.edits.inputs import set_liquid, set_timetable
from studio_gui.domain.plan import Plan
from studio_gui.drawing.sheets.page import Page, Rule
from studio_gui.drawing.sheets.paper import A4, LETTER, Paper
from studio_gui.drawing.sheets.timetable_sheet import timetable_pages
from tests.drawing.sheets.benches import NAMES, bench_plan, laid_out, read_back, words_on
from tests.drawing.sheets.test_cards import fits

pytestmark = pytest.mark.usefixtures("qapp")


def timetable_sheets(plan: Plan, paper: Paper = A4) -> tuple[Page, ...]:
    return laid_out(timetable_pages, plan, paper)


@pytest.mark.parametrize("paper", [A4, LETTER])
@pytest.mark.parametrize("start_min", [None, 0.0, 1439.0])
def test_steps_fit_on_a_sheet_that_is_read_without_a_break(paper: Paper, start_min: float | None) -> None:
    pages = timetable_sheets(set_timetable(bench_plan(2), start_min=start_min), paper)
    assert fits(pages) == []
    assert len(pages) == 1
    assert min(words.size_pt for words in pages[0].words()) >= 16.0


@pytest.mark.parametrize("name", ["de_DE", "en_US", "zh_TW", "ar_EG"])
def test_times_of_any_locale_fit(name: str) -> None:
    QLocale.setDefault(QLocale(name))
    try:
        plan = set_timetable(bench_plan(2), start_min=1290.0, cool_min=20_159.0, dry_min=20_159.0)
        assert fits(timetable_sheets(plan, LETTER)) == []
    finally:
        QLocale.setDefault(QLocale.c())


@pytest.mark.parametrize("name", NAMES, ids=lambda name: name[:6])
def test_any_title_fits(name: str) -> None:
    assert fits(timetable_sheets(replace(bench_plan(2), title=name))) == []


def test_with_a_start_every_step_has_its_times() -> None:
    text = read_back(timetable_sheets(set_timetable(bench_plan(2), start_min=570.0)))
    for times in (
        "09:30 to 10:00",
        "11:15 to 12:00",
        "12:00 to 00:00, day 2",
        "00:30, day 2 to 00:30, day 3",
    ):
        assert times in text
    assert "12 h" in text
    assert "45 min" in text


def test_without_a_start_there_are_lines_to_write_on() -> None:
    (page,) = timetable_sheets(bench_plan(2))
    lines = words_on(page)
    assert "Start" in lines
    assert lines.count("to") == 7
    blanks = [mark for mark in page.marks if isinstance(mark, Rule) and mark.width_mm == 0.25]
    assert len(blanks) == 2 + 2 * 7


def test_cautions_stand_at_their_steps() -> None:
    plan = set_liquid(bench_plan(2), soak_acid_g_per_l=10.0)
    text = " ".join(read_back(timetable_sheets(plan)).split())
    order = ["Soak", "eyes", "Paint", "mask", "Wrap", "seam up", "Steam", "aluminium", "lid away", "Cool"]
    order += ["hot acid water", "Rinse", "Waste water", "Dry", "safety sheet"]
    places = [text.index(word) for word in order]
    assert places == sorted(places)
    assert "children" in text


def test_an_acid_of_the_soak_that_is_not_known_is_said() -> None:
    unknown = timetable_sheets(set_liquid(bench_plan(2), soak_acid_g_per_l=None))
    assert "The acid of this water is not known." in " ".join(read_back(unknown).split())
