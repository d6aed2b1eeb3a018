"""The form of twisted strands: which one is seen where, and how it lies to the eye.

The rule of this module: it knows shapes, no light and no colour, and is pure numpy. Strand j turns about the
yarn's axis: its middle is at ``a cos(t + 2 pi j / n)`` across the yarn and ``a sin`` of the same towards the
eye; of two strands the nearer is seen. A place along the yarn has the same form in every picture.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from studio_gui.drawing.fibre.tile import Floats

#: Radius of a strand as a share of the yarn's, by the number of strands.
_RADIUS = {1: 1.0, 2: 0.60, 3: 0.52, 4: 0.47, 5: 0.43}
_LEAST_RADIUS = 0.40
#: Radius of the yarn as a share of the picture's height: room for thick places and for hairs.
YARN_RADIUS = 0.43
#: How much of a leaning strand's longer cut the eye takes for thickness; by eye, no source.
_CUT = 0.55
_KNOTS = 512
_WANDERING = np.random.Generator(np.random.PCG64(11)).random((16, _KNOTS)).astype(np.float32) * 2.0 - 1.0


@dataclass(frozen=True, slots=True)
class Twist:
    """Strands (1 or more) twisted to a yarn in a picture `height_px` high; one turns once in `pitch_px`."""

    strands: int
    height_px: float
    pitch_px: float
    device_pixel_ratio: float

    @property
    def yarn_radius_px(self) -> float:
        """The yarn's usual radius."""
        return YARN_RADIUS * self.height_px

    @property
    def strand_radius_px(self) -> float:
        """A strand's usual radius."""
        return self.yarn_radius_px * _RADIUS.get(self.strands, _LEAST_RADIUS)


@dataclass(frozen=True, eq=False)
class Seen:
    """What is seen of a yarn at (h,) rows and (w,) columns; each array is (h, w) of float32.

    `strand` is the number of the strand in front, `across` the place on it, -1 at its upper edge to 1 at its
    lower, `slope` how steeply it goes down, `middle` and `half` its middle row from the yarn's and half its
    thickness, px. `height` is how near the surface is to the eye, -1 to 1 radii of the yarn, `gap` how much
    nearer than the strand behind, in the same, and `cover` how opaque the yarn is, 0 to 1.
    """

    strand: NDArray[np.int32]
    across: Floats
    slope: Floats
    middle: Floats
    half: Floats
    height: Floats
    gap: Floats
    cover: Floats


@dataclass(frozen=True, eq=False)
class _Course:
    """The course of one strand along (w,) columns; lengths in px."""

    middle: Floats
    near: Floats
    slope: Floats
    radius: Floats
    upper: Floats
    lower: Floats


def seen(twist: Twist, x: Floats, y: Floats) -> Seen:
    """Return what is seen at columns `x` (w,) px along the yarn and rows `y` (h,) px below its axis.

    >>> narrow = seen(Twist(2, 10.0, 14.0, 1.0), np.arange(8, dtype=np.float32), np.zeros(1, np.float32))
    >>> narrow.strand.shape, float(narrow.cover.min())
    ((1, 8), 1.0)
    """
    courses = [_course(twist, number, x) for number in range(twist.strands)]
    shape = (len(y), len(x))
    best, second = np.full(shape, -np.inf, np.float32), np.full(shape, -np.inf, np.float32)
    strand, across = np.zeros(shape, np.int32), np.zeros(shape, np.float32)
    cover = np.zeros(shape, np.float32)
    for number, course in enumerate(courses):
        below = y[:, np.newaxis] - course.middle
        place = below / np.where(below < 0.0, course.upper, course.lower)
        outwards = np.abs(place)
        np.maximum(cover, np.clip((1.0 - outwards) * course.radius + 0.5, 0.0, 1.0), out=cover)
        rise = np.sqrt(np.maximum(1.0 - outwards * outwards, 0.0))
        # beside every strand the one whose edge is nearest stands for all
        near = np.where(outwards < 1.0, course.near + course.radius * rise, -1e4 * outwards)
        is_nearer = near > best
        np.maximum(second, np.minimum(best, near), out=second)
        np.maximum(best, near, out=best)
        np.copyto(strand, np.int32(number), where=is_nearer)
        np.copyto(across, place, where=is_nearer)
    column = np.arange(len(x))[np.newaxis]

    def of(name: str) -> Floats:
        taken: Floats = np.stack([getattr(course, name) for course in courses])[strand, column]
        return taken

    radius = np.float32(twist.yarn_radius_px)
    np.clip(across, -1.0, 1.0, out=across)
    half = np.where(across < 0.0, of("upper"), of("lower"))
    height = np.clip(best / radius, -1.0, 1.0)
    gap = np.clip((best - second) / radius, 0.0, 9.0)
    return Seen(strand, across, of("slope"), of("middle"), half, height, gap, cover)


def wander(x: Floats, period: float, row: int) -> Floats:
    """Return smooth noise, -1 to 1, at places along the yarn: another one for each row, 0 to 15."""
    at = x / max(period, 1.0) + 37.3 * row
    low = np.floor(at)
    part = (at - low).astype(np.float32)
    part = part * part * (3.0 - 2.0 * part)
    knot = low.astype(np.intp) % _KNOTS
    knots = _WANDERING[row % len(_WANDERING)]
    eased: Floats = knots[knot] * (1.0 - part) + knots[(knot + 1) % _KNOTS] * part
    return eased


def _course(twist: Twist, number: int, x: Floats) -> _Course:
    pitch, ratio = twist.pitch_px, twist.device_pixel_ratio
    thick = 1.0 + 0.07 * wander(x, 1.9 * pitch, 0)
    own = 1.0 + 0.06 * wander(x, 0.9 * pitch, 3 + number)
    yarn_radius = twist.yarn_radius_px * thick
    radius = twist.strand_radius_px * thick * own
    turning = yarn_radius - twist.strand_radius_px * thick
    drift = 0.35 * wander(x, 2.3 * pitch, 1)
    turn = 2.0 * np.pi * (x / pitch + number / twist.strands) + drift
    slope = -turning * (2.0 * np.pi / pitch) * np.sin(turn)
    half = radius * np.sqrt(1.0 + _CUT * slope * slope)
    rough = min(0.055 * twist.strand_radius_px, 1.2 * ratio)
    upper = half + rough * _frizz(x, ratio, 5 + 2 * number)
    lower = half + rough * _frizz(x, ratio, 6 + 2 * number)
    course = (turning * np.cos(turn), turning * np.sin(turn), slope, radius, upper, lower)
    return _Course(*(values.astype(np.float32) for values in course))


def _frizz(x: Floats, ratio: float, row: int) -> Floats:
    """Return the unevenness of an edge, about -1 to 1: locks, and fibres on them."""
    uneven: Floats = 0.6 * wander(x, 9.0 * ratio, row) + 0.6 * wander(x, 2.6 * ratio, row + 3)
    return uneven
