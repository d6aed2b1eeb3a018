"""If these fail, screens and exports show numbers that are not the plan's."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given

from studio_gui.domain.bench import make_up
from studio_gui.domain.checks.registry import run_checks
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.fibre import Lay, MassMark, Roving
from studio_gui.domain.figures import section_figures
from studio_gui.domain.geometry import lay_mass_to
from studio_gui.domain.liquors import Liquor
from studio_gui.domain.plan import Plan
from studio_gui.domain.profile import dye_profile, section_colours
from studio_gui.domain.timetable import timed_steps
from studio_gui.domain.worksheet import worksheet
from tests.scenes.scene_plans import by_depth, by_parts, dye, laid, let_down
from tests.strategies import plans

PLAN = laid(
    [("Pale", 1.0), ("Deep", 1.0), ("Pale", 2.0)],
    [dye("D", 4.0), let_down("AW", 10.0)],
    [by_depth("Pale", {"D": 0.2}), by_depth("Deep", {"D": 2.0}), by_parts("Unused", {"D": 1.0})],
    rovings=2,
)


def test_totals() -> None:
    totals = worksheet(PLAN).totals
    assert totals.fibre_g == pytest.approx(200.0)
    assert totals.liquid_ml == pytest.approx(500.0)
    assert totals.jars_ml == pytest.approx(525.0)
    assert totals.film_length_m == pytest.approx(4.2)


def test_a_liquor_has_the_colour_of_its_sections() -> None:
    sheet = worksheet(PLAN)
    pale, deep, _ = sheet.liquor_colours.srgb.tolist()
    assert pale == pytest.approx(sheet.colours.srgb[0].tolist())
    assert deep == pytest.approx(sheet.colours.srgb[1].tolist())


@pytest.mark.parametrize(
    "liquor",
    [
        by_parts("New", {"D": 1.0}),
        by_parts("New", {"D": 12.0, "AW": 38.0}),
        by_parts("New", {"AW": 1.0}),
        by_parts("New", {}),
        by_depth("New", {"D": 0.5}),
    ],
)
def test_a_liquor_that_is_not_painted_yet_has_the_colour_it_would_paint(liquor: Liquor) -> None:
    plan = replace(PLAN, liquors=(*PLAN.liquors, liquor))
    painted = change_section(plan, plan.sections[0].id, liquor_id="New", fixed_ml=None)
    unseen = worksheet(plan).liquor_colours.srgb[-1].tolist()
    assert unseen == pytest.approx(worksheet(painted).liquor_colours.srgb[-1].tolist())


def test_what_is_computed_once_is_kept() -> None:
    sheet = worksheet(PLAN)
    assert sheet.make_up is sheet.make_up
    assert sheet.checks is sheet.checks
    assert sheet.colours is sheet.colours
    assert sheet.halves is sheet.halves
    assert sheet.timed_steps is sheet.timed_steps
    assert sheet.timed_steps == timed_steps(PLAN.timetable)


def test_colours_at_places_are_those_at_their_weights() -> None:
    sheet, places_m = worksheet(PLAN), np.linspace(0.0, PLAN.lay_length_m, 9)
    places_g = lay_mass_to(PLAN.fibre, PLAN.lay, places_m)
    assert sheet.colours_at(places_g).srgb == pytest.approx(sheet.lay_colours(places_m).srgb)


def test_halves_are_those_of_the_roving_whose_halves_differ_most() -> None:
    measured = (Roving(50.0), Roving(50.0, (MassMark(0.5, 0.6),)))
    fibre = replace(PLAN.fibre, mass_g=50.0, measured=measured)
    assert (
        worksheet(
            replace(PLAN, fibre=fibre, lay=Lay((2.0,)), sections=PLAN.sections[:1], boundaries=())
        ).halves.roving
        == 1
    )


@given(plans())
def test_a_worksheet_is_its_parts_for_any_plan(plan: Plan) -> None:
    sheet = worksheet(plan)
    figures = section_figures(plan)
    assert sheet.plan is plan
    assert sheet.figures.amounts_ml.tolist() == figures.amounts_ml.tolist()
    assert sheet.make_up.need_ml.tolist() == make_up(figures).need_ml.tolist()
    assert sheet.checks == run_checks(figures)
    assert sheet.colours.srgb.tolist() == section_colours(figures).srgb.tolist()
    assert sheet.liquor_colours.srgb.shape == (len(plan.liquors), 3)
    assert sheet.lay_colours([0.0]).srgb.shape == (1, 3)
    assert dye_profile(plan, [0.0]).shape == (1, len(plan.dyes))


def test_a_colour_that_was_entered_is_seen_in_grey_where_the_sheet_is() -> None:
    sheet = worksheet(laid([("A", 1.0)], [dye("D"), let_down("AW")], [by_parts("A", {"D": 1.0})]))
    assert sheet.seen_srgb("#ff0000") == "#ff0000"
    assert replace(sheet, in_grey=True).seen_srgb("#ff0000") == "#7f7f7f"
