"""If these fail, strip or yarn are drawn beside their box, in colours of others, or fill vector files."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtCore import QBuffer, QIODevice, QRectF
from PySide6.QtGui import QImage, QPainter
from PySide6.QtSvg import QSvgGenerator

from studio_gui.drawing.fibre.maps import fibre_maps
from studio_gui.drawing.yarn.hairs import StrayHairs
from studio_gui.drawing.yarn.pictures import (
    HAIR_ROOM,
    StripPicture,
    TwistPicture,
    paint_plain_strip,
    paint_plain_yarn,
    strip_place,
    twist_place,
)
from studio_gui.drawing.yarn.twist import twist_maps

pytestmark = pytest.mark.usefixtures("qapp")

RED, BLUE = (0.6, 0.02, 0.02), (0.02, 0.05, 0.6)
BOX = QRectF(20.0, 20.0, 200.0, 40.0)


def plain(*colours: tuple[float, float, float], width: int = 200) -> NDArray[np.float64]:
    return np.array(colours)[:, np.newaxis, :] * np.ones((1, width, 1))


def canvas() -> QImage:
    image = QImage(240, 80, QImage.Format.Format_ARGB32_Premultiplied)
    image.fill(0)
    return image


def read(image: QImage) -> NDArray[np.int64]:
    """Return (height, width, 4) blue, green, red, alpha."""
    pixels = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.width(), 4)
    return pixels.astype(np.int64)


def twisted(*colours: tuple[float, float, float]) -> NDArray[np.int64]:
    image, picture = canvas(), TwistPicture(twist_maps(twist_place(BOX, len(colours), 1.0)))
    painter = QPainter(image)
    try:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        picture.draw(painter, BOX, plain(*colours))
    finally:
        painter.end()
    return read(image)


def stood_in(*colours: tuple[float, float, float]) -> NDArray[np.int64]:
    image = canvas()
    painter = QPainter(image)
    try:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_plain_yarn(painter, BOX, plain(*colours))
    finally:
        painter.end()
    return read(image)


def test_yarn_and_its_hairs_keep_to_their_box() -> None:
    pixels = twisted(RED, BLUE)
    outside = pixels[..., 3] > 0
    outside[int(BOX.top() - HAIR_ROOM) : int(BOX.bottom() + HAIR_ROOM), 20:220] = False
    assert not outside.any()


def test_hairs_have_the_colour_of_their_strand() -> None:
    pixels = twisted(RED, RED)
    visible = pixels[..., 3] > 0
    assert (pixels[..., 2] >= pixels[..., 0])[visible].all()


def test_thin_yarn_has_no_hairs_and_thick_yarn_few() -> None:
    def count(height: float) -> int:
        return len(StrayHairs(twist_maps(twist_place(QRectF(0.0, 0.0, 400.0, height), 2, 1.0))))

    assert count(12.0) == 0
    assert 10 <= count(60.0) <= 160


@pytest.mark.parametrize("strands", [1, 2, 3])
def test_the_stand_in_shows_each_strand_about_where_the_yarn_will(strands: int) -> None:
    colours = (RED, BLUE, (0.02, 0.6, 0.02))[:strands]
    finished, quick = twisted(*colours), stood_in(*colours)
    row = slice(38, 42)
    both = (finished[row, 20:220, 3] == 255) & (quick[row, 20:220, 3] == 255)
    same = finished[row, 20:220, :3].argmax(axis=-1) == quick[row, 20:220, :3].argmax(axis=-1)
    assert same[both].mean() > 0.7


def test_the_stand_in_of_long_thin_yarn_is_a_small_vector_file() -> None:
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    generator = QSvgGenerator()
    generator.setOutputDevice(buffer)
    painter = QPainter(generator)
    try:
        paint_plain_yarn(painter, QRectF(0.0, 0.0, 1100.0, 10.0), plain(RED, BLUE, width=1100))
        paint_plain_strip(painter, QRectF(0.0, 20.0, 1100.0, 20.0), plain(RED, width=1100)[0])
    finally:
        painter.end()
    svg = buffer.data().data()
    assert b"<path" in svg
    assert len(svg) < 60_000


def test_a_strip_of_one_colour_has_only_shades_of_it() -> None:
    image, picture = canvas(), StripPicture(fibre_maps(strip_place(BOX, 1.0)))
    painter = QPainter(image)
    try:
        picture.draw(painter, BOX, plain(RED)[0])
    finally:
        painter.end()
    pixels = read(image)
    inside = pixels[24:56, 30:210]
    assert (inside[..., 3] == 255).all()
    assert (inside[..., 2] > inside[..., 0]).all()
    assert inside[..., 2].std() > 4.0, "it is no flat band"


@pytest.mark.parametrize("places", [[3], [0, 199], [20, 21, 120], list(range(200)), []])
def test_a_strip_that_took_on_new_colours_is_the_one_made_anew(places: list[int]) -> None:
    maps, linear = fibre_maps(strip_place(BOX, 1.0)), plain(RED)[0].copy()
    kept = StripPicture(maps)
    pixels = []
    for colour, picture in ((RED, kept), (BLUE, kept), (BLUE, StripPicture(maps))):
        linear[places] = colour
        image = canvas()
        painter = QPainter(image)
        try:
            picture.draw(painter, BOX, linear)
        finally:
            painter.end()
        pixels.append(read(image))
    assert (pixels[1] == pixels[2]).all()
