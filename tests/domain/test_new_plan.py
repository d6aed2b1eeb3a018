"""If these fail, the first thing a person sees is a plan that needs mending."""

from __future__ import annotations

from studio_gui.domain.new_plan import new_plan
from studio_gui.domain.worksheet import worksheet


def test_a_new_plan_needs_no_mending() -> None:
    assert worksheet(new_plan()).checks == ()


def test_a_new_plan_is_painted_deep_and_pale() -> None:
    sheet = worksheet(new_plan("Heron Bay"))
    assert sheet.plan.title == "Heron Bay"
    deep, pale = sheet.figures.depth_pct_owf[:, 0].tolist()
    assert deep > pale > 0.0
    assert sheet.totals.fibre_g == 100.0
