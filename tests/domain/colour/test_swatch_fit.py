"""If these fail, a dye is led astray by noise, or by one swatch that was filed under another depth."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pytest

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.fibre_fit import fibre_k_over_s
from studio_gui.domain.colour.fit import DyeCurve, dye_curve
from studio_gui.domain.colour.kubelka_munk import measured_from_internal, reflectance_from_k_over_s
from studio_gui.domain.colour.spaces import (
    Array,
    hex_from_lab,
    hex_from_srgb,
    lab_from_xyz,
    linear_from_xyz,
    srgb_from_linear,
)
from studio_gui.domain.colour.spectra import WAVELENGTHS_NM, xyz_from_reflectance
from studio_gui.domain.colour.swatches import Swatch

WOOL = "#f2ebdc"


def _xyz(k_over_s: Array) -> Array:
    return xyz_from_reflectance(measured_from_internal(reflectance_from_k_over_s(k_over_s)))


def _hex(k_over_s: Array) -> str:
    return hex_from_srgb(srgb_from_linear(linear_from_xyz(_xyz(k_over_s))))


def _invented(rng: np.random.Generator) -> tuple[Array, float]:
    """A dye of one to three bands of absorption, and how it builds up."""
    k = np.full(31, 0.02)
    for _ in range(rng.integers(1, 4)):
        k += rng.uniform(1.0, 8.0) * np.exp(
            -(((WAVELENGTHS_NM - rng.uniform(420.0, 650.0)) / rng.uniform(25.0, 70.0)) ** 2)
        )
    return k, float(rng.uniform(0.75, 1.05))


def _noisy_swatches(
    rng: np.random.Generator, dye: Array, exponent: float, depths: Sequence[float]
) -> tuple[Swatch, ...]:
    """Swatches of a dye, each off by about half a step of what an eye can tell."""
    labs = [lab_from_xyz(_xyz(fibre_k_over_s(WOOL) + dye * depth**exponent)) for depth in depths]
    noisy = [lab + rng.normal(0.0, 0.4, 3) for lab in labs]
    return tuple(Swatch(depth, hex_from_lab(lab)[0], WOOL) for depth, lab in zip(depths, noisy, strict=True))


def _off(curve: DyeCurve, dye: Array, exponent: float) -> float:
    """Mean CIEDE2000 from the truth over the depths of a bench."""
    depths = np.array([[0.25], [0.5], [1.0], [2.0], [4.0]])
    fibre = fibre_k_over_s(WOOL)
    fitted = lab_from_xyz(_xyz(fibre + curve.unit_k_over_s * depths**curve.exponent))
    return float(ciede2000(fitted, lab_from_xyz(_xyz(fibre + dye * depths**exponent))).mean())


def test_a_fit_recovers_the_truth_from_noisy_swatches_of_invented_dyes() -> None:
    rng = np.random.default_rng(20)
    off = []
    for _ in range(40):
        dye, exponent = _invented(rng)
        off.append(_off(dye_curve(_noisy_swatches(rng, dye, exponent, (0.25, 1.0, 2.0, 4.0))), dye, exponent))
    assert np.median(off) < 0.7
    assert np.percentile(off, 90) < 3.0


@pytest.mark.parametrize("count", [3, 4, 5])
def test_one_mislabelled_swatch_is_found_out_and_does_little_harm(count: int) -> None:
    rng = np.random.default_rng(count)
    with_it, without_it, found = [], [], 0
    for _ in range(40):
        dye, exponent = _invented(rng)
        depths = sorted(rng.choice((0.25, 0.5, 1.0, 2.0, 4.0), count, replace=False).tolist())
        swatches = list(_noisy_swatches(rng, dye, exponent, depths))
        odd = int(rng.integers(count))
        without_it.append(_off(dye_curve((*swatches[:odd], *swatches[odd + 1 :])), dye, exponent))
        swatches[odd] = swatches[odd].changed(depth_pct_owf=depths[odd] * float(rng.choice((0.25, 4.0))))
        curve = dye_curve(tuple(swatches))
        with_it.append(_off(curve, dye, exponent))
        found += int(np.argmax(curve.misses)) == odd
    assert found >= 34
    assert np.mean(with_it) < np.mean(without_it) + 0.6
