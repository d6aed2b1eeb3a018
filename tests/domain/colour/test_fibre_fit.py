"""If these fail, undyed fibre does not come back as the colour that was entered."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.fibre_fit import fibre_k_over_s
from studio_gui.domain.colour.kubelka_munk import measured_from_internal, reflectance_from_k_over_s
from studio_gui.domain.colour.spaces import (
    Array,
    hex_from_srgb,
    lab_from_hex,
    lab_from_xyz,
    linear_from_xyz,
    srgb_from_linear,
)
from studio_gui.domain.colour.spectra import xyz_from_reflectance

# Everything but the near-black and the shrill.
fibre_colours = st.tuples(*[st.integers(0x30, 0xFF)] * 3).map(lambda rgb: "#{:02x}{:02x}{:02x}".format(*rgb))


def _xyz(k_over_s: Array) -> Array:
    return xyz_from_reflectance(measured_from_internal(reflectance_from_k_over_s(k_over_s)))


def _hex(k_over_s: Array) -> str:
    return hex_from_srgb(srgb_from_linear(linear_from_xyz(_xyz(k_over_s))))


@given(fibre_colours)
def test_a_fibre_gives_its_own_colour(undyed_srgb: str) -> None:
    k = fibre_k_over_s(undyed_srgb)
    assert k.shape == (31,)
    assert (k > 0.0).all()
    assert ciede2000(lab_from_xyz(_xyz(k)), lab_from_hex(undyed_srgb)) < 0.01


def test_a_grey_fibre_is_grey_on_every_band() -> None:
    # Y of #808080 is 0.21586 (IEC 61966-2-1, by hand): internal reflectance (0.21586 - 0.005) / 0.995.
    internal = reflectance_from_k_over_s(fibre_k_over_s("#808080"))
    assert internal == pytest.approx(np.full(31, 0.21191), abs=2e-5)
