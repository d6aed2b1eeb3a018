"""From the readings of an instrument to the 31 bands of this program.

The rule of this module: readings are taken as they are, straight from one to the next, and what had to be
done to them is told. A hole wider than `WIDEST_STEP_NM` is refused, because nothing says what is in it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from studio_gui.domain.colour.spaces import Array
from studio_gui.domain.colour.spectra import WAVELENGTHS_NM
from studio_gui.domain.errors import InvalidPlan
from studio_gui.domain.ranges import checked, exceeds

#: Instruments read every 10 or 20 nm; wider steps hide the edge of a dye. Our choice, no source.
WIDEST_STEP_NM = 20.0
#: No fraction is above this, and hardly a spectrum in percent stays below it.
LARGEST_FRACTION = 2.0


@dataclass(frozen=True, slots=True)
class Spectrum:
    """A measured reflectance on the bands of `WAVELENGTHS_NM`, and what was done to the readings.

    Parameters
    ----------
    reflectance
        31 fractions, 0 to 2, to six decimals.
    was_percent
        Whether the readings were in percent.
    readings
        How many readings there were.
    outside
        How many of them lay beyond 400 to 700 nm; they are not used.
    held_nm
        How many nm at the two ends have no reading of their own and keep the outermost.
    """

    reflectance: tuple[float, ...]
    was_percent: bool
    readings: int
    outside: int
    held_nm: float


def spectrum_of(readings: Sequence[tuple[float, float]], *, says_percent: bool | None = None) -> Spectrum:
    """Return the spectrum of pairs of wavelength (nm) and reflectance, in any order.

    `says_percent` is what the source says of its unit; None takes readings above 2 as percent.

    Raises
    ------
    InvalidPlan
        ``spectrum-empty``; ``not-a-number``; ``out-of-range`` for wavelength_nm or reflectance;
        ``spectrum-wavelength-twice`` with wavelength_nm; ``spectrum-too-short`` with low_nm and high_nm of
        the readings; ``spectrum-gap`` with low_nm and high_nm of the hole.

    >>> even = spectrum_of([(wavelength, 50.0) for wavelength in range(380, 740, 10)])
    >>> even.reflectance[0], even.was_percent, even.outside
    (0.5, True, 5)
    """
    if not readings:
        raise InvalidPlan("spectrum-empty", field="reflectance")
    pairs = sorted((checked("wavelength_nm", nm), value) for nm, value in readings)
    for (before, _), (after, _) in pairwise(pairs):
        if after == before:
            raise InvalidPlan("spectrum-wavelength-twice", field="wavelength_nm", wavelength_nm=after)
    wavelengths = np.array([nm for nm, _ in pairs])
    is_percent = says_percent
    if is_percent is None:
        is_percent = any(exceeds(value, LARGEST_FRACTION) for _, value in pairs)
    scale = 100.0 if is_percent else 1.0
    values = np.array([checked("reflectance", value / scale) for _, value in pairs])
    held_nm = _held_nm(wavelengths)
    first, last = float(WAVELENGTHS_NM[0]), float(WAVELENGTHS_NM[-1])
    return Spectrum(
        reflectance=tuple(np.interp(WAVELENGTHS_NM, wavelengths, values).round(6).tolist()),
        was_percent=is_percent,
        readings=len(pairs),
        outside=int(((wavelengths < first) | (wavelengths > last)).sum()),
        held_nm=held_nm,
    )


def _held_nm(wavelengths: Array) -> float:
    """Return the nm without readings at both ends; refuse ends or holes that are too wide."""
    first, last = float(WAVELENGTHS_NM[0]), float(WAVELENGTHS_NM[-1])
    low, high = float(wavelengths[0]), float(wavelengths[-1])
    short_of = max(low - first, 0.0), max(last - high, 0.0)
    if any(exceeds(short, WIDEST_STEP_NM) for short in short_of):
        raise InvalidPlan("spectrum-too-short", field="wavelength_nm", low_nm=low, high_nm=high)
    for before, after in pairwise(wavelengths.tolist()):
        if after > first and before < last and exceeds(after - before, WIDEST_STEP_NM):
            raise InvalidPlan("spectrum-gap", field="wavelength_nm", low_nm=before, high_nm=after)
    return sum(short_of)
