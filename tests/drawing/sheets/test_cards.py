"""If these fail, a card cannot be read at the bench, or says other amounts than the plan."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from studio_gui.domain.edits.inputs import set_bench
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.sheets.cards import card_pages
from studio_gui.drawing.sheets.page import Frame, Page, Rule, Words
from studio_gui.drawing.sheets.paper import A4, LETTER, MARGIN_MM, Paper
from studio_gui.wording.bench_words import measured_ml
from tests.drawing.sheets.benches import NAMES, bench_plan, laid_out, read_back, words_on
from tests.drawing.sheets.misfits import crossings, misfits
from tests.export.plans import sample

pytestmark = pytest.mark.usefixtures("qapp")


def card_sheets(plan: Plan, paper: Paper = A4) -> tuple[Page, ...]:
    return laid_out(card_pages, plan, paper)


def fits(pages: tuple[Page, ...]) -> list[str]:
    """What does not fit, nor keeps to the margin."""
    with lent_font():
        found = [sentence for page in pages for sentence in misfits(page) + crossings(page)]
    for page in pages:
        inner = page.paper.inset(MARGIN_MM)
        found += [f"{words.lines} is in the margin" for words in page.words() if not inner.holds(words.box)]
    return found


@pytest.mark.parametrize("paper", [A4, LETTER])
@pytest.mark.parametrize("jars", [1, 2, 3, 5, 8, 24])
def test_any_number_of_jars_fits(jars: int, paper: Paper) -> None:
    pages = card_sheets(bench_plan(jars), paper)
    assert fits(pages) == []
    assert sum(words_on(page).count("In all") for page in pages) == jars


@pytest.mark.parametrize("paper", [A4, LETTER])
@pytest.mark.parametrize("name", NAMES, ids=lambda name: name[:6])
def test_any_name_fits(name: str, paper: Paper) -> None:
    assert fits(card_sheets(bench_plan(3, name, syringe_ml=20.0), paper)) == []


@pytest.mark.parametrize("letter", ["A", "WWW", "藍藍藍", "﷽﷽﷽", "🐑"])
def test_any_letter_fits_on_its_slip(letter: str) -> None:
    plan = bench_plan(2)
    liquors = (replace(plan.liquors[0], letter=letter), plan.liquors[1])
    assert fits(card_sheets(replace(plan, liquors=liquors))) == []


@pytest.mark.parametrize("graduation_ml", [0.01, 0.25, 1.0 / 3.0, 5.0, 100.0])
def test_any_graduation_fits(graduation_ml: float) -> None:
    plan = bench_plan(3, graduation_ml=graduation_ml, spare_share=5.0, dead_ml=1000.0)
    assert fits(card_sheets(plan)) == []


def test_a_card_longer_than_a_sheet_goes_on_under_the_same_head() -> None:
    plan = bench_plan(60, syringe_ml=60.0)
    one_jar = replace(plan, sections=tuple(replace(one, liquor_id="q1") for one in plan.sections))
    pages = card_sheets(one_jar)
    assert fits(pages) == []
    assert len(pages) > 1
    assert all("Jar 1" in words_on(page) for page in pages)
    assert sum(words_on(page).count("In all") for page in pages) == 1


def test_what_the_pdf_says_is_what_the_plan_says_and_adds_up_as_printed() -> None:
    plan = sample("harbour-thaw")
    text = read_back(card_sheets(plan))
    for card in worksheet(plan).cards:
        total = measured_ml(card.total_ml, plan)
        amounts = [measured_ml(amount.measured_ml, plan) for amount in card.amounts]
        assert sum(float(ml) for ml in amounts) == float(total)
        for figure in (total, *amounts):
            assert re.search(rf"(?<![\d.]){re.escape(figure)}(?![\d.])", text), figure
        assert plan.liquor(card.jar.liquor_id).name in text
    assert "120 ml to paint, 6 ml spare" in text
    assert "Harbour Thaw" in text


def test_amounts_stand_in_28_points_or_more_and_all_else_in_16_or_more() -> None:
    plan = bench_plan(5, graduation_ml=0.5)
    figures = {
        measured_ml(ml, plan)
        for card in worksheet(plan).cards
        for ml in (card.total_ml, *(amount.measured_ml for amount in card.amounts))
    }
    for page in card_sheets(plan):
        for words in page.words():
            assert words.size_pt >= 16.0
            if words.lines[0] in figures:
                assert words.size_pt >= 28.0


def test_every_amount_has_a_box_to_tick_and_every_letter_its_colour_beneath() -> None:
    (page,) = card_sheets(bench_plan(2))
    frames = [mark for mark in page.marks if isinstance(mark, Frame)]
    assert sum(frame.box.width == 8.0 and frame.fill is None for frame in frames) == 6
    slips = [frame for frame in frames if frame.fill == "#ffffff"]
    bands = [frame for frame in frames if frame.fill not in (None, "#ffffff", "#000000")]
    assert len(slips) == len(bands) == 2
    for slip, band in zip(slips, bands, strict=True):
        assert slip.box.holds(band.box)
    assert [line for line in words_on(page) if line in ("A", "B")] == ["A", "B"]


def test_cards_are_cut_along_lines_that_cross_no_word() -> None:
    for page in card_sheets(bench_plan(5)):
        cuts = [mark for mark in page.marks if isinstance(mark, Rule) and mark.dash_mm]
        assert cuts
        for cut in cuts:
            for words in page.words():
                assert not _crosses(cut, words)


def _crosses(cut: Rule, words: Words) -> bool:
    box = words.box
    if cut.x1 == cut.x2:
        return box.x < cut.x1 < box.right and cut.y1 < box.bottom and cut.y2 > box.y
    return box.y < cut.y1 < box.bottom


def test_a_graduation_too_coarse_is_flagged_on_the_card() -> None:
    text = read_back(card_sheets(sample("storm-kettle"), LETTER))
    assert "measure finer" in text
    assert "!" in text
    assert "measure finer" not in read_back(card_sheets(sample("harbour-thaw")))


def test_a_syringe_is_told_fill_by_fill() -> None:
    text = read_back(card_sheets(set_bench(sample("harbour-thaw"), syringe_ml=60.0)))
    assert "2 × 60 ml, stop at 30, 0" in text
    assert "4 × 45 ml, stop at 0" in text


def test_a_plan_without_jars_has_no_cards() -> None:
    plan = bench_plan(1)
    dry = replace(plan, liquors=(replace(plan.liquors[0], parts=()),))
    assert card_sheets(dry) == ()
