"""Colour along the strip: lightness, chroma, hue and steps, run by run.

The rule of this module: colours are those of the middle of each section, without wicking, as predicted; so a
step is what an eye sees between two plain stretches. A grey has no hue.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from studio_gui.domain.at_hand import at_hand
from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.mud import chroma
from studio_gui.domain.colour.spaces import LEAST_CHROMA_FOR_HUE
from studio_gui.domain.figures import SectionFigures
from studio_gui.domain.liquors import DyeDepth
from studio_gui.domain.strip import StripRun, strip_runs

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class StripCurve:
    """Colour of the n runs of the strip, in spinning order.

    Attributes
    ----------
    runs
        Where each lies, m along the roving.
    labs
        (n, 3) predicted CIE Lab; indicative.
    chroma
        (n,) CIELAB chroma.
    hue_deg
        (n,) CIELAB hue, 0 to 360, nan for a grey.
    steps
        (n - 1,) CIEDE2000 from each run to the next.
    """

    runs: tuple[StripRun, ...]
    labs: FloatArray
    chroma: FloatArray
    hue_deg: FloatArray
    steps: FloatArray


def strip_curve(figures: SectionFigures) -> StripCurve:
    """Return the curve of the first roving of a plan whose figures these are."""
    plan = figures.plan
    hand = at_hand(plan)
    together = np.array([hand.doses([DyeDepth(stock.id, 1.0)]) for stock in hand.bottles])
    doses = figures.left_pct_owf @ together.reshape(len(hand.bottles), len(hand.palette.curves))
    runs = strip_runs(plan)
    labs = hand.palette.lab(doses)[[run.section_index for run in runs]]
    chromas = chroma(labs)
    hues = np.degrees(np.arctan2(labs[:, 2], labs[:, 1])) % 360.0
    hues = np.where(chromas < LEAST_CHROMA_FOR_HUE, np.nan, hues)
    return StripCurve(runs, labs, chromas, hues, ciede2000(labs[:-1], labs[1:]))
