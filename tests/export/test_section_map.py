"""If these fail, a label or a script that reads section maps breaks, or computes with wrong numbers."""

from __future__ import annotations

import dataclasses
import json
import math
from collections.abc import Iterator
from typing import Any, NoReturn

import pytest
from hypothesis import given

from studio_gui.domain.edits.inputs import fold_by_weight, set_bench, set_fibre, set_timetable
from studio_gui.domain.edits.rovings import set_one_roving
from studio_gui.domain.edits.stripes import set_stripes
from studio_gui.domain.edits.yarn import set_yarn
from studio_gui.domain.fibre import MassMark, Roving
from studio_gui.domain.plan import Plan
from studio_gui.domain.timetable import STEPS
from studio_gui.domain.worksheet import worksheet
from studio_gui.domain.yarn import Strip, Stripe
from studio_gui.export.section_map import section_map, section_map_bytes
from tests.export.plans import plans_of_one_colour, sample
from tests.scenes.scene_plans import four_gates, lantern_row

ANY_CHECK: dict[str, Any] = {}
SWATCH = {"depth_pct_owf": float, "srgb": str, "fibre_srgb": str}

#: Every key of the contract with its type; a list has the shape of its items. Keys may only be added.
CONTRACT: dict[str, Any] = {
    "document": str,
    "version": int,
    "title": str,
    "fibre": {
        "mass_g": float,
        "length_m": float,
        "rovings": int,
        "passes": int,
        "fold_positions_m": [float],
        "lay_length_m": float,
        "film_length_m": float,
        "overhang_m": float,
        "undyed_srgb": str,
    },
    "liquid": {
        "uptake_ml_per_g": float,
        "soak_ml_per_g": float,
        "limit_ml_per_g": float,
        "penetration_ml_per_g": float,
        "soak_acid_g_per_l": float,
    },
    "wicking_mm": float,
    "mixing": str,
    "bench": {"spare_share": float, "dead_ml": float, "graduation_ml": float},
    "stocks": [
        {
            "id": str,
            "name": str,
            "role": str,
            "strength_g_per_l": float,
            "strength_known": str,
            "take_up_pct_owf": float,
            "acid_g_per_l": float,
            "need_ml": float,
            "measured_need_ml": float,
            "swatches": [SWATCH],
        }
    ],
    "liquors": [
        {"id": str, "letter": str, "name": str, "basis": str, "jar_ml": float, "sections_ml": float},
    ],
    "sections": [
        {
            "id": str,
            "name": str,
            "liquor_id": str,
            "start_m": float,
            "end_m": float,
            "locked": bool,
            "fibre_g": float,
            "liquid_mode": str,
            "liquid_ml": float,
            "wiped_ml": float,
            "amounts_ml": ANY_CHECK,
            "depth_pct_owf": ANY_CHECK,
            "acid_pct_owf": float,
            "applied_ml_per_g": float,
            "held_ml_per_g": float,
            "free_ml": float,
            "saturation": str,
            "srgb": str,
        }
    ],
    "yarn": {
        "structure": str,
        "singles_m_per_g": float,
        "take_up": float,
        "staple_m": float,
        "laid_m": float,
        "plied_m": float,
        "leftover_m": [float],
        "leftover_g": [float],
        "leftover_share": float,
        "solid_share": float,
        "solid_m": float,
        "barber_pole_m": float,
        "smear_m": float,
        "smear_worst_m": float,
        "runs": [[ANY_CHECK]],
        "plied_runs": [{"liquor_ids": [str], "metres": float, "solid": bool}],
        "pairs": [{"liquor_ids": [str], "singles_m": float, "plied_m": float, "solid": bool}],
        "knitting": {"width_m": float, "row_m": float, "stitches": int, "rows": int, "in_the_round": bool},
        "section_rows": ANY_CHECK,
        "stripes": [{"liquor_id": str, "amount": float, "measure": str, "plied_m": float}],
    },
    "timetable": {f"{step}_min": float for step in STEPS},
    "checks": [{"code": str, "severity": str, "section_ids": [str], "params": ANY_CHECK, "text": str}],
}
#: Numbers that may not be known, and then leave their key out.
MAY_BE_UNKNOWN = {"stripes", "smear_m", "smear_worst_m", "soak_acid_g_per_l", "acid_g_per_l", "acid_pct_owf"}


def read(data: bytes) -> dict[str, Any]:
    """The map as a strict reader of JSON takes it."""

    def refuse(constant: str) -> NoReturn:
        raise AssertionError(f"{constant} is no JSON")

    loaded = json.loads(data, parse_constant=refuse)
    assert isinstance(loaded, dict)
    return loaded


def map_of(plan: Plan) -> dict[str, Any]:
    return read(section_map_bytes(worksheet(plan)))


def departures(shape: object, value: Any, place: str = "map") -> Iterator[str]:  # noqa: ANN401  (JSON)
    """Where `value` is not of the contract's `shape`."""
    if isinstance(shape, list):
        for index, item in enumerate(value):
            yield from departures(shape[0], item, f"{place}[{index}]")
    elif isinstance(shape, dict):
        for key, inner in shape.items():
            if key in value:
                yield from departures(inner, value[key], f"{place}.{key}")
            elif key not in MAY_BE_UNKNOWN:
                yield f"{place}.{key} is missing"
    elif type(value) is not shape:
        yield f"{place} is {value!r}"


def values_in(value: object) -> Iterator[object]:
    """Every plain value in a document."""
    if isinstance(value, (dict, list)):
        for item in value.values() if isinstance(value, dict) else value:
            yield from values_in(item)
    else:
        yield value


@given(plans_of_one_colour())
def test_every_map_has_every_key_of_the_contract_with_its_type(plan: Plan) -> None:
    assert list(departures(CONTRACT, map_of(plan))) == []


@given(plans_of_one_colour())
def test_no_map_has_null_or_a_number_that_is_not_finite(plan: Plan) -> None:
    for value in values_in(map_of(plan)):
        assert value is not None
        assert not isinstance(value, float) or math.isfinite(value)


@given(plans_of_one_colour())
def test_sections_tile_the_lay_exactly(plan: Plan) -> None:
    found = map_of(plan)
    sections = found["sections"]
    assert sections[0]["start_m"] == 0.0
    assert [one["end_m"] for one in sections[:-1]] == [one["start_m"] for one in sections[1:]]
    assert sections[-1]["end_m"] == found["fibre"]["lay_length_m"] == plan.lay_length_m


@given(plans_of_one_colour())
def test_amounts_add_up_to_the_liquid_and_name_only_stocks_of_the_plan(plan: Plan) -> None:
    ids = {stock.id for stock in plan.stocks}
    for section in map_of(plan)["sections"]:
        assert section["amounts_ml"].keys() <= ids
        assert math.fsum(section["amounts_ml"].values()) == pytest.approx(
            section["liquid_ml"], rel=1e-9, abs=1e-12
        )


@given(plans_of_one_colour())
def test_the_file_says_what_the_map_says_to_the_last_digit(plan: Plan) -> None:
    assert map_of(plan) == section_map(worksheet(plan))


@given(plans_of_one_colour())
def test_depth_is_told_for_every_dye_that_is_painted_and_no_other(plan: Plan) -> None:
    dyes = {stock.id for stock in plan.dyes}
    for section in map_of(plan)["sections"]:
        assert section["depth_pct_owf"].keys() == section["amounts_ml"].keys() & dyes


@given(plans_of_one_colour())
def test_acid_is_left_out_exactly_where_it_is_not_known(plan: Plan) -> None:
    found = map_of(plan)
    known = {stock["id"]: stock.get("acid_g_per_l") for stock in found["stocks"]}
    assert known == {stock.id: stock.acid_g_per_l for stock in plan.stocks}
    soak = found["liquid"].get("soak_acid_g_per_l")
    assert soak == plan.liquid.soak_acid_g_per_l
    for section in found["sections"]:
        unknown = any(known[stock_id] is None for stock_id in section["amounts_ml"])
        dry = plan.liquid.soak_ml_per_g == 0.0
        assert ("acid_pct_owf" in section) is not (unknown or (soak is None and not dry))


@given(plans_of_one_colour())
def test_jars_hold_the_spare_and_need_what_they_hold(plan: Plan) -> None:
    found = map_of(plan)
    needed = dict.fromkeys((stock["id"] for stock in found["stocks"]), 0.0)
    for liquor in found["liquors"]:
        jars = liquor["jars"]
        assert liquor["jar_ml"] == pytest.approx(sum(jar["jar_ml"] for jar in jars))
        assert liquor["sections_ml"] == pytest.approx(sum(jar["sections_ml"] for jar in jars))
        for jar in jars:
            wanted = jar["sections_ml"] * (1.0 + plan.bench.spare_share) + plan.bench.dead_ml
            assert jar["jar_ml"] == pytest.approx(wanted)
            assert sum(jar["amounts_ml"].values()) == pytest.approx(jar["jar_ml"])
            for stock_id, ml in jar["amounts_ml"].items():
                needed[stock_id] += ml
    assert {stock["id"]: stock["need_ml"] for stock in found["stocks"]} == pytest.approx(needed)


@given(plans_of_one_colour())
def test_checks_are_told_in_one_line_with_sections_that_exist(plan: Plan) -> None:
    ids = {section.id for section in plan.sections}
    for check in map_of(plan)["checks"]:
        assert check["severity"] in ("note", "warning", "error")
        assert set(check["section_ids"]) <= ids
        assert len(check["text"].splitlines()) == 1


def test_the_keys_come_in_the_order_of_the_contract() -> None:
    keys = list(map_of(sample("harbour-thaw")))
    assert [key for key in keys if key in CONTRACT] == list(CONTRACT)


def test_the_document_names_itself_and_its_version() -> None:
    found = map_of(sample("two-shores"))
    assert (found["document"], found["version"], found["title"]) == ("section-map", 1, "Two Shores")


def test_a_matching_set_is_told_for_the_whole_set() -> None:
    """Four rovings of 100 g at 1.5 ml/g, spare 5 %: worked by hand."""
    found = map_of(sample("harbour-thaw"))
    assert [one["liquid_ml"] for one in found["sections"]] == pytest.approx([120, 90, 180, 60, 150])
    assert [one["fibre_g"] for one in found["sections"]] == pytest.approx([80, 60, 120, 40, 100])
    assert [one["jar_ml"] for one in found["liquors"]] == pytest.approx([126, 94.5, 189, 63, 157.5])
    needs = {stock["id"]: stock["need_ml"] for stock in found["stocks"]}
    assert needs == pytest.approx(
        {"blue": 127.575, "black": 29.925, "yellow": 135.45, "red": 63.0, "aw": 274.05}
    )
    assert found["sections"][0]["amounts_ml"] == pytest.approx({"blue": 72, "black": 24, "aw": 24})
    assert found["sections"][0]["depth_pct_owf"] == pytest.approx({"blue": 0.9, "black": 0.3})
    assert [one["acid_pct_owf"] for one in found["sections"]] == pytest.approx([1.5] * 5)
    assert found["totals"] == pytest.approx({"fibre_g": 400, "liquid_ml": 600, "jars_ml": 630})


def test_what_is_measured_is_told_in_whole_graduations_that_add_up() -> None:
    """Harbour Thaw: 94.5 ml of the let-down jar are 95, of which 90 are painted."""
    found = map_of(sample("harbour-thaw"))
    jars = [jar for liquor in found["liquors"] for jar in liquor["jars"]]
    assert jars[0]["measured_ml"] == {"blue": 76.0, "black": 25.0, "aw": 25.0}
    assert (jars[1]["measured_ml"], jars[1]["measured_total_ml"]) == (
        {"blue": 14.0, "black": 5.0, "aw": 76.0},
        95.0,
    )
    assert jars[1]["spare_ml"] == pytest.approx(5.0)
    assert max(jar["points_off"] for jar in jars) < 1.0
    needs = {stock["id"]: stock["measured_need_ml"] for stock in found["stocks"]}
    for stock_id, need_ml in needs.items():
        assert need_ml == pytest.approx(sum(jar["measured_ml"].get(stock_id, 0.0) for jar in jars))
    blue = found["stocks"][0]
    assert (blue["made_ml"], blue["dye_g"], blue["acid_g"]) == pytest.approx((140.0, 1.4, 1.4))
    assert "syringe_ml" not in found["bench"]
    assert "start_min" not in found["timetable"]


def test_a_start_and_a_syringe_are_told_where_there_are_any() -> None:
    plan = set_bench(set_timetable(sample("harbour-thaw"), start_min=570.0), syringe_ml=60.0)
    found = map_of(plan)
    assert (found["timetable"]["start_min"], found["bench"]["syringe_ml"]) == (570.0, 60.0)


def test_a_folded_lay_is_told_by_its_folds() -> None:
    fibre = map_of(sample("two-shores"))["fibre"]
    assert (fibre["passes"], fibre["fold_positions_m"]) == (2, [3.0])
    assert (fibre["mass_g"], fibre["length_m"]) == (150.0, 6.0)
    assert fibre["film_length_m"] == pytest.approx(fibre["lay_length_m"] + fibre["overhang_m"])


def test_a_folded_lay_has_the_places_of_its_boundaries_on_each_leg() -> None:
    uneven = fold_by_weight(set_fibre(sample("two-shores"), mass_marks=(MassMark(0.5, 0.52),)))
    first, second = map_of(uneven)["fibre"]["leg_marks_m"]
    assert (first[0], second[0]) == pytest.approx((0.5769, 0.625), abs=0.00005)
    assert len(first) == len(second) == len(uneven.boundaries)
    assert "leg_marks_m" not in map_of(sample("harbour-thaw"))["fibre"]


def test_depth_is_before_wiping_and_colour_after_it() -> None:
    plan = sample("storm-kettle")
    place = next(index for index, section in enumerate(plan.sections) if section.wiped_ml > 0.0)
    dry = tuple(dataclasses.replace(section, wiped_ml=0.0) for section in plan.sections)
    wiped = map_of(plan)["sections"][place]
    not_wiped = map_of(dataclasses.replace(plan, sections=dry))["sections"][place]
    assert wiped["depth_pct_owf"] == not_wiped["depth_pct_owf"]
    assert wiped["srgb"] != not_wiped["srgb"]


def test_saturation_and_free_liquid_are_told_where_the_fibre_overflows() -> None:
    """80 ml on 20 g at 1.1 ml/g soak and a limit of 2.5: 5.1 held, 52 ml free."""
    flood = map_of(sample("storm-kettle"))["sections"][1]
    assert flood["saturation"] == "over"
    assert (flood["held_ml_per_g"], flood["free_ml"]) == pytest.approx((5.1, 52.0))


def test_an_unpainted_section_has_the_colour_of_the_wool_and_no_amounts() -> None:
    plan = sample("storm-kettle")
    bare = map_of(plan)["sections"][-1]
    assert (bare["amounts_ml"], bare["depth_pct_owf"]) == ({}, {})
    assert bare["srgb"] == plan.fibre.undyed_srgb


def test_wanted_stripes_and_rows_of_sections_are_told() -> None:
    """Lantern Row, 338.4 m plied as a chain: A's 84.6 m are 56.4 rows of 1.5 m."""
    plan = set_stripes(lantern_row(), [Stripe("B", 10.0), Stripe("A", 12.0, "metres")])
    yarn = map_of(plan)["yarn"]
    assert yarn["knitting"] == {
        "width_m": 0.5,
        "row_m": 1.5,
        "stitches": 100,
        "rows": 225,
        "in_the_round": False,
    }
    assert list(yarn["section_rows"].values()) == pytest.approx([56.4, 37.6, 75.2, 56.4])
    assert [tuple(stripe.values()) for stripe in yarn["stripes"]] == [
        ("B", 10.0, "rows", 15.0),
        ("A", 12.0, "metres", 12.0),
    ]
    assert "stripes" not in map_of(lantern_row())["yarn"]


def test_a_fractal_yarn_is_told_run_by_run_and_pair_by_pair() -> None:
    """Four Gates: 500 m of singles a ply, a quarter of the yarn solid, 5 % take-up."""
    yarn = map_of(four_gates(*[Strip()] * 4))["yarn"]
    assert (yarn["structure"], yarn["singles_m_per_g"], yarn["take_up"]) == ("fractal", 10.0, 0.05)
    assert (yarn["laid_m"], yarn["plied_m"]) == pytest.approx((500.0, 475.0))
    assert (yarn["solid_share"], yarn["solid_m"], yarn["barber_pole_m"]) == pytest.approx(
        (0.25, 118.75, 356.25)
    )
    assert (yarn["leftover_m"], yarn["leftover_g"], yarn["leftover_share"]) == ([0.0, 0.0], [0.0, 0.0], 0.0)
    assert "smear_m" not in yarn
    whole, strips = yarn["runs"]
    assert [liquor_id for liquor_id, _ in whole] == ["A", "B", "C", "D"]
    assert [metres for _, metres in strips] == pytest.approx([31.25, 25.0, 37.5, 31.25] * 4)
    singles = {"".join(pair["liquor_ids"]): pair["singles_m"] for pair in yarn["pairs"]}
    assert (singles["BD"], singles["CD"], singles["AA"]) == pytest.approx((6.25, 56.25, 31.25))
    assert all(pair["plied_m"] == pytest.approx(0.95 * pair["singles_m"]) for pair in yarn["pairs"])


def test_a_chain_is_told_with_what_its_changes_mix() -> None:
    """Lantern Row: a third of the singles, 6 % take-up, three changes of two thirds of a 60 cm loop."""
    yarn = map_of(lantern_row())["yarn"]
    assert [run["metres"] for run in yarn["plied_runs"]] == pytest.approx([84.6, 56.4, 112.8, 84.6])
    assert [run["liquor_ids"] for run in yarn["plied_runs"]] == [["A"], ["B"], ["C"], ["D"]]
    assert yarn["plied_m"] == pytest.approx(338.4)
    assert (yarn["smear_m"], yarn["smear_worst_m"]) == pytest.approx((1.2, 1.8))
    assert sum(metres for _, metres in yarn["runs"][0]) == pytest.approx(1080.0)
    assert ["A", "B"] in [pair["liquor_ids"] for pair in yarn["pairs"]]


def test_thirds_by_eye_are_told_with_what_is_left() -> None:
    plan = set_yarn(lantern_row(), structure="lengthwise", splits=(42.0, 39.0, 39.0))
    yarn = map_of(plan)["yarn"]
    assert yarn["leftover_m"] == pytest.approx([27.0, 0.0, 0.0])
    assert yarn["leftover_g"] == pytest.approx([3.0, 0.0, 0.0])
    assert yarn["leftover_share"] == pytest.approx(0.0714, abs=0.00005)


@given(plans_of_one_colour())
def test_runs_and_pairs_of_any_yarn_add_up_to_it(plan: Plan) -> None:
    yarn = map_of(plan)["yarn"]
    known = {liquor.id for liquor in plan.liquors}
    plied = yarn["plied_m"]
    assert yarn["laid_m"] * (1.0 - yarn["take_up"]) == pytest.approx(plied)
    assert yarn["solid_m"] + yarn["barber_pole_m"] == pytest.approx(plied)
    for parts, metres in ((yarn["plied_runs"], "metres"), (yarn["pairs"], "plied_m")):
        assert math.fsum(part[metres] for part in parts) == pytest.approx(plied, abs=1e-9)
        assert {liquor_id for part in parts for liquor_id in part["liquor_ids"]} <= known
    laid = yarn["laid_m"] * (3.0 if yarn["structure"] == "chain" else 1.0)
    for runs, left in zip(yarn["runs"], yarn["leftover_m"], strict=True):
        assert math.fsum(metres for _, metres in runs) == pytest.approx(laid + left)


def test_rovings_weighed_one_by_one_are_told_each() -> None:
    plan = set_one_roving(sample("harbour-thaw"), 1, Roving(104.0, (MassMark(0.5, 0.52),)))
    fibre = section_map(worksheet(plan))["fibre"]
    assert isinstance(fibre, dict)
    assert fibre["mass_g"] == pytest.approx(101.0)
    assert fibre["measured"] == [
        {"mass_g": 100.0, "mass_marks": []},
        {"mass_g": 104.0, "mass_marks": [{"strip_share": 0.5, "mass_share": 0.52}]},
        {"mass_g": 100.0, "mass_marks": []},
        {"mass_g": 100.0, "mass_marks": []},
    ]
