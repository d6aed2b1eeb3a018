"""Pictures of the lay as the screen shows it, with its gauges: SVG and PNG.

The rule of this module: the drawing is the screen's own, in the light look and the bundled font whatever the
screen uses, so that a picture is the same on every machine. Needs a QGuiApplication; no display.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QRect
from PySide6.QtGui import QImage, QImageWriter, QPaintDevice, QPainter
from PySide6.QtSvg import QSvgGenerator

from studio_gui.domain.errors import FileProblem
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.fibre.picture import fibre_picture
from studio_gui.drawing.fonts import lent_font
from studio_gui.drawing.lay_layout import LayLayout, lay_layout
from studio_gui.drawing.lay_picture import paint_lay
from studio_gui.drawing.lay_rows import GAUGE_PX_PER_ML_PER_G, picture_size
from studio_gui.drawing.lay_state import LayState
from studio_gui.drawing.look import LIGHT
from studio_gui.drawing.wool import gradient_brush, paint_strands
from studio_gui.wording.section_table import picture_words

PICTURE_WIDTH = 1600
#: Higher pictures are drawn with thinner strands, then with one roving for all.
GREATEST_HEIGHT = 3200.0
PIXEL_RATIO = 2
DOTS_PER_INCH = 96
FONT_SIZE_PT = 10

# XML can carry every character that a plan may hold but these, whatever way they are written.
_NOT_IN_XML = re.compile("[\ufffe\uffff]")


def svg_bytes(sheet: Worksheet) -> bytes:
    """Return the picture of a lay as SVG: wool as gradients, text as text, named by the plan's title.

    Raises
    ------
    FileProblem
        ``picture-failed`` when Qt cannot draw it.
    """
    layout = _layout(sheet, PICTURE_WIDTH)
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    generator = QSvgGenerator()
    generator.setOutputDevice(buffer)
    generator.setResolution(DOTS_PER_INCH)
    generator.setSize(layout.size.toSize())
    generator.setViewBox(QRect(0, 0, *layout.size.toSize().toTuple()))
    generator.setTitle(sheet.plan.title)
    generator.setDescription(picture_words(sheet))
    with _painting(generator) as painter:
        wool = partial(paint_strands, layout=layout, brush=gradient_brush(layout))
        paint_lay(painter, layout, LIGHT, LayState(pegs=False), wool)
    return _NOT_IN_XML.sub("\ufffd", bytes(buffer.data().data()).decode()).encode()


def png_bytes(sheet: Worksheet, width: int = PICTURE_WIDTH) -> bytes:
    """Return the picture of a lay as PNG, `PIXEL_RATIO` times as many pixels wide as `width`.

    Raises
    ------
    FileProblem
        ``picture-failed`` when Qt cannot draw it.
    """
    layout = _layout(sheet, width)
    image = QImage(layout.size.toSize() * PIXEL_RATIO, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(PIXEL_RATIO)
    image.setDotsPerMeterX(round(DOTS_PER_INCH / 0.0254))
    image.setDotsPerMeterY(round(DOTS_PER_INCH / 0.0254))
    image.setText("Title", sheet.plan.title)
    with _painting(image) as painter:
        paint_lay(painter, layout, LIGHT, LayState(pegs=False), fibre_picture(layout, PIXEL_RATIO).draw)
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    if not QImageWriter(buffer, QByteArray(b"PNG")).write(image):
        raise FileProblem("picture-failed")
    return bytes(buffer.data().data())


def _layout(sheet: Worksheet, width: int) -> LayLayout:
    size = picture_size(sheet.plan, float(width))
    size.setHeight(min(round(size.height()), GREATEST_HEIGHT))
    return lay_layout(sheet, size, most_px_per_ml_per_g=GAUGE_PX_PER_ML_PER_G)


@contextmanager
def _painting(device: QPaintDevice) -> Iterator[QPainter]:
    with lent_font() as font:
        font.setPointSize(FONT_SIZE_PT)
        painter = QPainter()
        if not painter.begin(device):
            raise FileProblem("picture-failed")
        try:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setFont(font)
            yield painter
        finally:
            painter.end()
