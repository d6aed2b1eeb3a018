"""Twisted strands as maps: which strand and which place of it every pixel shows, how light and how opaque.

The rule of this module: maps depend on size and twist alone, never on colours; they are pure numpy and may be
made on any thread. The twist is not to scale: its pitch is in pixels, whatever the yarn's length.

Every pixel is looked at in two places, so that fibres and the edges of strands are smooth: it shows two
strands, or two places of one, each with its own light.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from studio_gui.drawing.fibre.tile import Floats
from studio_gui.drawing.yarn.form import Twist, seen
from studio_gui.drawing.yarn.shading import FARTHEST, shaded

#: Pitch as a share of the yarn's thickness, by the number of strands.
_PITCH = {1: 3.2, 2: 1.3, 3: 1.5}
_LONGEST_PITCH = 1.8
#: Where each pixel is looked at, px from its middle: across the edges of strands, which lean to the right.
_LOOKS = ((-0.25, -0.25), (0.25, 0.25))


@dataclass(frozen=True, slots=True)
class TwistPlace:
    """All that the maps of a yarn depend on: device pixels, and strands twisted together (1 to 8).

    `pitch_px` is the length of yarn in which a strand turns once.
    """

    width: int
    height: int
    strands: int
    pitch_px: float
    device_pixel_ratio: float

    @property
    def twist(self) -> Twist:
        """The form of the yarn."""
        return Twist(self.strands, float(self.height), self.pitch_px, self.device_pixel_ratio)

    @property
    def feather_px(self) -> float:
        """Deviation of the places at which the fibres of a strand change colour."""
        return 1.2 * self.device_pixel_ratio + 0.07 * self.height

    @property
    def margin(self) -> int:
        """Colour columns at each side of the picture for fibres that reach out of it."""
        return math.ceil(FARTHEST * self.feather_px) + 1

    @property
    def columns(self) -> int:
        """Number of colour columns of one strand: the picture's, and the margins."""
        return self.width + 2 * self.margin


@dataclass(frozen=True, eq=False)
class TwistMaps:
    """Maps of the m pixels of the yarn that show wool.

    `pixels` (m,) are places in the flattened picture, `keys` (2, m) ``strand * columns + column`` at the two
    places in which each is looked at, `light` (2, m) how much of those colours it gives back, `sheen` (m,)
    the white that glances off, `cover` (m,) how opaque it is, 0 to 1.
    """

    place: TwistPlace
    pixels: NDArray[np.intp]
    keys: NDArray[np.intp]
    light: Floats
    sheen: Floats
    cover: Floats

    @property
    def strands(self) -> NDArray[np.intp]:
        """The strands that each pixel shows, (2, m)."""
        return self.keys // self.place.columns


def pitch_for(height_px: float, strands: int) -> float:
    """Return the pitch (px) that looks like yarn of a height: lobes a little longer than they are thick.

    >>> pitch_for(40.0, 2)
    52.0
    """
    return height_px * _PITCH.get(strands, _LONGEST_PITCH)


def twist_maps(place: TwistPlace) -> TwistMaps:
    """Return the maps of a yarn: about 0.1 s for 1200 by 60 px, however many strands."""
    columns = np.arange(place.width, dtype=np.float32) + 0.5
    rows = np.arange(place.height, dtype=np.float32) + 0.5 - place.height / 2.0
    covers, keys, lights, sheens = [], [], [], []
    for right, down in _LOOKS:
        x = (columns + right).astype(np.float32)
        body = seen(place.twist, x, (rows + down).astype(np.float32))
        wool = shaded(place.twist, body, x)
        column = np.floor(x + wool.shift * np.float32(place.feather_px)).astype(np.intp) + place.margin
        np.clip(column, 0, place.columns - 1, out=column)
        keys.append((column + body.strand * place.columns).reshape(-1))
        covers.append(body.cover.reshape(-1))
        lights.append(wool.light.reshape(-1))
        sheens.append(wool.sheen.reshape(-1))
    together = covers[0] + covers[1]
    pixels = np.flatnonzero(together > 2.0 / 255.0)
    kept = together[pixels]
    shares = [cover[pixels] / kept for cover in covers]
    return TwistMaps(
        place=place,
        pixels=pixels,
        keys=np.stack([key[pixels] for key in keys]),
        light=np.stack([light[pixels] * share for light, share in zip(lights, shares, strict=True)]),
        sheen=sheens[0][pixels] * shares[0] + sheens[1][pixels] * shares[1],
        cover=kept / 2.0,
    )
