"""How the film is looked at: the scale and what lies at the left edge.

The rule of this module: looking never changes the plan, and a view that is fitted, zoomed or moved along
always has film in it: its left edge is at least 0 and its right edge at most the film's end.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

#: The closest look, px a m: a millimetre is eight pixels wide.
CLOSEST_PX_PER_M = 8_000.0


@dataclass(frozen=True, slots=True)
class LayView:
    """A look at the film.

    `px_per_m` 0 shows the whole film whatever its length; otherwise `left_m` (m from the film's left end)
    lies at the left edge. `one_roving` shows one roving of the set for all.
    """

    px_per_m: float = 0.0
    left_m: float = 0.0
    one_roving: bool = False

    @property
    def is_fitted(self) -> bool:
        """Whether the whole film is shown."""
        return self.px_per_m <= 0.0

    def fitted(self) -> LayView:
        """Return the view of the whole film."""
        return replace(self, px_per_m=0.0, left_m=0.0)


@dataclass(frozen=True, slots=True)
class Pane:
    """What a view is a view of: `film_m` of film in a pane `width` px wide."""

    film_m: float
    width: float

    @property
    def fit_px_per_m(self) -> float:
        """The scale at which the whole film is shown."""
        return self.width / self.film_m

    def px_per_m(self, view: LayView) -> float:
        """Return the scale of a view."""
        return self.fit_px_per_m if view.is_fitted else view.px_per_m

    def clamped(self, view: LayView) -> LayView:
        """Return the view with its scale and place in range; the whole film where it is shown anyway.

        >>> Pane(4.0, 1000.0).clamped(LayView(500.0, 3.0))
        LayView(px_per_m=500.0, left_m=2.0, one_roving=False)
        """
        px_per_m = min(view.px_per_m, max(CLOSEST_PX_PER_M, self.fit_px_per_m))
        if px_per_m <= self.fit_px_per_m * (1.0 + 1e-9):
            return view.fitted()
        farthest_m = max(self.film_m - self.width / px_per_m, 0.0)
        return replace(view, px_per_m=px_per_m, left_m=min(max(view.left_m, 0.0), farthest_m))

    def zoomed(self, view: LayView, factor: float, at_px: float) -> LayView:
        """Return the view `factor` times as close, with the place under `at_px` (from the left edge) kept."""
        before = self.px_per_m(view)
        after = min(max(before * factor, self.fit_px_per_m), max(CLOSEST_PX_PER_M, self.fit_px_per_m))
        left_m = view.left_m + at_px / before - at_px / after
        return self.clamped(replace(view, px_per_m=after, left_m=left_m))

    def moved(self, view: LayView, by_px: float) -> LayView:
        """Return the view moved along the film: `by_px` above 0 looks further to the right."""
        if view.is_fitted:
            return view
        return self.clamped(replace(view, left_m=view.left_m + by_px / view.px_per_m))

    def centred(self, view: LayView, film_m: float) -> LayView:
        """Return the view with a place on the film (m from its left end) in its middle."""
        if view.is_fitted:
            return view
        return self.clamped(replace(view, left_m=film_m - self.width / view.px_per_m / 2.0))
