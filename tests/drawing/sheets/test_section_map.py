"""If these fail, the section map misleads who paints from it, or cannot be read at arm's length."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

import pytest
from hypothesis import given, settings
from PySide6.QtWidgets import QApplication

from studio_gui.domain.fibre import Lay
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.drawing.sheets.map_columns import BOX_MM
from studio_gui.drawing.sheets.page import BLACK, Frame, Page, Picture, Words
from studio_gui.drawing.sheets.paper import A4, LETTER, MARGIN_MM, Paper
from studio_gui.drawing.sheets.section_map import ROWS_A_PAGE, section_map_pages, section_map_sheet
from studio_gui.wording.section_table import section_table
from studio_gui.wording.translation import install_units
from tests.drawing.plans import plain_plan, plan_of_states
from tests.drawing.sheets.misfits import crossings, misfits
from tests.export.plans import sample
from tests.strategies import plans

SAMPLES = ["harbour-thaw", "long-dusk", "storm-kettle", "two-shores"]
PAPERS = pytest.mark.parametrize("paper", [A4, LETTER], ids=["a4", "letter"])
LONG = "Slate under a low sky with the last light of the year going out over the harbour wall " * 4
ANY_SCRIPT = (
    "Тёмная вода",
    "深い水",
    "שלום מים",
    "طحلب",
    "👩🏽‍🎨" * 30,
    "n" * 300,
    "a\u0301\u0323" * 100,
    "W" * 300,
)


@pytest.fixture(autouse=True, scope="module")
def _font(qapp: QApplication) -> Iterator[None]:
    assert isinstance(qapp, QApplication)
    with lent_font():
        yield


def map_of(plan: Plan, paper: Paper = A4, *, mirrored: bool = False) -> tuple[Page, ...]:
    return section_map_pages(worksheet(plan), Choices(paper, mirrored=mirrored))


def said(page: Page) -> list[str]:
    return [line for words in page.words() for line in words.lines]


def problems(pages: tuple[Page, ...]) -> list[str]:
    return [problem for page in pages for problem in (*misfits(page), *crossings(page))]


def named(plan: Plan, *names: str) -> Plan:
    sections = (
        replace(section, name=names[number % len(names)][:300].strip())
        for number, section in enumerate(plan.sections)
    )
    return replace(plan, sections=tuple(sections))


# -- room ---------------------------------------------------------------------------------------------------


@PAPERS
@pytest.mark.parametrize("passes", [1, 2, 3])
@pytest.mark.parametrize("count", [1, 3, 8, 24, 100])
def test_nothing_is_printed_over_anything(count: int, passes: int, paper: Paper) -> None:
    pages = map_of(plain_plan(count, rovings=4, passes=passes), paper, mirrored=True)
    assert problems(pages) == []


@PAPERS
@pytest.mark.parametrize("rovings", [1, 2, 6, 9, 16, 17, 100])
def test_any_number_of_rovings_fits(rovings: int, paper: Paper) -> None:
    for passes in (1, 16):
        assert problems(map_of(plain_plan(5, rovings=rovings, passes=passes), paper)) == []


@PAPERS
def test_names_of_any_script_and_length_fit_in_full(paper: Paper) -> None:
    plan = named(plain_plan(16, rovings=4, passes=2), *ANY_SCRIPT, LONG)
    plan = replace(plan, title=LONG[:300].strip())
    pages = map_of(plan, paper)
    assert problems(pages) == []
    printed = "".join(line for page in pages for line in said(page)).replace(" ", "")
    for section in plan.sections:
        assert "".join(section.name.split()) in printed.replace("\u2068", "").replace("\u2069", "")
    assert "".join(plan.title.split()) in printed


@PAPERS
def test_letters_wider_than_any_name_should_have_are_shortened_to_a_page(paper: Paper) -> None:
    plan = named(plain_plan(2), "\ufdfd" * 300)
    plan = replace(plan, title="\ufdfd" * 300)
    plan = replace(plan, liquors=tuple(replace(one, name="\ufdfd" * 300) for one in plan.liquors))
    assert problems(map_of(plan, paper)) == []


@PAPERS
@pytest.mark.parametrize("units", ["us", "mixed"])
def test_other_units_fit(units: str, paper: Paper) -> None:
    install_units("us" if units == "us" else "mixed")
    assert problems(map_of(named(plain_plan(8, rovings=4, passes=2), LONG, "Moss"), paper)) == []


def test_amounts_of_a_mill_fit() -> None:
    plan = plain_plan(3, rovings=4, passes=2, length_m=500.0)
    plan = replace(plan, sections=tuple(replace(one, fixed_ml=999_999.9) for one in plan.sections))
    assert problems(map_of(plan, LETTER)) == []


@given(plans())
@settings(max_examples=25)
def test_any_plan_fits(plan: Plan) -> None:
    pages = map_of(plan, LETTER, mirrored=True)
    assert problems(pages) == []
    assert problems((section_map_sheet(worksheet(plan), Choices()),)) == []


def test_very_short_sections_keep_their_letters() -> None:
    plan = plain_plan(9, length_m=8.0)
    places = (2.0, 2.001, 2.002, 2.003, 2.004, 7.997, 7.998, 7.999)
    plan = plan.with_boundaries(
        tuple(replace(one, position_m=place) for one, place in zip(plan.boundaries, places, strict=True))
    )
    pages = map_of(plan)
    assert problems(pages) == []
    letters = Counter(line for page in pages for line in said(page) if line in ("A", "B", "C"))
    assert letters == {"A": 6, "B": 6, "C": 6}  # on the film and in the table


# -- what is said -------------------------------------------------------------------------------------------


@PAPERS
@pytest.mark.parametrize("name", SAMPLES)
def test_every_figure_of_the_table_is_printed_once(name: str, paper: Paper) -> None:
    sheet = worksheet(sample(name))
    table = section_table(sheet)
    printed = Counter(line for page in section_map_pages(sheet, Choices(paper)) for line in said(page))
    for row in range(len(table)):
        assert printed[f"{table.places[row]} to {table.places[row + 1]}"] == 1
    for column in (table.lengths, table.grams, table.set_ml, table.each_ml):
        if column is not None:
            wanted = Counter((*column.cells, column.total))
            assert all(printed[words] >= count for words, count in wanted.items())
    assert printed[sheet.plan.title] == len(section_map_pages(sheet, Choices(paper)))


def test_type_can_be_read_at_arms_length() -> None:
    for page in map_of(plain_plan(24, rovings=4, passes=2)):
        for words in page.words():
            assert words.size_pt >= 16.0
            assert words.colour == BLACK
    (page,) = map_of(sample("harbour-thaw"))
    sizes = {words.lines[0]: words.size_pt for words in page.words() if words.bold}
    for figure in ("120", "22.5", "45.0", "600", "150.0"):
        assert sizes[figure] >= 28.0


def test_ranges_have_no_hyphens() -> None:
    for page in map_of(plain_plan(8, rovings=2)):
        assert not any("-" in line or "–" in line for line in said(page))


@pytest.mark.parametrize(("count", "pages"), [(1, 1), (8, 1), (9, 2), (24, 3), (100, 13)])
def test_at_most_eight_sections_share_a_page_and_pages_share_alike(count: int, pages: int) -> None:
    found = map_of(plain_plan(count, rovings=2))
    rows = [sum(" to " in line for line in said(page)) for page in found]
    assert (len(found), sum(rows)) == (pages, count)
    assert max(rows) <= ROWS_A_PAGE
    assert max(rows) - min(rows) <= ROWS_A_PAGE // 2
    for number, page in enumerate(found, start=1):
        assert f"sheet {number} of {pages}" in said(page)


@PAPERS
def test_eight_sections_of_a_folded_set_fit_on_a_page(paper: Paper) -> None:
    assert len(map_of(plain_plan(8, rovings=4, passes=2), paper)) == 1
    assert len(map_of(plain_plan(24, rovings=4, passes=2), paper)) == 3


@pytest.mark.parametrize("rovings", [1, 4, 9, 16])
def test_each_roving_has_a_box_of_12_mm_in_each_row(rovings: int) -> None:
    boxes = [
        mark.box
        for page in map_of(plain_plan(5, rovings=rovings))
        for mark in page.marks
        if isinstance(mark, Frame)
        and (mark.box.width, mark.box.height) == (BOX_MM, BOX_MM)
        and mark.width_mm == 0.4
    ]
    assert BOX_MM == 12.0
    assert len(boxes) == 5 * rovings


def test_very_many_rovings_are_tallied() -> None:
    pages = map_of(plain_plan(3, rovings=60))
    assert sum(said(page).count("tally of 60 rovings") for page in pages) == 3
    assert any("rovings drawn" in line for line in said(pages[0]))


def test_strands_that_differ_have_an_amount_each() -> None:
    plan = replace(plain_plan(1), lay=Lay((1.0,)))
    (page,) = map_of(plan)
    assert {"1:", "62.5", "2:", "187.5"} <= set(said(page))


def test_what_is_wiped_is_said_and_what_is_wrong_is_not() -> None:
    words = " ".join(line for page in map_of(plan_of_states(7, uneven=False)) for line in said(page))
    assert words.count("wipe out") == 2
    assert "over" not in words
    assert "under" not in words
    assert "Not ready to paint" in " ".join(said(map_of(sample("storm-kettle"))[0]))


# -- the lay -------------------------------------------------------------------------------------------------


def _place(page: Page, words: str) -> float:
    """Return where words stand under or on the film, from the left edge, mm."""
    boxes = (mark.box for mark in page.words() if mark.lines == (words,))
    box = min(boxes, key=lambda box: box.y)  # before any in the table
    return box.x + box.width / 2.0


def test_the_lay_is_to_scale_and_the_other_side_has_it_turned_round() -> None:
    here, there = map_of(sample("harbour-thaw"), mirrored=True)
    for page, first, last in ((here, "80", "260"), (there, "260", "80")):
        places = [_place(page, words) for words in (first, "140", last)]
        assert places == sorted(places)
        steps = abs(int(first) - 140), abs(int(last) - 140)
        assert (places[1] - places[0]) / (places[2] - places[1]) == pytest.approx(steps[0] / steps[1], 1e-3)
    assert _place(here, "start here") < 60.0
    assert _place(there, "start here") > A4.height_mm - 60.0
    assert "seen from the other side" in said(there)
    assert "seen from the other side" not in said(here)


@pytest.mark.parametrize("title", ["Plain", "A long title for " * 6])
def test_both_sides_have_the_same_sections_on_each_page(title: str) -> None:
    plan = replace(plain_plan(24, rovings=4, passes=2), title=title.strip())
    pages = map_of(plan, mirrored=True)
    assert problems(pages) == []
    rows = [[line for line in said(page) if " to " in line] for page in pages]
    assert rows[: len(rows) // 2] == rows[len(rows) // 2 :]


def test_a_fold_is_named_where_it_lies() -> None:
    (page,) = map_of(sample("two-shores"))
    assert _place(page, "fold") > A4.height_mm / 2.0
    assert "fold" not in said(map_of(sample("harbour-thaw"))[0])


def test_pages_of_many_show_their_own_stretch_of_lay() -> None:
    pages = map_of(plain_plan(24))
    assert "start here" in said(pages[0])
    assert "start here" not in said(pages[1])
    for page in pages:
        assert sum(isinstance(mark, Picture) for mark in page.marks) == 2  # the wool, and the whole lay


def test_one_sheet_has_all_rows_and_grows_with_them() -> None:
    heights = []
    for count in (3, 8, 24, 100):
        page = section_map_sheet(worksheet(plain_plan(count, rovings=2)), Choices())
        assert problems((page,)) == []
        assert sum(" to " in line for line in said(page)) == count
        heights.append(page.paper.height)
    assert heights == sorted(heights)


def test_marks_keep_to_what_printers_print() -> None:
    for page in map_of(plain_plan(24, rovings=4, passes=2), mirrored=True):
        inner = page.paper.inset(MARGIN_MM)
        for mark in page.marks:
            if isinstance(mark, Words | Frame | Picture):
                assert inner.holds(mark.box, slack_mm=0.01)
