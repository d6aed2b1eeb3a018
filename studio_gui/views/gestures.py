"""Gestures on the lay.

The rule of this module: one gesture is one object. It starts, it moves and previews, and it ends as one undo
step or as if it had never been.
"""

from __future__ import annotations

from studio_gui.document.open_plan import OpenPlan
from studio_gui.domain.edits.boundaries import Drag, boundary_range, move_boundary
from studio_gui.domain.errors import RovingLayError
from studio_gui.drawing.lay_layout import LayLayout
from studio_gui.drawing.ruler import ruler_steps, ruler_unit_m, snapped


class BoundaryDrag:
    """A boundary in the hand: plain trades length between its neighbours, ``shift`` moves all that follows.

    Raises
    ------
    RovingLayError
        On making, when a locked section keeps the boundary in its place.
    """

    def __init__(self, document: OpenPlan, layout: LayLayout, index: int, grabbed_x: float) -> None:
        boundary_range(document.plan, index)
        self.index = index
        self.origin_m = document.plan.boundaries[index].position_m
        self._document, self._layout = document, layout
        self._offset_m = self.origin_m - layout.lay_m(grabbed_x)

    @property
    def position_m(self) -> float:
        """Where the boundary is now, m along the lay."""
        return self._document.sheet.plan.boundaries[self.index].position_m

    def move(self, x: float, drag: Drag, *, snap: bool) -> None:
        """Follow the pointer to pixel column `x` as far as possible, on the ruler's ticks when `snap`."""
        plan = self._document.plan
        try:
            low, high = boundary_range(plan, self.index, drag)
        except RovingLayError:
            return  # something locked would have to follow: stay, as if held
        wanted = self._layout.lay_m(x) + self._offset_m
        if snap:
            tick = ruler_steps(self._layout.px_per_m, ruler_unit_m())[1]
            candidate = snapped(wanted, tick)
            # the place it came from is as good as a tick, so that a drag out and back changes nothing
            wanted = self.origin_m if abs(wanted - self.origin_m) < abs(wanted - candidate) else candidate
        self._document.preview(move_boundary(plan, self.index, min(max(wanted, low), high), drag))

    def finish(self, name: str) -> None:
        """End as one undo step called `name`."""
        self._document.commit_preview(name)

    def cancel(self) -> None:
        """End as if it had never been."""
        self._document.cancel_preview()
