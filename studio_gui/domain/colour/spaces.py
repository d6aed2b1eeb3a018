"""From a screen colour to CIE XYZ and Lab, and back.

The rule of this module: every colour is an array whose last axis has length 3, for one light and one observer
(D65, CIE 1931 2 degrees, white at xy = 0.3127, 0.3290), and no function clips, except into text.

================  ==========================================  =========================
name              meaning                                     range
================  ==========================================  =========================
srgb              encoded red, green, blue                    0 to 1 on a screen
linear            light of the three primaries                0 to 1 on a screen
xyz               CIE XYZ, white has Y = 1                    0 to about 1.09
lab               CIE L*, a*, b*                              L* 0 to 100
================  ==========================================  =========================

Sources: IEC 61966-2-1:1999 (sRGB); CIE 15:2018, Colorimetry (Lab).
"""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
import numpy.typing as npt

Array: TypeAlias = npt.NDArray[np.float64]

# IEC 61966-2-1: chromaticities of the primaries and of the white, and the two branches of the encoding.
_PRIMARIES_XY = ((0.64, 0.33), (0.30, 0.60), (0.15, 0.06))
_WHITE_XY = (0.3127, 0.3290)
_ENCODED_KNEE = 0.04045
_LINEAR_KNEE = 0.0031308

# CIE 15: below (6/29)**3 of the white the cube root gives way to a straight line.
_DELTA = 6.0 / 29.0
_LAB_KNEE = _DELTA**3
_LAB_LINE_SLOPE = 1.0 / (3.0 * _DELTA**2)
_LAB_LINE_START = 4.0 / 29.0
#: Below this CIELAB chroma a colour is a grey, with no hue to speak of; our choice.
LEAST_CHROMA_FOR_HUE = 3.0
_LAB_FROM_ROOTS = np.array([[0.0, 116.0, 0.0], [500.0, -500.0, 0.0], [0.0, 200.0, -200.0]])


def _xyz_of_xy(xy: tuple[float, float]) -> tuple[float, float, float]:
    x, y = xy
    return x / y, 1.0, (1.0 - x - y) / y


def _xyz_from_linear_matrix() -> Array:
    """Matrix whose columns are the primaries, scaled so that together they make the white."""
    primaries = np.array([_xyz_of_xy(xy) for xy in _PRIMARIES_XY]).T
    amounts: Array = np.linalg.solve(primaries, WHITE_XYZ)
    return primaries * amounts


def read_only(values: Array) -> Array:
    """Return `values`, locked against writing: for constants and for results that are shared."""
    values.setflags(write=False)
    return values


#: XYZ of the white, Y = 1, shape (3,).
WHITE_XYZ: Array = read_only(np.array(_xyz_of_xy(_WHITE_XY)))
#: ``xyz = XYZ_FROM_LINEAR @ linear``, shape (3, 3).
XYZ_FROM_LINEAR: Array = read_only(_xyz_from_linear_matrix())
#: ``linear = LINEAR_FROM_XYZ @ xyz``, shape (3, 3).
LINEAR_FROM_XYZ: Array = read_only(np.asarray(np.linalg.inv(XYZ_FROM_LINEAR), dtype=np.float64))


def srgb_from_hex(srgb: str) -> Array:
    """Return red, green and blue, 0 to 1, shape (3,), of a colour already checked to be ``#rrggbb``.

    >>> srgb_from_hex("#ff0033").tolist()
    [1.0, 0.0, 0.2]
    """
    return np.array([int(srgb[start : start + 2], 16) for start in (1, 3, 5)]) / 255.0


def hex_from_srgb(srgb: Array) -> str:
    """Return one colour, shape (3,), as ``#rrggbb``; values outside 0 to 1 are clipped.

    >>> hex_from_srgb(np.array([1.0, -0.1, 0.2]))
    '#ff0033'
    """
    red, green, blue = np.rint(np.clip(srgb, 0.0, 1.0) * 255.0).astype(int).tolist()
    return f"#{red:02x}{green:02x}{blue:02x}"


def linear_from_srgb(srgb: Array) -> Array:
    """Decode sRGB, shape (..., 3), to linear light (IEC 61966-2-1); below 0 the straight branch goes on.

    >>> linear_from_srgb(np.array([0.0, 0.5, 1.0])).round(4).tolist()
    [0.0, 0.214, 1.0]
    """
    # The maximum keeps the unused branch off negative numbers, which have no such power.
    curve = ((np.maximum(srgb, _ENCODED_KNEE) + 0.055) / 1.055) ** 2.4
    return np.where(srgb <= _ENCODED_KNEE, srgb / 12.92, curve)


def srgb_from_linear(linear: Array) -> Array:
    """Encode linear light, shape (..., 3), as sRGB (IEC 61966-2-1); below 0 the straight branch goes on.

    >>> srgb_from_linear(np.array([0.0, 0.2140, 1.0])).round(3).tolist()
    [0.0, 0.5, 1.0]
    """
    curve = 1.055 * np.maximum(linear, _LINEAR_KNEE) ** (1.0 / 2.4) - 0.055
    return np.where(linear <= _LINEAR_KNEE, linear * 12.92, curve)


def xyz_from_linear(linear: Array) -> Array:
    """Return XYZ, shape (..., 3), of linear sRGB light.

    >>> xyz_from_linear(np.array([1.0, 1.0, 1.0])).round(4).tolist()
    [0.9505, 1.0, 1.0891]
    """
    return linear @ XYZ_FROM_LINEAR.T


def linear_from_xyz(xyz: Array) -> Array:
    """Return linear sRGB light, shape (..., 3); below 0 or above 1 where a screen cannot show the colour.

    >>> linear_from_xyz(WHITE_XYZ).round(4).tolist()
    [1.0, 1.0, 1.0]
    """
    return xyz @ LINEAR_FROM_XYZ.T


def lab_from_xyz(xyz: Array) -> Array:
    """Return CIE Lab, shape (..., 3), against the D65 white (CIE 15:2018, 8.2.1).

    >>> lab_from_xyz(WHITE_XYZ).round(4).tolist()
    [100.0, 0.0, 0.0]
    """
    share = xyz / WHITE_XYZ
    roots = np.where(share > _LAB_KNEE, np.cbrt(share), _LAB_LINE_SLOPE * share + _LAB_LINE_START)
    lab: Array = roots @ _LAB_FROM_ROOTS.T
    lab[..., 0] -= 16.0
    return lab


def lab_slope(xyz: Array) -> Array:
    """Return how Lab changes with XYZ, shape (..., 3, 3): row L*, a*, b*, column X, Y, Z.

    >>> float(lab_slope(WHITE_XYZ)[0, 1].round(4))
    38.6667
    """
    share = xyz / WHITE_XYZ
    slopes = np.where(share > _LAB_KNEE, np.maximum(share, _LAB_KNEE) ** (-2.0 / 3.0) / 3.0, _LAB_LINE_SLOPE)
    return _LAB_FROM_ROOTS * (slopes / WHITE_XYZ)[..., np.newaxis, :]


def xyz_from_lab(lab: Array) -> Array:
    """Return XYZ, shape (..., 3), of CIE Lab against the D65 white (CIE 15:2018, annex E).

    >>> xyz_from_lab(np.array([100.0, 0.0, 0.0])).round(4).tolist()
    [0.9505, 1.0, 1.0891]
    """
    middle = (lab[..., 0] + 16.0) / 116.0
    roots = np.stack([middle + lab[..., 1] / 500.0, middle, middle - lab[..., 2] / 200.0], axis=-1)
    share = np.where(roots > _DELTA, roots**3, (roots - _LAB_LINE_START) / _LAB_LINE_SLOPE)
    return share * WHITE_XYZ


def hex_from_lab(lab: Array) -> tuple[str, bool]:
    """Return one colour of CIE Lab, shape (3,), as ``#rrggbb``, and whether it lies outside sRGB.

    Outside by more than half an 8-bit code; the nearest code in sRGB then stands for it.

    >>> hex_from_lab(np.array([100.0, 0.0, 0.0])), hex_from_lab(np.array([50.0, -100.0, 0.0]))[1]
    (('#ffffff', False), True)
    """
    codes = srgb_from_linear(linear_from_xyz(xyz_from_lab(lab))) * 255.0
    return hex_from_srgb(codes / 255.0), bool(((codes < -0.5) | (codes > 255.5)).any())


def lab_from_hex(srgb: str) -> Array:
    """Return CIE Lab, shape (3,), of a colour already checked to be ``#rrggbb``.

    >>> lab_from_hex("#ffffff").round(2).tolist()
    [100.0, 0.0, 0.0]
    """
    return lab_from_xyz(xyz_from_linear(linear_from_srgb(srgb_from_hex(srgb))))
