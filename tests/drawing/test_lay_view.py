"""If these fail, zooming loses the place under the pointer, or the film slides out of sight."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio_gui.drawing.lay_view import CLOSEST_PX_PER_M, LayView, Pane

panes = st.builds(Pane, st.floats(0.2, 40.0), st.floats(40.0, 4000.0))
views = st.builds(LayView, st.floats(0.0, 20_000.0), st.floats(-5.0, 50.0), st.booleans())


@given(panes, views)
def test_a_clamped_view_is_full_of_film(pane: Pane, view: LayView) -> None:
    clamped = pane.clamped(view)
    assert clamped.one_roving == view.one_roving
    if clamped.is_fitted:
        assert clamped.left_m == 0.0
        return
    assert clamped.left_m >= 0.0
    assert clamped.left_m + pane.width / clamped.px_per_m <= pane.film_m * (1.0 + 1e-9)
    assert pane.fit_px_per_m < clamped.px_per_m <= max(CLOSEST_PX_PER_M, pane.fit_px_per_m)
    assert pane.clamped(clamped) == clamped


@given(panes, views, st.floats(1.0, 8.0), st.floats(0.0, 1.0))
def test_looking_closer_keeps_the_place_under_the_pointer(
    pane: Pane, view: LayView, factor: float, share: float
) -> None:
    view = pane.clamped(view)
    at_px = share * pane.width
    closer = pane.zoomed(view, factor, at_px)
    before_m = view.left_m + at_px / pane.px_per_m(view)
    after_m = closer.left_m + at_px / pane.px_per_m(closer)
    assert after_m == pytest.approx(before_m, abs=1e-6)


@given(panes, views, st.floats(0.0, 1.0))
def test_looking_from_far_off_shows_all(pane: Pane, view: LayView, share: float) -> None:
    assert pane.zoomed(pane.clamped(view), 1e-6, share * pane.width).is_fitted


def test_moving_along_goes_as_far_as_the_film() -> None:
    pane = Pane(4.0, 1000.0)
    view = pane.clamped(LayView(500.0, 1.0))
    assert pane.moved(view, 100.0).left_m == pytest.approx(1.2)
    assert pane.moved(view, -9000.0).left_m == 0.0
    assert pane.moved(view, 9000.0).left_m == pytest.approx(2.0)
    assert pane.moved(LayView(), 100.0) == LayView()
    assert pane.centred(view, 2.0).left_m == pytest.approx(1.0)
    assert pane.centred(LayView(), 2.0) == LayView()
