"""How a canvas looks at the film: closer, further along, one roving for all.

The rule of this module: whatever is asked for, there is film in the pane.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from studio_gui.drawing.lay_layout import TARGET, LayItem, pane_of
from studio_gui.drawing.lay_view import LayView

if TYPE_CHECKING:
    from studio_gui.views.lay_canvas import LayCanvas

#: Film left free beside the selection that is looked at, as a share of its length.
FREE_SHARE = 0.05


class LayLooks:
    """The view of one canvas."""

    def __init__(self, canvas: LayCanvas) -> None:
        self.view = LayView()
        self._canvas = canvas

    def look_at(self, view: LayView) -> None:
        """Look at the film in another way, as far as there is film."""
        view = pane_of(self._canvas.lay).clamped(view)
        if view != self.view:
            self.view = view
            self._canvas.repaint_all()
            self._canvas.view_changed.emit()

    def clamp(self) -> None:
        """Look at film again where there is none any more: the plan or the window has become smaller."""
        self.look_at(self.view)

    def zoom(self, factor: float, at_x: float | None = None) -> None:
        """Look `factor` times as close; the place at pixel column `at_x` (by default the middle) stays."""
        pane = self._canvas.lay.pane
        at_px = pane.width() / 2.0 if at_x is None else min(max(at_x - pane.left(), 0.0), pane.width())
        self.look_at(pane_of(self._canvas.lay).zoomed(self.view, factor, at_px))

    def pan(self, by_px: float) -> None:
        """Look further to the right; with `by_px` below 0 to the left."""
        self.look_at(pane_of(self._canvas.lay).moved(self.view, by_px))

    def centre_on(self, film_m: float) -> None:
        """Bring a place on the film (m from its left end) into the middle."""
        self.look_at(pane_of(self._canvas.lay).centred(self.view, film_m))

    def fit(self) -> None:
        """Show the whole film."""
        self.look_at(self.view.fitted())

    def show_selection(self) -> None:
        """Show the selected sections as large as the pane allows."""
        document = self._canvas.document
        plan = document.sheet.plan
        chosen = [plan.section_index(one) for one in document.selected_ids] or [0]
        low_m, high_m = plan.edges_m[min(chosen)], plan.edges_m[max(chosen) + 1]
        free_m = (high_m - low_m) * FREE_SHARE
        px_per_m = self._canvas.lay.pane.width() / (high_m - low_m + 2.0 * free_m)
        left_m = plan.lay.overhang_m / 2.0 + low_m - free_m
        self.look_at(replace(self.view, px_per_m=px_per_m, left_m=left_m))

    def show_one_roving(self, one: bool) -> None:
        """Show one roving of the set for all, or all of them."""
        self.look_at(replace(self.view, one_roving=one))

    def show_item(self, item: LayItem) -> None:
        """Bring an item into sight."""
        pane = self._canvas.lay.pane
        width = min(item.rect.width(), pane.width())
        left, right = item.rect.left(), item.rect.left() + width
        margin = min(TARGET, (pane.width() - width) / 2.0)
        if left < pane.left():
            self.pan(left - pane.left() - margin)
        elif right > pane.right():
            self.pan(right - pane.right() + margin)
