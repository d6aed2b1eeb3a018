"""If these fail, a bottle is mixed wrongly from its sheet, or a caution is missing from it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio_gui.domain.edits.stocks import change_stock
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.drawing.sheets.page import Page
from studio_gui.drawing.sheets.paper import A4, LETTER, Paper
from studio_gui.drawing.sheets.stocks_sheet import stock_pages
from studio_gui.wording.bench_words import measured_ml, powder, volume_made
from tests.drawing.sheets.benches import NAMES, bench_plan, laid_out, read_back, words_on
from tests.drawing.sheets.test_cards import fits
from tests.export.plans import sample

pytestmark = pytest.mark.usefixtures("qapp")


def stock_sheets(plan: Plan, paper: Paper = A4) -> tuple[Page, ...]:
    return laid_out(stock_pages, plan, paper)


def shelf(count: int) -> Plan:
    """Return a plan of one liquor made of so many stocks."""
    plan = bench_plan(1)
    stocks = tuple(replace(plan.stocks[0], id=f"k{i}", name=f"Stock {i}") for i in range(count))
    parts = tuple(replace(plan.liquors[0].parts[0], stock_id=stock.id) for stock in stocks)
    return replace(plan, stocks=stocks, liquors=(replace(plan.liquors[0], parts=parts),))


@pytest.mark.parametrize("paper", [A4, LETTER])
@pytest.mark.parametrize("count", [1, 3, 8, 24])
def test_any_number_of_stocks_fits(count: int, paper: Paper) -> None:
    pages = stock_sheets(shelf(count), paper)
    assert fits(pages) == []
    named = {line for page in pages for line in words_on(page)}
    assert {f"Stock {i}" for i in range(count)} <= named


@pytest.mark.parametrize("paper", [A4, LETTER])
@pytest.mark.parametrize("name", NAMES, ids=lambda name: name[:6])
def test_any_name_fits(name: str, paper: Paper) -> None:
    assert fits(stock_sheets(bench_plan(2, name), paper)) == []


@pytest.mark.parametrize("made_ml", [0.1, 127.5, 1_000_000.0])
def test_any_volume_fits(made_ml: float) -> None:
    plan = bench_plan(2, graduation_ml=0.01, dead_ml=1000.0, spare_share=5.0)
    for stock in plan.stocks:
        plan = change_stock(plan, stock.id, made_ml=made_ml, acid_g_per_l=500.0)
    assert fits(stock_sheets(plan)) == []


def test_what_the_pdf_says_is_what_the_plan_says() -> None:
    plan = change_stock(sample("harbour-thaw"), "blue", made_ml=250.0)
    text = read_back(stock_sheets(plan))
    for bottle in worksheet(plan).bottles:
        assert plan.stock(bottle.stock_id).name in text
        figures = (measured_ml(bottle.need_ml, plan), volume_made(bottle), powder(bottle.acid_g))
        for figure in figures:
            assert figure in text
    assert "2.50" in text  # 250 ml at 1 %


def test_bottles_stand_in_the_order_of_work() -> None:
    lines = [line for page in stock_sheets(sample("storm-kettle")) for line in words_on(page)]
    names = ["Citric stock", "Acid water", "Sloe plum", "Harbour blue", "Plain water"]
    assert [line for line in lines if line in names] == names


def test_a_bottle_too_small_and_an_acid_that_is_not_known_are_flagged() -> None:
    text = read_back(stock_sheets(change_stock(sample("storm-kettle"), "blue", made_ml=100.0)))
    assert "40 ml short: the jars take 140 ml" in text
    assert "acid not known" in text


def test_the_cautions_of_powder_acid_and_waste_are_there_and_nothing_is_too_small() -> None:
    pages = stock_sheets(sample("harbour-thaw"))
    text = " ".join(read_back(pages).split())
    for caution in ("Mask", "draught", "kitchen tools", "eyes", "hot acid water", "aluminium", "children"):
        assert caution in text
    for caution in ("local rules", "safety sheet"):
        assert caution in text
    assert min(words.size_pt for page in pages for words in page.words()) >= 16.0


def test_a_plan_that_needs_no_stock_has_no_sheet_of_them() -> None:
    plan = bench_plan(1)
    assert stock_sheets(replace(plan, liquors=(replace(plan.liquors[0], parts=()),))) == ()
