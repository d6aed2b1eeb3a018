"""Printing pages and writing them to a PDF, with a way to stop.

The rule of this module: pages come out in their true size, whatever the printer; nothing of a run that was
stopped is left as a file.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from PySide6.QtCore import QMarginsF, QSizeF, Qt
from PySide6.QtGui import QPageLayout, QPageSize, QPainter
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QProgressDialog, QWidget

from studio_gui.domain.errors import FileProblem
from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.sheets.page import Box, Medium, Page
from studio_gui.drawing.sheets.paint import paint_page
from studio_gui.drawing.sheets.paper import MARGIN_MM, PAPERS
from studio_gui.export.sheet_files import MM_PER_INCH, RASTER_DOTS_PER_INCH, GoOn, Stopped, pdf_of
from studio_gui.storage.files import write_atomically

#: Longer work shows how far it is, ms.
PROGRESS_AFTER_MS = 700
_PX_PER_INCH = 96.0


def save_pdf(pages: Sequence[Page], title: str, path: Path, go_on: GoOn) -> bool:
    """Write the pages to a PDF; return whether they were not stopped.

    Raises
    ------
    FileProblem
        ``unknown-ending`` for a name that does not end in .pdf; as `pdf_of` and `write_atomically`.
    """
    if path.suffix.lower() != ".pdf":
        raise FileProblem("unknown-ending", path=str(path), ending=path.suffix, endings=".pdf")
    try:
        content = pdf_of(pages, title, go_on)
    except Stopped:
        return False
    write_atomically(path, content)
    return True


def set_up(printer: QPrinter, pages: Sequence[Page], title: str) -> None:
    """Tell a printer what comes: its dialog then offers the right paper."""
    printer.setDocName(title)
    printer.setCreator("Roving Lay")
    printer.setFullPage(True)
    _set_paper(printer, pages[0])
    printer.setFromTo(1, len(pages))


def chosen_pages(printer: QPrinter, pages: Sequence[Page]) -> list[Page]:
    """Return the pages that were asked for in a printer's dialog, in their order."""
    first, last = printer.fromPage() or 1, printer.toPage() or len(pages)
    some = list(pages[first - 1 : last])
    if printer.pageOrder() == QPrinter.PageOrder.LastPageFirst:
        some.reverse()
    if not printer.supportsMultipleCopies():
        some = some * printer.copyCount()
    return some


def cuts_off(printer: QPrinter) -> float | None:
    """Return the edge (mm) that a printer cannot print on, None where it is no wider than the margins."""
    margins = printer.pageLayout().minimumMargins()
    widest = max(margins.left(), margins.top(), margins.right(), margins.bottom())
    unit_mm = 25.4 / 72.0 if printer.pageLayout().units() == QPageLayout.Unit.Point else 1.0
    return widest * unit_mm if widest * unit_mm > MARGIN_MM + 0.1 else None


def print_pages(printer: QPrinter, pages: Sequence[Page], go_on: GoOn) -> bool:
    """Print pages in their true size; return whether they were not stopped.

    Raises
    ------
    FileProblem
        ``printer-failed`` when the printer does not take them.
    """
    _set_paper(printer, pages[0])
    painter = QPainter()
    if not painter.begin(printer):
        raise FileProblem("printer-failed")
    try:
        with lent_font():
            for number, page in enumerate(pages):
                if not go_on(number):
                    printer.abort()
                    return False
                if number:
                    _set_paper(printer, page)
                    if not printer.newPage():
                        raise FileProblem("printer-failed")
                medium = Medium(RASTER_DOTS_PER_INCH / _PX_PER_INCH)
                paint_page(painter, page, printer.resolution() / MM_PER_INCH, medium)
    finally:
        painter.end()
    return True


def _set_paper(printer: QPrinter, page: Page) -> None:
    """Ask for the paper of a page: a usual one by its name, lying or standing, so that trays are found."""
    layout = QPageLayout(*_paper(page.paper), QMarginsF(), QPageLayout.Unit.Millimeter)
    layout.setMode(QPageLayout.Mode.FullPageMode)
    printer.setPageLayout(layout)


def _paper(paper: Box) -> tuple[QPageSize, QPageLayout.Orientation]:
    for known in PAPERS.values():
        size = QPageSize(
            QSizeF(known.width_mm, known.height_mm),
            QPageSize.Unit.Millimeter,
            known.name,
            QPageSize.SizeMatchPolicy.FuzzyMatch,
        )
        if paper == known.portrait():
            return size, QPageLayout.Orientation.Portrait
        if paper == known.landscape():
            return size, QPageLayout.Orientation.Landscape
    exact = QPageSize.SizeMatchPolicy.ExactMatch
    size = QPageSize(QSizeF(paper.width, paper.height), QPageSize.Unit.Millimeter, "", exact)
    return size, QPageLayout.Orientation.Portrait


@contextmanager
def progress(parent: QWidget, words: str, count: int) -> Iterator[Callable[[int], bool]]:
    """Show, if it takes long, how many of `count` pages are done; what it yields tells whether to go on."""
    dialog = QProgressDialog(words, parent.tr("Stop"), 0, count, parent)
    dialog.setWindowModality(Qt.WindowModality.WindowModal)
    dialog.setMinimumDuration(PROGRESS_AFTER_MS)

    def go_on(done: int) -> bool:
        dialog.setValue(done)  # lets clicks and keys come through
        return not dialog.wasCanceled()

    try:
        yield go_on
    finally:
        dialog.reset()
        dialog.deleteLater()
