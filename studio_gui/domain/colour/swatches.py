"""What a dyed sample is: a depth, the colour it came out, and the fibre it was dyed on.

The rule of this module: a colour is lower-case ``#rrggbb`` in sRGB and nothing else, and a swatch has dye on
it. The fibre's own colour belongs to the swatch, because a dye is fitted on the fibre it was dyed on. The
colour of a swatch that was measured is that of its spectrum, whatever else is said.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from studio_gui.domain.colour.spaces import hex_from_srgb, linear_from_xyz, srgb_from_linear
from studio_gui.domain.colour.spectra import WAVELENGTHS_NM, xyz_from_reflectance
from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.ranges import checked

_HEX_COLOUR = re.compile(r"#[0-9a-f]{6}")


def checked_srgb(field: str, value: str) -> str:
    """Return the colour `value` as lower-case ``#rrggbb``.

    Raises
    ------
    InvalidPlan
        ``not-a-colour`` with field and value for anything else: short forms, names, spaces, alpha.

    >>> checked_srgb("undyed_srgb", "#F2EBDC")
    '#f2ebdc'
    """
    colour = str(value).lower()
    if _HEX_COLOUR.fullmatch(colour) is None:
        raise InvalidPlan("not-a-colour", field=field, value=str(value))
    return colour


@dataclass(frozen=True, slots=True)
class Swatch:
    """One dyed sample.

    Parameters
    ----------
    depth_pct_owf
        Dye on the fibre, g per 100 g of dry fibre; above 0, at most the range's high end.
    srgb
        Colour of the dyed sample, ``#rrggbb``.
    fibre_srgb
        Colour of the same fibre before dyeing, ``#rrggbb``.
    reflectance
        Measured reflectance, 0 to 2 (a fluorescent sample sends out more than it gets), on the 31 bands of
        `WAVELENGTHS_NM`; None where only the colour is known.

    Raises
    ------
    InvalidPlan
        ``not-a-number``, ``out-of-range``, ``not-a-colour``, or
        ``spectrum-not-31-bands``.
    """

    depth_pct_owf: float
    srgb: str
    fibre_srgb: str
    reflectance: tuple[float, ...] | None = None

    def __post_init__(self) -> None:
        checked("swatch_depth_pct_owf", self.depth_pct_owf)
        object.__setattr__(self, "srgb", checked_srgb("srgb", self.srgb))
        object.__setattr__(self, "fibre_srgb", checked_srgb("fibre_srgb", self.fibre_srgb))
        if self.reflectance is not None:
            object.__setattr__(self, "srgb", _colour_of_spectrum(self.reflectance))

    @property
    def is_measured(self) -> bool:
        """Whether its spectrum is known, not its colour alone."""
        return self.reflectance is not None

    def changed(self, **changes: Any) -> Swatch:  # noqa: ANN401  (fields of Swatch)
        """Return the swatch with other fields; a colour that is entered takes the place of the spectrum."""
        if "srgb" in changes:
            changes = {"reflectance": None} | changes
        return replace(self, **changes)


def _colour_of_spectrum(reflectance: tuple[float, ...]) -> str:
    if len(reflectance) != WAVELENGTHS_NM.size:
        raise InvalidPlan("spectrum-not-31-bands", field="reflectance", count=len(reflectance))
    values = np.array([checked("reflectance", value) for value in reflectance])
    return hex_from_srgb(srgb_from_linear(linear_from_xyz(xyz_from_reflectance(values))))
