"""If these fail, pages are printed in a wrong size or order, or a stopped run leaves a file behind."""

from __future__ import annotations

from pathlib import Path
from typing import cast

import pypdfium2
import pytest
from PySide6.QtCore import QMarginsF
from PySide6.QtGui import QPageLayout, QPageSize
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QProgressDialog, QWidget
from pytestqt.qtbot import QtBot

from studio_gui.domain.errors import FileProblem
from studio_gui.drawing.sheets.page import Box, Frame, Page, Words
from studio_gui.drawing.sheets.paper import A4, LETTER
from studio_gui.export.sheet_files import always
from studio_gui.views import print_run
from studio_gui.views.print_run import chosen_pages, cuts_off, print_pages, progress, save_pdf, set_up
from tests.views.dialogs import answering, cancel

pytestmark = pytest.mark.usefixtures("qapp")

ROLL = Box(0.0, 0.0, 60.0, 900.0)


def page(name: str, paper: Box) -> Page:
    marks = (
        Words(Box(20.0, 20.0, 30.0, 10.0), (name,), 16.0),
        Frame(Box(20.0, 40.0, 30.0, 30.0), 0.0, fill="#000000"),
    )
    return Page(paper, marks, name)


PAGES = (page("one", A4.landscape()), page("two", LETTER.portrait()), page("three", ROLL))


def printer_to(path: Path) -> QPrinter:
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(path))
    set_up(printer, PAGES, "Harbour")
    return printer


def test_printed_pages_have_their_true_size(tmp_path: Path) -> None:
    printer = printer_to(tmp_path / "out.pdf")
    assert print_pages(printer, PAGES, always)
    document = pypdfium2.PdfDocument(tmp_path / "out.pdf")
    for printed, wanted in zip(document, PAGES, strict=True):
        size = tuple(side / 72.0 * 25.4 for side in printed.get_size())
        assert size == pytest.approx((wanted.paper.width, wanted.paper.height), abs=0.5)
        assert wanted.name in printed.get_textpage().get_text_bounded()
    bitmap = document[0].render(scale=254.0 / 72.0).to_numpy()  # ten dots to a millimetre
    row = bitmap[550, :, 0] < 128
    assert row.nonzero()[0][[0, -1]].tolist() == pytest.approx([200, 499], abs=2)


def test_the_pages_asked_for_come_in_the_order_asked_for(tmp_path: Path) -> None:
    printer = printer_to(tmp_path / "out.pdf")
    assert [one.name for one in chosen_pages(printer, PAGES)] == ["one", "two", "three"]
    printer.setFromTo(2, 3)
    assert [one.name for one in chosen_pages(printer, PAGES)] == ["two", "three"]
    printer.setPageOrder(QPrinter.PageOrder.LastPageFirst)
    assert [one.name for one in chosen_pages(printer, PAGES)] == ["three", "two"]


def test_a_printer_that_prints_to_the_edge_cuts_nothing_off(tmp_path: Path) -> None:
    assert cuts_off(printer_to(tmp_path / "out.pdf")) is None


def test_a_printer_with_a_wide_edge_is_told_before_it_cuts() -> None:
    class Printer:
        """A printer that leaves half an inch at the foot."""

        def pageLayout(self) -> QPageLayout:
            size = QPageSize(QPageSize.PageSizeId.A4)
            none, edge = QMarginsF(), QMarginsF(9.0, 9.0, 9.0, 36.0)
            return QPageLayout(size, QPageLayout.Orientation.Portrait, none, QPageLayout.Unit.Point, edge)

    assert cuts_off(cast(QPrinter, Printer())) == pytest.approx(12.7)


@pytest.mark.qt_log_ignore("QPainter::begin")
def test_a_printer_that_takes_no_pages_is_said(tmp_path: Path) -> None:
    with pytest.raises(FileProblem, match="printer-failed"):
        print_pages(printer_to(tmp_path / "no folder" / "out.pdf"), PAGES, always)


def test_printing_can_be_stopped(tmp_path: Path) -> None:
    assert not print_pages(printer_to(tmp_path / "out.pdf"), PAGES, lambda done: done < 2)


def test_a_pdf_that_is_stopped_leaves_the_old_file(tmp_path: Path) -> None:
    path = tmp_path / "out.pdf"
    path.write_text("kept", encoding="utf-8")
    assert not save_pdf(PAGES, "Harbour", path, lambda done: done < 2)
    assert path.read_text(encoding="utf-8") == "kept"
    assert [one.name for one in tmp_path.iterdir()] == ["out.pdf"]
    assert save_pdf(PAGES, "Harbour", path, always)
    assert len(pypdfium2.PdfDocument(path)) == 3


@pytest.mark.parametrize(("name", "code"), [("out.odt", "unknown-ending"), ("no/out.pdf", "folder-missing")])
def test_what_cannot_be_written_is_refused(name: str, code: str, tmp_path: Path) -> None:
    with pytest.raises(FileProblem, match=code):
        save_pdf(PAGES, "Harbour", tmp_path / name, always)
    assert list(tmp_path.iterdir()) == []


def test_no_page_is_no_pdf(tmp_path: Path) -> None:
    with pytest.raises(FileProblem, match="no-pages"):
        save_pdf((), "Harbour", tmp_path / "out.pdf", always)


def test_long_work_shows_how_far_it_is_and_can_be_stopped(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(print_run, "PROGRESS_AFTER_MS", 0)
    window = QWidget()
    qtbot.addWidget(window)
    window.show()
    done = 0
    with answering(cancel), progress(window, "Writing", 1000) as go_on:
        while go_on(done) and done < 900:
            done += 1
            qtbot.wait(5)
    assert 0 < done < 900


def test_short_work_shows_nothing(qtbot: QtBot) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    window.show()
    with progress(window, "Writing", 3) as go_on:
        assert all(go_on(done) for done in range(3))
        assert not any(one.isVisible() for one in window.findChildren(QProgressDialog))
