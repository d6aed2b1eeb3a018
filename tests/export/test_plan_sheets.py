"""If these fail, the printed sheets do not say what the plan says, or cannot be opened."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from functools import lru_cache
from xml.etree import ElementTree

import numpy as np
import pypdfium2
import pytest
from PySide6.QtGui import QImage

from studio_gui.domain.errors import FileProblem
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.drawing.sheets.paper import A4, LETTER, Paper
from studio_gui.drawing.sheets.section_map import section_map_pages
from studio_gui.export import plan_sheets
from studio_gui.export.plan_sheets import section_map_png, section_map_svg, sheets_pdf
from studio_gui.export.sheet_files import pdf_of
from studio_gui.wording.section_table import section_table
from tests.drawing.plans import plain_plan
from tests.export.plans import sample

pytestmark = pytest.mark.usefixtures("qapp")

SAMPLES = ["harbour-thaw", "long-dusk", "storm-kettle", "two-shores"]
SVG = "{http://www.w3.org/2000/svg}"
DOTS_PER_MM = 8.0


def map_pdf(plan: Plan, paper: Paper) -> pypdfium2.PdfDocument:
    with lent_font():
        pages = section_map_pages(worksheet(plan), Choices(paper))
    return pypdfium2.PdfDocument(pdf_of(pages, plan.title))


def texts_of(document: pypdfium2.PdfDocument) -> list[str]:
    return [page.get_textpage().get_text_bounded().replace("\r\n", "\n") for page in document]


@pytest.mark.parametrize("paper", [A4, LETTER], ids=["a4", "letter"])
@pytest.mark.parametrize(("count", "passes"), [(1, 1), (3, 2), (8, 2), (24, 1), (100, 2)])
def test_every_page_reads_back_as_the_worksheet_says(count: int, passes: int, paper: Paper) -> None:
    plan = plain_plan(count, rovings=4, passes=passes, length_m=12.0)
    table = section_table(worksheet(plan))
    document = map_pdf(plan, paper)
    printed = texts_of(document)
    first = 0
    for number, text in enumerate(printed, start=1):
        assert f"sheet {number} of {len(printed)}" in text
        words = Counter(text.split())
        rows = len(re.findall(r" to \d", text))
        for row in range(first, first + rows):
            assert f"{table.places[row]} to {table.places[row + 1]}" in text
            assert table.names[row] in text
            for column in (table.lengths, table.grams, table.set_ml, table.each_ml, table.strand_ml):
                if column is not None:
                    assert words[column.cells[row]] >= 1
        first += rows
    assert first == count
    for column in (table.lengths, table.grams, table.set_ml, table.each_ml):
        assert column is not None
        assert column.total in printed[-1].split()


def test_amounts_add_up_as_they_are_read() -> None:
    """The way somebody checks a sheet with a pocket calculator."""
    plan = plain_plan(8, rovings=3, length_m=3.7)
    (text,) = texts_of(map_pdf(plan, A4))
    table = section_table(worksheet(plan))
    assert table.each_ml is not None
    for column in (table.set_ml, table.each_ml, table.grams):
        assert all(cell in text for cell in column.cells)
        total = sum(round(float(cell) * 1000) for cell in column.cells)
        assert total == round(float(column.total) * 1000)


def test_boundaries_are_to_scale_on_the_rendered_page() -> None:
    document = map_pdf(sample("harbour-thaw"), A4)
    pixels = document[0].render(scale=DOTS_PER_MM * 25.4 / 72.0).to_numpy()[:, :, 0]
    slips = pixels[round(25.4 * DOTS_PER_MM)]  # across the film, above its slips
    dark = np.flatnonzero(slips < 100) / DOTS_PER_MM
    lines = [run.mean() for run in np.split(dark, np.flatnonzero(np.diff(dark) > 1.0) + 1)]
    inner = [line for line in lines if 20.0 < line < 277.0]
    boundaries = [0.8, 1.4, 2.6, 3.0]
    assert len(inner) == len(boundaries)
    scale = (inner[-1] - inner[0]) / (boundaries[-1] - boundaries[0])
    for line, place in zip(inner, boundaries, strict=True):
        assert line - inner[0] == pytest.approx((place - boundaries[0]) * scale, abs=0.3)


@pytest.mark.parametrize("name", SAMPLES)
def test_a_plan_is_exported_with_all_its_sheets(name: str) -> None:
    document = pypdfium2.PdfDocument(sheets_pdf(worksheet(sample(name))))
    assert len(document) > 3
    text = "".join(texts_of(document)[0])
    assert sample(name).title in text
    assert document.get_metadata_dict()["Title"] == sample(name).title


@lru_cache(maxsize=4)
def svg_root(name: str) -> ElementTree.Element:
    return ElementTree.fromstring(section_map_svg(worksheet(sample(name))))  # noqa: S314  (written here)


@pytest.mark.parametrize("name", SAMPLES)
def test_the_svg_parses_and_has_all_rows_on_one_sheet(name: str) -> None:
    texts = ["".join(node.itertext()).strip() for node in svg_root(name).iter(f"{SVG}text")]
    table = section_table(worksheet(sample(name)))
    for row in range(len(table)):
        assert f"{table.places[row]} to {table.places[row + 1]}" in texts
        assert texts.count(table.letters[row]) >= 2  # in the table and on the film
    assert table.set_ml.total in texts


def test_the_svg_carries_names_escaped_and_keeps_the_wool_on_its_film() -> None:
    name = "<b>&\"Reed'</b> \U0001f9f6 שלום \ufffe"
    plan = plain_plan(24, length_m=30.0)
    sections = tuple(replace(section, name=name) for section in plan.sections)
    svg = section_map_svg(worksheet(replace(plan, title=name, sections=sections)))
    root = ElementTree.fromstring(svg)  # noqa: S314  (written here)
    readable = name.replace("\ufffe", "\ufffd")
    assert root.findtext(f"{SVG}title") == readable
    assert readable in (root.findtext(f"{SVG}desc") or "")
    assert "Reed" in "".join(root.itertext())
    width = float(root.attrib["viewBox"].split()[2])
    for path in root.iter(f"{SVG}path"):
        for x in re.findall(r"[ML](-?[\d.]+)", path.attrib["d"]):
            assert -width < float(x) < 40.0 * width  # in hundredths of a millimetre or in pixels


def test_the_png_is_as_long_as_its_rows_need() -> None:
    short, long = (
        QImage.fromData(section_map_png(worksheet(plain_plan(count, rovings=2)))) for count in (3, 24)
    )
    assert short.width() == long.width() == round(297.0 / 25.4 * plan_sheets.DOTS_PER_INCH)
    assert long.height() > 2 * short.height()


def test_a_very_long_map_is_coarser_and_then_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = worksheet(plain_plan(24))
    fine = QImage.fromData(section_map_png(sheet))
    monkeypatch.setattr(plan_sheets, "MOST_PX", fine.width() * fine.height() // 2)
    coarse = QImage.fromData(section_map_png(sheet))
    assert coarse.width() == pytest.approx(fine.width() * 0.5**0.5, rel=0.02)
    monkeypatch.setattr(plan_sheets, "LONGEST_PX", 500)
    with pytest.raises(FileProblem, match="picture-too-large") as refused:
        section_map_png(sheet)
    assert refused.value.params["sections"] == 24
