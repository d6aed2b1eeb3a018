"""Applying a mend that a check offers.

The rule of this module: one mend, one edit; a mend never changes a section it does not name, except where the
mend itself speaks of the whole plan.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from studio_gui.domain.checks.check import Mend
from studio_gui.domain.edits.inputs import set_liquid
from studio_gui.domain.edits.liquors import own_liquor, remove_liquor, replace_liquor
from studio_gui.domain.edits.sections import change_section
from studio_gui.domain.edits.stocks import remove_stock, set_acid_everywhere
from studio_gui.domain.errors import EditRefused
from studio_gui.domain.figures import section_figures
from studio_gui.domain.liquors import Part
from studio_gui.domain.plan import AcidLine, Plan


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


def _number(mend: Mend, name: str) -> float:
    value = mend.params[name]
    assert isinstance(value, (int, float))
    return float(value)


def _name(mend: Mend, name: str) -> str:
    value = mend.params[name]
    assert isinstance(value, str)
    return value


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
    liquor = plan.liquor(plan.section(section_id).liquor_id)
    if liquor.basis == "parts":
        amounts = section_figures(plan).amounts_ml[plan.section_index(section_id)]
        ml = dict(zip((stock.id for stock in plan.stocks), amounts.tolist(), strict=True))
        let_down = sum(ml[part.stock_id] for part in liquor.parts if not plan.stock(part.stock_id).is_dye)
        keep = max(liquid_ml - (sum(ml[part.stock_id] for part in liquor.parts) - let_down), 0.0) / let_down
        plan = own_liquor(plan, section_id)
        own = plan.liquor(plan.section(section_id).liquor_id)
        parts = tuple(
            Part(p.stock_id, ml[p.stock_id] * (1.0 if plan.stock(p.stock_id).is_dye else keep))
            for p in own.parts
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
    return set_acid_everywhere(replace(plan, acid_line=None), _number(mend, "acid_g_per_l"))


def _acid_line(plan: Plan, mend: Mend) -> Plan:
    return replace(plan, acid_line=AcidLine(_name(mend, "stock_id"), _number(mend, "acid_g_per_l")))


def _remove_stock(plan: Plan, mend: Mend) -> Plan:
    return remove_stock(plan, _name(mend, "stock_id"))


def _remove_liquor(plan: Plan, mend: Mend) -> Plan:
    return remove_liquor(plan, _name(mend, "liquor_id"))


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
    "remove-stock": _remove_stock,
    "remove-liquor": _remove_liquor,
}
