"""Invented dyes, and seeded cases of what a bench may ask of them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from studio_gui.domain.colour.deliverable import Measuring
from studio_gui.domain.colour.fit import DyeCurve, dye_curve
from studio_gui.domain.colour.palette import Palette
from studio_gui.domain.colour.spaces import Array
from studio_gui.domain.colour.swatches import Swatch

WOOL = "#f2ebdc"
COLOURS = {
    "lemon": "#e8d020",
    "greenish blue": "#0080a0",
    "reddish blue": "#203080",
    "red": "#c03060",
    "brick": "#a03030",
    "blue": "#2a5d8f",
    "olive": "#405030",
    "violet": "#702060",
    "orange": "#d07020",
    "green": "#208040",
    "brown": "#604020",
    "black": "#303030",
}


def curve(name: str) -> DyeCurve:
    """Return the dye of that name, from one swatch at 1 % owf."""
    return dye_curve((Swatch(1.0, COLOURS[name], WOOL),))


def palette(*names: str) -> Palette:
    """Return dyes on white wool; of none is more than 6 % owf taken up."""
    return Palette(tuple(curve(name) for name in names), np.full(len(names), 6.0), WOOL)


def jars(
    count: int = 12,
    strengths_pct: tuple[float, ...] = (1.0,),
    dye_of: tuple[int, ...] | None = None,
    *,
    fibre_g: float = 10.0,
    liquid_ml: float = 50.0,
    graduation_ml: float = 1.0,
) -> Measuring:
    """Return equal jars without spare, measured from bottles of these strengths (% w/v)."""
    graduations = np.full(count, np.ceil(liquid_ml / graduation_ml))
    of_one = (liquid_ml / graduations / fibre_g)[:, np.newaxis] * np.array(strengths_pct)
    places = dye_of if dye_of is not None else tuple(range(len(strengths_pct)))
    return Measuring(graduations, of_one, places, max(places) + 1)


@dataclass(frozen=True, slots=True, eq=False)
class FadeCase:
    """Dyes, jars and stops of one fade."""

    palette: Palette
    measuring: Measuring
    stops_pct_owf: Array


def random_fade(generator: np.random.Generator) -> FadeCase:
    """Return a fade as a bench may want it: within reach, 4 to 16 sections, some bottles let down too."""
    kind = int(generator.integers(4))
    dyes = (1, 2, 3, 2)[kind]
    names = generator.choice(sorted(COLOURS), dyes, replace=False).tolist()
    fibre_g = float(generator.uniform(5.0, 40.0))
    strengths, places = [], []
    for dye in range(dyes):
        strengths.append(float(generator.choice([0.5, 1.0, 2.0])))
        places.append(dye)
        if generator.random() < 0.4:
            strengths.append(strengths[-1] / 10.0)
            places.append(dye)
    applied = float(generator.uniform(1.5, 5.0))
    measuring = jars(
        int(generator.integers(4, 17)),
        tuple(strengths),
        tuple(places),
        fibre_g=fibre_g,
        liquid_ml=fibre_g * applied,
        graduation_ml=float(generator.choice([0.1, 0.5, 1.0])),
    )
    reach = 0.9 * applied * min(strength for strength in strengths if strength >= 0.5)
    low, high = generator.uniform(0.0, 0.1), generator.uniform(0.4, 1.0)
    stops = (
        [[low], [high]],
        [[high, 0.0], [0.0, generator.uniform(0.2, 1.0)]],
        [[0.5 * high, 0.3 * high, 0.0], [0.0, 0.1 * high, 0.7 * high]],
        [[high, 0.0], [0.4 * high, 0.2], [0.0, generator.uniform(0.1, 1.0)]],
    )[kind]
    return FadeCase(palette(*names), measuring, np.array(stops) * reach)
