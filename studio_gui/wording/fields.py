"""What the fields of a plan are called, and what kind of quantity each holds.

The rule of this module: every field that a refusal can speak of has a name here, in the trade's words.
"""

from __future__ import annotations

from studio_gui.wording.quantities import (
    ACID,
    COUNT,
    DEPTH,
    LAY_LENGTH,
    MASS,
    PLAIN,
    ROVING_LENGTH,
    SHARE,
    STRENGTH,
    VOLUME,
    WETNESS,
    WIDTH,
    Kind,
)
from studio_gui.wording.translation import TRANSLATED, Tongue

#: The kind of every number in a plan, by the name of its range or field.
FIELD_KINDS: dict[str, Kind] = {
    "mass_g": MASS,
    "length_m": ROVING_LENGTH,
    "rovings": COUNT,
    "strip_share": SHARE,
    "mass_share": SHARE,
    "mass_marks": SHARE,
    "fold_position_m": ROVING_LENGTH,
    "fold_positions_m": ROVING_LENGTH,
    "overhang_m": LAY_LENGTH,
    "boundary_m": LAY_LENGTH,
    "boundaries": LAY_LENGTH,
    "gap_m": LAY_LENGTH,
    "uptake_ml_per_g": WETNESS,
    "applied_ml_per_g": WETNESS,
    "soak_ml_per_g": WETNESS,
    "limit_ml_per_g": WETNESS,
    "penetration_ml_per_g": WETNESS,
    "soak_acid_g_per_l": ACID,
    "acid_ratio_limit": PLAIN,
    "acid_floor_pct_owf": DEPTH,
    "wicking_mm": WIDTH,
    "strength_g_per_l": STRENGTH,
    "take_up_pct_owf": DEPTH,
    "acid_g_per_l": ACID,
    "depth_pct_owf": DEPTH,
    "parts": PLAIN,
    "fixed_ml": VOLUME,
    "wiped_ml": VOLUME,
    "second_pass_ml": VOLUME,
    "spare_share": SHARE,
    "dead_ml": VOLUME,
    "graduation_ml": VOLUME,
    "sample_g": MASS,
    "lightness": PLAIN,
    "green_to_red": PLAIN,
    "blue_to_yellow": PLAIN,
    "fade_steps": COUNT,
    "fade_strength": PLAIN,
}


def field_name(field: str, tongue: Tongue = TRANSLATED) -> str:
    """Return what a field is called at the start of a sentence; a general word for one that has no name."""
    name = _numbers(tongue).get(field) or _others(tongue).get(field)
    return name or tongue.translate("Fields", "This value")


def _numbers(tongue: Tongue) -> dict[str, str]:
    return {
        "mass_g": tongue.translate("Fields", "Weight of one roving"),
        "length_m": tongue.translate("Fields", "Length of one roving"),
        "rovings": tongue.translate("Fields", "Number of rovings"),
        "strip_share": tongue.translate("Fields", "Share of the length"),
        "mass_share": tongue.translate("Fields", "Share of the weight"),
        "fold_position_m": tongue.translate("Fields", "Place of a fold"),
        "overhang_m": tongue.translate("Fields", "Extra film"),
        "boundary_m": tongue.translate("Fields", "Place on the lay"),
        "gap_m": tongue.translate("Fields", "Gap or overlap"),
        "uptake_ml_per_g": tongue.translate("Fields", "Uptake"),
        "applied_ml_per_g": tongue.translate("Fields", "Liquid on the fibre"),
        "soak_ml_per_g": tongue.translate("Fields", "Soak"),
        "limit_ml_per_g": tongue.translate("Fields", "Holding limit"),
        "penetration_ml_per_g": tongue.translate("Fields", "Penetration limit"),
        "soak_acid_g_per_l": tongue.translate("Fields", "Acid of the soak water"),
        "acid_ratio_limit": tongue.translate("Fields", "Largest difference in acid"),
        "acid_floor_pct_owf": tongue.translate("Fields", "Least acid on the fibre"),
        "wicking_mm": tongue.translate("Fields", "Wicking width"),
        "strength_g_per_l": tongue.translate("Fields", "Strength of the stock"),
        "take_up_pct_owf": tongue.translate("Fields", "What the wool takes up"),
        "acid_g_per_l": tongue.translate("Fields", "Acid"),
        "depth_pct_owf": tongue.translate("Fields", "Depth of shade"),
        "parts": tongue.translate("Fields", "Parts of a liquor"),
        "fixed_ml": tongue.translate("Fields", "Liquid"),
        "wiped_ml": tongue.translate("Fields", "Wiped out"),
        "second_pass_ml": tongue.translate("Fields", "Second pass"),
        "spare_share": tongue.translate("Fields", "Spare"),
        "dead_ml": tongue.translate("Fields", "Dead volume"),
        "graduation_ml": tongue.translate("Fields", "Graduation"),
        "sample_g": tongue.translate("Fields", "Weight of the sample"),
        "lightness": tongue.translate("Fields", "L (lightness)"),
        "green_to_red": tongue.translate("Fields", "a (green to red)"),
        "blue_to_yellow": tongue.translate("Fields", "b (blue to yellow)"),
        "fade_steps": tongue.translate("Fields", "Steps of the crossfade"),
        "fade_strength": tongue.translate("Fields", "Times as strong"),
    }


def _others(tongue: Tongue) -> dict[str, str]:
    return {
        "title": tongue.translate("Fields", "Title"),
        "stock_name": tongue.translate("Fields", "Name of the stock"),
        "liquor_name": tongue.translate("Fields", "Name of the liquor"),
        "section_name": tongue.translate("Fields", "Name of the section"),
        "letter": tongue.translate("Fields", "Letter of the liquor"),
        "stock_id": tongue.translate("Fields", "Id of the stock"),
        "liquor_id": tongue.translate("Fields", "Id of the liquor"),
        "section_id": tongue.translate("Fields", "Id of the section"),
        "undyed_srgb": tongue.translate("Fields", "Colour of the undyed fibre"),
        "srgb": tongue.translate("Fields", "Colour of the swatch"),
        "fibre_srgb": tongue.translate("Fields", "Colour of the swatch’s fibre"),
        "swatches": tongue.translate("Fields", "Swatches"),
        "mass_marks": tongue.translate("Fields", "Marks of weight"),
        "fold_positions_m": tongue.translate("Fields", "Folds"),
        "stocks": tongue.translate("Fields", "Stocks"),
        "liquors": tongue.translate("Fields", "Liquors"),
        "sections": tongue.translate("Fields", "Sections"),
        "boundaries": tongue.translate("Fields", "Boundaries"),
        "depths": tongue.translate("Fields", "Depths of a liquor"),
        "acid_line": tongue.translate("Fields", "Acid as its own line"),
        "mixing": tongue.translate("Fields", "Way of mixing"),
        "matching": tongue.translate("Fields", "Way of folding"),
        "role": tongue.translate("Fields", "What the stock is"),
        "strength_known": tongue.translate("Fields", "How the strength is known"),
        "basis": tongue.translate("Fields", "What the liquor stands on"),
        "ladder_steps": tongue.translate("Fields", "Steps of the ladder"),
        "ladder_line": tongue.translate("Fields", "Line of the ladder"),
        "ladders": tongue.translate("Fields", "Saved ladders"),
        "ladder_name": tongue.translate("Fields", "Name of the ladder"),
    }
