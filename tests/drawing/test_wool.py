"""If these fail, the flat tubes of files and first paint show a seam where a turn joins its legs."""

from __future__ import annotations

import numpy as np
import pytest
from PySide6.QtCore import QSizeF
from PySide6.QtGui import QBrush, QColor, QImage, QPainter

from studio_gui.domain.worksheet import worksheet
from studio_gui.drawing.lay_layout import LayLayout, lay_layout
from studio_gui.drawing.lay_rows import pass_gap
from studio_gui.drawing.wool import paint_strands
from tests.drawing.plans import plain_plan

pytestmark = pytest.mark.usefixtures("qapp")


def red_of_tubes(layout: LayLayout, scale: float) -> np.ndarray[tuple[int, ...], np.dtype[np.int64]]:
    """Return the red of every pixel of red tubes on blue, drawn `scale` times as large."""
    image = QImage((layout.size * scale).toSize(), QImage.Format.Format_RGB32)
    image.fill(QColor(0, 0, 255))
    painter = QPainter(image)
    try:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.scale(scale, scale)
        paint_strands(painter, layout, QBrush(QColor(200, 0, 0)))
    finally:
        painter.end()
    pixels = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.width(), 4)
    return pixels[..., 2].astype(np.int64)


@pytest.mark.parametrize("scale", [1.0, 1.3, 2.5])
def test_turns_join_their_legs_without_a_seam(scale: float) -> None:
    layout = lay_layout(worksheet(plain_plan(passes=3)), QSizeF(1000.0, 700.0))
    red = red_of_tubes(layout, scale)
    radius = layout.strand_height + pass_gap(layout.strand_height) / 2.0
    for before, after in zip(layout.strands, layout.strands[1:], strict=False):
        forward = before.leg.forward
        joint = round((before.rect.right() - radius if forward else before.rect.left() + radius) * scale)
        for strand in (before, after):
            rows = slice(round((strand.rect.top() + 3) * scale), round((strand.rect.bottom() - 3) * scale))
            beside = red[rows, joint - 6 : joint + 6]
            assert np.ptp(beside, axis=1).max() <= 16


def test_turns_are_full_whatever_way_they_go() -> None:
    layout = lay_layout(worksheet(plain_plan(passes=3)), QSizeF(1000.0, 700.0))
    red = red_of_tubes(layout, 1.0)
    for before, after in zip(layout.strands, layout.strands[1:], strict=False):
        y = round((before.rect.bottom() + after.rect.top()) / 2.0)
        inwards = -0.5 if before.leg.forward else 0.5
        x = before.rect.right() if before.leg.forward else before.rect.left()
        assert red[y, round(x + inwards * layout.strand_height)] > 150
