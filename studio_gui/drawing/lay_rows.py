"""How the height of a lay's picture is shared out, and the measures that all of it is built from.

The rule of this module: tapes, slips and figures have fixed heights; strands and gauges share what is left,
up to a thickness that shows fibre well and a scale that shows a tenth of a ml a gram. All measures are px.
"""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QSizeF

from studio_gui.domain.plan import Plan

MARGIN_LEFT = 104.0
MARGIN_RIGHT = 36.0
MARGIN_TOP = 12.0
TAPE_HEIGHT = 28.0
TAPE_GAP = 10.0
SLIP_HEIGHT = 26.0
SLIP_ROOM = SLIP_HEIGHT + 16.0  # from the film's upper edge to the first strand
FILM_FOOT = 14.0
GAUGE_GAP = 16.0  # what is over the brim stands in it
FIGURES_GAP = 6.0
FIGURES_HEIGHT = 64.0
OVERVIEW_HEIGHT = 12.0
OVERVIEW_ROOM = OVERVIEW_HEIGHT + 10.0
GAUGE_PX_PER_ML_PER_G = 34.0  # in pictures for files
LARGEST_PX_PER_ML_PER_G = 50.0  # on the canvas, where there is room
HIGHEST_GAUGE = 200.0
LOWEST_GAUGE = 40.0
GAUGE_SHARE = 0.38  # of the room that strands and gauges have together
TALLEST_STRAND = 96.0  # on the canvas, where there is room
PICTURE_STRAND = 34.0  # in pictures for files
THINNEST_STRAND = 9.0
LEAST_STRAND = 4.0

FIXED_HEIGHT = (
    MARGIN_TOP
    + 2.0 * (TAPE_HEIGHT + TAPE_GAP)
    + SLIP_ROOM
    + FILM_FOOT
    + GAUGE_GAP
    + FIGURES_GAP
    + FIGURES_HEIGHT
    + OVERVIEW_ROOM
)


@dataclass(frozen=True, slots=True)
class Rows:
    """The rovings that are shown, the height of a strand, and that of the gauges."""

    rovings: int
    strand: float
    gauge: float

    def strands(self, passes: int) -> float:
        """Return the height of all strands together."""
        return _strands_height(self.strand, self.rovings, passes)


def shared_out(plan: Plan, height: float, *, one_roving: bool, most_px_per_ml_per_g: float) -> Rows:
    """Share out `height`: as many rovings as fit at a readable thickness, one for all where they do not."""
    room = max(height - FIXED_HEIGHT, LOWEST_GAUGE)
    shown, passes = 1 if one_roving else plan.fibre.rovings, plan.lay.passes
    left = room - _strands_height(TALLEST_STRAND, shown, passes)
    gauge = min(max(GAUGE_SHARE * room, left), _full_gauge(plan, most_px_per_ml_per_g))
    gauge = max(gauge, LOWEST_GAUGE)
    strand = _strand_height(room - gauge, shown, passes)
    if strand < THINNEST_STRAND:
        return Rows(1, max(_strand_height(room - gauge, 1, passes), LEAST_STRAND), gauge)
    return Rows(shown, strand, gauge)


def picture_size(plan: Plan, width: float) -> QSizeF:
    """Return the size of a picture of `width` in which every roving and gauge is drawn at full thickness."""
    strands = _strands_height(PICTURE_STRAND, plan.fibre.rovings, plan.lay.passes)
    return QSizeF(width, FIXED_HEIGHT + strands + _full_gauge(plan, GAUGE_PX_PER_ML_PER_G))


def pass_gap(strand_height: float) -> float:
    """Return the gap between the legs of one roving."""
    return max(1.0, strand_height * 0.12)


def roving_gap(strand_height: float) -> float:
    """Return the gap between two rovings."""
    return max(3.0, strand_height * 0.45)


def _full_gauge(plan: Plan, px_per_ml_per_g: float) -> float:
    return min(px_per_ml_per_g * plan.liquid.limit_ml_per_g, HIGHEST_GAUGE)


def _strands_height(height: float, rovings: int, passes: int) -> float:
    one = passes * height + (passes - 1) * pass_gap(height)
    return rovings * one + (rovings - 1) * roving_gap(height)


def _strand_height(room: float, rovings: int, passes: int) -> float:
    gaps = rovings * (passes - 1) * 0.12 + (rovings - 1) * 0.45
    return min(TALLEST_STRAND, room / (rovings * passes + gaps))
