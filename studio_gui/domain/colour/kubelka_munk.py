"""What dye does to light inside wool.

The rule of this module: colourants add as K/S (absorption over scattering, no unit), never as reflectance.
A little light, `SURFACE_REFLECTANCE`, turns back at the surface and never meets the dye; it is taken off
before and put back after.

Sources: P. Kubelka, F. Munk, "Ein Beitrag zur Optik der Farbanstriche", Zeitschrift fuer technische Physik
12, 1931. The surface reflectance is our choice; no published figure for wool was found.
"""

from __future__ import annotations

import numpy as np

from studio_gui.domain.colour.spaces import Array

#: Share of the light that turns back at the surface of the fibre.
SURFACE_REFLECTANCE = 0.005


def k_over_s(internal_reflectance: Array) -> Array:
    """Return K/S, any shape, of internal reflectance above 0 and at most 1.

    >>> k_over_s(np.array([0.5, 0.2])).round(4).tolist()
    [0.25, 1.6]
    """
    return (1.0 - internal_reflectance) ** 2 / (2.0 * internal_reflectance)


def reflectance_from_k_over_s(k_over_s: Array) -> Array:
    """Return internal reflectance, 0 to 1, any shape, of K/S from 0 up: the inverse of `k_over_s`.

    Written as a reciprocal, because the textbook difference of two large numbers loses a dark shade's digits.

    >>> reflectance_from_k_over_s(np.array([0.25, 1.6])).round(4).tolist()
    [0.5, 0.2]
    """
    reciprocal: Array = k_over_s + 2.0
    reciprocal *= k_over_s
    np.sqrt(reciprocal, out=reciprocal)
    reciprocal += k_over_s
    reciprocal += 1.0
    return np.divide(1.0, reciprocal, out=reciprocal)


def measured_from_internal(internal_reflectance: Array) -> Array:
    """Return what a meter or an eye sees, any shape: internal reflectance with the surface's share on top.

    >>> measured_from_internal(np.array([0.0, 1.0])).tolist()
    [0.005, 1.0]
    """
    return SURFACE_REFLECTANCE + (1.0 - SURFACE_REFLECTANCE) * internal_reflectance


def internal_from_measured(reflectance: Array) -> Array:
    """Return internal reflectance, any shape: the measured one without the surface's share.

    >>> internal_from_measured(np.array([0.005, 1.0])).tolist()
    [0.0, 1.0]
    """
    return (reflectance - SURFACE_REFLECTANCE) / (1.0 - SURFACE_REFLECTANCE)
