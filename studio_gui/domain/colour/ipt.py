"""The colour space IPT, in which colours of one hue lie on one line from the grey.

The rule of this module: it is for colours that are far apart, where what counts is to keep to the hue.
CIELAB, and CIEDE2000 with it, bends hues most among blues and violets. Small differences are CIEDE2000's.

Source: F. Ebner, M. D. Fairchild, "Development and testing of a color space (IPT) with improved hue
uniformity", Proc. 6th Color Imaging Conference, 1998, pp. 8-13. The matrices are from memory, and agree with
those of colour-science, which gives M. D. Fairchild, Color Appearance Models, 3rd ed., Wiley 2013.

================  ==========================================  =========================
name              meaning                                     range
================  ==========================================  =========================
ipt               light; green to red; blue to yellow         0 to 1; about -1 to 1
================  ==========================================  =========================
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.colour.spaces import Array, read_only, xyz_from_lab

_CONES_FROM_XYZ = read_only(
    np.array([[0.4002, 0.7075, -0.0807], [-0.2280, 1.1500, 0.0612], [0.0, 0.0, 0.9184]])
)
_IPT_FROM_CONES = read_only(
    np.array([[0.4000, 0.4000, 0.2000], [4.4550, -4.8510, 0.3960], [0.8056, 0.3572, -1.1628]])
)
_POWER = 0.43


def ipt_from_xyz(xyz: Array) -> Array:
    """Return IPT, shape (..., 3), of XYZ against the D65 white; below 0 the power goes on with its sign.

    >>> ipt_from_xyz(np.array([0.20654008, 0.12197225, 0.05136952])).round(4).tolist()
    [0.3843, 0.3849, 0.1889]
    """
    cones = xyz @ _CONES_FROM_XYZ.T
    ipt: Array = (np.sign(cones) * np.abs(cones) ** _POWER) @ _IPT_FROM_CONES.T
    return ipt


def ipt_from_lab(lab: Array) -> Array:
    """Return IPT, shape (..., 3), of CIE Lab.

    >>> ipt_from_lab(np.array([100.0, 0.0, 0.0])).round(2).tolist()
    [1.0, 0.0, 0.0]
    """
    return ipt_from_xyz(xyz_from_lab(lab))


def is_opposite(ipt: Array, wanted_ipt: Array) -> NDArray[np.bool_]:
    """Tell whether the hues of IPT colours, (..., 3), are over 90 degrees from that of one, (3,).

    A grey, which has no hue, is opposite to nothing.

    >>> green, red, blue = np.array([[0.5, -0.3, 0.1], [0.5, 0.3, 0.1], [0.5, -0.1, -0.4]])
    >>> is_opposite(np.stack([red, blue]), green).tolist()
    [True, True]
    """
    opposite: NDArray[np.bool_] = ipt[..., 1:] @ wanted_ipt[1:] < 0.0
    return opposite
