"""The section map: a worksheet as JSON, for labels, spreadsheets and scripts.

The rule of this module: the map is a contract. Keys may be added, never renamed, and `VERSION` rises when one
changes its meaning. Every number is finite and unrounded; one that is not known leaves its key out. Amounts
are ml for the whole set of rovings; files are metric whatever the screen shows.

- ``sum(amounts_ml)`` is ``liquid_ml`` within 1e-9 relative; every stock a section takes is named, let-downs
  too.
- The first ``start_m`` is 0, every ``end_m`` the next ``start_m``, the last one ``lay_length_m``, exactly.
- Depth is before wiping; ``srgb`` is the colour at the section's middle, as it stays in the wool, without
  wicking.
- ``saturation`` is ``over`` where a section is both over and under; the checks list both.
- The text of a check is English.

Beyond what labels need there are ``fibre.matching`` and ``fibre.mass_marks`` (the top's unevenness, in shares
of one roving), ``acid`` (when to warn), ``acid_line`` (where the plan has one), ``totals``, ``boundaries``
(``gap_m``: above 0 unpainted, below 0 painted twice), every liquor's ``jars`` (a liquor by depth may need
several), and every section's ``letter`` and ``second_pass_ml``. ``fibre.measured`` has the rovings that were
weighed one by one, in their order; ``fibre.mass_g`` is then their mean. A folded lay has
``fibre.leg_marks_m``: for each leg, in spinning order, the metres from its outer end to every boundary,
of the mean roving.

What is done at the bench is *measured*: whole graduations, as on the liquor cards. Every jar has
``measured_ml`` (stock id to ml), their sum ``measured_total_ml``, ``spare_ml`` (what of it is not painted)
and ``points_off`` (most that a stock's share is off, in points of a hundred). Every stock has
``measured_need_ml``, the sum over the jars; one to be made has ``made_ml``, ``dye_g`` and ``acid_g``.
``bench.syringe_ml`` is there where a syringe is used. ``timetable`` has the minutes of each step, and
``start_min`` (after midnight) where a start was typed.

A stock is ``fluorescent`` when its swatches are met exactly and its mixes are guesses. A swatch that was
measured has its ``reflectance``, 0 to 2, on 31 bands from 400 to 700 nm.

``yarn`` is told in `studio_gui.export.section_map_yarn`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from studio_gui.domain.bottles import Bottle
from studio_gui.domain.cards import Card, need_as_measured_ml
from studio_gui.domain.checks.check import Check
from studio_gui.domain.colour.spaces import hex_from_srgb
from studio_gui.domain.colour.swatches import Swatch
from studio_gui.domain.fibre import MassMark
from studio_gui.domain.legs import leg_marks
from studio_gui.domain.liquors import Liquor
from studio_gui.domain.plan import Plan
from studio_gui.domain.stocks import Stock
from studio_gui.domain.timetable import STEPS, Timetable
from studio_gui.domain.worksheet import Worksheet
from studio_gui.export.section_map_yarn import known, yarn_part
from studio_gui.storage.strict_json import Json, serialise
from studio_gui.wording.sentences import check_text

DOCUMENT = "section-map"
VERSION = 1


def section_map_bytes(sheet: Worksheet) -> bytes:
    """Return `section_map` as indented UTF-8 JSON; the same plan always gives the same bytes."""
    return serialise(section_map(sheet))


def section_map(sheet: Worksheet) -> dict[str, Json]:
    """Return the section map of a worksheet, as the rule of this module has it."""
    plan = sheet.plan
    return known(
        {
            "document": DOCUMENT,
            "version": VERSION,
            "title": plan.title,
            "fibre": _fibre(sheet),
            "liquid": _liquid(plan),
            "acid": {"ratio": float(plan.acid.ratio), "floor_pct_owf": float(plan.acid.floor_pct_owf)},
            "acid_line": _acid_line(plan),
            "wicking_mm": float(plan.wicking_mm),
            "mixing": plan.mixing,
            "bench": _bench(plan),
            "totals": {
                "fibre_g": sheet.totals.fibre_g,
                "liquid_ml": sheet.totals.liquid_ml,
                "jars_ml": float(sheet.totals.jars_ml),
            },
            "stocks": _stocks(sheet),
            "liquors": [_liquor(sheet, liquor) for liquor in plan.liquors],
            "sections": [_section(sheet, index) for index in range(len(plan.sections))],
            "boundaries": [
                {"position_m": float(boundary.position_m), "gap_m": float(boundary.gap_m)}
                for boundary in plan.boundaries
            ],
            "yarn": yarn_part(sheet),
            "timetable": _timetable(plan.timetable),
            "checks": [_check(check, plan) for check in sheet.checks],
        }
    )


def _fibre(sheet: Worksheet) -> Json:
    fibre, lay = sheet.plan.fibre, sheet.plan.lay
    return known(
        {
            "mass_g": float(fibre.mass_g),
            "length_m": float(fibre.length_m),
            "rovings": fibre.rovings,
            "passes": lay.passes,
            "fold_positions_m": [float(place) for place in lay.fold_positions_m],
            "matching": lay.matching,
            "mass_marks": _marks(fibre.mass_marks),
            "measured": [
                {"mass_g": float(one.mass_g), "mass_marks": _marks(one.mass_marks)} for one in fibre.measured
            ],
            "lay_length_m": float(sheet.plan.lay_length_m),
            "film_length_m": float(sheet.totals.film_length_m),
            "overhang_m": float(lay.overhang_m),
            "undyed_srgb": fibre.undyed_srgb,
            "leg_marks_m": leg_marks(sheet.plan).tolist() if lay.passes > 1 else None,
        }
    )


def _marks(marks: Sequence[MassMark]) -> list[Json]:
    return [{"strip_share": float(mark.strip_share), "mass_share": float(mark.mass_share)} for mark in marks]


def _liquid(plan: Plan) -> Json:
    liquid = plan.liquid
    return known(
        {
            "uptake_ml_per_g": float(liquid.uptake_ml_per_g),
            "soak_ml_per_g": float(liquid.soak_ml_per_g),
            "limit_ml_per_g": float(liquid.limit_ml_per_g),
            "penetration_ml_per_g": float(liquid.penetration_ml_per_g),
            "soak_acid_g_per_l": _number(liquid.soak_acid_g_per_l),
        }
    )


def _acid_line(plan: Plan) -> Json:
    line = plan.acid_line
    return None if line is None else {"stock_id": line.stock_id, "jar_g_per_l": float(line.jar_g_per_l)}


def _bench(plan: Plan) -> Json:
    return known(
        {
            "spare_share": float(plan.bench.spare_share),
            "dead_ml": float(plan.bench.dead_ml),
            "graduation_ml": float(plan.bench.graduation_ml),
            "syringe_ml": _number(plan.bench.syringe_ml),
        }
    )


def _timetable(timetable: Timetable) -> Json:
    minutes: dict[str, Json] = {f"{step}_min": float(timetable.minutes(step)) for step in STEPS}
    return known(minutes | {"start_min": _number(timetable.start_min)})


def _stocks(sheet: Worksheet) -> list[Json]:
    bottles = {bottle.stock_id: bottle for bottle in sheet.bottles}
    need_as_measured = need_as_measured_ml(sheet.plan, sheet.cards)
    needs = zip(sheet.plan.stocks, sheet.make_up.need_ml.tolist(), need_as_measured, strict=True)
    return [
        known(_stock(stock, need_ml, measured_ml) | _made(bottles.get(stock.id)))
        for stock, need_ml, measured_ml in needs
    ]


def _stock(stock: Stock, need_ml: float, measured_need_ml: float) -> dict[str, Json]:
    return {
        "id": stock.id,
        "name": stock.name,
        "role": stock.role,
        "strength_g_per_l": float(stock.strength_g_per_l),
        "strength_known": stock.strength_known,
        "take_up_pct_owf": float(stock.take_up_pct_owf),
        "acid_g_per_l": _number(stock.acid_g_per_l),
        "need_ml": need_ml,
        "measured_need_ml": measured_need_ml,
        "fluorescent": stock.is_fluorescent,
        "swatches": [_swatch(swatch) for swatch in stock.swatches],
    }


def _swatch(swatch: Swatch) -> Json:
    return known(
        {
            "depth_pct_owf": float(swatch.depth_pct_owf),
            "srgb": swatch.srgb,
            "fibre_srgb": swatch.fibre_srgb,
            "reflectance": None if swatch.reflectance is None else list(swatch.reflectance),
        }
    )


def _made(bottle: Bottle | None) -> dict[str, Json]:
    if bottle is None:
        return {}
    return {"made_ml": float(bottle.made_ml), "dye_g": bottle.dye_g, "acid_g": _number(bottle.acid_g)}


def _liquor(sheet: Worksheet, liquor: Liquor) -> Json:
    cards = [card for card in sheet.cards if card.jar.liquor_id == liquor.id]
    jars = [card.jar for card in cards]
    return {
        "id": liquor.id,
        "letter": liquor.letter,
        "name": liquor.name,
        "basis": liquor.basis,
        "jar_ml": sum((float(jar.jar_ml) for jar in jars), 0.0),
        "sections_ml": sum((jar.sections_ml for jar in jars), 0.0),
        "jars": [_jar(sheet.plan, card) for card in cards],
    }


def _jar(plan: Plan, card: Card) -> Json:
    jar = card.jar
    return {
        "section_ids": list(jar.section_ids),
        "sections_ml": jar.sections_ml,
        "jar_ml": float(jar.jar_ml),
        "amounts_ml": _amounts(plan, jar.amounts_ml.tolist()),
        "measured_ml": {amount.stock_id: amount.measured_ml for amount in card.amounts},
        "measured_total_ml": card.total_ml,
        "spare_ml": card.spare_ml,
        "points_off": card.points_off,
    }


def _section(sheet: Worksheet, index: int) -> Json:
    plan, figures = sheet.plan, sheet.figures
    section = plan.sections[index]
    amounts_ml = _amounts(plan, figures.amounts_ml[index].tolist())
    depths = zip(plan.dyes, figures.depth_pct_owf[index].tolist(), strict=True)
    return known(
        {
            "id": section.id,
            "name": section.name,
            "liquor_id": section.liquor_id,
            "letter": plan.liquors[figures.liquor_index[index]].letter,
            "start_m": float(figures.edges_m[index]),
            "end_m": float(figures.edges_m[index + 1]),
            "locked": section.locked,
            "fibre_g": float(figures.fibre_g[index]),
            "liquid_mode": section.liquid_mode,
            "liquid_ml": float(figures.liquid_ml[index]),
            "wiped_ml": float(figures.wiped_ml[index]),
            "second_pass_ml": float(section.second_pass_ml),
            "amounts_ml": amounts_ml,
            "depth_pct_owf": {dye.id: depth for dye, depth in depths if dye.id in amounts_ml},
            "acid_pct_owf": _number(float(figures.acid_pct_owf[index])),
            "applied_ml_per_g": float(figures.applied_ml_per_g[index]),
            "held_ml_per_g": float(figures.held_ml_per_g[index]),
            "free_ml": float(figures.free_ml[index]),
            "saturation": figures.saturation(index),
            "srgb": hex_from_srgb(sheet.colours.srgb[index]),
        }
    )


def _amounts(plan: Plan, amounts_ml: list[float]) -> dict[str, Json]:
    return {stock.id: ml for stock, ml in zip(plan.stocks, amounts_ml, strict=True) if ml > 0.0}


def _check(check: Check, plan: Plan) -> Json:
    return {
        "code": check.code,
        "severity": check.severity,
        "section_ids": list(check.section_ids),
        "params": known(dict(check.params)),
        "text": check_text(check, plan),
    }


def _number(value: float | None) -> float | None:
    """Return `value`, None where it is not known: the domain writes that as None or as nan."""
    return None if value is None or math.isnan(value) else float(value)
