"""If these fail, dyes do not add up as they do on wool."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.domain.colour.kubelka_munk import (
    SURFACE_REFLECTANCE,
    internal_from_measured,
    k_over_s,
    measured_from_internal,
    reflectance_from_k_over_s,
)


@pytest.mark.parametrize(("reflectance", "expected"), [(0.5, 0.25), (0.2, 1.6), (1.0, 0.0)])
def test_worked_values_of_the_kubelka_munk_function(reflectance: float, expected: float) -> None:
    # (1 - R)**2 / 2R: Kubelka and Munk 1931, worked by hand.
    assert k_over_s(np.array([reflectance]))[0] == pytest.approx(expected, rel=1e-12)
    assert reflectance_from_k_over_s(np.array([expected]))[0] == pytest.approx(reflectance, rel=1e-12)


@given(st.floats(1e-9, 1.0))
def test_reflectance_comes_back_even_from_the_darkest_shade(reflectance: float) -> None:
    back = reflectance_from_k_over_s(k_over_s(np.array([reflectance])))
    assert back == pytest.approx(np.array([reflectance]), rel=1e-9, abs=1e-9)


@given(st.floats(1e-6, 1e6), st.floats(1.001, 10.0))
def test_more_absorption_is_less_light_and_never_none_or_all(k: float, more: float) -> None:
    lighter, darker = measured_from_internal(reflectance_from_k_over_s(np.array([k, k * more])))
    assert SURFACE_REFLECTANCE < darker < lighter < 1.0


@given(st.floats(SURFACE_REFLECTANCE, 1.0))
def test_the_surface_is_put_back_as_it_was_taken_off(reflectance: float) -> None:
    measured = np.array(reflectance)
    assert measured_from_internal(internal_from_measured(measured)) == pytest.approx(measured, rel=1e-12)


def test_any_shape_and_what_is_not_a_number_pass_and_the_input_stays() -> None:
    given_k = np.linspace(0.0, 9.0, 2 * 5 * 31).reshape(2, 5, 31)
    before = given_k.copy()
    assert k_over_s(reflectance_from_k_over_s(given_k)) == pytest.approx(given_k, abs=1e-9)
    assert np.array_equal(given_k, before)
    assert np.isnan(reflectance_from_k_over_s(np.array([np.nan]))).all()
    assert np.isnan(k_over_s(np.array([np.nan]))).all()
