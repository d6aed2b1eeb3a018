"""If these fail, a fluorescent dye does not look like its own swatches, or shines through what covers it."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.fit import DyeCurve, dye_curve
from studio_gui.domain.colour.mixing import predicted_lab, predicted_srgb
from studio_gui.domain.colour.spaces import Array, lab_from_hex, xyz_from_lab
from studio_gui.domain.colour.swatches import Swatch

WOOL = "#f3eee2"
#: A glowing lemon: greener and redder than the wool it is dyed on.
LEMON = (Swatch(0.25, "#f4ff9a", WOOL), Swatch(1.0, "#eeff3c", WOOL), Swatch(3.0, "#dff518", WOOL))
NAVY = dye_curve((Swatch(1.0, "#1f3a6b", WOOL),))


def lab(*doses: float, dyes: tuple[DyeCurve, ...]) -> Array:
    one: Array = predicted_lab(np.array([doses]), dyes, WOOL)[0]
    return one


def luminance(*doses: float, dyes: tuple[DyeCurve, ...]) -> float:
    return float(xyz_from_lab(lab(*doses, dyes=dyes))[1])


@pytest.mark.parametrize("swatch", LEMON, ids=lambda swatch: swatch.srgb)
def test_a_fluorescent_dye_alone_is_what_its_swatches_are(swatch: Swatch) -> None:
    dull, glowing = dye_curve(LEMON), dye_curve(LEMON, fluorescent=True)
    target = lab_from_hex(swatch.srgb)
    assert ciede2000(lab(swatch.depth_pct_owf, dyes=(glowing,)), target) < 0.01
    assert ciede2000(lab(swatch.depth_pct_owf, dyes=(dull,)), target) > 1.5
    assert max(glowing.misses) < 0.01


def test_a_dose_a_rounding_error_below_nothing_is_nothing() -> None:
    dyes = (dye_curve(LEMON, fluorescent=True), NAVY)
    assert lab(-1e-18, 0.5, dyes=dyes) == pytest.approx(lab(0.0, 0.5, dyes=dyes), abs=1e-9)


def test_one_swatch_is_enough() -> None:
    curve = dye_curve(LEMON[1:2], fluorescent=True)
    assert ciede2000(lab(1.0, dyes=(curve,)), lab_from_hex(LEMON[1].srgb)) < 0.01


def test_swatches_of_one_depth_are_met_in_the_middle() -> None:
    pair = (Swatch(1.0, "#eeff3c", WOOL), Swatch(1.0, "#eef03c", WOOL))
    first, second = dye_curve(pair, fluorescent=True).misses
    assert 0.1 < first == pytest.approx(second, abs=1.0)


@given(st.floats(0.0, 6.0))
def test_between_its_swatches_it_goes_from_one_to_the_next_without_a_jump(depth_pct_owf: float) -> None:
    curve = dye_curve(LEMON, fluorescent=True)
    step = ciede2000(lab(depth_pct_owf, dyes=(curve,)), lab(depth_pct_owf + 1e-6, dyes=(curve,)))
    assert step < 0.05


def test_no_dye_is_the_fibre() -> None:
    assert lab(0.0, dyes=(dye_curve(LEMON, fluorescent=True),)) == pytest.approx(lab_from_hex(WOOL), abs=1e-6)


def test_another_dye_takes_the_glow_away_as_it_deepens() -> None:
    dull, glowing = dye_curve(LEMON), dye_curve(LEMON, fluorescent=True)
    glow = [
        luminance(1.0, navy, dyes=(glowing, NAVY)) - luminance(1.0, navy, dyes=(dull, NAVY))
        for navy in (0.0, 0.1, 0.5, 2.0)
    ]
    assert glow == sorted(glow, reverse=True)
    assert glow[-1] > 0.0


@given(st.permutations(range(3)))
def test_the_order_of_the_dyes_does_not_matter(order: list[int]) -> None:
    dyes = (dye_curve(LEMON, fluorescent=True), NAVY, dye_curve((Swatch(1.0, "#b03040", WOOL),)))
    doses = np.array([[1.0, 0.2, 0.5]])
    shuffled = predicted_srgb(doses[:, order], [dyes[one] for one in order], WOOL)
    assert shuffled.srgb == pytest.approx(predicted_srgb(doses, dyes, WOOL).srgb)
