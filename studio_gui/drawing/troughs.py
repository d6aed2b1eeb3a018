"""What the troughs under the lay show, as levels and boxes: geometry without paint.

The rule of this module: a trough's width is its section's length and its height is ml a gram, by one scale
each for the whole row, so that on even top the area of what is drawn is millilitres. What the fibre holds at
its fullest moment is the level; what is painted in a second pass takes the place of spent liquid in it.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from studio_gui.domain.figures import SectionFigures
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.lay_rows import GAUGE_GAP

WALL_SHARE = 0.03  # of a section's width, left free on either side of its trough
NARROWEST_TROUGH = 11.0  # px: a narrower section is a step in an outline of levels
MOST_TROUGHS = 80  # in the pane; more of them are an outline of levels
HIGHEST_BULGE = GAUGE_GAP - 4.0  # px above the brim; what is more is cut, and marked as cut
OVERHANG = 4.5  # px that what is over the brim stands out at the most, on either side
NARROW_PX = 22.0  # px: the slips of narrower sections go up to their edges
EDGE_PX = 4.0  # px beside a section that the notches of its trough's walls reach
BLEED = 8.0  # px beside a section in which its gauge or its marks may paint


class Trough(NamedTuple):
    """The trough of one section: its walls (px) and its levels (ml a gram of dry fibre, from the bottom).

    `soak` is what is left of the soak, `held` the level, `before` the level before wiping, `second` where
    what is painted in the second pass begins (`held` where nothing is), `free` what is over the brim.
    """

    section: int
    left: float
    right: float
    soak: float
    held: float
    before: float
    second: float
    free: float
    painted: bool
    under: bool
    over: bool
    narrow: bool

    @property
    def width(self) -> float:
        """Width of the trough, px."""
        return self.right - self.left


def is_outline(layout: LayLayout) -> bool:
    """Whether so many sections show in the pane that all troughs are an outline of levels."""
    return len(layout.sections_within(layout.pane.left(), layout.pane.right())) > MOST_TROUGHS


def showing(layout: LayLayout, within: tuple[float, float]) -> range:
    """Return the sections that may paint between two pixel columns, those that only reach in too.

    Over their edges reach those that run over, or did before a wipe, and the focus's ring round narrow ones.
    """
    inside = layout.sections_within(within[0] - EDGE_PX, within[1] + EDGE_PX)
    near = layout.sections_within(within[0] - BLEED, within[1] + BLEED)
    before, after = (range(near.start, inside.start), range(inside.stop, near.stop))
    first = next((index for index in before if _reaches_out(layout, index)), inside.start)
    last = next((index for index in reversed(after) if _reaches_out(layout, index)), inside.stop - 1)
    return range(first, last + 1)


def _reaches_out(layout: LayLayout, index: int) -> bool:
    figures = layout.sheet.figures
    width = layout.edges_x[index + 1] - layout.edges_x[index]
    return bool(figures.over[index]) or bool(figures.wiped_ml[index] > 0.0) or width < NARROW_PX


def troughs(layout: LayLayout, which: range) -> list[Trough]:
    """Return the troughs of the sections `which`, in their order."""
    figures, liquid = layout.sheet.figures, layout.sheet.plan.liquid
    part = slice(which.start, which.stop)
    held = figures.held_ml_per_g[part]
    fibre_g = figures.fibre_g[part]
    later = np.array([section.second_pass_ml for section in layout.sheet.plan.sections[part]])
    later = np.minimum(later, figures.liquid_ml[part]) / fibre_g
    columns = (
        np.minimum(held, liquid.soak_ml_per_g),
        held,
        figures.held_before_wiping_ml_per_g[part],
        np.maximum(held - later, 0.0),
        figures.free_ml[part] / fibre_g,
        figures.painted[part],
        figures.under[part] & figures.painted[part],
        figures.over[part],
    )
    outline = is_outline(layout)
    edges = layout.edges_x
    found = []
    for index, facts in zip(which, zip(*(column.tolist() for column in columns), strict=True), strict=True):
        left, right = edges[index], edges[index + 1]
        inset = WALL_SHARE * (right - left)
        narrow = outline or right - left - 2.0 * inset < NARROWEST_TROUGH
        if narrow:
            inset = 0.0
        found.append(Trough._make((index, left + inset, right - inset, *facts, narrow)))
    return found


def level_y(layout: LayLayout, ml_per_g: float) -> float:
    """Return the pixel row of a level, ml a gram from the bottom of the troughs."""
    return layout.gauge.bottom() - ml_per_g * layout.px_per_ml_per_g


def core_ml_per_g(layout: LayLayout) -> float:
    """Return the level at which the core is wet: soak and penetration together, ml a gram."""
    liquid = layout.sheet.plan.liquid
    return liquid.soak_ml_per_g + liquid.penetration_ml_per_g


def overhang(trough: Trough) -> float:
    """Return how far what is over the brim stands out beside the trough, px; less where room is less."""
    if trough.narrow:
        return 0.0
    return min(OVERHANG, trough.width * WALL_SHARE + 2.0)


def bulge(layout: LayLayout, trough: Trough) -> tuple[float, bool]:
    """Return the height (px) of what stands over the brim, and whether it is cut at `HIGHEST_BULGE`.

    Uncut, its area is the free liquid's, by the same scale as in the trough.
    """
    spread = trough.width + 2.0 * overhang(trough)
    height = trough.free * layout.px_per_ml_per_g * trough.width / spread
    return min(height, HIGHEST_BULGE), height > HIGHEST_BULGE


def in_trouble(figures: SectionFigures) -> tuple[int, int]:
    """Return how many sections run over, and in how many others the core may stay white."""
    under = figures.under & figures.painted & ~figures.over
    return int(figures.over.sum()), int(under.sum())
