"""When one graduation is too coarse for a fade, and which weak stock would mend it.

The rule of this module: a graduation is too coarse where one more of the finest bottle of a dye changes the
colour by more than the wanted step. A weak stock is a round share of the one at hand: a half, a fifth, a
tenth or a twentieth, whichever makes the fade most even. These are our choices.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from studio_gui.domain.colour.deliverable import Measuring
from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.fades import Fade, IdealFade, solve_fade
from studio_gui.domain.colour.palette import Palette
from studio_gui.domain.colour.spaces import Array
from studio_gui.domain.ranges import exceeds

#: Strengths of a weak stock that are tried, as shares of the bottle that is too coarse.
WEAKER = (0.5, 0.2, 0.1, 0.05)


@dataclass(frozen=True, slots=True)
class Coarse:
    """One graduation of `bottle` in jar `section`, both counted from 0, changes the colour by `step`."""

    bottle: int
    section: int
    step: float


def too_coarse(palette: Palette, measuring: Measuring, fade: Fade, ideal: IdealFade) -> tuple[Coarse, ...]:
    """Return, for each dye whose graduation exceeds the step of `ideal`, the place where it does so most.

    Only jars that should have the dye count, and their neighbours.
    """
    found = []
    jars = np.arange(len(fade.counts))
    for dye in range(measuring.dyes):
        bottles = measuring.finest(dye)
        more = fade.doses_pct_owf.copy()
        more[:, dye] += measuring.doses_pct_owf[jars, bottles]
        steps = ciede2000(fade.labs, palette.lab(more))
        has = ideal.doses_pct_owf[:, dye] > 0.0
        near = has | np.append(has[1:], False) | np.insert(has[:-1], 0, False)
        worst = int(np.where(near, steps, 0.0).argmax())
        if near[worst] and exceeds(float(steps[worst]), ideal.step):
            found.append(Coarse(int(bottles[worst]), worst, float(steps[worst])))
    return tuple(found)


def with_weaker(measuring: Measuring, bottle: int, share: float) -> Measuring:
    """Return what can be measured with one bottle more: `share` as strong as `bottle`, of the same dye.

    >>> measuring = Measuring(np.array([50.0]), np.array([[0.1]]), (0,), 1)
    >>> with_weaker(measuring, 0, 0.1).doses_pct_owf.round(6).tolist()
    [[0.1, 0.01]]
    """
    doses = np.append(
        measuring.doses_pct_owf, measuring.doses_pct_owf[:, bottle : bottle + 1] * share, axis=1
    )
    dye_of = (*measuring.dye_of, measuring.dye_of[bottle])
    return Measuring(measuring.graduations, doses, dye_of, measuring.dyes)


def weaker_that_mends(
    palette: Palette, measuring: Measuring, stops_pct_owf: Array, bottle: int
) -> tuple[float, Fade]:
    """Return the share of `WEAKER` that makes a fade most even beside `bottle`, and the fade it makes."""
    tried = [
        (share, solve_fade(palette, with_weaker(measuring, bottle, share), stops_pct_owf)) for share in WEAKER
    ]
    return min(tried, key=lambda one: one[1].evenness.rank)
