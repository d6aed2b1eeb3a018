"""How long a section map takes to lay out and to write, as ratios to a bare page.

    .venv/bin/python tests/benchmarks/bench_print.py

The unit is a PDF of as many pages with as many texts in the same type and as many lines and rectangles, drawn
by Qt with nothing thought about. Wool is a raster on each page, which the bare pages have not: both are told.
"""

from __future__ import annotations

import os
import statistics
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from PySide6.QtCore import QBuffer, QIODevice, QLineF, QPointF, QRectF
from PySide6.QtGui import QFont, QGuiApplication, QPageLayout, QPageSize, QPainter, QPdfWriter

from studio_gui.domain.worksheet import worksheet
from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.sheets.choices import Choices
from studio_gui.drawing.sheets.page import Frame, Page, Picture, Rule, Words
from studio_gui.drawing.sheets.section_map import section_map_pages
from studio_gui.drawing.sheets.wool_on_sheet import bare_maps
from studio_gui.export.sheet_files import pdf_of
from tests.drawing.plans import plain_plan

RUNS = 7
SECTIONS = (3, 8, 24, 100)
DOTS_PER_MM = 1200 / 25.4


def main() -> None:
    """Report layout, writing and the bare pages for each number of sections."""
    application = QGuiApplication.instance() or QGuiApplication([])
    print(f"medians of {RUNS}, ms; in brackets the ratio to bare pages")
    for count in SECTIONS:
        sheet = worksheet(plain_plan(count, rovings=4, passes=2, length_m=max(4.0, count / 4.0)))
        bare_maps.cache_clear()
        started = time.perf_counter()
        with lent_font():
            pages = section_map_pages(sheet, Choices())
        pdf_of(pages, "first")
        first = (time.perf_counter() - started) * 1000.0

        def lay_out(sheet: object = sheet) -> None:
            with lent_font():
                section_map_pages(worksheet(sheet.plan), Choices())  # type: ignore[attr-defined]  # bound here

        bare = median(lambda pages=pages: bare_pdf(pages))  # type: ignore[misc]  # bound in the loop
        plain = tuple(without_pictures(page) for page in pages)
        rows = {
            "layout": median(lay_out),
            "words and lines": median(lambda plain=plain: pdf_of(plain, "plain")),  # type: ignore[misc]
            "with wool, fibres new": median(lambda pages=pages: new_fibres(pages)),  # type: ignore[misc]
            "with wool, fibres kept": median(lambda pages=pages: pdf_of(pages, "map")),  # type: ignore[misc]
        }
        print(f"{count} sections, {len(pages)} pages: bare {bare:.1f}, the first of all {first:.0f}")
        for name, took in rows.items():
            print(f"  {name}: {took:.1f} ({took / bare:.2f})")
    del application


def median(work: Callable[[], object]) -> float:
    """Return the median time of some runs, ms."""
    took = []
    for _ in range(RUNS):
        started = time.perf_counter()
        work()
        took.append((time.perf_counter() - started) * 1000.0)
    return statistics.median(took)


def new_fibres(pages: Sequence[Page]) -> None:
    """Write pages whose wool was never drawn before."""
    bare_maps.cache_clear()
    pdf_of(pages, "map")


def without_pictures(page: Page) -> Page:
    """Return a page with everything but its pictures."""
    return replace(page, marks=tuple(mark for mark in page.marks if not isinstance(mark, Picture)))


def bare_pdf(pages: Sequence[Page]) -> bytes:
    """Write as many texts, lines and rectangles as the pages have, without a thought where they stand."""
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(buffer)
    writer.setResolution(1200)
    writer.setPageSize(QPageSize(QPageSize.PageSizeId.A4))
    writer.setPageOrientation(QPageLayout.Orientation.Landscape)
    with lent_font() as font:
        painter = QPainter(writer)
        try:
            for number, page in enumerate(pages):
                if number:
                    writer.newPage()
                _bare_page(painter, page, font)
        finally:
            painter.end()
    return bytes(buffer.data().data())


def _bare_page(painter: QPainter, page: Page, font: QFont) -> None:
    for mark in page.marks:
        if isinstance(mark, Words):
            font.setPixelSize(round(mark.size_pt * 1200 / 72))
            font.setBold(mark.bold)
            painter.setFont(font)
            for line in mark.lines:
                painter.drawText(QPointF(mark.box.x, mark.box.bottom) * DOTS_PER_MM, line)
        elif isinstance(mark, Rule):
            painter.drawLine(QLineF(mark.x1, mark.y1, mark.x2, mark.y2))
        elif isinstance(mark, Frame):
            painter.drawRect(QRectF(mark.box.x, mark.box.y, mark.box.width, mark.box.height))


if __name__ == "__main__":
    main()
