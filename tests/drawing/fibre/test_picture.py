"""If these fail, the wool lies beside its film, or shows colours of another plan or moment."""

from __future__ import annotations

import numpy as np
import pytest
from PySide6.QtCore import QRectF, QSizeF
from PySide6.QtGui import QColor, QImage, QPainter

from studio_gui.domain.edits.boundaries import move_boundary
from studio_gui.domain.edits.inputs import set_passes
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from studio_gui.drawing.fibre.picture import WoolPicture, fibre_picture, fibre_place, wool_area
from studio_gui.drawing.lay_layout import LayLayout, lay_layout
from studio_gui.drawing.lay_view import LayView
from tests.drawing.plans import plain_plan

SIZE = QSizeF(1000.0, 560.0)

pytestmark = pytest.mark.usefixtures("qapp")


def laid(plan: Plan, view: LayView | None = None, size: QSizeF = SIZE) -> LayLayout:
    return lay_layout(worksheet(plan), size, view)


def drawn(picture: WoolPicture, ratio: float = 1.0, target: QRectF | None = None) -> QImage:
    image = QImage((SIZE * ratio).toSize(), QImage.Format.Format_ARGB32_Premultiplied)
    image.setDevicePixelRatio(ratio)
    image.fill(QColor(0, 0, 0, 0))
    painter = QPainter(image)
    try:
        picture.draw(painter, target)
    finally:
        painter.end()
    return image


def pixels(image: QImage) -> np.ndarray[tuple[int, ...], np.dtype[np.uint8]]:
    return np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.width(), 4).copy()


@pytest.mark.parametrize("ratio", [1.0, 1.5, 2.0])
def test_wool_lies_on_its_strands_in_the_colours_of_the_worksheet(ratio: float) -> None:
    layout = laid(plain_plan(rovings=2, passes=2))
    image = drawn(fibre_picture(layout, ratio), ratio)
    for strand in layout.strands:
        for index, wanted in enumerate(layout.sheet.colours.srgb):
            x = sum(layout.edges_x[index : index + 2]) / 2.0
            seen = image.pixelColor(
                round(x * ratio), round((strand.rect.top() + 0.4 * strand.rect.height()) * ratio)
            )
            assert seen.alpha() == 255
            channels = (seen.redF(), seen.greenF(), seen.blueF())
            assert np.argmax(channels) == np.argmax(wanted)
        above = strand.rect.top() - 11.0
        if strand.pass_index == 0:
            bare = image.pixelColor(round(500 * ratio), round(above * ratio))
            assert bare.rgb() & 0xFFFFFF == 0, "wool stands beside its strand"
            assert bare.alpha() < 90


def test_moving_a_boundary_keeps_the_place_and_draws_the_two_neighbours() -> None:
    plan = plain_plan(6)
    before = laid(plan)
    after = laid(move_boundary(plan, 2, plan.boundaries[2].position_m + 0.1))
    assert fibre_place(before, 1.0) == fibre_place(after, 1.0)
    assert hash(fibre_place(before, 1.0)) == hash(fibre_place(after, 1.0))
    picture = fibre_picture(before, 1.0)
    changed = picture.show(after)
    assert changed.left() > before.edges_x[2]
    assert changed.right() < before.edges_x[4]
    again = pixels(drawn(fibre_picture(after, 1.0)))
    assert np.abs(pixels(drawn(picture)).astype(int) - again).max() <= 2


def test_looking_at_two_sections_only_finds_the_same_change() -> None:
    plan = plain_plan(6)
    before = laid(plan)
    after = laid(move_boundary(plan, 2, plan.boundaries[2].position_m - 0.2))
    all_over, within = fibre_picture(before, 1.0), fibre_picture(before, 1.0)
    assert within.show(after, (before.edges_x[2], before.edges_x[4])) == all_over.show(after)
    assert np.array_equal(pixels(drawn(within)), pixels(drawn(all_over)))


def test_nothing_is_drawn_anew_for_the_same_colours() -> None:
    layout = laid(plain_plan())
    picture = fibre_picture(layout, 1.0)
    assert picture.show(laid(plain_plan())).isEmpty()


def test_what_changes_the_wools_place_changes_the_key() -> None:
    plan = plain_plan()
    base = fibre_place(laid(plan), 1.0)
    assert fibre_place(laid(plan), 2.0) != base
    assert fibre_place(laid(plan, LayView(400.0, 1.0)), 1.0) != base
    assert fibre_place(laid(set_passes(plan, 2)), 1.0) != base
    assert fibre_place(laid(plan, size=QSizeF(1001.0, 560.0)), 1.0) != base


def test_a_picture_lies_on_whole_device_pixels_in_the_panes_width() -> None:
    layout = laid(plain_plan(), LayView(900.0, 1.2))
    for ratio in (1.0, 1.25, 2.0):
        area = wool_area(layout, ratio)
        for edge in (area.left(), area.top(), area.width(), area.height()):
            assert (edge * ratio) == pytest.approx(round(edge * ratio))
        assert area.left() <= layout.pane.left() < area.left() + 1.0
        assert area.right() - 1.0 < layout.pane.right() <= area.right()


def test_an_old_picture_is_stretched_to_where_its_wool_lies_now() -> None:
    plan = plain_plan(3, rovings=2)
    old, new = laid(plan), laid(plan, LayView(500.0, 1.4))
    picture = fibre_picture(old, 1.0)
    target = picture.area_in(new)
    assert target is not None
    share = (old.x(2.0) - picture.area.left()) / picture.area.width()
    assert target.left() + share * target.width() == pytest.approx(new.x(2.0))
    assert picture.area_in(old) == picture.area
    image = drawn(picture, target=target)
    middle = new.strands[1].rect.center().y()
    left, right = (image.pixelColor(round(new.x(x)), round(middle)) for x in (2.4, 2.9))
    assert left.blueF() > left.redF()
    assert right.blueF() < right.redF()


def test_other_wool_is_not_stretched() -> None:
    plan = plain_plan(2)
    picture = fibre_picture(laid(plan), 1.0)
    assert picture.area_in(laid(set_passes(plan, 2))) is None
