"""The steps of the ruler that lengths on the lay are read from.

The rule of this module: the tapes and the drags that snap to them ask here, so that a boundary always comes
to lie on a tick that is drawn. A ruler is in centimetres, or in inches where fibre is shown in them.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from studio_gui.wording.translation import TRANSLATED, Tongue

CENTIMETRE_M = 0.01
INCH_M = 0.0254

FIGURES_APART_PX = 44.0
TICKS_APART_PX = 4.0

#: An inch is halved, and halved again; from a foot on, feet are counted.
_INCHES = (1 / 16, 1 / 8, 1 / 4, 1 / 2, 1.0, 2.0, 3.0, 6.0)
_FOOT = 12.0


def ruler_unit_m(tongue: Tongue = TRANSLATED) -> float:
    """Return the unit of the ruler that is shown, m: a centimetre, or an inch in US and mixed units.

    >>> from studio_gui.wording.translation import ENGLISH
    >>> ruler_unit_m(ENGLISH)
    0.01
    """
    return CENTIMETRE_M if tongue.units == "metric" else INCH_M


def ruler_steps(px_per_m: float, unit_m: float) -> tuple[float, float]:
    """Return (figure step, tick step) in m: figures at least 44 px apart, ticks at least 4 px.

    `unit_m` is the ruler's unit in m. Steps of an inch ruler are sixteenths to halves, 1, 2, 3 and 6 inches,
    and feet; those of any other 1, 2 or 5 times a power of ten. Figures stand on ticks; on an inch ruler, on
    whole inches.

    >>> ruler_steps(400.0, CENTIMETRE_M)
    (0.2, 0.01)
    >>> [round(step_m / INCH_M, 4) for step_m in ruler_steps(400.0, INCH_M)]
    [6.0, 0.5]
    """
    px_per_unit = px_per_m * unit_m
    tick = next(step for step in _steps(px_per_unit, unit_m) if _reaches(step, px_per_unit, TICKS_APART_PX))
    figure = next(
        step
        for step in _steps(px_per_unit, unit_m)
        if _reaches(step, px_per_unit, FIGURES_APART_PX)
        and _is_whole(step / tick)
        and (unit_m != INCH_M or _is_whole(step))
    )
    return figure * unit_m, tick * unit_m


def snapped(position_m: float, step_m: float) -> float:
    """Return the multiple of `step_m` nearest to a place on the lay.

    >>> snapped(0.4321, 0.01)
    0.43
    """
    return round(round(position_m / step_m) * step_m, 9)


def _steps(px_per_unit: float, unit_m: float) -> Iterator[float]:
    """Yield the steps of a ruler, in its units, upwards from its finest or from one too fine to be drawn."""
    if unit_m == INCH_M:
        yield from _INCHES
        yield from (_FOOT * step for step in _decimal_steps(0))
    else:
        yield from _decimal_steps(math.floor(math.log10(TICKS_APART_PX / px_per_unit)))


def _decimal_steps(power: int) -> Iterator[float]:
    while True:
        # divided where the power is below one, so that the steps are the nearest floats to what they mean
        yield from (f * 10.0**power if power >= 0 else f / 10.0**-power for f in (1.0, 2.0, 5.0))
        power += 1


def _reaches(step: float, px_per_unit: float, least_px: float) -> bool:
    return step * px_per_unit >= least_px * (1.0 - 1e-9)


def _is_whole(number: float) -> bool:
    return abs(number - round(number)) < 1e-9 and round(number) > 0
