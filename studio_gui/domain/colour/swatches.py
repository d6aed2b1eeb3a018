"""What a dyed sample is: a depth, the colour it came out, and the fibre it was dyed on.

The rule of this module: a colour is lower-case ``#rrggbb`` in sRGB and nothing else, and a swatch has dye on
it. The fibre's own colour belongs to the swatch, because a dye is fitted on the fibre it was dyed on.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.ranges import RANGES, checked

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

    Raises
    ------
    InvalidPlan
        ``not-a-number``, ``out-of-range`` (for a depth of 0 with ``low_excluded=True``) or ``not-a-colour``.
    """

    depth_pct_owf: float
    srgb: str
    fibre_srgb: str

    def __post_init__(self) -> None:
        depth_pct_owf = checked("depth_pct_owf", self.depth_pct_owf)
        if depth_pct_owf == 0:
            raise InvalidPlan(
                "out-of-range",
                field="depth_pct_owf",
                value=depth_pct_owf,
                low=0.0,
                high=RANGES["depth_pct_owf"].high,
                low_excluded=True,
            )
        object.__setattr__(self, "srgb", checked_srgb("srgb", self.srgb))
        object.__setattr__(self, "fibre_srgb", checked_srgb("fibre_srgb", self.fibre_srgb))
