"""Sheets of paper as files: PDF with its fonts inside, SVG and PNG.

The rule of this module: a file is complete in memory before anything touches a disk; a page is painted by
`paint_page` alone, at its true size. Needs a QGuiApplication; no display.
"""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Sequence

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMarginsF, QRectF, QSizeF
from PySide6.QtGui import (
    QColor,
    QImage,
    QImageWriter,
    QPagedPaintDevice,
    QPageSize,
    QPaintDevice,
    QPainter,
    QPdfWriter,
)
from PySide6.QtSvg import QSvgGenerator

from studio_gui.domain.errors import FileProblem
from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.sheets.page import MM_PER_PT, Medium, Page
from studio_gui.drawing.sheets.paint import paint_page
from studio_gui.drawing.sheets.type import width_mm

MM_PER_INCH = 25.4
PDF_DOTS_PER_INCH = 1200
#: Dots to the inch of a page as PNG, and of what is raster in a PDF: finer than wool printed at home shows.
RASTER_DOTS_PER_INCH = 192
_PX_PER_INCH = 96.0
#: Of 0 to 100: twice as fast as what Qt takes by itself, for a file a tenth larger.
_COMPRESSION = 30

# XML can carry every character that a plan may hold but these, whatever way they are written.
_NOT_IN_XML = re.compile("[\ufffe\uffff]")
# As Qt writes them: size and weight of the type, and the words.
_TEXT = re.compile(
    r'(<text [^>]*font-family="Noto Sans" font-size="(\d+)" font-weight="(\d+)"[^>]*?)\s*>([^<]+)</text>'
)
_REGULAR_WEIGHT = 500


class Stopped(Exception):
    """The work was not wanted any more; nothing is left of it."""


#: Asked before each page, with how many are done: whether the others are still wanted.
GoOn = Callable[[int], bool]


def always(_done: int) -> bool:
    """Go on whatever is done."""
    return True


def pdf_of(pages: Sequence[Page], title: str, go_on: GoOn = always) -> bytes:
    """Return the pages, each of its own size, as one PDF.

    Raises
    ------
    FileProblem
        ``no-pages`` when there are none; ``picture-failed`` when Qt cannot draw it.
    Stopped
        `go_on` said so.
    """
    if not pages:
        raise FileProblem("no-pages")
    buffer = _open_buffer()
    writer = QPdfWriter(buffer)
    writer.setTitle(title)
    writer.setCreator("Roving Lay")
    writer.setResolution(PDF_DOTS_PER_INCH)
    _set_paper(writer, pages[0])
    with lent_font():
        painter = _begun(writer)
        try:
            for number, page in enumerate(pages):
                if not go_on(number):
                    raise Stopped
                if number:
                    _set_paper(writer, page)
                    if not writer.newPage():
                        raise FileProblem("picture-failed")
                medium = Medium(RASTER_DOTS_PER_INCH / _PX_PER_INCH)
                paint_page(painter, page, PDF_DOTS_PER_INCH / MM_PER_INCH, medium)
        finally:
            painter.end()
    return bytes(buffer.data().data())


def svg_of(page: Page, title: str, description: str) -> bytes:
    """Return a page as SVG, wool as gradients; what XML cannot carry is replaced.

    Raises
    ------
    FileProblem
        ``picture-failed`` when Qt cannot draw it.
    """
    buffer = _open_buffer()
    generator = QSvgGenerator()
    generator.setOutputDevice(buffer)
    generator.setResolution(round(_PX_PER_INCH))
    dots_per_mm = _PX_PER_INCH / MM_PER_INCH
    size = QSizeF(page.paper.width * dots_per_mm, page.paper.height * dots_per_mm)
    generator.setSize(size.toSize())
    generator.setViewBox(QRectF(0.0, 0.0, size.width(), size.height()))
    generator.setTitle(title)
    generator.setDescription(description)
    with lent_font():
        painter = _begun(generator)
        try:
            painter.fillRect(QRectF(0.0, 0.0, size.width(), size.height()), QColor("white"))
            paint_page(painter, page, dots_per_mm, Medium(1.0, vector=True))
        finally:
            painter.end()
        svg = _TEXT.sub(_as_wide_as_laid_out, bytes(buffer.data().data()).decode())
    return _NOT_IN_XML.sub("\ufffd", svg).encode()


def _as_wide_as_laid_out(text: re.Match[str]) -> str:
    """Return a text element that says how wide it is, for who reads the file without the bundled font."""
    head, size, weight, words = text.groups()
    bold = int(weight) > _REGULAR_WEIGHT
    width = width_mm(html.unescape(words), float(size) / MM_PER_PT, bold=bold)
    return f'{head} textLength="{width:.0f}" lengthAdjust="spacingAndGlyphs">{words}</text>'


def png_of(page: Page, title: str, dots_per_inch: int = RASTER_DOTS_PER_INCH) -> bytes:
    """Return a page as PNG.

    Raises
    ------
    FileProblem
        ``picture-failed`` when Qt cannot draw it.
    """
    image = image_of(page, dots_per_inch)
    image.setText("Title", title)
    buffer = _open_buffer()
    writer = QImageWriter(buffer, QByteArray(b"PNG"))
    writer.setCompression(_COMPRESSION)
    if not writer.write(image):
        raise FileProblem("picture-failed")
    return bytes(buffer.data().data())


def image_of(page: Page, dots_per_inch: float) -> QImage:
    """Return a page as a picture on white.

    Raises
    ------
    FileProblem
        ``picture-failed`` when Qt cannot draw it.
    """
    dots_per_mm = dots_per_inch / MM_PER_INCH
    width, height = (round(side * dots_per_mm) for side in (page.paper.width, page.paper.height))
    image = QImage(width, height, QImage.Format.Format_RGB32)
    image.setDotsPerMeterX(round(dots_per_mm * 1000.0))
    image.setDotsPerMeterY(round(dots_per_mm * 1000.0))
    image.fill(QColor("white"))
    with lent_font():
        painter = _begun(image)
        try:
            paint_page(painter, page, dots_per_mm, Medium(dots_per_inch / _PX_PER_INCH))
        finally:
            painter.end()
    return image


def _set_paper(writer: QPagedPaintDevice, page: Page) -> None:
    """Give the next page its own size, without a margin of the device's."""
    size = QSizeF(page.paper.width, page.paper.height)
    exact = QPageSize.SizeMatchPolicy.ExactMatch
    writer.setPageSize(QPageSize(size, QPageSize.Unit.Millimeter, page.name, exact))
    writer.setPageMargins(QMarginsF(0.0, 0.0, 0.0, 0.0))


def _open_buffer() -> QBuffer:
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    return buffer


def _begun(device: QPaintDevice) -> QPainter:
    painter = QPainter()
    if not painter.begin(device):
        raise FileProblem("picture-failed")
    return painter
