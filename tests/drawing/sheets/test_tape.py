"""If these fail, a painter paints beside the boundaries, or cannot read or join the tape."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pypdfium2
import pytest
from numpy.typing import NDArray
from PySide6.QtWidgets import QApplication

from studio_gui.domain.edits.inputs import fold_by_weight, set_lay
from studio_gui.domain.fibre import Fibre, MassMark, Roving
from studio_gui.domain.legs import leg_marks
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.drawing.sheets.page import Page, Rule
from studio_gui.drawing.sheets.paper import A4, LETTER, Paper
from studio_gui.drawing.sheets.tape import MOST_PAGE_MM, tape_pages
from studio_gui.export.sheet_files import pdf_of
from studio_gui.wording.tape_words import place_words
from studio_gui.wording.translation import install_units
from tests.drawing.plans import plain_plan, plan_of_states
from tests.drawing.sheets.misfits import misfits
from tests.scenes.scene_plans import two_shores

MM_PER_PT = 25.4 / 72.0
DOTS_PER_INCH = 144.0
ROLL = Choices(tape_on_a_roll=True)
#: From the top of a tape: just beneath the colours only lines of boundaries are black; on the middle of the
#: foot, less this, the diamonds of joins are the outermost.
LINES_MM, FOOT_MM, DIAMOND_MM = 42.0, 49.0, 1.7


@pytest.fixture(autouse=True, scope="module")
def _font(qapp: QApplication) -> Iterator[None]:
    assert isinstance(qapp, QApplication)
    with lent_font():
        yield


def _pages(plan: Plan, choices: Choices) -> tuple[Page, ...]:
    return tape_pages(worksheet(plan), choices)


def _texts(pages: tuple[Page, ...]) -> list[str]:
    document = pypdfium2.PdfDocument(pdf_of(pages, "tape"))
    return [page.get_textpage().get_text_bounded() for page in document]


def _weighed(*, each: bool) -> Plan:
    marks = (MassMark(0.5, 0.53),)
    measured = (Roving(150.0, (MassMark(0.5, 0.52),)), Roving(150.0)) if each else ()
    fibre = Fibre(150.0, 6.0, 2, mass_marks=() if each else marks, measured=measured)
    return fold_by_weight(replace(two_shores(), fibre=fibre))


# -- scale, on rendered pixels -------------------------------------------------------------------------------


def _tops(page: Page) -> list[float]:
    """Return where on the page its tapes begin, mm: at long lines with ticks on them."""
    rules = [mark for mark in page.marks if isinstance(mark, Rule)]
    hanging = {rule.y1 for rule in rules if rule.x1 == rule.x2 and rule.y2 > rule.y1}
    level = {rule.y1 for rule in rules if rule.y1 == rule.y2 and not rule.dash_mm and rule.width_mm == 0.3}
    return sorted(hanging & level)


def _black(row: NDArray[np.uint8], mm_per_px: float) -> list[tuple[float, float]]:
    """Return middle and width of all that is drawn on one row of pixels, weighed by its blackness, mm."""
    blackness = 1.0 - row[:, :3].max(axis=1) / 255.0
    inked = np.concatenate(([False], blackness > 0.02, [False]))
    ends = np.flatnonzero(inked[1:] != inked[:-1])
    found = []
    for start, end in zip(ends[::2], ends[1::2], strict=True):
        ink = blackness[start:end]
        middle = float(np.average(np.arange(start, end) + 0.5, weights=ink))
        found.append((middle * mm_per_px, float(ink.sum()) * mm_per_px))
    return found


def _measured(pages: tuple[Page, ...]) -> Iterator[tuple[list[float], list[float]]]:
    """Yield the boundaries and the diamonds of joins of every piece as rendered, mm from the paper's edge."""
    for page, rendered in zip(pages, pypdfium2.PdfDocument(pdf_of(pages, "tape")), strict=True):
        pixels = rendered.render(scale=DOTS_PER_INCH / 72.0).to_numpy()
        mm_per_px = rendered.get_width() * MM_PER_PT / pixels.shape[1]
        for top in _tops(page):
            lines = _black(pixels[round((top + LINES_MM) / mm_per_px)], mm_per_px)
            shapes = _black(pixels[round((top + FOOT_MM - DIAMOND_MM) / mm_per_px)], mm_per_px)
            yield (
                [middle for middle, width in lines if 0.7 < width < 0.9],
                [middle for middle, width in shapes if 0.6 < width < 1.4],
            )


def _joined(pages: tuple[Page, ...]) -> list[float]:
    """Return where boundaries are on the tape as rendered and joined, mm from the first."""
    pieces = list(_measured(pages))
    found: list[float] = []
    before = 0.0
    for number, (lines, diamonds) in enumerate(pieces):
        left = lines[0] if number == 0 else diamonds[0]
        right = diamonds[-1] if number + 1 < len(pieces) else left + 1e6
        found += [before + line - left for line in lines if left - 0.1 <= line < right - 0.1]
        before += right - left
    return found


@pytest.mark.parametrize("passes", [1, 2])
@pytest.mark.parametrize("choices", [Choices(A4), Choices(LETTER), ROLL])
def test_boundaries_of_the_joined_tape_lie_where_the_plan_has_them(choices: Choices, passes: int) -> None:
    plan = plain_plan(7, passes=passes, length_m=2.3 * passes)
    assert _joined(_pages(plan, choices)) == pytest.approx(1000.0 * np.array(plan.edges_m), abs=0.5)


def test_a_film_too_long_for_one_page_is_joined_from_two_on_the_roll() -> None:
    plan = plain_plan(5, length_m=6.4)
    pages = _pages(plan, ROLL)
    assert len(pages) == 2
    assert all(page.paper.width <= MOST_PAGE_MM for page in pages)
    assert _joined(pages) == pytest.approx(1000.0 * np.array(plan.edges_m), abs=0.5)


def test_a_film_of_five_metres_is_one_page_on_the_roll() -> None:
    assert len(_pages(plain_plan(5, length_m=4.8), ROLL)) == 1


@pytest.mark.parametrize("choices", [Choices(A4), Choices(LETTER), ROLL])
def test_the_check_line_is_100_mm_on_every_page(choices: Choices) -> None:
    pages = _pages(plain_plan(3), choices)
    for page, rendered in zip(pages, pypdfium2.PdfDocument(pdf_of(pages, "tape")), strict=True):
        pixels = rendered.render(scale=DOTS_PER_INCH / 72.0).to_numpy()
        mm_per_px = rendered.get_width() * MM_PER_PT / pixels.shape[1]
        ends = [mark for mark in page.marks if isinstance(mark, Rule) and mark.y2 - mark.y1 == 4.0]
        (first, _), (second, _), *_ = _black(pixels[round((ends[0].y1 + 0.8) / mm_per_px)], mm_per_px)
        assert second - first == pytest.approx(100.0, abs=0.1)


# -- words ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", [A4, LETTER])
@pytest.mark.parametrize("count", [1, 3, 8, 24, 100])
@pytest.mark.parametrize("passes", [1, 2])
def test_no_text_is_clipped_or_over_another(count: int, paper: Paper, passes: int) -> None:
    for choices in (Choices(paper), replace(ROLL, paper=paper)):
        for page in _pages(plain_plan(count, passes=passes), choices):
            assert misfits(page) == []


@pytest.mark.parametrize(
    "name", ["W" * 300, "Kelp " * 60, "藍と茜" * 100, "أزرق البحر " * 27, "שחור לבן " * 33]
)
def test_long_names_in_any_script_keep_to_their_place(name: str) -> None:
    plan = plain_plan(8)
    liquors = tuple(replace(liquor, letter=f"W{liquor.letter}Q") for liquor in plan.liquors)
    sections = tuple(replace(section, name=name) for section in plan.sections)
    plan = replace(plan, title=name, liquors=liquors, sections=sections)
    for choices in (Choices(A4), Choices(LETTER), ROLL):
        for page in _pages(plan, choices):
            assert misfits(page) == []


def test_narrow_sections_have_their_letters_too() -> None:
    pages = _pages(plain_plan(100, length_m=0.5), Choices())
    letters = [line for page in pages for words in page.words() for line in words.lines if len(line) == 1]
    assert sum(letter in "ABC" for letter in letters) == 100
    assert all(misfits(page) == [] for page in pages)


@pytest.mark.parametrize("choices", [Choices(A4), Choices(LETTER), ROLL])
def test_every_boundary_has_its_place_and_every_section_its_letter(choices: Choices) -> None:
    plan = plan_of_states(7, passes=2)
    pages = _pages(plan, choices)
    words = [line for page in pages for words in page.words() for line in words.lines]
    for edge_m in plan.edges_m:
        assert words.count(place_words(edge_m)) == 1
    assert words.count("A") >= len(plan.sections)
    assert {"gap 7.1 cm", "overlap 7.1 cm", "fold", "start here, end", "extra film 10 cm"} <= set(words)
    assert words.count("film ends") == 2


def test_words_read_back_from_the_file() -> None:
    pages = _pages(two_shores(), Choices())
    texts = _texts(pages)
    for number, text in enumerate(texts, start=1):
        assert f"page {number} of {len(pages)}" in text
        assert two_shores().title in text
        assert "Lot" in text
        assert "This line is 100 mm" in text
    everything = "".join(texts)
    assert "Film to cut: 320 cm" in everything
    assert all(place in everything for place in ("60.0", "100.0", "180.0", "230.0", "300.0"))


def test_both_sheets_of_a_join_carry_its_number() -> None:
    pages = _pages(two_shores(), Choices())
    words = [line for page in pages for words in page.words() for line in words.lines]
    pieces = [line for line in words if line.startswith("Piece ")]
    assert pieces[0] == "Piece 1 of 13: \u221210 to 15 cm"
    assert pieces[-1] == "Piece 13 of 13: 290 to 310 cm"
    bubbles = [
        line
        for page in pages
        for one in page.words()
        for line in one.lines
        if one.size_pt == 12.0 and line.isdigit()
    ]
    assert sorted(bubbles, key=int) == [str(join) for join in range(1, 13) for _ in range(2)]


def test_pieces_are_whole_inches_long_where_lengths_are_in_inches() -> None:
    install_units("us")
    try:
        texts = "".join(_texts(_pages(two_shores(), Choices(LETTER))))
    finally:
        install_units("metric")
    assert "\u22124 to 5 in" in texts
    assert "23.62" in texts


def test_unequal_legs_start_and_turn_where_they_lie() -> None:
    pages = _pages(set_lay(two_shores(), fold_positions_m=(2.6,)), ROLL)
    starts = [one.box for one in pages[0].words() if one.lines == ("start here",)]
    ends = [one.box for one in pages[0].words() if one.lines == ("end",)]
    folds = [one.box for one in pages[0].words() if one.lines == ("fold",)]
    assert ends[0].x < starts[0].x < folds[0].x
    assert starts[0].right == pytest.approx(4.0 + 900.0, abs=2.0)


def test_marks_of_legs_are_printed_where_legs_differ() -> None:
    assert not any("leg 1" in text for text in _texts(_pages(two_shores(), Choices())))
    for each in (False, True):
        plan = _weighed(each=each)
        pages = _pages(plan, Choices())
        words = [line for page in pages for words in page.words() for line in words.lines]
        for roving in range(2) if each else (None,):
            for mark_m in leg_marks(plan, roving).flat:
                assert any(line.endswith(f"  {place_words(float(mark_m))}") for line in words)
        assert ("roving 1, leg 2" in words) == each
        assert ("leg 2" in words) != each
        assert all(misfits(page) == [] for page in pages)


def test_many_strands_share_the_marks_of_their_mean() -> None:
    fibre = Fibre(150.0, 6.0, 8, measured=tuple(Roving(150.0, (MassMark(0.5, 0.53),)) for _ in range(8)))
    words = [
        line
        for page in _pages(fold_by_weight(replace(two_shores(), fibre=fibre)), Choices())
        for one in page.words()
        for line in one.lines
    ]
    assert "leg 1" in words
    assert "roving 1, leg 1" not in words


def test_without_extra_film_the_tape_begins_with_the_lay() -> None:
    plan = set_lay(two_shores(), overhang_m=0.0)
    words = [line for page in _pages(plan, Choices()) for one in page.words() for line in one.lines]
    assert "film ends" not in words
    assert "start here, end" in words
