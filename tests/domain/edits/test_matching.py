"""If these fail, a match paints other sections than it was asked for, or another colour than it showed."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.spaces import lab_from_hex, lab_from_xyz, linear_from_srgb, xyz_from_linear
from studio_gui.domain.edits.boundaries import lengths_m
from studio_gui.domain.edits.matching import (
    MOST_COLOURS,
    match_section,
    paint_match,
    paint_matches,
    wanted_lab,
)
from studio_gui.domain.errors import EditRefused, InvalidPlan, RovingLayError
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import Plan
from studio_gui.domain.worksheet import worksheet
from tests.domain.edits.painted import match_run, matched_run
from tests.scenes.scene_plans import by_depth, by_parts, dye, laid, let_down
from tests.strategies import plans

PLAN = laid(
    [("A", 1.0), ("A", 0.5), ("C", 1.5)],
    [dye("D"), dye("E", srgb="#a8382f"), dye("F", srgb="#e0b64a"), let_down("AW", 10.0)],
    [by_parts("A", {"D": 12.0, "AW": 36.0}), by_depth("C", {"E": 0.5})],
)
GREEN = lab_from_hex("#5d7a4a")


def colour(plan: Plan, index: int) -> object:
    return lab_from_xyz(xyz_from_linear(linear_from_srgb(worksheet(plan).colours.srgb[index])))


def test_a_section_gets_the_liquor_that_was_shown_and_its_neighbour_keeps_its_own() -> None:
    matched = match_section(PLAN, "s1", GREEN)
    plan = paint_match(matched, 0, "Moss")
    assert colour(plan, 0) == pytest.approx(matched.found[0].lab, abs=1e-6)
    assert plan.sections[1] == PLAN.sections[1]
    assert plan.liquor("A") == PLAN.liquor("A")
    own = plan.liquor(plan.sections[0].liquor_id)
    assert (own.name, own.basis, own.stock_ids[-1]) == ("Moss", "parts", "AW")


def test_a_liquor_of_its_own_is_changed_and_keeps_its_name() -> None:
    plan = paint_match(match_section(PLAN, "s3", GREEN))
    own = plan.liquor("C")
    assert (own.name, own.basis) == ("C", "parts")
    assert len(plan.liquors) == 2


def test_only_the_bottles_that_are_named_are_used() -> None:
    matched = match_section(PLAN, "s1", GREEN, ["E"])
    assert [stock.id for stock in matched.hand.bottles] == ["E"]
    assert 10.0 < matched.exact.difference <= matched.found[0].difference
    assert match_section(PLAN, "s1", lab_from_hex("#c0a020"), ["D"]).exact.lack == "yellow"


def test_of_a_far_colour_the_first_keeps_to_its_hue_and_the_nearest_is_known() -> None:
    wanted = lab_from_hex("#ff00ff")
    matched = match_section(PLAN, "s1", wanted)
    assert (matched.is_far, matched.exact.lack) == (True, "magenta")
    differences = [match.difference for match in matched.found]
    assert differences[matched.nearest] == min(differences) >= matched.exact.difference > 10.0
    painted = paint_match(matched, matched.nearest)
    away = float(ciede2000(np.asarray(colour(painted, 0)), wanted))
    assert away == pytest.approx(min(differences), abs=1e-6)
    assert not match_section(PLAN, "s1", GREEN).is_far


def test_a_palette_sets_a_run_colour_by_colour() -> None:
    wanted = [GREEN, lab_from_hex("#c08a50"), lab_from_hex("#8aa0b8")]
    plan = match_run(PLAN, 0, 2, wanted, ["Moss", "Rust", "Haze"])
    assert lengths_m(plan) == pytest.approx(lengths_m(PLAN))
    assert [section.name for section in plan.sections] == ["Moss", "Rust", "Haze"]
    for index, lab in enumerate(wanted):
        best = match_section(PLAN, f"s{index + 1}", lab).found[0]
        assert float(ciede2000(np.asarray(colour(plan, index)), lab)) == pytest.approx(best.difference)


def test_names_are_of_the_liquors_alone_where_sections_keep_theirs() -> None:
    painted = paint_matches(matched_run(PLAN, 0, 1, [GREEN, GREEN]), ["Haze 1", "Haze 2"], renamed=False)
    assert [section.name for section in painted.sections] == [section.name for section in PLAN.sections]
    liquors = [painted.liquor(section.liquor_id).name for section in painted.sections]
    assert liquors == ["Haze 1", "Haze 2", PLAN.liquor("C").name]


def test_another_number_of_colours_makes_the_run_anew() -> None:
    plan = match_run(PLAN, 0, 1, [GREEN] * 3)
    assert lengths_m(plan) == pytest.approx([0.5, 0.5, 0.5, 1.5])
    assert len(match_run(PLAN, 0, 2, [GREEN]).sections) == 1


def test_what_cannot_be_matched_is_refused() -> None:
    water = replace(PLAN, stocks=(let_down("AW"),), liquors=(by_parts("A", {}), by_parts("C", {"AW": 1.0})))
    with pytest.raises(EditRefused) as refusal:
        match_section(water, "s1", GREEN)
    assert refusal.value.code == "no-dye-at-hand"
    with pytest.raises(EditRefused) as refusal:
        match_run(PLAN, 0, 2, [])
    assert refusal.value.code == "no-colours"
    with pytest.raises(InvalidPlan) as invalid:
        match_run(PLAN, 0, 2, [GREEN] * (MOST_COLOURS + 1))
    assert invalid.value.code == "too-many"


@pytest.mark.parametrize("lab", [(120.0, 0.0, 0.0), (50.0, 300.0, 0.0), (50.0, 0.0, float("nan"))])
def test_a_colour_outside_reason_is_refused(lab: tuple[float, float, float]) -> None:
    with pytest.raises(InvalidPlan):
        wanted_lab(*lab)
    assert wanted_lab(50.0, -3.0, 4.0).tolist() == [50.0, -3.0, 4.0]


@settings(max_examples=25)  # each is a search over all bottles
@given(plans(most_sections=3))
def test_any_section_is_matched_as_it_is_shown_or_refused(plan: Plan) -> None:
    try:
        matched = match_section(plan, plan.sections[0].id, GREEN)
        painted = paint_match(matched)
    except RovingLayError:
        return
    doses = np.zeros(len(matched.hand.palette.curves))
    left = section_figures(painted).left_pct_owf[0].tolist()
    for dye_index, dose in zip(matched.hand.dye_of, left, strict=True):
        doses[dye_index] += dose
    assert doses == pytest.approx(matched.found[0].doses_pct_owf, rel=1e-6, abs=1e-9)
