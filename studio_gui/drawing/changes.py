"""What of the picture changes from one worksheet to the next.

The rule of this module: only what changed is painted anew, and whatever might have changed counts as changed.
"""

from __future__ import annotations

import numpy as np

from studio_gui.domain.figures import SectionFigures
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.leg_tags import TAG_REACH_PX, may_have_tags
from studio_gui.drawing.troughs import EDGE_PX, in_trouble, is_outline

Span = tuple[float, float]

#: How far what is drawn of a section reaches over its edges: half a peg with its ring, a run down a trough.
REACH_PX = 14.0
#: Sections narrower than this have narrow pegs.
CROWDED_PX = 34.0

_FIGURES = (
    "fibre_g",
    "liquid_ml",
    "wiped_ml",
    "held_before_wiping_ml_per_g",
    "held_ml_per_g",
    "free_ml",
    "under",
    "over",
    "liquor_index",
)


def changed_span(before: LayLayout, after: LayLayout) -> Span | None:
    """Return the pixel columns between which two layouts differ; None where they do not.

    Everything, where more than places, volumes and states of sections changed.
    """
    everything = (0.0, after.size.width())
    if before.sheet is after.sheet and before.view == after.view and before.size == after.size:
        return None
    if not _is_comparable(before, after):
        return everything
    sections = _changed_sections(before.sheet.figures, after.sheet.figures)
    if sections is None:
        return None
    first, last = sections
    low, high = _reach(before, after, first, last)
    if is_outline(after) and in_trouble(before.sheet.figures) != in_trouble(after.sheet.figures):
        low = 0.0  # they are counted in the margin
    if low < 0.0 and high > everything[1]:
        return everything
    return low, high


def _reach(before: LayLayout, after: LayLayout, first: int, last: int) -> Span:
    """Return the columns that what is drawn of the sections `first` to `last` reaches, then or now.

    Their edges; further by the wicking width where dye changed, by what runs over, and by pegs that moved.
    """
    old, new = before.sheet, after.sheet
    part = slice(first, last + 1)
    near = range(max(first - 1, 0), min(last + 1, len(new.plan.boundaries)))
    gaps_m = [max(abs(one.plan.boundaries[index].gap_m) for one in (old, new)) for index in near]
    margin = EDGE_PX
    if any(gaps_m) or not np.array_equal(old.figures.left_pct_owf[part], new.figures.left_pct_owf[part]):
        # a gap leaves more dye to what is painted; an overlap is painted beyond the edge
        margin += (new.plan.wicking_mm / 1000.0 + max(gaps_m, default=0.0)) * after.px_per_m
    is_wet = bool(old.figures.over[part].any() or new.figures.over[part].any())
    widths = np.concatenate([np.diff(one.edges_x[first : last + 2]) for one in (before, after)])
    is_crowded = bool((widths < CROWDED_PX).any())  # the pegs beside narrow sections are narrow too
    if is_wet or is_crowded or old.plan.sections[part] != new.plan.sections[part]:
        margin = max(margin, REACH_PX)
    if may_have_tags(new.plan):
        margin = max(margin, TAG_REACH_PX + 1.0)  # at neighbouring boundaries they come and go
    low = min(before.edges_x[first], after.edges_x[first]) - margin
    high = max(before.edges_x[last + 1], after.edges_x[last + 1]) + margin
    for index, gap_m in zip(near, gaps_m, strict=True):
        if old.plan.boundaries[index] is not new.plan.boundaries[index]:
            reach = REACH_PX + gap_m / 2.0 * after.px_per_m
            columns = before.edges_x[index + 1], after.edges_x[index + 1]
            low, high = min(low, min(columns) - reach), max(high, max(columns) + reach)
    return low, high


def _is_comparable(before: LayLayout, after: LayLayout) -> bool:
    old, new = before.sheet.plan, after.sheet.plan
    return (
        before.size == after.size
        and before.sheet.in_grey == after.sheet.in_grey
        and before.view == after.view
        and before.px_per_m == after.px_per_m
        and len(old.sections) == len(new.sections)
        and old.fibre is new.fibre
        and old.lay is new.lay
        and old.liquid is new.liquid
        and old.stocks is new.stocks
        and old.liquors is new.liquors
        and old.yarn == new.yarn
        and old.wicking_mm == new.wicking_mm
        and is_outline(before) == is_outline(after)
    )


def _changed_sections(before: SectionFigures, after: SectionFigures) -> tuple[int, int] | None:
    """Return the first and the last section in which anything that is drawn changed."""
    changed = np.any(before.left_pct_owf != after.left_pct_owf, axis=1)
    for name in _FIGURES:
        changed |= getattr(before, name) != getattr(after, name)
    moved = before.edges_m != after.edges_m
    changed |= moved[:-1] | moved[1:]
    for index, (old, new) in enumerate(zip(before.plan.sections, after.plan.sections, strict=True)):
        if old is not new:
            changed[index] = True
    for index, (one, other) in enumerate(zip(before.plan.boundaries, after.plan.boundaries, strict=True)):
        if one is not other:
            changed[index : index + 2] = True
    where = np.flatnonzero(changed)
    return (int(where[0]), int(where[-1])) if len(where) else None
