"""If these fail, the yarn page lacks a figure, shows another yarn, or cannot be read."""

from collections.abc import Iterator
from dataclasses import replace

import pypdfium2
import pytest
from PySide6.QtCore import QByteArray
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtSvg import QSvgRenderer
from PySide6.QtWidgets import QApplication

from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import Worksheet, worksheet
from studio_gui.domain.yarn import STRUCTURES, Ply, Strip, Stripe, Structure
from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.drawing.sheets.page import Page, Picture
from studio_gui.drawing.sheets.paper import A4, LETTER, Paper
from studio_gui.drawing.sheets.yarn_facts import MOST_TOLD
from studio_gui.drawing.sheets.yarn_sheet import yarn_pages
from studio_gui.export.sheet_files import image_of, pdf_of, svg_of
from studio_gui.wording.quantities import MASS, SHARE, YARN_LENGTH, shown
from studio_gui.wording.spin_steps import spin_steps
from studio_gui.wording.stripes import fit_words
from tests.drawing.plans import plain_plan
from tests.drawing.sheets.misfits import misfits

PX_PER_MM = 96.0 / 25.4


@pytest.fixture(autouse=True, scope="module")
def _font(qapp: QApplication) -> Iterator[None]:
    assert isinstance(qapp, QApplication)
    with lent_font():
        yield


def _spun(structure: Structure, plan: Plan | None = None, **numbers: object) -> Worksheet:
    plan = plan or plain_plan(4, rovings=2)
    plies = (Ply(1, 0.0, 0.5), Ply(2, 1.0, 0.0, 0.5, (Strip(), Strip(2.0, flipped=True))))
    extra = {"plies": plies} if structure == "free" else {}
    yarn = replace(plan.yarn, structure=structure, **(extra | numbers))  # type: ignore[arg-type]  # any field
    return worksheet(replace(plan, yarn=yarn))


def _said(pages: tuple[Page, ...]) -> list[str]:
    return [" ".join(words.lines) for page in pages for words in page.words()]


def _text(pages: tuple[Page, ...]) -> str:
    """Return the words of all pages as a file has them, with single spaces."""
    document = pypdfium2.PdfDocument(pdf_of(pages, "yarn"))
    return " ".join(" ".join(page.get_textpage().get_text_bounded() for page in document).split())


@pytest.mark.parametrize("structure", STRUCTURES)
def test_figures_and_steps_read_back_as_the_worksheet_has_them(structure: Structure) -> None:
    sheet = _spun(structure)
    yarn, text = sheet.yarn, _text(yarn_pages(sheet, Choices()))
    assert shown(YARN_LENGTH, yarn.plied_m) in text
    assert f"{shown(SHARE, yarn.solid_share)} · {shown(YARN_LENGTH, yarn.solid_m)}" in text
    for pair in yarn.pairs:
        assert f"{shown(YARN_LENGTH, pair.plied_m)} · {shown(SHARE, yarn.share(pair.plied_m))}" in text
    for run in yarn.runs:
        assert f"{shown(YARN_LENGTH, run.end_m - run.start_m)} from {shown(YARN_LENGTH, run.start_m)}" in text
    for left_m, left_g in zip(yarn.leftover_m, yarn.leftover_g, strict=True):
        assert left_m == 0.0 or f"{shown(YARN_LENGTH, left_m)} · {shown(MASS, left_g)}" in text
    assert "nothing" in text or any(yarn.leftover_m)
    for number, step in enumerate(spin_steps(sheet), start=1):
        assert f"{number}. {step}".replace(" ", "") in text.replace(" ", "")
    assert ("A change mixes" in text) == (structure == "chain")


@pytest.mark.parametrize("paper", [A4, LETTER])
@pytest.mark.parametrize("count", [1, 3, 8, 24, 100])
@pytest.mark.parametrize("structure", ["broken at the fold", "fractal", "free"])
def test_no_text_is_clipped_or_over_another(structure: Structure, count: int, paper: Paper) -> None:
    for passes in (1, 2):
        sheet = _spun(structure, plain_plan(count, rovings=2, passes=passes))
        for page in yarn_pages(sheet, Choices(paper)):
            assert misfits(page) == []


@pytest.mark.parametrize(
    "name", ["W" * 300, "Kelp " * 60, "藍と茜" * 100, "أزرق البحر " * 27, "שחור לבן " * 33]
)
def test_long_names_in_any_script_keep_to_their_place(name: str) -> None:
    plan = plain_plan(8)
    liquors = tuple(replace(liquor, letter=f"W{liquor.letter}Q", name=name) for liquor in plan.liquors)
    plan = replace(plan, title=name, liquors=liquors)
    stripes = tuple(Stripe(liquor.id, 8.0) for liquor in liquors)
    for paper in (A4, LETTER):
        for page in yarn_pages(_spun("lengthwise", plan, stripes=stripes), Choices(paper)):
            assert misfits(page) == []


def test_wanted_stripes_are_there_where_the_plan_has_some() -> None:
    sheet = _spun("chain", stripes=(Stripe("q1", 20.0), Stripe("q3", 30.0, "metres")))
    said = _said(yarn_pages(sheet, Choices()))
    assert "Wanted stripes" in said
    assert any(fit_words(sheet.stripes) in line for line in said)
    assert {"1. A Blue", "2. C Red"} <= set(said)
    assert any(line.startswith("20 rows · ") for line in said)
    assert "Wanted stripes" not in _said(yarn_pages(_spun("chain"), Choices()))


def test_a_yarn_that_changes_very_often_tells_how_many_more_runs_there_are() -> None:
    sheet = _spun("fractal", plain_plan(100, passes=2))
    pages = yarn_pages(sheet, Choices())
    assert f"and {len(sheet.yarn.runs) - MOST_TOLD} more" in _said(pages)
    assert len(pages) <= 3


def test_a_plan_without_yarn_says_why_and_has_no_picture_of_it() -> None:
    pages = yarn_pages(_spun("rovings", offsets_m=(0.0, 99_999.0)), Choices())
    assert any(line.startswith("There is no yarn to knit with") for line in _said(pages))
    assert sum(isinstance(mark, Picture) for page in pages for mark in page.marks) == 1
    assert all(misfits(page) == [] for page in pages)


def test_a_yarn_too_short_for_a_row_says_so_in_place_of_the_swatch() -> None:
    plan = plain_plan(3)
    sheet = worksheet(replace(plan, fibre=replace(plan.fibre, mass_g=1.0, rovings=1)))
    short = worksheet(
        replace(
            sheet.plan, yarn=replace(sheet.plan.yarn, knitting=replace(sheet.plan.yarn.knitting, row_m=90.0))
        )
    )
    pages = yarn_pages(short, Choices())
    assert any("One row takes 90.00 m, and the yarn has" in line for line in _said(pages))
    assert sum(isinstance(mark, Picture) for page in pages for mark in page.marks) == 3


def test_pictures_show_the_colours_of_strip_and_yarn() -> None:
    sheet = _spun("single", plain_plan(3))
    page = yarn_pages(sheet, Choices())[0]
    image = image_of(page, 120.0)
    pictures = [mark.box for mark in page.marks if isinstance(mark, Picture)]
    for box in pictures[:3]:  # strip, yarn, map: all blue, pale and red in turn
        seen = [
            QColor(
                image.pixel(
                    round((box.x + share * box.width) / 25.4 * 120.0),
                    round((box.y + 0.45 * box.height) / 25.4 * 120.0),
                )
            )
            for share in (0.1, 0.45, 0.9)
        ]
        assert seen[0].blue() > seen[0].red()
        assert seen[1].lightness() > seen[0].lightness()
        assert seen[2].red() > seen[2].blue()


@pytest.mark.parametrize("structure", STRUCTURES)
def test_svg_has_all_pictures_in_colour_and_in_their_boxes_and_all_words(structure: Structure) -> None:
    page = yarn_pages(_spun(structure), Choices())[0]
    svg = svg_of(page, "Plain", "yarn")
    assert b"Spinning" in svg
    assert len(svg) < 600_000
    image = QImage(1123, 794, QImage.Format.Format_RGB32)
    image.fill(QColor("white"))
    painter = QPainter(image)
    QSvgRenderer(QByteArray(svg)).render(painter)
    painter.end()
    for box in [mark.box for mark in page.marks if isinstance(mark, Picture)][:3]:
        y = round((box.y + 0.45 * box.height) * PX_PER_MM)
        inside = image.pixelColor(round((box.x + 0.03 * box.width) * PX_PER_MM), y)
        assert inside.blue() > inside.red() + 30
        assert image.pixelColor(round(box.x * PX_PER_MM) - 4, y) == QColor("white")
        assert image.pixelColor(round(box.right * PX_PER_MM) + 4, y) == QColor("white")


def test_folds_are_marked_on_the_strip() -> None:
    assert _said(yarn_pages(_spun("single", plain_plan(3, passes=3)), Choices())).count("fold") == 2
