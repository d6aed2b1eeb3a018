"""If these fail, a shade that no jar reaches, or no wool takes, goes to the bench without a word."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio_gui.domain.checks.depth import no_room, out_of_reach, over_take_up
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.edits.stocks import change_stock
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import Liquid, Plan
from tests.scenes.scene_plans import by_depth, dye, laid, let_down


def plan(depths: dict[str, float], uptake: float = 1.5) -> Plan:
    """100 g in one section, painted by depth from 1 % stocks."""
    stocks = [dye("B"), dye("R", srgb="#a8382f"), let_down("AW", 10.0)]
    return laid(
        [("L", 4.0)], stocks, [by_depth("L", depths)], liquid=Liquid(uptake, penetration_ml_per_g=1.0)
    )


def test_a_shade_out_of_reach_says_what_would_bring_it_within() -> None:
    (check,) = out_of_reach(section_figures(plan({"B": 2.0, "R": 0.5})))
    assert (check.severity, check.section_ids) == ("error", ("s1",))
    assert check.params == {
        "needed_ml": pytest.approx(250.0),
        "liquid_ml": pytest.approx(150.0),
        "reach_share": pytest.approx(0.6),
        "applied_ml_per_g": pytest.approx(1.5),
        "stock_id": "B",
        "strength_g_per_l": 10.0,
    }
    wetter, paler, stronger = check.mends
    assert wetter.params["liquid_ml"] == pytest.approx(250.0)
    assert paler.params["factor"] == pytest.approx(0.6)
    # 50 ml of red leave 100 ml for 2 % of blue on 100 g
    assert stronger.params == {"stock_id": "B", "strength_g_per_l": pytest.approx(20.0)}
    assert [mend.one_click for mend in check.mends] == [True, True, False]


def test_the_advised_strength_makes_the_jar_just_neat() -> None:
    (check,) = out_of_reach(section_figures(plan({"B": 2.0, "R": 0.5})))
    strength = check.mends[2].params["strength_g_per_l"]
    mended = change_stock(plan({"B": 2.0, "R": 0.5}), "B", strength_g_per_l=strength)
    figures = section_figures(mended)
    assert not list(out_of_reach(figures))
    assert figures.depth_pct_owf.tolist() == [pytest.approx([2.0, 0.5])]


@pytest.mark.parametrize(
    ("depths", "uptake"),
    [({"B": 3.0, "R": 2.0}, 1.5), ({"B": 99.0, "R": 1.49}, 1.5)],
    ids=["no room at all", "stronger than any stock can be"],
)
def test_a_stock_that_cannot_make_the_room_alone_is_not_advised(
    depths: dict[str, float], uptake: float
) -> None:
    (check,) = out_of_reach(section_figures(plan(depths, uptake)))
    assert [mend.code for mend in check.mends] == ["raise-liquid", "lower-depth"]


def test_a_shade_just_reached_is_no_error_but_leaves_no_room() -> None:
    figures = section_figures(plan({"B": 1.0, "R": 0.5}))
    assert not list(out_of_reach(figures))
    (check,) = no_room(figures)
    assert (check.code, check.severity, check.section_ids) == ("no-room-for-let-down", "warning", ("s1",))
    assert check.params == {"liquid_ml": pytest.approx(150.0), "needed_ml": pytest.approx(150.0)}


@pytest.mark.parametrize(("depth", "warned"), [(1.4850, False), (1.4851, True), (1.51, False), (0.0, False)])
def test_less_than_a_hundredth_of_the_jar_is_no_room(depth: float, warned: bool) -> None:
    assert bool(list(no_room(section_figures(plan({"B": depth}))))) is warned


def test_depth_over_take_up_is_a_note_at_the_deepest() -> None:
    deep = laid(
        [("L", 1.0), ("M", 1.0), ("L", 1.0)],
        [dye("B", 20.0), let_down("AW")],
        [by_depth("L", {"B": 7.0}), by_depth("M", {"B": 6.0})],
    )
    (check,) = over_take_up(section_figures(deep))
    assert (check.code, check.severity, check.section_ids) == ("depth-over-take-up", "note", ("s1", "s3"))
    assert check.params == {"stock_id": "B", "depth_pct_owf": pytest.approx(7.0), "take_up_pct_owf": 6.0}


def test_a_nominal_strength_is_not_judged() -> None:
    nominal = replace(dye("B", 20.0), strength_known="nominal")
    deep = laid([("L", 1.0)], [nominal, let_down("AW")], [by_depth("L", {"B": 7.0})])
    assert not list(over_take_up(section_figures(deep)))


def test_what_was_wiped_out_does_not_count() -> None:
    deep = laid([("L", 1.0)], [dye("B", 20.0), let_down("AW")], [by_depth("L", {"B": 7.0})])
    assert not list(over_take_up(section_figures(change_section(deep, "s1", wiped_ml=40.0))))
