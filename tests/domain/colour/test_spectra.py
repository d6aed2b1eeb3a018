"""If these fail, a reflectance is turned into the wrong colour."""

from __future__ import annotations

from types import ModuleType

import numpy as np
import pytest

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.spaces import WHITE_XYZ, Array, lab_from_xyz
from studio_gui.domain.colour.spectra import WAVELENGTHS_NM, WEIGHTS_D65_2DEG, xyz_from_reflectance

EVERY_NM: Array = np.arange(360.0, 781.0)


def _light_times_observer(colour_science: ModuleType) -> Array:
    """D65 times the CIE 1931 2 degree functions at every nm, shape (421, 3)."""
    light = colour_science.SDS_ILLUMINANTS["D65"]
    observer = colour_science.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"]
    functions = [np.interp(EVERY_NM, observer.wavelengths, column) for column in observer.values.T]
    products: Array = np.interp(EVERY_NM, light.wavelengths, light.values) * np.array(functions)
    return products.T


def test_there_are_31_bands_and_nobody_can_change_them() -> None:
    assert WAVELENGTHS_NM.tolist() == list(range(400, 701, 10))
    assert WEIGHTS_D65_2DEG.shape == (31, 3)
    assert (WEIGHTS_D65_2DEG >= 0.0).all()
    assert not WAVELENGTHS_NM.flags.writeable
    assert not WEIGHTS_D65_2DEG.flags.writeable


def test_a_perfect_white_is_the_white() -> None:
    assert xyz_from_reflectance(np.ones(31)) == pytest.approx(WHITE_XYZ, abs=1e-8)


def test_the_weights_are_the_cie_tables_gathered_into_bands(colour_science: ModuleType) -> None:
    # Each band's share of every nm: straight between two bands, level beyond the ends.
    shares = [np.interp(EVERY_NM, WAVELENGTHS_NM, band) for band in np.eye(31)]
    gathered = np.array(shares) @ _light_times_observer(colour_science)
    gathered *= WHITE_XYZ / gathered.sum(axis=0)
    assert xyz_from_reflectance(np.eye(31)) == pytest.approx(gathered, abs=5e-6)


def test_24_measured_chart_spectra_come_out_as_colour_science_has_them(colour_science: ModuleType) -> None:
    products = _light_times_observer(colour_science)
    spectra = colour_science.SDS_COLOURCHECKERS["ColorChecker N Ohta"]
    assert len(spectra) == 24
    differences = []
    for spectrum in spectra.values():
        fine = np.interp(EVERY_NM, spectrum.wavelengths, spectrum.values)
        reference = fine @ products * (WHITE_XYZ / products.sum(axis=0))
        banded = xyz_from_reflectance(np.interp(WAVELENGTHS_NM, spectrum.wavelengths, spectrum.values))
        differences.append(float(ciede2000(lab_from_xyz(banded), lab_from_xyz(reference))))
    assert max(differences) < 0.17


def test_spectra_may_come_in_any_shape() -> None:
    grid = np.linspace(0.1, 0.9, 2 * 5 * 31).reshape(2, 5, 31)
    together = xyz_from_reflectance(grid)
    assert together.shape == (2, 5, 3)
    assert together[1, 2] == pytest.approx(xyz_from_reflectance(grid[1, 2]))
    assert np.isnan(xyz_from_reflectance(np.full(31, np.nan))).all()
