"""Where everything on the lay canvas lies: one list of objects and the scale between metres and pixels.

The rule of this module: painting, hit-testing, keyboard and accessibility all read the same `LayItem`s.
Positions are in device-independent pixels of the picture, y downwards.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from PySide6.QtCore import QPointF, QRectF, QSizeF

from studio_gui.domain.edits.boundaries import is_locked
from studio_gui.domain.geometry import Leg, legs
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.lay_rows import (
    FIGURES_GAP,
    FILM_FOOT,
    GAUGE_GAP,
    LARGEST_PX_PER_ML_PER_G,
    MARGIN_LEFT,
    MARGIN_RIGHT,
    MARGIN_TOP,
    OVERVIEW_HEIGHT,
    OVERVIEW_ROOM,
    SLIP_HEIGHT,
    SLIP_ROOM,
    TAPE_GAP,
    TAPE_HEIGHT,
    pass_gap,
    roving_gap,
    shared_out,
)
from studio_gui.drawing.lay_view import LayView, Pane

#: A section, a boundary, the gap or overlap on a boundary, a fold.
ItemKind = Literal["section", "boundary", "gap", "fold"]

TARGET = 24.0  # smallest thing to aim at, px


@dataclass(frozen=True, slots=True)
class LayItem:
    """Something on the canvas that can be pointed at, taken and focused.

    `rect` is where it is hit and focused. `slip` is the paper of a section, the peg of a boundary, the grip
    of a gap or a fold. `locked` when it keeps its place.
    """

    kind: ItemKind
    index: int
    rect: QRectF
    slip: QRectF
    locked: bool


@dataclass(frozen=True, slots=True)
class Strand:
    """One leg of one roving: its rectangle without the turn of the fold, and how it runs."""

    roving: int
    pass_index: int
    leg: Leg
    rect: QRectF
    turns_after: bool


@dataclass(frozen=True)
class LayLayout:
    """The measured picture of a worksheet's lay in `size`.

    `pane` is the part of the picture in which the film is looked at; film, tapes and troughs may be larger
    and are cut to its width. `px_per_ml_per_g` is the height of one ml a gram in the gauges.
    """

    sheet: Worksheet
    size: QSizeF
    view: LayView
    pane: QRectF
    rovings_shown: int
    strand_height: float
    px_per_m: float
    film: QRectF
    tape_start: QRectF
    tape_end: QRectF
    gauge: QRectF
    px_per_ml_per_g: float
    figures_top: float
    overview: QRectF

    # -- metres and pixels ---------------------------------------------------------------------------------

    def x(self, lay_m: float) -> float:
        """Return the pixel column of a place on the lay (m)."""
        return self._origin_x + lay_m * self.px_per_m

    def lay_m(self, x: float) -> float:
        """Return the place on the lay (m) at a pixel column; may lie off the lay."""
        return (x - self._origin_x) / self.px_per_m

    @cached_property
    def _origin_x(self) -> float:
        return self.film.left() + self.overhang_px

    @property
    def overhang_px(self) -> float:
        """Width of the extra film at each end."""
        return self.sheet.plan.lay.overhang_m / 2.0 * self.px_per_m

    @cached_property
    def edges_x(self) -> list[float]:
        """Pixel columns of the n + 1 edges of the sections."""
        columns: list[float] = (self._origin_x + self.sheet.figures.edges_m * self.px_per_m).tolist()
        return columns

    # -- strands -------------------------------------------------------------------------------------------

    @cached_property
    def strands(self) -> tuple[Strand, ...]:
        """Every strand drawn, roving by roving, pass by pass."""
        plan = self.sheet.plan
        runs = legs(plan.fibre, plan.lay)
        top = self.film.top() + SLIP_ROOM
        strands = []
        for roving in range(self.rovings_shown):
            for number, leg in enumerate(runs):
                left, right = self.x(leg.lay_low_m), self.x(leg.lay_high_m)
                rect = QRectF(left, top, right - left, self.strand_height)
                strands.append(Strand(roving, number, leg, rect, turns_after=number + 1 < len(runs)))
                top += self.strand_height + pass_gap(self.strand_height)
            top += roving_gap(self.strand_height) - pass_gap(self.strand_height)
        return tuple(strands)

    # -- items ---------------------------------------------------------------------------------------------

    @cached_property
    def items(self) -> tuple[LayItem, ...]:
        """What the keyboard walks: sections and boundaries in the lay's order, then the folds."""
        plan = self.sheet.plan
        both = (
            self.item(kind, index)
            for index in range(len(plan.sections))
            for kind in _SECTION_THEN_BOUNDARY
            if kind == "section" or index + 1 < len(plan.sections)
        )
        folds = (self.item("fold", index) for index in range(len(plan.lay.fold_positions_m)))
        return (*both, *folds)

    def item(self, kind: ItemKind, index: int) -> LayItem:
        """Return one section, boundary, gap or fold by its index."""
        make = {
            "section": self._section,
            "boundary": self._boundary,
            "gap": self._gap,
            "fold": self._fold,
        }
        return make[kind](index)

    def sections_within(self, left: float, right: float) -> range:
        """Return the indexes of the sections that show between two pixel columns."""
        edges = self.edges_x
        first = max(bisect_right(edges, left) - 1, 0)
        last = min(bisect_left(edges, right), len(edges) - 1)
        return range(min(first, last), last)

    def item_at(self, point: QPointF) -> LayItem | None:
        """Return what lies under a point: grip, boundary within reach, section, in this order; else None.

        On the wool a boundary reaches no further than a quarter of its narrower neighbour, so that a narrow
        section can still be picked.
        """
        if not self.pane.adjusted(-TARGET / 2.0, 0.0, TARGET / 2.0, 0.0).contains(point):
            return None
        fold = self._fold_at(point)
        if fold is not None:
            return fold
        index = self._boundary_near(point)
        if index is not None:
            return self.item("gap" if point.y() > self.film.bottom() else "boundary", index)
        x = point.x()
        if not (self.film.top() <= point.y() and self.edges_x[0] <= x <= self.edges_x[-1]):
            return None
        return self.item("section", min(max(bisect_left(self.edges_x, x) - 1, 0), len(self.edges_x) - 2))

    def peg(self, x: float) -> QRectF:
        """Return the peg that stands on the upper tape at pixel column `x`."""
        return QRectF(x - 6.0, self.tape_start.bottom() - 9.0, 12.0, 20.0)

    def _section(self, index: int) -> LayItem:
        left, right = self.edges_x[index], self.edges_x[index + 1]
        rect = QRectF(left, self.film.top(), right - left, self.film.height())
        slip = QRectF(left + 4.0, self.film.top() + 6.0, right - left - 8.0, SLIP_HEIGHT)
        return LayItem("section", index, rect, slip, self.sheet.plan.sections[index].locked)

    def _boundary(self, index: int) -> LayItem:
        x, top = self.edges_x[index + 1], self.tape_start.top()
        rect = QRectF(x - TARGET / 2.0, top, TARGET, self.film.bottom() - top)
        return LayItem("boundary", index, rect, self.peg(x), is_locked(self.sheet.plan, index))

    def _gap(self, index: int) -> LayItem:
        x = self.edges_x[index + 1]
        slip = QRectF(x - 6.0, self.tape_end.top() - 6.0, 12.0, 12.0)
        rect = QRectF(x - TARGET / 2.0, self.film.bottom(), TARGET, TARGET)
        return LayItem("gap", index, rect, slip, locked=False)

    def _fold(self, index: int) -> LayItem:
        leg = legs(self.sheet.plan.fibre, self.sheet.plan.lay)[index]
        x = self.x(leg.lay_high_m if leg.forward else leg.lay_low_m)
        top = self.film.top() + SLIP_ROOM
        left = x - 4.0 if leg.forward else x + 4.0 - TARGET
        rect = QRectF(left, top, TARGET, self.film.bottom() - FILM_FOOT - top)
        slip = QRectF(rect.center().x() - 5.0, rect.center().y() - 22.0, 10.0, 44.0)
        return LayItem("fold", index, rect, slip, locked=False)

    def _fold_at(self, point: QPointF) -> LayItem | None:
        folds = (self._fold(index) for index in range(len(self.sheet.plan.lay.fold_positions_m)))
        return next((fold for fold in folds if fold.rect.contains(point)), None)

    def _boundary_near(self, point: QPointF) -> int | None:
        """Return the nearest boundary if it reaches to `point`; beneath the film, its gap's grip."""
        if not self.tape_start.top() <= point.y() <= self.film.bottom() + TARGET:
            return None
        edges, x = self.edges_x, point.x()
        after = min(max(bisect_left(edges, x), 1), len(edges) - 1)
        near = [place for place in (after - 1, after) if 0 < place < len(edges) - 1]
        if not near:
            return None
        place = min(near, key=lambda one: abs(edges[one] - x))
        reach = TARGET / 2.0
        if self.film.top() < point.y():
            narrow = min(edges[place] - edges[place - 1], edges[place + 1] - edges[place])
            reach = max(min(reach, narrow / 4.0), 2.0)
        return place - 1 if abs(edges[place] - x) <= reach else None


_SECTION_THEN_BOUNDARY: tuple[ItemKind, ...] = ("section", "boundary")


def lay_layout(
    sheet: Worksheet,
    size: QSizeF,
    view: LayView | None = None,
    most_px_per_ml_per_g: float = LARGEST_PX_PER_ML_PER_G,
) -> LayLayout:
    """Lay out `sheet` in `size` as `view` looks at it: as many rovings as fit at a readable thickness.

    The gauges take their share of the height, up to `most_px_per_ml_per_g`.
    """
    view = view or LayView()
    plan = sheet.plan
    rows = shared_out(
        plan, size.height(), one_roving=view.one_roving, most_px_per_ml_per_g=most_px_per_ml_per_g
    )
    width = max(size.width() - MARGIN_LEFT - MARGIN_RIGHT, 40.0)
    film_m = plan.lay_length_m + plan.lay.overhang_m
    px_per_m = Pane(film_m, width).px_per_m(view)
    pane = QRectF(MARGIN_LEFT, 0.0, width, size.height() - OVERVIEW_ROOM)
    tape = QRectF(MARGIN_LEFT, MARGIN_TOP, width, TAPE_HEIGHT)
    film = QRectF(
        MARGIN_LEFT - view.left_m * px_per_m,
        tape.bottom() + TAPE_GAP,
        film_m * px_per_m,
        SLIP_ROOM + rows.strands(plan.lay.passes) + FILM_FOOT,
    )
    below = tape.translated(0.0, film.bottom() + TAPE_GAP - tape.top())
    gauge = QRectF(MARGIN_LEFT, below.bottom() + GAUGE_GAP, width, rows.gauge)
    return LayLayout(
        sheet=sheet,
        size=size,
        view=view,
        pane=pane,
        rovings_shown=rows.rovings,
        strand_height=rows.strand,
        px_per_m=px_per_m,
        film=film,
        tape_start=tape,
        tape_end=below,
        gauge=gauge,
        px_per_ml_per_g=rows.gauge / plan.liquid.limit_ml_per_g,
        figures_top=gauge.bottom() + FIGURES_GAP,
        overview=QRectF(MARGIN_LEFT, size.height() - OVERVIEW_HEIGHT - 4.0, width, OVERVIEW_HEIGHT),
    )


def pane_of(layout: LayLayout) -> Pane:
    """Return what the views of a layout's film are clamped to."""
    return Pane(layout.sheet.plan.lay_length_m + layout.sheet.plan.lay.overhang_m, layout.pane.width())
