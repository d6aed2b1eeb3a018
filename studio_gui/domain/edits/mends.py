"""Applying a mend that a check offers.

The rule of this module: one mend, one edit; a mend never changes a section it does not name, except where the
mend itself speaks of the whole plan.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import cast

from studio_gui.domain.checks.check import Check, Mend
from studio_gui.domain.edits.boundaries import set_gap
from studio_gui.domain.edits.bridges import insert_bridge, insert_bridge_of_dye
from studio_gui.domain.edits.halves import equal_halves, fold_halves_by_weight
from studio_gui.domain.edits.inputs import set_liquid
from studio_gui.domain.edits.liquors import own_liquor, remove_liquor, replace_liquor
from studio_gui.domain.edits.order import move_sections
from studio_gui.domain.edits.removal import remove_sections
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.edits.stocks import change_stock, remove_stock, set_acid_everywhere
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.figures import section_figures
from studio_gui.domain.plan import AcidLine, Plan

#: Mends that change one section, stock or liquor, and nothing that another of them goes by.
EACH_ON_ITS_OWN = (
    "raise-liquid",
    "less-but-stronger",
    "two-passes",
    "wipe",
    "lower-depth",
    "take-out",
    "make-enough",
    "remove-stock",
    "remove-liquor",
)


def apply_mend(plan: Plan, mend: Mend) -> Plan:
    """Return the plan with `mend` applied.

    Raises
    ------
    EditRefused
        ``mend-is-advice`` when the mend cannot be applied by the program; else as the edit it stands for.
    """
    edit = _EDITS.get(mend.code)
    if edit is None or not mend.one_click:
        raise EditRefused("mend-is-advice", mend=mend.code)
    return edit(plan, mend)


def apply_mends(plan: Plan, mends: Iterable[Mend]) -> Plan:
    """Return the plan with mends of several findings applied one after the other; as `apply_mend`."""
    for mend in mends:
        plan = apply_mend(plan, mend)
    return plan


def mends_for_all(checks: Sequence[Check]) -> tuple[tuple[Mend, ...], ...]:
    """Return the ways to mend several findings of one code at once, each as its mends in their order.

    Only mends that keep to what they name can be put together: what one of them does leaves the others right.
    """
    if len(checks) < 2:
        return ()
    ways = []
    for code in (mend.code for mend in checks[0].mends):
        way = tuple(mend for check in checks for mend in check.mends if mend.code == code and mend.one_click)
        if code in EACH_ON_ITS_OWN and len(way) == len(checks):
            ways.append(way)
    return tuple(ways)


def _number(mend: Mend, name: str) -> float:
    return cast("float", mend.params[name])


def _name(mend: Mend, name: str) -> str:
    return cast("str", mend.params[name])


def _spin_out(plan: Plan, mend: Mend) -> Plan:
    return set_liquid(plan, soak_ml_per_g=_number(mend, "soak_ml_per_g"))


def _raise_uptake(plan: Plan, mend: Mend) -> Plan:
    return set_liquid(plan, uptake_ml_per_g=_number(mend, "uptake_ml_per_g"))


def _raise_liquid(plan: Plan, mend: Mend) -> Plan:
    return change_section(plan, _name(mend, "section_id"), fixed_ml=_number(mend, "liquid_ml"))


def _two_passes(plan: Plan, mend: Mend) -> Plan:
    return change_section(plan, _name(mend, "section_id"), second_pass_ml=_number(mend, "second_pass_ml"))


def _wipe(plan: Plan, mend: Mend) -> Plan:
    return change_section(plan, _name(mend, "section_id"), wiped_ml=_number(mend, "wiped_ml"))


def _less_but_stronger(plan: Plan, mend: Mend) -> Plan:
    """Keep the dye, take the let-down away; a shared liquor on parts is copied for this section first."""
    section_id, liquid_ml = _name(mend, "section_id"), _number(mend, "liquid_ml")
    if plan.liquor(plan.section(section_id).liquor_id).basis == "parts":
        now_ml = float(section_figures(plan).liquid_ml[plan.section_index(section_id)])
        plan = own_liquor(plan, section_id)
        own = plan.liquor(plan.section(section_id).liquor_id)
        dye = sum(part.parts for part in own.parts if plan.stock(part.stock_id).is_dye)
        let_down = own.total_parts - dye
        kept = max(own.total_parts * liquid_ml / now_ml - dye, 0.0) / let_down if let_down > 0.0 else 0.0
        parts = tuple(
            part if plan.stock(part.stock_id).is_dye else replace(part, parts=part.parts * kept)
            for part in own.parts
        )
        plan = replace_liquor(plan, replace(own, parts=parts))
    return change_section(plan, section_id, fixed_ml=liquid_ml)


def _lower_depth(plan: Plan, mend: Mend) -> Plan:
    section_id, factor = _name(mend, "section_id"), _number(mend, "factor")
    plan = own_liquor(plan, section_id)
    own = plan.liquor(plan.section(section_id).liquor_id)
    depths = tuple(replace(depth, depth_pct_owf=depth.depth_pct_owf * factor) for depth in own.depths)
    return replace_liquor(plan, replace(own, depths=depths))


def _same_as_acid_water(plan: Plan, mend: Mend) -> Plan:
    unknown = [stock.id for stock in plan.stocks if stock.acid_g_per_l is None]
    return set_acid_everywhere(plan, _number(mend, "acid_g_per_l"), unknown)


def _acid_in_every_bottle(plan: Plan, mend: Mend) -> Plan:
    """Give every bottle that liquors are made of the same acid; the one of the acid line goes out of use."""
    in_liquors = {stock_id for liquor in plan.liquors for stock_id in liquor.stock_ids}
    return set_acid_everywhere(replace(plan, acid_line=None), _number(mend, "acid_g_per_l"), in_liquors)


def _acid_line(plan: Plan, mend: Mend) -> Plan:
    return replace(plan, acid_line=AcidLine(_name(mend, "stock_id"), _number(mend, "acid_g_per_l")))


def _take_out(plan: Plan, mend: Mend) -> Plan:
    return remove_sections(plan, [_name(mend, "section_id")])


def _make_enough(plan: Plan, mend: Mend) -> Plan:
    return change_stock(plan, _name(mend, "stock_id"), made_ml=_number(mend, "made_ml"))


def _remove_stock(plan: Plan, mend: Mend) -> Plan:
    return remove_stock(plan, _name(mend, "stock_id"))


def _remove_liquor(plan: Plan, mend: Mend) -> Plan:
    return remove_liquor(plan, _name(mend, "liquor_id"))


def _bridge_with_liquor(plan: Plan, mend: Mend) -> Plan:
    index = plan.section_index(_name(mend, "section_id"))
    return insert_bridge(plan, index, _name(mend, "liquor_id"), _number(mend, "length_m"))


def _bridge_with_dye(plan: Plan, mend: Mend) -> Plan:
    index = plan.section_index(_name(mend, "section_id"))
    depth, length_m = _number(mend, "depth_pct_owf"), _number(mend, "length_m")
    return insert_bridge_of_dye(plan, index, _name(mend, "stock_id"), depth, length_m)


def _leave_gap(plan: Plan, mend: Mend) -> Plan:
    return set_gap(plan, plan.section_index(_name(mend, "section_id")), _number(mend, "gap_m"))


def _move_section(plan: Plan, mend: Mend) -> Plan:
    index = plan.section_index(_name(mend, "section_id"))
    return move_sections(plan, index, index, round(_number(mend, "before")))


_EDITS: dict[str, Callable[[Plan, Mend], Plan]] = {
    "spin-out": _spin_out,
    "raise-uptake": _raise_uptake,
    "raise-liquid": _raise_liquid,
    "two-passes": _two_passes,
    "wipe": _wipe,
    "less-but-stronger": _less_but_stronger,
    "lower-depth": _lower_depth,
    "same-as-acid-water": _same_as_acid_water,
    "acid-in-every-bottle": _acid_in_every_bottle,
    "acid-line": _acid_line,
    "take-out": _take_out,
    "make-enough": _make_enough,
    "remove-stock": _remove_stock,
    "remove-liquor": _remove_liquor,
    "bridge-with-liquor": _bridge_with_liquor,
    "bridge-with-dye": _bridge_with_dye,
    "leave-gap": _leave_gap,
    "move-section": _move_section,
    "fold-by-weight": lambda plan, _: fold_halves_by_weight(plan),
    "equal-halves": lambda plan, _: equal_halves(plan),
}
