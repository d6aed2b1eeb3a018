"""If these fail, an exported picture is not the lay, or cannot be opened."""

from __future__ import annotations

import dataclasses
import statistics
from xml.etree import ElementTree

import pytest
from PySide6.QtGui import QFont, QFontDatabase, QFontInfo, QImage, QPainter
from PySide6.QtSvg import QSvgRenderer
from PySide6.QtWidgets import QApplication

from studio_gui.domain.errors import FileProblem
from studio_gui.domain.worksheet import worksheet
from studio_gui.drawing.lay_layout import lay_layout
from studio_gui.drawing.lay_rows import picture_size
from studio_gui.export import picture
from studio_gui.export.picture import GREATEST_HEIGHT, PICTURE_WIDTH, PIXEL_RATIO, png_bytes, svg_bytes
from tests.drawing.plans import plain_plan
from tests.export.plans import sample

pytestmark = pytest.mark.usefixtures("qapp")

SAMPLES = ["harbour-thaw", "two-shores", "long-dusk", "storm-kettle"]
SVG = "{http://www.w3.org/2000/svg}"


def texts(svg: bytes) -> list[str]:
    root = ElementTree.fromstring(svg)  # noqa: S314  (written here, just now)
    return ["".join(node.itertext()).strip() for node in root.iter(f"{SVG}text")]


def image_of(png: bytes) -> QImage:
    image = QImage.fromData(png)
    assert not image.isNull()
    return image


def drawn(svg: bytes) -> QImage:
    """The picture in its own size, drawn as a viewer does."""
    renderer = QSvgRenderer(svg)
    assert renderer.isValid()
    image = QImage(renderer.viewBox().size(), QImage.Format.Format_RGB32)
    painter = QPainter(image)
    try:
        renderer.render(painter)
    finally:
        painter.end()
    return image


@pytest.mark.parametrize("name", SAMPLES)
def test_the_svg_parses_and_has_every_letter_that_fits(name: str) -> None:
    sheet = worksheet(sample(name))
    found = texts(svg_bytes(sheet))
    layout = lay_layout(sheet, picture_size(sheet.plan, PICTURE_WIDTH))
    for index, section in enumerate(sheet.plan.sections):
        if layout.item("section", index).rect.width() >= 30.0:
            assert sheet.plan.liquor(section.liquor_id).letter in found


def test_the_svg_carries_names_escaped_and_whole() -> None:
    plan = plain_plan(1)
    name = "<b>&\"Reed'</b> \U0001f9f6 שלום \ufffe"
    plan = dataclasses.replace(plan, title=name, sections=(dataclasses.replace(plan.sections[0], name=name),))
    svg = svg_bytes(worksheet(plan))
    root = ElementTree.fromstring(svg)  # noqa: S314  (written here, just now)
    readable = name.replace("\ufffe", "\ufffd")
    assert root.findtext(f"{SVG}title") == readable
    assert readable in (root.findtext(f"{SVG}desc") or "")
    assert "Reed" in " ".join(texts(svg))


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("ratio", [1, PIXEL_RATIO])
def test_each_section_is_shown_in_its_colour(name: str, ratio: int) -> None:
    """As SVG, drawn one to one, and as PNG, where fibres are lighter and darker about their colour."""
    sheet = worksheet(sample(name))
    image = image_of(png_bytes(sheet)) if ratio == PIXEL_RATIO else drawn(svg_bytes(sheet))
    assert image.width() == PICTURE_WIDTH * ratio
    layout = lay_layout(sheet, picture_size(sheet.plan, PICTURE_WIDTH))
    strand = layout.strands[0].rect
    shares = (
        (0.2, 0.7) if ratio == PIXEL_RATIO else (0.6, 0.6)
    )  # of its height, where the tube shows no shade
    top, bottom = (round((strand.top() + share * strand.height()) * ratio) for share in shares)
    for index, srgb in enumerate(sheet.colours.srgb.tolist()):
        if sheet.figures.length_m(index) < 2.0 * sheet.plan.wicking_mm / 1000.0:
            continue  # its middle is wicked over
        x = round(layout.item("section", index).rect.center().x() * ratio)
        colours = [image.pixelColor(x + dx, y) for y in range(top, bottom + 1) for dx in (-4, 0, 4)]
        for channel, expected in zip(("redF", "greenF", "blueF"), srgb, strict=True):
            shown = statistics.median(getattr(colour, channel)() for colour in colours)
            assert shown == pytest.approx(expected, abs=12 / 255)


def test_the_font_is_only_lent(qapp: QApplication) -> None:
    before = QFontInfo(QFont("Sans Serif", 10)).family(), QFontDatabase.families()
    svg_bytes(worksheet(plain_plan(1)))
    png_bytes(worksheet(plain_plan(1)))
    assert (QFontInfo(QFont("Sans Serif", 10)).family(), QFontDatabase.families()) == before
    assert QFontInfo(qapp.font()).family() == "Noto Sans"  # which the tests have registered themselves


def test_the_same_plan_gives_the_same_picture() -> None:
    sheet = worksheet(sample("two-shores"))
    assert png_bytes(sheet) == png_bytes(sheet)
    assert svg_bytes(sheet) == svg_bytes(sheet)


def test_the_colours_are_written_down_once_for_all_strands() -> None:
    """Once for each made half a gigabyte of the largest lay."""
    root = ElementTree.fromstring(svg_bytes(worksheet(plain_plan(12, rovings=4, passes=3))))  # noqa: S314
    opaque = [
        all(stop.get("stop-opacity") == "1" for stop in gradient)
        for gradient in root.iter(f"{SVG}linearGradient")
    ]
    assert opaque.count(True) == 1  # the others are shades upon it


def test_many_rovings_do_not_make_an_endless_picture() -> None:
    image = image_of(png_bytes(worksheet(plain_plan(2, rovings=100, passes=4)), width=400))
    assert image.height() <= GREATEST_HEIGHT * PIXEL_RATIO


def test_what_qt_cannot_draw_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    class Refusing:
        def __init__(self, *_: object) -> None:
            pass

        def begin(self, _: object) -> bool:
            return False

        def write(self, _: object) -> bool:
            return False

    sheet = worksheet(plain_plan(1))
    with monkeypatch.context() as patch:
        patch.setattr(picture, "QImageWriter", Refusing)
        with pytest.raises(FileProblem, match="picture-failed"):
            png_bytes(sheet)
    monkeypatch.setattr(picture, "QPainter", Refusing)
    with pytest.raises(FileProblem, match="picture-failed"):
        svg_bytes(sheet)
