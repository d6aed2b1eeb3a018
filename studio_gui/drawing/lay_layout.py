"""Where everything on the lay canvas lies: one list of objects and the scale between metres and pixels.

The rule of this module: painting, hit-testing, keyboard and accessibility all read the same `LayItem`s.
Positions are in device-independent pixels of the picture, y downwards.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from PySide6.QtCore import QPointF, QRectF, QSizeF

from studio_gui.domain.edits.boundaries import is_locked
from studio_gui.domain.geometry import Leg, legs
from studio_gui.domain.worksheet import Worksheet

ItemKind = Literal["section", "boundary"]

MARGIN_LEFT = 104.0
MARGIN_RIGHT = 36.0
TAPE_HEIGHT = 28.0
SLIP_HEIGHT = 26.0
FIGURES_HEIGHT = 88.0
TALLEST_STRAND = 76.0  # on the canvas, where there is room
PICTURE_STRAND = 34.0  # in pictures for files
THINNEST_STRAND = 9.0
TARGET = 24.0  # smallest thing to aim at, px


@dataclass(frozen=True, slots=True)
class LayItem:
    """A section or a boundary as an object on the canvas.

    `rect` is where it is hit and focused; `slip` of a section is the paper its letter stands on.
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
    """The measured picture of a worksheet's lay in `size`."""

    sheet: Worksheet
    size: QSizeF
    rovings_shown: int
    strand_height: float
    px_per_m: float
    film: QRectF
    tape_start: QRectF
    tape_end: QRectF
    figures_top: float

    def x(self, lay_m: float) -> float:
        """Return the pixel column of a place on the lay (m)."""
        return MARGIN_LEFT + self.overhang_px + lay_m * self.px_per_m

    def lay_m(self, x: float) -> float:
        """Return the place on the lay (m) at a pixel column; may lie off the lay."""
        return (x - MARGIN_LEFT - self.overhang_px) / self.px_per_m

    @property
    def overhang_px(self) -> float:
        """Width of the extra film at each end."""
        return self.sheet.plan.lay.overhang_m / 2.0 * self.px_per_m

    @cached_property
    def strands(self) -> tuple[Strand, ...]:
        """Every strand drawn, roving by roving, pass by pass."""
        plan = self.sheet.plan
        runs = legs(plan.fibre, plan.lay)
        top = self.film.top() + SLIP_HEIGHT + 16.0
        strands = []
        for roving in range(self.rovings_shown):
            for number, leg in enumerate(runs):
                left, right = self.x(leg.lay_low_m), self.x(leg.lay_high_m)
                rect = QRectF(left, top, right - left, self.strand_height)
                strands.append(Strand(roving, number, leg, rect, turns_after=number + 1 < len(runs)))
                top += self.strand_height + pass_gap(self.strand_height)
            top += roving_gap(self.strand_height) - pass_gap(self.strand_height)
        return tuple(strands)

    @cached_property
    def items(self) -> tuple[LayItem, ...]:
        """Sections and boundaries in the lay's order, each boundary after its left section."""
        plan, edges = self.sheet.plan, self.sheet.figures.edges_m.tolist()
        items: list[LayItem] = []
        for index in range(len(plan.sections)):
            left, right = self.x(edges[index]), self.x(edges[index + 1])
            rect = QRectF(left, self.film.top(), right - left, self.film.height())
            slip = QRectF(left + 4.0, self.film.top() + 6.0, right - left - 8.0, SLIP_HEIGHT)
            items.append(LayItem("section", index, rect, slip, plan.sections[index].locked))
            if index + 1 < len(plan.sections):
                handle = QRectF(
                    right - TARGET / 2.0,
                    self.tape_start.top(),
                    TARGET,
                    self.film.bottom() - self.tape_start.top(),
                )
                items.append(LayItem("boundary", index, handle, self.peg(right), is_locked(plan, index)))
        return tuple(items)

    def peg(self, x: float) -> QRectF:
        """Return the peg that stands on the tape at pixel column `x`."""
        return QRectF(x - 6.0, self.tape_start.bottom() - 9.0, 12.0, 20.0)

    def item_at(self, point: QPointF) -> LayItem | None:
        """Return what lies under a point: the nearest boundary within reach, else the section, else None.

        On the wool a boundary reaches no further than a quarter of its narrower neighbour, so that a narrow
        section can still be picked.
        """
        lay_m = self.lay_m(point.x())
        hit = [
            i
            for i in self.items
            if i.kind == "boundary" and i.rect.contains(point) and self._in_reach(i, point)
        ]
        if hit:
            return min(hit, key=lambda item: abs(item.rect.center().x() - point.x()))
        if not (
            self.film.top() <= point.y() <= self.size.height()
            and 0.0 <= lay_m <= self.sheet.plan.lay_length_m
        ):
            return None
        return next(i for i in self.items if i.kind == "section" and point.x() <= i.rect.right() + 1e-6)

    def item(self, kind: ItemKind, index: int) -> LayItem:
        """Return one section or boundary by its index."""
        return self.items[2 * index + (kind == "boundary")]

    def _in_reach(self, item: LayItem, point: QPointF) -> bool:
        if point.y() <= self.film.top():
            return True
        neighbours = (self.items[2 * item.index], self.items[2 * item.index + 2])
        narrow = min(neighbour.rect.width() for neighbour in neighbours)
        return abs(item.rect.center().x() - point.x()) <= max(min(TARGET / 2.0, narrow / 4.0), 2.0)


def lay_layout(sheet: Worksheet, size: QSizeF) -> LayLayout:
    """Lay out `sheet` in `size`: to the full width, and as many rovings as fit at a readable thickness."""
    plan = sheet.plan
    room = size.height() - 2.0 * TAPE_HEIGHT - FIGURES_HEIGHT - SLIP_HEIGHT - 64.0
    shown, height = plan.fibre.rovings, _strand_height(room, plan.fibre.rovings, plan.lay.passes)
    if height < THINNEST_STRAND:
        shown, height = 1, max(_strand_height(room, 1, plan.lay.passes), 4.0)
    strands_height = _strands_height(height, shown, plan.lay.passes)
    film_length_m = plan.lay_length_m + plan.lay.overhang_m
    width = max(size.width() - MARGIN_LEFT - MARGIN_RIGHT, 40.0)
    film_top = 12.0 + TAPE_HEIGHT + 10.0
    film = QRectF(MARGIN_LEFT, film_top, width, SLIP_HEIGHT + 16.0 + strands_height + 14.0)
    tape = QRectF(MARGIN_LEFT, 12.0, width, TAPE_HEIGHT)
    below = tape.translated(0.0, film.bottom() + 10.0 - 12.0)
    return LayLayout(
        sheet, size, shown, height, width / film_length_m, film, tape, below, below.bottom() + 12.0
    )


def picture_size(sheet: Worksheet, width: float) -> QSizeF:
    """Return the size of a picture of `width` in which every roving is drawn at full thickness."""
    plan = sheet.plan
    strands = _strands_height(PICTURE_STRAND, plan.fibre.rovings, plan.lay.passes)
    return QSizeF(width, strands + 2.0 * TAPE_HEIGHT + FIGURES_HEIGHT + SLIP_HEIGHT + 64.0)


def pass_gap(strand_height: float) -> float:
    """Return the gap between the legs of one roving, px."""
    return max(1.0, strand_height * 0.12)


def roving_gap(strand_height: float) -> float:
    """Return the gap between two rovings, px."""
    return max(3.0, strand_height * 0.45)


def ruler_steps(px_per_m: float, unit_m: float) -> tuple[float, float]:
    """Return (figure step, tick step) in m: figures at least 44 px apart, ticks at least 4 px.

    `unit_m` is the ruler's unit in m (0.01 for cm, 0.0254 for inches); steps are 1, 2 or 5 times a power of
    ten of it.

    >>> ruler_steps(400.0, 0.01)
    (0.2, 0.01)
    """

    def step(least_px: float) -> float:
        least_units = least_px / (px_per_m * unit_m)
        power = 10.0 ** math.floor(math.log10(least_units))
        factor = next(f for f in (1.0, 2.0, 5.0, 10.0) if f * power >= least_units * (1.0 - 1e-9))
        return factor * power * unit_m

    return step(44.0), step(4.0)


def snapped(position_m: float, step_m: float) -> float:
    """Return the multiple of `step_m` nearest to a place on the lay.

    >>> snapped(0.4321, 0.01)
    0.43
    """
    return round(round(position_m / step_m) * step_m, 9)


def _strands_height(height: float, rovings: int, passes: int) -> float:
    one = passes * height + (passes - 1) * pass_gap(height)
    return rovings * one + (rovings - 1) * roving_gap(height)


def _strand_height(room: float, rovings: int, passes: int) -> float:
    gaps = rovings * (passes - 1) * 0.12 + (rovings - 1) * 0.45
    return min(TALLEST_STRAND, room / (rovings * passes + gaps))
