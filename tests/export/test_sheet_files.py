"""Pages as files: true size, text that reads back, marks where the page says."""

from xml.etree import ElementTree

import pypdfium2
import pytest
from PySide6.QtCore import QRectF, QSizeF
from PySide6.QtGui import QColor, QImage, QPainter

from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.sheets.page import Box, Frame, Medium, Page, Picture, Rule, Shape, Words
from studio_gui.drawing.sheets.paper import A4, LETTER
from studio_gui.drawing.sheets.type import width_mm
from studio_gui.export.sheet_files import image_of, pdf_of, png_of, svg_of

pytestmark = pytest.mark.usefixtures("qapp")


def _blue(painter: QPainter, size: QSizeF, _medium: Medium) -> None:
    painter.fillRect(QRectF(0.0, 0.0, size.width() * 2.0, size.height()), QColor("#0000ff"))


def _page(paper: Box) -> Page:
    return Page(
        paper,
        (
            Words(Box(20.0, 20.0, 100.0, 10.0), ("Harbour <Thaw> & more",), 16.0),
            Words(Box(20.0, 40.0, 100.0, 20.0), ("right", "side"), 16.0, bold=True, align="right"),
            Frame(Box(20.0, 100.0, 12.0, 12.0), width_mm=0.0, fill="#000000"),
            Rule(60.0, 100.0, 160.0, 100.0, width_mm=1.0),
            Rule(60.0, 110.0, 160.0, 110.0, width_mm=1.0, dash_mm=2.0),
            Shape(((40.0, 100.0), (50.0, 100.0), (50.0, 110.0), (40.0, 110.0)), fill="#ff0000"),
            Picture(Box(100.0, 130.0, 40.0, 20.0), _blue),
        ),
        "one",
    )


def _extent(image: QImage, colour: str, y_mm: float, dots_per_mm: float) -> tuple[float, float]:
    """Return from where to where one row of pixels has a colour, mm."""
    row, wanted = round(y_mm * dots_per_mm), QColor(colour).rgb()
    columns = [x for x in range(image.width()) if image.pixel(x, row) == wanted]
    return columns[0] / dots_per_mm, (columns[-1] + 1) / dots_per_mm


def test_marks_stand_where_the_page_says() -> None:
    image = image_of(_page(A4.portrait()), 254.0)  # ten dots to a millimetre
    assert (image.width(), image.height()) == (2100, 2970)
    assert _extent(image, "#000000", 100.1, 10.0) == pytest.approx((20.0, 160.0), abs=0.1)
    assert _extent(image, "#000000", 106.0, 10.0) == pytest.approx((20.0, 32.0), abs=0.1)
    assert _extent(image, "#ff0000", 106.0, 10.0) == pytest.approx((40.0, 50.0), abs=0.1)
    assert _extent(image, "#0000ff", 140.0, 10.0) == pytest.approx((100.0, 140.0), abs=0.1)


@pytest.mark.parametrize("paper", [A4.portrait(), A4.landscape(), LETTER.landscape()])
def test_a_pdf_has_pages_of_their_own_size_and_text_that_reads_back(paper: Box) -> None:
    roll = Page(Box(0.0, 0.0, 60.0, 2000.0), (Words(Box(5.0, 5.0, 50.0, 10.0), ("tape",), 16.0),), "roll")
    document = pypdfium2.PdfDocument(pdf_of([_page(paper), roll], "Harbour Thaw"))
    assert [tuple(side / 72.0 * 25.4 for side in page.get_size()) for page in document] == [
        pytest.approx((paper.width, paper.height), abs=0.4),
        pytest.approx((60.0, 2000.0), abs=0.4),
    ]
    assert "Harbour <Thaw> & more" in document[0].get_textpage().get_text_bounded()
    assert "tape" in document[1].get_textpage().get_text_bounded()
    assert document.get_metadata_dict()["Title"] == "Harbour Thaw"


def test_text_is_aligned_in_its_box() -> None:
    textpage = pypdfium2.PdfDocument(pdf_of([_page(A4.portrait())], "x"))[0].get_textpage()
    found = textpage.search("side").get_next()
    assert found is not None
    right = max(textpage.get_charbox(index)[2] for index in range(found[0], found[0] + found[1]))
    assert right / 72.0 * 25.4 == pytest.approx(120.0, abs=0.6)


def test_svg_carries_escaped_words_title_and_size() -> None:
    svg = ElementTree.fromstring(svg_of(_page(A4.landscape()), "A & <B>\uffff", "what it shows"))  # noqa: S314 - our own
    space = "{http://www.w3.org/2000/svg}"
    assert svg.findtext(f"{space}title") == "A & <B>\ufffd"
    assert svg.findtext(f"{space}desc") == "what it shows"
    assert "Harbour <Thaw> & more" in "".join(svg.itertext())
    assert float(svg.attrib["width"].removesuffix("mm")) == pytest.approx(297.0, abs=0.5)


def test_svg_says_how_wide_its_words_are_for_who_has_another_font() -> None:
    svg = ElementTree.fromstring(svg_of(_page(A4.landscape()), "x", "y"))  # noqa: S314 - our own
    widths = {
        "".join(text.itertext()).strip(): float(text.attrib["textLength"])
        for text in svg.iter("{http://www.w3.org/2000/svg}text")
        if "textLength" in text.attrib
    }
    with lent_font():
        for words, bold in (("Harbour <Thaw> & more", False), ("side", True)):
            assert widths[words] == pytest.approx(100.0 * width_mm(words, 16.0, bold=bold), rel=2e-3)


def test_png_says_its_size_and_title() -> None:
    image = QImage.fromData(png_of(_page(A4.portrait()), "Harbour Thaw", 96))
    assert image.width() == round(210.0 / 25.4 * 96)
    assert image.dotsPerMeterX() == pytest.approx(96 / 0.0254, abs=1)
    assert image.text("Title") == "Harbour Thaw"
