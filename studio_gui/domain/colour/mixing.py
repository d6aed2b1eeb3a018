"""What colour a mixture of dyes gives on a fibre.

The rule of this module: dyes on a fibre add as K/S, band by band, on top of the fibre's own: ``k = k_fibre
+ sum of u * dose ** b``. Exhaustion is taken as complete and equal. No dye at all gives the fibre's own
colour as entered, wherever the model comes within `REACH` of it. What a fluorescent dye sends out comes on
top, less the share of the light, weighed as an eye does, that the other dyes take up.

This runs for every pixel column of the lay at each mouse move, so the spectrum goes straight to the
screen's primaries by one product, and nothing here loops over columns.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.fibre_fit import fibre_k_over_s
from studio_gui.domain.colour.fit import DyeCurve
from studio_gui.domain.colour.fluorescence import Excess
from studio_gui.domain.colour.kubelka_munk import SURFACE_REFLECTANCE, reflectance_from_k_over_s
from studio_gui.domain.colour.spaces import (
    LINEAR_FROM_XYZ,
    XYZ_FROM_LINEAR,
    Array,
    hex_from_srgb,
    lab_from_hex,
    lab_from_xyz,
    linear_from_srgb,
    read_only,
    srgb_from_hex,
    srgb_from_linear,
    xyz_from_linear,
)
from studio_gui.domain.colour.spectra import WAVELENGTHS_NM, WEIGHTS_D65_2DEG

#: CIEDE2000 from the model within which an undyed fibre keeps its colour as entered.
REACH = 0.5

# Measured reflectance is r0 + (1 - r0) r, and r0 on every band is r0 of the white.
_LINEAR_FROM_INTERNAL: Array = read_only((1.0 - SURFACE_REFLECTANCE) * WEIGHTS_D65_2DEG @ LINEAR_FROM_XYZ.T)
_LINEAR_OF_SURFACE: Array = read_only(SURFACE_REFLECTANCE * WEIGHTS_D65_2DEG.sum(axis=0) @ LINEAR_FROM_XYZ.T)

# A colour is outside sRGB when clipping would change its 8-bit code.
_HALF_CODE = 0.5 / 255.0
_LEAST_SHOWN, _MOST_SHOWN = linear_from_srgb(np.array([-_HALF_CODE, 1.0 + _HALF_CODE])).tolist()


@dataclass(frozen=True, slots=True, eq=False)
class PredictedColours:
    """Colours for the screen: indicative, one light, uncalibrated.

    Parameters
    ----------
    srgb
        Encoded red, green, blue, shape (n, 3), clipped to 0..1.
    clipped
        True where the colour lies outside sRGB by more than half an 8-bit code, shape (n,).
    """

    srgb: Array
    clipped: npt.NDArray[np.bool_]


@lru_cache(maxsize=256)
def _own_colour(undyed_srgb: str) -> Array | None:
    """Linear light of the undyed fibre as entered, shape (3,); None when the model cannot come near it."""
    modelled = lab_from_xyz(xyz_from_linear(_linear_from_k_over_s(fibre_k_over_s(undyed_srgb))))
    if float(ciede2000(modelled, lab_from_hex(undyed_srgb))) >= REACH:
        return None
    return read_only(linear_from_srgb(srgb_from_hex(undyed_srgb)))


def _linear_from_k_over_s(k_over_s: Array) -> Array:
    """Linear light, shape (..., 3), of K/S, shape (..., 31)."""
    return reflectance_from_k_over_s(k_over_s) @ _LINEAR_FROM_INTERNAL + _LINEAR_OF_SURFACE


def _predicted_linear(doses_pct_owf: Array, dyes: Sequence[DyeCurve], undyed_srgb: str) -> Array:
    """Linear light, shape (n, 3), not clipped; arguments as for `predicted_srgb`."""
    if doses_pct_owf.shape[1] != len(dyes):
        raise ValueError(f"{doses_pct_owf.shape[1]} columns of doses for {len(dyes)} dyes")
    # Doses from a convolution may lie a rounding error below zero.
    doses = np.maximum(doses_pct_owf, 0.0)
    exponents = np.array([dye.exponent for dye in dyes])
    units = np.array([dye.unit_k_over_s for dye in dyes]).reshape(-1, WAVELENGTHS_NM.size)
    k_over_s = doses**exponents @ units
    k_over_s += fibre_k_over_s(undyed_srgb)
    linear = _linear_from_k_over_s(k_over_s)
    for dye, depths_pct_owf in zip(dyes, doses.T, strict=True):
        if dye.excess is not None:
            linear += _sent_out(dye, dye.excess, depths_pct_owf, k_over_s, undyed_srgb)
    own = _own_colour(undyed_srgb)
    if own is not None:
        linear[~doses.any(axis=1)] = own
    return linear


def _sent_out(
    dye: DyeCurve, excess: Excess, depths_pct_owf: Array, k_over_s: Array, undyed_srgb: str
) -> Array:
    """Linear light, shape (n, 3), that a fluorescent dye adds to mixtures of K/S (n, 31)."""
    alone = np.multiply.outer(depths_pct_owf**dye.exponent, dye.unit_k_over_s) + fibre_k_over_s(undyed_srgb)
    share = (alone / k_over_s) @ WEIGHTS_D65_2DEG[:, 1]
    return excess.at(depths_pct_owf) * share[:, np.newaxis]


def predicted_srgb(doses_pct_owf: Array, dyes: Sequence[DyeCurve], undyed_srgb: str) -> PredictedColours:
    """Return the screen colour of n mixtures of d dyes on one fibre; n and d may be 0.

    Parameters
    ----------
    doses_pct_owf
        g of each dye per 100 g of dry fibre, finite, from 0 up, shape (n, d). One dye has one column: the
        power of a sum is not the sum of powers.
    dyes
        The d dyes, from `dye_curve`; their order does not matter.
    undyed_srgb
        Colour of the undyed fibre, ``#rrggbb``, lower case.

    Raises
    ------
    ValueError
        When columns and dyes differ in number.

    >>> predicted_srgb(np.zeros((2, 0)), (), "#ffcc00").srgb.round(6).tolist()
    [[1.0, 0.8, 0.0], [1.0, 0.8, 0.0]]
    """
    linear = _predicted_linear(doses_pct_owf, dyes, undyed_srgb)
    clipped = ((linear < _LEAST_SHOWN) | (linear > _MOST_SHOWN)).any(axis=1)
    return PredictedColours(srgb=srgb_from_linear(np.clip(linear, 0.0, 1.0, out=linear)), clipped=clipped)


def predicted_lab(doses_pct_owf: Array, dyes: Sequence[DyeCurve], undyed_srgb: str) -> Array:
    """Return CIE Lab, shape (n, 3), of the same mixtures as `predicted_srgb`, not clipped.

    >>> predicted_lab(np.zeros((1, 0)), (), "#ffffff").round(3).tolist()
    [[100.0, 0.0, 0.0]]
    """
    return lab_from_xyz(xyz_from_linear(_predicted_linear(doses_pct_owf, dyes, undyed_srgb)))


def in_greys(colours: PredictedColours) -> PredictedColours:
    """Return the greys that are as light as `colours`, for judging lightness alone.

    >>> in_greys(predicted_srgb(np.zeros((1, 0)), (), "#ff0000")).srgb.round(3).tolist()
    [[0.498, 0.498, 0.498]]
    """
    return replace(colours, srgb=_greys(colours.srgb))


def grey_of(srgb: str) -> str:
    """Return the grey, ``#rrggbb``, that is as light as a colour.

    >>> grey_of("#ff0000"), grey_of("#808080")
    ('#7f7f7f', '#808080')
    """
    return hex_from_srgb(_greys(srgb_from_hex(srgb)))


def _greys(srgb: Array) -> Array:
    luminance = linear_from_srgb(srgb) @ XYZ_FROM_LINEAR[1]
    return np.repeat(srgb_from_linear(luminance)[..., np.newaxis], 3, axis=-1)
