"""If these fail, a swatch is believed to be dyed on fibre that cannot have given it."""

from __future__ import annotations

import pytest

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.fit import dye_curve
from studio_gui.domain.colour.spaces import lab_from_hex
from studio_gui.domain.colour.swatches import Swatch, checked_srgb
from studio_gui.domain.colour.undyed import UNDYED, bluer_than_fibre
from studio_gui.domain.colour.verdict import verdicts


@pytest.mark.parametrize("srgb", UNDYED.values())
def test_every_undyed_fibre_is_a_colour_that_no_other_is_taken_for(srgb: str) -> None:
    assert checked_srgb("undyed_srgb", srgb) == srgb
    others = [other for other in UNDYED.values() if other != srgb]
    assert min(float(ciede2000(lab_from_hex(srgb), lab_from_hex(other))) for other in others) > 2.0


def test_a_blue_on_cream_that_outshines_it_was_dyed_on_whiter_wool() -> None:
    blue = Swatch(1.0, "#5a86f0", UNDYED["cream"])
    miss = dye_curve((blue,)).misses[0]
    assert bluer_than_fibre(blue)
    assert verdicts([miss], None, [True]) == ("whiter fibre",)
    assert verdicts([0.0, miss, 0.0], None, [False, True, False])[1] == "whiter fibre"


def test_a_blue_on_white_wool_is_believed() -> None:
    assert not bluer_than_fibre(Swatch(1.0, "#5a86d0", UNDYED["natural white"]))
    assert not bluer_than_fibre(Swatch(1.0, "#f3eee2", UNDYED["natural white"]))
