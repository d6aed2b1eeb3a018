"""If these fail, the curve that is drawn of a dye is not the one that sections are coloured by."""

from __future__ import annotations

import numpy as np
import pytest

from studio_gui.domain.colour.build_up import BEYOND, build_up
from studio_gui.domain.colour.fit import dye_curve
from studio_gui.domain.colour.mixing import predicted_srgb
from studio_gui.domain.colour.spaces import lab_from_hex
from studio_gui.domain.colour.swatches import Swatch

WOOL, GREY = "#f3eee2", "#97938d"
SWATCHES = (Swatch(0.5, "#6d93b4", WOOL), Swatch(2.0, "#2b5c8a", WOOL), Swatch(1.0, "#3a4a5c", GREY))


def test_it_goes_from_the_fibre_that_most_were_dyed_on_to_beyond_the_deepest() -> None:
    rising = build_up(dye_curve(SWATCHES), SWATCHES)
    assert rising.undyed_srgb == WOOL
    assert (rising.depths_pct_owf[0], rising.depths_pct_owf[-1]) == (0.0, 2.0 * BEYOND)
    assert rising.lightness[0] == pytest.approx(lab_from_hex(WOOL)[0], abs=0.01)


def test_it_darkens_all_the_way_and_is_what_sections_are_coloured_by() -> None:
    curve = dye_curve(SWATCHES)
    rising = build_up(curve, SWATCHES)
    assert (np.diff(rising.lightness) < 0.0).all()
    same = predicted_srgb(rising.depths_pct_owf[:, np.newaxis], (curve,), WOOL).srgb
    assert np.array_equal(rising.srgb, same)
