"""If these fail, a stretch of the map is misplaced, or cannot be told without its hue."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter

from studio_gui.drawing.look import DARK, LIGHT, Look, contrast
from studio_gui.drawing.yarn.map import BAR_HEIGHT, MapRun, paint_map, readable_ink

pytestmark = pytest.mark.usefixtures("qapp")  # fonts need an application

A, B = "#203050", "#e0c050"
BOX = QRectF(10.0, 5.0, 300.0, BAR_HEIGHT + 16.0)


def painted(
    runs: list[MapRun], span: tuple[float, float] = (0.0, 100.0), look: Look = LIGHT
) -> NDArray[np.uint8]:
    """Return (height, width, 3) red, green, blue."""
    image = QImage(320, 50, QImage.Format.Format_RGB32)
    image.fill(look.table)
    painter = QPainter(image)
    try:
        paint_map(painter, BOX, runs, span, look)
    finally:
        painter.end()
    pixels = np.frombuffer(image.constBits(), np.uint8).reshape(50, 320, 4)
    return pixels[..., 2::-1].copy()


def code(srgb: str) -> list[int]:
    colour = QColor(srgb)
    return [colour.red(), colour.green(), colour.blue()]


def test_solid_is_plain_and_barber_pole_has_stripes_of_both() -> None:
    runs = [MapRun(0.0, 50.0, ("A",), (A,), True), MapRun(50.0, 100.0, ("A", "B"), (A, B), False)]
    row = painted(runs)[9]
    solid, mixed = row[20:80], row[170:300]
    assert (solid == code(A)).all()
    assert (mixed == code(A)).all(axis=1).any()
    assert (mixed == code(B)).all(axis=1).any()


def test_stripes_are_smooth_where_the_painter_enlarges_them() -> None:
    image = QImage(960, 150, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    try:
        painter.scale(3.0, 3.0)
        paint_map(
            painter, BOX, [MapRun(0.0, 100.0, ("A", "B"), (A, B), False)], (0.0, 100.0), LIGHT, enlarged=True
        )
    finally:
        painter.end()
    edges = []
    for y in range(24, 66):  # one leaning edge, followed downwards
        row = [image.pixelColor(x, y).red() > 128 for x in range(100, 200)]
        edges.append(next(x for x in range(1, 100) if row[x] and not row[x - 1]))
    steps = np.diff(edges)
    assert np.count_nonzero(steps == 0) < 0.6 * len(steps), "no stairs of three pixels"


def test_stripes_stay_in_sight_beside_letters_which_stand_on_paper() -> None:
    row = painted([MapRun(0.0, 100.0, ("A", "B"), (A, B), False)])[int(BOX.top() + BAR_HEIGHT / 2.0)]
    on_paper = np.flatnonzero((row == code(LIGHT.paper.name())).all(axis=1))
    assert 140 <= on_paper.min() < on_paper.max() <= 180
    for beside in (row[11 : on_paper.min()], row[on_paper.max() + 1 : 309]):
        assert (beside == code(A)).all(axis=1).any()
        assert (beside == code(B)).all(axis=1).any()


def test_letters_without_room_in_a_stretch_stand_beneath_it() -> None:
    runs = [
        MapRun(0.0, 48.0, ("A",), (A,), True),
        MapRun(48.0, 52.0, ("A", "B"), (A, B), False),
        MapRun(52.0, 100.0, ("B",), (B,), True),
    ]
    beneath = painted(runs)[int(BOX.top() + BAR_HEIGHT) + 1 : 41]
    inked = np.flatnonzero((beneath != code(LIGHT.table.name())).any(axis=-1).any(axis=0))
    assert len(inked) > 0
    assert abs(inked.mean() - 160.0) < 4.0, "centred under the narrow stretch"
    assert inked.max() - inked.min() < 40, "and of no other"


def test_strands_of_one_colour_are_plain_though_their_letters_differ() -> None:
    row = painted([MapRun(0.0, 100.0, ("A", "B"), (A, A), False)])[9]
    assert (row[20:140] == code(A)).all()


def test_a_barber_pole_too_narrow_for_stripes_shows_every_colour() -> None:
    third = "#b04040"
    runs = [
        MapRun(0.0, 50.0, ("A",), (A,), True),
        MapRun(50.0, 51.0, ("A", "B", "C"), (A, B, third), False),
        MapRun(51.0, 100.0, ("A",), (A,), True),
    ]
    column = painted(runs)[int(BOX.top()) : int(BOX.top() + BAR_HEIGHT), 161]
    for colour in (A, B, third):
        assert (column == code(colour)).all(axis=1).any()


def test_a_view_of_a_part_shows_that_part() -> None:
    runs = [MapRun(0.0, 50.0, ("A",), (A,), True), MapRun(50.0, 100.0, ("B",), (B,), True)]
    assert (painted(runs, (60.0, 80.0))[9, 20:140] == code(B)).all()


@pytest.mark.parametrize("look", [LIGHT, DARK], ids=["light", "dark"])
def test_four_hundred_short_stretches_are_drawn_within_the_bar(look: Look) -> None:
    runs = [
        MapRun(number / 4.0, (number + 1) / 4.0, ("A", "B"), (A, B), number % 2 == 0) for number in range(400)
    ]
    pixels = painted(runs, look=look)
    assert (pixels[:4] == code(look.table.name())).all()
    assert (pixels[:, 312:] == code(look.table.name())).all()


@given(st.integers(0, 0xFFFFFF).map("#{:06x}".format))
def test_letters_can_be_read_on_any_colour(srgb: str) -> None:
    assert contrast(readable_ink(srgb), QColor(srgb)) >= 4.5


def test_names_beneath_do_not_run_into_each_other() -> None:
    runs = [MapRun(n * 2.0, n * 2.0 + 2.0, ("AAA", "BBB"), (A, B), False) for n in range(50)]
    beneath = painted(runs)[int(BOX.top() + BAR_HEIGHT) + 2 : 40]
    inked = (beneath != code(LIGHT.table.name())).any(axis=-1).any(axis=0)
    gaps = np.diff(np.flatnonzero(inked))
    assert gaps.max() >= 4, "there is room between two names"
