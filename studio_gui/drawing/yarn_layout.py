"""Where strip, yarn and map lie in a picture of both.

The rule of this module: the strip is always shown whole, in spinning order; the yarn and its map are looked
at through one view, in metres of plied yarn. Positions are in device-independent pixels, y downwards.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, QSizeF

from studio_gui.domain.spinning.figures import YarnFigures, YarnRun
from studio_gui.domain.strip import StripRun, strip_runs
from studio_gui.domain.worksheet import Worksheet
from studio_gui.drawing.lay_view import LayView, Pane

FloatArray = NDArray[np.float64]

MARGIN_LEFT, MARGIN_RIGHT = 84.0, 14.0
MARGIN_TOP = 16.0
#: Shares of the height that strip and yarn get between the lines of text, and their largest heights, px.
STRIP_SHARE, STRIP_MOST = 0.20, 34.0
YARN_SHARE, YARN_MOST = 0.36, 96.0
LETTERS_HEIGHT = 18.0
MAP_HEIGHT = 20.0
NAMES_HEIGHT = 15.0
LINE_HEIGHT = 17.0
GAP = 6.0


@dataclass(frozen=True)
class YarnLayout:
    """The measured picture of a worksheet's strip and of a yarn in `size`, as `view` looks at the yarn.

    `spun` is the yarn that is shown: the worksheet's own, or one of its uneven spins.
    """

    sheet: Worksheet
    spun: YarnFigures
    size: QSizeF
    view: LayView
    strip: QRectF
    letters: QRectF
    yarn: QRectF
    map: QRectF
    names: QRectF
    line: QRectF

    # -- strip ---------------------------------------------------------------------------------------------

    @cached_property
    def strip_runs(self) -> tuple[StripRun, ...]:
        """The runs of the first roving, in spinning order."""
        return strip_runs(self.sheet.plan)

    @cached_property
    def strip_edges_x(self) -> tuple[float, ...]:
        """The pixel columns at which the runs of the strip start, and that at which the last one ends."""
        places_m = np.array([run.start_m for run in self.strip_runs])
        shares = places_m / self.sheet.plan.fibre.length_m
        return (*(self.strip.left() + shares * self.strip.width()).tolist(), self.strip.right())

    def strip_x(self, strip_m: float) -> float:
        """Return the pixel column of a place on the strip (m)."""
        return self.strip.left() + strip_m / self.sheet.plan.fibre.length_m * self.strip.width()

    def strip_rect(self, run: StripRun) -> QRectF:
        """Return where a run of the strip lies."""
        left, right = self.strip_x(run.start_m), self.strip_x(run.end_m)
        return QRectF(left, self.strip.top(), right - left, self.strip.height())

    # -- yarn ----------------------------------------------------------------------------------------------

    @property
    def pane(self) -> Pane:
        """What views of the yarn are clamped to."""
        return Pane(max(self.spun.plied_m, 1e-9), self.yarn.width())

    @cached_property
    def px_per_m(self) -> float:
        """The scale of the yarn and its map, px a metre of plied yarn."""
        return self.pane.px_per_m(self.view)

    def yarn_x(self, plied_m: float) -> float:
        """Return the pixel column of a place on the yarn (plied m)."""
        return self.yarn.left() + (plied_m - self.view.left_m) * self.px_per_m

    def plied_m(self, x: float) -> float:
        """Return the place on the yarn (plied m) at a pixel column."""
        return (x - self.yarn.left()) / self.px_per_m + self.view.left_m

    def laid_m(self, columns: int) -> FloatArray:
        """Return the places on the yarn, laid m, at the middles of so many columns across the pane."""
        yarn = self.spun
        middles = (np.arange(columns) + 0.5) * (self.yarn.width() / columns)
        plied = self.view.left_m + middles / self.px_per_m
        return np.clip(plied / (1.0 - yarn.take_up), 0.0, yarn.laid_m)

    @cached_property
    def runs_in_sight(self) -> tuple[YarnRun, ...]:
        """The runs of the yarn that show at least in part."""
        low, high = self.plied_m(self.yarn.left()), self.plied_m(self.yarn.right())
        return tuple(run for run in self.spun.runs if run.end_m > low and run.start_m < high)

    # -- what is pointed at --------------------------------------------------------------------------------

    def section_at(self, point: QPointF) -> int | None:
        """Return the section of the strip under a point."""
        box = self.strip.united(self.letters)
        if not box.contains(point):
            return None
        return next((run.section_index for run in self.strip_runs if self._is_over(run, point.x())), None)

    def run_at(self, point: QPointF) -> YarnRun | None:
        """Return the run of the yarn, or of its map, under a point."""
        if not self.yarn.united(self.names).contains(point):
            return None
        place = self.plied_m(point.x())
        return next((run for run in self.runs_in_sight if run.start_m <= place <= run.end_m), None)

    def _is_over(self, run: StripRun, x: float) -> bool:
        return self.strip_x(run.start_m) <= x <= self.strip_x(run.end_m)


def yarn_layout(
    sheet: Worksheet, size: QSizeF, view: LayView | None = None, spun: YarnFigures | None = None
) -> YarnLayout:
    """Lay out strip, yarn and map in `size`; `spun` is shown in place of the worksheet's own yarn."""
    spun = spun or sheet.yarn
    width = max(size.width() - MARGIN_LEFT - MARGIN_RIGHT, 40.0)
    text = MARGIN_TOP + LETTERS_HEIGHT + MAP_HEIGHT + NAMES_HEIGHT + LINE_HEIGHT
    free = max(size.height() - text - 3.0 * GAP, 24.0)
    strip_height = min(max(STRIP_SHARE / (STRIP_SHARE + YARN_SHARE) * free, 8.0), STRIP_MOST)
    yarn_height = min(max(free - strip_height, 10.0), YARN_MOST)
    strip = QRectF(MARGIN_LEFT, MARGIN_TOP, width, round(strip_height))
    letters = QRectF(MARGIN_LEFT, strip.bottom(), width, LETTERS_HEIGHT)
    yarn = QRectF(MARGIN_LEFT, letters.bottom() + GAP, width, round(yarn_height))
    stretch_map = QRectF(MARGIN_LEFT, yarn.bottom() + GAP, width, MAP_HEIGHT)
    names = QRectF(MARGIN_LEFT, stretch_map.bottom(), width, NAMES_HEIGHT)
    pane = Pane(max(spun.plied_m, 1e-9), width)
    clamped = pane.clamped(view or LayView())
    line = QRectF(MARGIN_LEFT, names.bottom(), width, LINE_HEIGHT)
    return YarnLayout(sheet, spun, size, clamped, strip, letters, yarn, stretch_map, names, line)
