"""The colour of a patch of a photo, and what it would be in the light of the program.

The rule of this module: light is averaged as light, never as its encoding. A patch that is known to be white
says how the photo's light and camera were off, channel by channel; the same is taken off every other patch.

Source of the correction by channels: J. von Kries, "Die Gesichtsempfindungen", 1905, here on linear sRGB.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from studio_gui.domain.colour.spaces import (
    Array,
    hex_from_srgb,
    lab_from_xyz,
    linear_from_srgb,
    srgb_from_hex,
    srgb_from_linear,
    xyz_from_linear,
)
from studio_gui.domain.errors import InvalidPlan

Pixels = npt.NDArray[np.uint8]

#: What a sheet of matt white paper gives back, ``#rrggbb``: about 90 % of the light; common practice, no
#: source.
WHITE_PAPER_SRGB = "#f3f3f3"
#: A reference that gives back less light than this in any channel cannot tell the light. Our choice.
_LEAST_WHITE = 0.05
#: Share of the pixels that may be at the end of the camera's range.
_MOST_BURNT_SHARE = 0.02
_BURNT_CODE = 254


@dataclass(frozen=True, slots=True, eq=False)
class Patch:
    """An averaged patch.

    Parameters
    ----------
    linear
        Mean linear sRGB light, shape (3,).
    spread
        How far a pixel is from that, CIE Lab distance, root mean square.
    burnt
        Whether the camera could not tell how bright a part of it was.
    """

    linear: Array
    spread: float
    burnt: bool

    @property
    def srgb(self) -> str:
        """Its colour as the photo has it, ``#rrggbb``."""
        return hex_from_srgb(srgb_from_linear(self.linear))


def patch_of(pixels: Pixels) -> Patch:
    """Return the average of 8-bit sRGB pixels, shape (rows, columns, 3).

    Raises
    ------
    InvalidPlan
        ``patch-empty`` without any pixel.

    >>> patch_of(np.array([[[0, 0, 0], [255, 255, 255]]], dtype=np.uint8)).srgb
    '#bcbcbc'
    """
    flat = pixels.reshape(-1, 3)
    if not len(flat):
        raise InvalidPlan("patch-empty")
    light = linear_from_srgb(flat / 255.0)
    mean = light.mean(axis=0)
    labs = lab_from_xyz(xyz_from_linear(np.vstack((light, mean))))
    away = np.linalg.norm(labs[:-1] - labs[-1], axis=1)
    return Patch(
        linear=mean,
        spread=float(np.sqrt(np.mean(away**2))),
        burnt=bool((flat >= _BURNT_CODE).any(axis=1).mean() > _MOST_BURNT_SHARE),
    )


def corrected(patch: Patch, white: Patch | None, white_srgb: str = WHITE_PAPER_SRGB) -> tuple[str, bool]:
    """Return a patch's colour ``#rrggbb``, and whether it is clipped; a `white` patch is really `white_srgb`.

    Raises
    ------
    InvalidPlan
        ``white-too-dark`` when the reference is too dark to tell the light.

    >>> seen = np.array([[[90, 80, 60]], [[250, 225, 170]]], dtype=np.uint8)
    >>> grey, warm = patch_of(seen[0]), patch_of(seen[1])
    >>> corrected(grey, None), corrected(grey, warm)[0]
    (('#5a503c', False), '#575759')
    """
    light = patch.linear
    if white is not None:
        if float(white.linear.min()) < _LEAST_WHITE:
            raise InvalidPlan("white-too-dark", value=white.srgb)
        light = light * linear_from_srgb(srgb_from_hex(white_srgb)) / white.linear
    srgb = srgb_from_linear(light)
    return hex_from_srgb(srgb), bool((srgb > 1.0 + 0.5 / 255.0).any())
