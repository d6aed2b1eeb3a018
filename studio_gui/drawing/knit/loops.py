"""The form of a knitted loop: how its yarn lies at every point round it, and how near.

The rule of this module: a loop is one yarn through space. Its feet come out over the head of the loop below;
its legs part upwards to the shoulders; its head turns over behind the feet above; between neighbours it runs
behind. Of all loops that meet a point the nearest is seen. Nothing here knows colours.

Across the fabric the unit is the width of a stitch, up the fabric a row; depth, to the eye, is in widths.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from studio_gui.drawing.fibre.tile import Floats

IndexArray = NDArray[np.int32]

#: Half the thickness of the yarn, in widths of a stitch.
YARN_RADIUS = 0.232
#: Length of a loop's yarn, in widths of a stitch.
LOOP_LENGTH = 4.3
#: How far a loop reaches from its middle to either side (widths), above and below its row's line (rows).
REACH_ASIDE, REACH_UP, REACH_DOWN = 0.70, 2.15, 1.15
_FOOT, _SHOULDER = -0.30, 1.30
_FOOT_X, _SHOULDER_X = 0.075, 0.385
#: Where along the loop (0 to 1) the first leg begins and ends; the second one mirrors it.
_LEG_START, _LEG_END = 0.10, 0.385
#: Where on a leg (0 at the foot, 1 at the shoulder) the yarn is nearest, and how fast it goes back.
_NEAREST, _CURVE = 0.42, 1.25
#: Depth of what runs behind: in the middle of its arc and at its ends; how high the arc is, in widths.
_BEHIND, _ARC_END, _ARC_HEIGHT = -0.62, -0.45, 0.34
_OUTSIDE = -9.0


@dataclass(frozen=True, slots=True)
class Wobble:
    """How one loop differs from a perfect one: moved aside (widths) and up (rows), thicker, bulging."""

    aside: float = 0.0
    up: float = 0.0
    thick: float = 1.0
    phase: float = 0.0


@dataclass(frozen=True, eq=False)
class Loop:
    """A loop's yarn at every point of a window round it, each (height, width); y downwards.

    `left` and `top` place the window: points from the middle of the stitch, and above its row's line, to the
    first one. `depth` is -9 where there is no yarn; `along` the place on the yarn, 0 to 1 from left to right;
    `across` -1 to 1, positive on the right of one who walks along it; `slant` the yarn's direction, radians
    anticlockwise from rightwards; `tilt` how steeply it comes towards the eye.
    """

    left: int
    top: int
    depth: Floats
    along: Floats
    across: Floats
    slant: Floats
    tilt: Floats


@dataclass(frozen=True, eq=False)
class _Part:
    depth: Floats
    along: Floats
    across: Floats
    slant: Floats
    tilt: Floats


def knitted_loop(width: int, height: int, wobble: Wobble = Wobble()) -> Loop:
    """Return a loop whose stitch is `width` by `height` points (width even)."""
    left = math.ceil(REACH_ASIDE * width)
    top, bottom = math.ceil(REACH_UP * height), math.ceil(REACH_DOWN * height)
    x = ((np.arange(2 * left) + 0.5 - left) / width - wobble.aside)[np.newaxis].astype(np.float32)
    up = ((top - np.arange(top + bottom) - 0.5) / height - wobble.up)[:, np.newaxis].astype(np.float32)
    aspect = width / height
    parts = [
        _arc(x, up, aspect, is_head=False),
        _arc(x, up, aspect, is_head=True),
        _leg(x, up, aspect, 1.0, wobble),
        _leg(x, up, aspect, -1.0, wobble),
    ]
    nearest = np.argmax(np.stack([part.depth for part in parts]), axis=0)[np.newaxis]

    def of(name: str) -> Floats:
        values = np.stack([getattr(part, name) for part in parts])
        taken: Floats = np.take_along_axis(values, nearest, axis=0)[0].astype(np.float32)
        return taken

    return Loop(left, top, of("depth"), of("along"), of("across"), of("slant"), of("tilt"))


def _leg(x: Floats, up: Floats, aspect: float, side: float, wobble: Wobble) -> _Part:
    """Return the right (`side` 1) or left (-1) leg."""
    rise, spread = _SHOULDER - _FOOT, _SHOULDER_X - _FOOT_X
    share = (up - _FOOT) / rise
    eased = np.clip(share, 0.0, 1.0)
    bow = np.sin(np.pi * eased)
    centre = side * (_FOOT_X + spread * eased**1.15 + 0.030 * bow)
    slope = spread * 1.15 * eased**0.15 + 0.030 * np.pi * np.cos(np.pi * eased)
    slope = side * slope * aspect / rise
    ripple = 0.025 * np.sin(9.0 * share + wobble.phase) + 0.020 * np.sin(23.0 * share + 2.0 * wobble.phase)
    beyond = np.clip((np.abs(share - 0.5) - 0.43) / 0.13, 0.0, 1.0)
    radius = YARN_RADIUS * wobble.thick * (0.86 + 0.16 * bow + ripple) * np.sqrt(1.0 - 0.999 * beyond**2)
    across = -side * (x - centre) / (radius * np.sqrt(1.0 + slope**2))
    depth = np.where(beyond < 1.0, -_CURVE * (share - _NEAREST) ** 2, _OUTSIDE)
    along = _LEG_START + (_LEG_END - _LEG_START) * eased
    return _part(
        across=across,
        depth=depth,
        radius=radius,
        along=1.0 - along if side > 0.0 else along,
        slant=np.arctan2(-side, -side * slope),
        tilt=side * 2.0 * _CURVE * (share - _NEAREST) * aspect / rise,
    )


def _arc(x: Floats, up: Floats, aspect: float, *, is_head: bool) -> _Part:
    """Return the head, or the yarn towards both neighbours: half an ellipse above or below."""
    sign = 1.0 if is_head else -1.0
    half_x = _SHOULDER_X if is_head else 0.5 - _FOOT_X
    right = x if is_head else x - np.where(x >= 0.0, 0.5, -0.5)
    line = _SHOULDER - 0.10 if is_head else _FOOT + 0.10
    out = (up - line) * (sign / aspect)
    bow = np.hypot(right / half_x, out / _ARC_HEIGHT) + 1e-6
    steep = np.hypot(right / half_x**2, out / _ARC_HEIGHT**2) / bow + 1e-6
    share = np.arctan2(right / half_x, np.maximum(out / _ARC_HEIGHT, 0.0)) * (2.0 / np.pi)
    radius = 0.86 * YARN_RADIUS
    depth = np.where(out > -0.02, _BEHIND + (_ARC_END - _BEHIND) * share**2, _OUTSIDE)
    along = 0.5 + (0.5 - _LEG_END) * share if is_head else np.mod(_LEG_START * share, 1.0)
    if not is_head:
        depth = np.where(np.abs(x) <= 0.5, depth, _OUTSIDE)
    return _part(
        across=sign * (1.0 - bow) / (steep * radius),
        depth=depth,
        radius=np.float32(radius),
        along=along,
        slant=-sign * np.arctan2(right / half_x**2, np.maximum(out / _ARC_HEIGHT**2, 1e-6)),
        tilt=np.float32(0.0),
    )


def _part(
    *,
    across: Floats,
    depth: Floats,
    radius: Floats | np.float32,
    along: Floats,
    slant: Floats,
    tilt: Floats | np.float32,
) -> _Part:
    shape = across.shape
    inside = (np.abs(across) < 1.0) & (np.broadcast_to(depth, shape) > _OUTSIDE)
    bulge = np.sqrt(np.clip(1.0 - across * across, 0.0, 1.0))
    return _Part(
        np.where(inside, depth + radius * bulge, _OUTSIDE),
        np.broadcast_to(along, shape),
        across,
        np.broadcast_to(slant, shape),
        np.broadcast_to(tilt, shape),
    )


@dataclass(frozen=True, eq=False)
class Surface:
    """What is in front at every point of a patch of fabric, each (height, width), as in `Loop`.

    `owner` is the stitch, ``row * columns + column``, rows from the bottom, or -1 where there is none.
    """

    owner: IndexArray
    depth: Floats
    along: Floats
    across: Floats
    slant: Floats
    tilt: Floats


def knitted_surface(
    shape: tuple[int, int], loops: list[Loop], which: NDArray[np.intp], places: tuple[NDArray[np.intp], ...]
) -> Surface:
    """Lay loops into a patch of `shape` points, the nearest on top.

    `which` (rows, columns) picks one of `loops` for every stitch; `places` are the points of the rows' lines
    (rows,) and of the columns' middles (columns,), far enough from the edges for whole loops.
    """
    lines, middles = places
    owner = np.full(shape, -1, np.int32)
    depth = np.full(shape, _OUTSIDE, np.float32)
    others = {name: np.zeros(shape, np.float32) for name in ("along", "across", "slant", "tilt")}
    for number, choice in enumerate(which.ravel().tolist()):
        loop, row, column = loops[choice], number // len(middles), number % len(middles)
        top, left = int(lines[row]) - loop.top, int(middles[column]) - loop.left
        window = (
            slice(top, top + loop.depth.shape[0]),
            slice(left, left + loop.depth.shape[1]),
        )
        nearer = loop.depth > depth[window]
        np.copyto(depth[window], loop.depth, where=nearer)
        owner[window][nearer] = number
        for name, values in others.items():
            np.copyto(values[window], getattr(loop, name), where=nearer)
    return Surface(owner=owner, depth=depth, **others)
