"""If these fail, a print lacks a sheet that was wanted, or has one that was not."""

from collections.abc import Iterator

import pytest
from PySide6.QtWidgets import QApplication

from studio_gui.domain.worksheet import worksheet
from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.sheets.book import SHEETS, pages_of, wanted_sheets
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.drawing.sheets.paper import A4, LETTER, MARGIN_MM, Paper
from tests.drawing.plans import plain_plan


@pytest.fixture(autouse=True, scope="module")
def _font(qapp: QApplication) -> Iterator[None]:
    assert isinstance(qapp, QApplication)
    with lent_font():
        yield


def test_sheets_are_told_apart_by_key_and_by_title() -> None:
    assert len({sheet.key for sheet in SHEETS}) == len({sheet.title() for sheet in SHEETS}) == len(SHEETS)


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_who_chose_nothing_gets_every_sheet_that_the_plan_has(paper: Paper) -> None:
    sheet, choices = worksheet(plain_plan(3)), Choices(paper)
    each = [one.pages(sheet, choices) for one in SHEETS]
    assert each[0]
    names = [page.name for page in pages_of(sheet, choices)]
    assert names == [page.name for pages in each for page in pages]


def test_a_sheet_that_is_left_out_is_not_laid_out() -> None:
    choices = Choices(left_out=frozenset({SHEETS[0].key}))
    assert wanted_sheets(choices) == SHEETS[1:]
    nothing = Choices(left_out=frozenset(sheet.key for sheet in SHEETS))
    assert pages_of(worksheet(plain_plan(3)), nothing) == ()


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_what_shows_predicted_colours_says_so_in_its_margin_and_nothing_else_does(paper: Paper) -> None:
    sheet, every = worksheet(plain_plan(3)), frozenset(one.key for one in SHEETS)
    labelled = set()
    for one in SHEETS:
        for page in pages_of(sheet, Choices(paper, left_out=every - {one.key})):
            label = page.words()[-1]
            if "indicative" in " ".join(label.lines):
                labelled.add(one.key)
                assert page.paper.bottom - MARGIN_MM < label.box.y
                assert label.box.bottom < page.paper.bottom - 5.0, "printers reach as far"
    assert labelled == {"section-map", "liquor-cards", "yarn"}
