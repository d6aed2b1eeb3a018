"""A sheet of paper as data: what stands where, in millimetres from its upper left corner.

The rule of this module: a page is laid out once, as marks; `paint_page` paints them for preview, PDF,
SVG and PNG. Every text knows the box that it must keep to, so that overlaps can be found without looking.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from PySide6.QtCore import QSizeF
from PySide6.QtGui import QPainter

MM_PER_PT = 25.4 / 72.0
#: A picture on a sheet is painted in the units of the screen: 96 to the inch.
MM_PER_PX = 25.4 / 96.0

BLACK = "#000000"
WHITE = "#ffffff"

Align = Literal["left", "centre", "right"]


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle on the sheet, mm."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """Its right edge, mm."""
        return self.x + self.width

    @property
    def bottom(self) -> float:
        """Its lower edge, mm."""
        return self.y + self.height

    def inset(self, by_mm: float) -> Box:
        """Return the box less `by_mm` on every side.

        >>> Box(0.0, 0.0, 10.0, 6.0).inset(1.0)
        Box(x=1.0, y=1.0, width=8.0, height=4.0)
        """
        return Box(self.x + by_mm, self.y + by_mm, self.width - 2.0 * by_mm, self.height - 2.0 * by_mm)

    def overlaps(self, other: Box, slack_mm: float = 1e-6) -> bool:
        """Whether both share some area; boxes that only touch do not.

        >>> Box(0.0, 0.0, 10.0, 6.0).overlaps(Box(10.0, 0.0, 5.0, 6.0))
        False
        """
        return (
            min(self.right, other.right) - max(self.x, other.x) > slack_mm
            and min(self.bottom, other.bottom) - max(self.y, other.y) > slack_mm
        )

    def holds(self, other: Box, slack_mm: float = 1e-6) -> bool:
        """Whether the other box lies within this one."""
        return (
            other.x >= self.x - slack_mm
            and other.y >= self.y - slack_mm
            and other.right <= self.right + slack_mm
            and other.bottom <= self.bottom + slack_mm
        )


@dataclass(frozen=True, slots=True)
class Words:
    """Lines of text, centred up and down in their box; `box` is all that they may take."""

    box: Box
    lines: tuple[str, ...]
    size_pt: float
    bold: bool = False
    align: Align = "left"
    colour: str = BLACK


@dataclass(frozen=True, slots=True)
class Rule:
    """A straight line, mm; with `dash_mm` dashes as long as the spaces between them."""

    x1: float
    y1: float
    x2: float
    y2: float
    width_mm: float = 0.3
    dash_mm: float = 0.0
    colour: str = BLACK


@dataclass(frozen=True, slots=True)
class Frame:
    """A rectangle with an outline, a filling or both; a width of 0 draws no outline."""

    box: Box
    width_mm: float = 0.4
    radius_mm: float = 0.0
    fill: str | None = None
    colour: str = BLACK


@dataclass(frozen=True, slots=True)
class Shape:
    """A filled polygon; its corners in mm."""

    corners: tuple[tuple[float, float], ...]
    fill: str = BLACK


@dataclass(frozen=True, slots=True)
class Medium:
    """What a picture is painted on: `pixels_per_px` of a raster (1 = 96 dpi), or vector shapes alone."""

    pixels_per_px: float
    vector: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Picture:
    """A painting in a box. `paint` finds its origin at the box's corner and the size in px of 96 dpi."""

    box: Box
    paint: Callable[[QPainter, QSizeF, Medium], None]


Mark = Words | Rule | Frame | Shape | Picture


@dataclass(frozen=True, slots=True)
class Page:
    """One sheet: its paper, all marks in the order of painting, and what it is called in a list of pages."""

    paper: Box
    marks: tuple[Mark, ...]
    name: str

    def words(self) -> tuple[Words, ...]:
        """Return all texts on the sheet."""
        return tuple(mark for mark in self.marks if isinstance(mark, Words))
