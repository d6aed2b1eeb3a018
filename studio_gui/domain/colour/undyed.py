"""Undyed fibres to choose from, and whether a swatch can have been dyed on the fibre that is named.

The rule of this module: the colours stand for whole kinds of wool; common practice, no source. Dye takes
light away, so a swatch that gives back more of it than its fibre was dyed on another one, or glows.
"""

from __future__ import annotations

from typing import Literal

from studio_gui.domain.colour.spaces import linear_from_srgb, srgb_from_hex
from studio_gui.domain.colour.swatches import Swatch

FibreName = Literal[
    "bleached white",
    "natural white",
    "cream",
    "oatmeal",
    "pale grey",
    "mid grey",
    "dark grey",
    "fawn",
    "moor brown",
    "peat brown",
]

#: Colours of undyed wool, ``#rrggbb``, from pale to dark; common practice, no source.
UNDYED: dict[FibreName, str] = {
    "bleached white": "#f8f6f0",
    "natural white": "#f3eee2",
    "cream": "#ebe0c6",
    "oatmeal": "#d8c9ab",
    "pale grey": "#c4c0b8",
    "mid grey": "#97938d",
    "dark grey": "#5f5c59",
    "fawn": "#b2936d",
    "moor brown": "#7d6049",
    "peat brown": "#4b3a2f",
}

#: A swatch outshines its fibre from this much more light on; less is within what photos and eyes tell. Our
#: choice, no source.
OUTSHINES_FROM = 1.05


def bluer_than_fibre(swatch: Swatch) -> bool:
    """Tell whether a swatch gives back more blue light than the fibre that it is said to be dyed on.

    >>> [bluer_than_fibre(Swatch(1.0, srgb, "#d8c9ab")) for srgb in ("#4a6fd8", "#4a6fa0")]
    [True, False]
    """
    swatch_blue, fibre_blue = (
        float(linear_from_srgb(srgb_from_hex(srgb))[2]) for srgb in (swatch.srgb, swatch.fibre_srgb)
    )
    return swatch_blue > OUTSHINES_FROM * fibre_blue
