"""If these fail, the fade curve shows another colour than the strip does, or steps where there are none."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.spaces import lab_from_xyz, linear_from_srgb, xyz_from_linear
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import Plan
from studio_gui.domain.strip_curve import strip_curve
from studio_gui.domain.worksheet import worksheet
from tests.scenes.scene_plans import by_parts, dye, laid, let_down
from tests.strategies import plans

PLAN = laid(
    [("A", 1.0), ("B", 0.5), ("W", 0.5)],
    [dye("D"), dye("E", srgb="#a8382f"), let_down("AW", 10.0)],
    [
        by_parts("A", {"D": 12.0, "AW": 36.0}),
        by_parts("B", {"E": 1.0, "AW": 1.0}),
        by_parts("W", {"AW": 1.0}),
    ],
    folded=True,
)


def test_a_folded_strip_runs_to_and_fro() -> None:
    curve = strip_curve(section_figures(PLAN))
    assert [run.section_index for run in curve.runs] == [0, 1, 2, 1, 0]
    assert curve.steps == pytest.approx(curve.steps[::-1])
    assert curve.steps[0] == pytest.approx(float(ciede2000(curve.labs[0], curve.labs[1])))


def test_hue_of_blue_and_of_red_and_none_of_white() -> None:
    curve = strip_curve(section_figures(PLAN))
    assert 220.0 < curve.hue_deg[0] < 290.0
    assert curve.hue_deg[1] < 50.0
    grey = laid([("W", 1.0)], [let_down("AW")], [by_parts("W", {"AW": 1.0})])
    assert strip_curve(section_figures(grey)).labs[0] == pytest.approx(curve.labs[2])


@given(plans(most_sections=4))
def test_its_colours_are_those_of_the_sections(plan: Plan) -> None:
    sheet = worksheet(plan)
    curve = strip_curve(sheet.figures)
    assert len(curve.steps) == len(curve.runs) - 1
    seen = lab_from_xyz(xyz_from_linear(linear_from_srgb(sheet.colours.srgb)))
    for run, lab in zip(curve.runs, curve.labs, strict=True):
        if not sheet.colours.clipped[run.section_index]:
            assert np.abs(seen[run.section_index] - lab).max() < 3.0  # within half an 8-bit code of sRGB
