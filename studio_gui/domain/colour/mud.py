"""Where two colours that run into one another turn dull.

The rule of this module: the half-and-half mix of two colours is muddy where it keeps less than `CHROMA_KEPT`
of the chroma of the duller one, and loses `LEAST_LOSS` or more of it. Both limits are our choices, from the
mixes of invented dyes: beneath them a mix is still told by the colours it lies between.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.colour.palette import Palette
from studio_gui.domain.colour.spaces import Array

#: Share of the duller colour's CIELAB chroma that a clean mix keeps.
CHROMA_KEPT = 0.5
#: Less loss of chroma than this is not seen as mud.
LEAST_LOSS = 15.0


def chroma(labs: Array) -> Array:
    """Return CIELAB chroma, shape (...), of Lab colours, shape (..., 3).

    >>> float(chroma(np.array([50.0, 3.0, 4.0])))
    5.0
    """
    found: Array = np.hypot(labs[..., 1], labs[..., 2])
    return found


def is_muddy(chroma_of_mix: Array, chroma_of_duller: Array) -> NDArray[np.bool_]:
    """Tell where a mix is muddy by its chroma and that of the duller of the two colours; shapes broadcast.

    >>> is_muddy(np.array([12.0, 30.0, 2.0]), np.array([30.0, 40.0, 10.0])).tolist()
    [True, False, False]
    """
    lost = chroma_of_duller - chroma_of_mix
    muddy: NDArray[np.bool_] = (chroma_of_mix < CHROMA_KEPT * chroma_of_duller) & (lost >= LEAST_LOSS)
    return muddy


def muddiness(palette: Palette, doses_a: Array, doses_b: Array) -> tuple[Array, Array, NDArray[np.bool_]]:
    """Return chroma of half-and-half mixes, chroma of the duller colour, and where they are muddy, (...).

    Doses in % owf, shapes (..., d) that broadcast.
    """
    duller = np.minimum(chroma(palette.lab(doses_a)), chroma(palette.lab(doses_b)))
    mixed = chroma(palette.lab((doses_a + doses_b) / 2.0))
    return mixed, duller, is_muddy(mixed, duller)
