"""A lane of labels beside upright lines: what is written, and where.

The rule of this module: a label touches no other and is crossed by no line. It takes the largest size that
has room, right of its line before left of it, and is left out where none has.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right, insort
from collections.abc import Iterable, Sequence

from studio_gui.drawing.sheets.page import BLACK, Align, Box, Words
from studio_gui.drawing.sheets.type import line_mm, width_mm

#: Room between a label and its line, or the next label, mm.
BESIDE_MM = 0.9


class Lane:
    """Labels in `box`, which upright lines at `walls` (mm from the paper's left edge) run through."""

    def __init__(self, box: Box, walls: Iterable[float] = ()) -> None:
        self._box = box
        self._walls = sorted(walls)
        self._taken: list[tuple[float, float]] = []

    def beside(
        self,
        x: float,
        words: str,
        sizes_pt: Sequence[float],
        *,
        bold: bool = False,
        sides: Sequence[Align] = ("left", "right"),
        colour: str = BLACK,
    ) -> Words | None:
        """Return the label beside a line at `x`, and keep its room; None where there is none.

        A side is how the label is aligned: "left" stands right of the line.
        """
        for size_pt in sizes_pt:
            width = width_mm(words, size_pt, bold=bold)
            for side in sides:
                left = x + BESIDE_MM if side == "left" else x - BESIDE_MM - width
                if self._is_free(left, width):
                    return self._written(left, width, words, size_pt, bold=bold, align=side, colour=colour)
        return None

    def about(self, x: float, words: str, size_pt: float, *, bold: bool = False) -> Words | None:
        """Return the label centred on `x`, lines or not, and keep its room; None where there is none."""
        width = width_mm(words, size_pt, bold=bold)
        left = x - width / 2.0
        if not self._fits(left, width):
            return None
        return self._written(left, width, words, size_pt, bold=bold, align="centre", colour=BLACK)

    def keeps(self, left: float, right: float) -> bool:
        """Keep room for what is drawn there, if there is any, and tell whether there is."""
        fits = self._fits(left, right - left)
        if fits:
            insort(self._taken, (left, right))
        return fits

    def _is_free(self, left: float, width: float) -> bool:
        no_wall = bisect_right(self._walls, left) == bisect_left(self._walls, left + width)
        return no_wall and self._fits(left, width)

    def _fits(self, left: float, width: float) -> bool:
        if left < self._box.x - 1e-9 or left + width > self._box.right + 1e-9:
            return False
        place = bisect_left(self._taken, (left, left))
        before = self._taken[place - 1][1] if place else -1e9
        after = self._taken[place][0] if place < len(self._taken) else 1e9
        return before + BESIDE_MM <= left and left + width + BESIDE_MM <= after

    def _written(
        self, left: float, width: float, words: str, size_pt: float, *, bold: bool, align: Align, colour: str
    ) -> Words:
        insort(self._taken, (left, left + width))
        height = line_mm(size_pt)
        box = Box(left, self._box.y + (self._box.height - height) / 2.0, width, height)
        return Words(box, (words,), size_pt, bold=bold, align=align, colour=colour)
