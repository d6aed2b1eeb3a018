"""If these fail, the picture of a dye's build-up shows another colour or another verdict than its figures."""

from __future__ import annotations

import numpy as np
import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QGuiApplication, QImage, QPainter

from studio_gui.domain.colour.build_up import build_up
from studio_gui.domain.colour.fit import DyeCurve, dye_curve
from studio_gui.domain.colour.swatches import Swatch
from studio_gui.drawing.build_up import paint_build_up, ring_of, round_step
from studio_gui.drawing.look import DARK, LIGHT, Look

SWATCHES = (Swatch(0.5, "#6d93b4", "#f3eee2"), Swatch(2.0, "#2b5c8a", "#f3eee2"))


def painted(look: Look) -> QImage:
    image = QImage(400, 200, QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.gray)
    painter = QPainter(image)
    try:
        curve = dye_curve(SWATCHES)
        rising = build_up(curve, SWATCHES)
        paint_build_up(painter, QRectF(image.rect()), curve, SWATCHES, rising, look)
    finally:
        painter.end()
    return image


@pytest.mark.parametrize("look", [LIGHT, DARK], ids=["light", "dark"])
def test_the_ground_under_the_curve_has_the_dye_s_colours(qapp: QGuiApplication, look: Look) -> None:
    assert qapp is not None
    image = painted(look)
    rising = build_up(dye_curve(SWATCHES), SWATCHES)
    low = image.height() - 26
    for x in (60, 200, 360):
        share = (x + 0.5 - 34.0) / (400.0 - 34.0 - 10.0)
        wanted = rising.srgb[round(share * (len(rising.srgb) - 1))]
        seen = image.pixelColor(x, low)
        rgb = np.array([seen.redF(), seen.greenF(), seen.blueF()])
        assert rgb == pytest.approx(wanted, abs=0.03)


def test_rings_say_how_far_the_curve_is_off() -> None:
    assert [ring_of(miss, LIGHT) for miss in (1.5, 1.6, 3.0, 3.1)] == [
        LIGHT.text,
        LIGHT.under,
        LIGHT.under,
        LIGHT.over,
    ]


@pytest.mark.parametrize(("least", "step"), [(0.3, 0.5), (0.5, 0.5), (0.51, 1.0), (1.2, 2.0), (7.0, 10.0)])
def test_ticks_stand_at_round_depths(least: float, step: float) -> None:
    assert round_step(least) == pytest.approx(step)


def test_one_swatch_that_is_far_off_is_drawn_all_the_same(qapp: QGuiApplication) -> None:
    assert qapp is not None
    curve: DyeCurve = dye_curve((Swatch(1.0, "#ffffff", "#f3eee2"),))
    assert ring_of(curve.misses[0], LIGHT) == LIGHT.over
