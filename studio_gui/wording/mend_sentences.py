"""What the mends say: a label for a button, and a line with what the mend does and costs.

The rule of this module: every mend code has one label and one cost here. A label begins with what to do; a
cost names whatever else changes, or that nothing does.
"""

from __future__ import annotations

from dataclasses import dataclass

from studio_gui.domain.ranges import exceeds
from studio_gui.wording.naming import section_name
from studio_gui.wording.quantities import SHARE, shown_briefly
from studio_gui.wording.told import Telling, Told


@dataclass(frozen=True, slots=True)
class MendWords:
    """The label and the cost of one mend code."""

    label: Telling
    cost: Telling


def _is_shared(told: Told) -> bool:
    """Tell whether other sections are painted with the same liquor as the section the mend speaks of."""
    section_id = told.text("section_id")
    sections = told.plan.sections if told.plan is not None else ()
    liquors = [section.liquor_id for section in sections if section.id == section_id]
    return any(section.liquor_id in liquors for section in sections if section.id != section_id)


def _depth_after(told: Told) -> str:
    """Say where more liquid takes the depth; where the depth is held, that it stays."""
    before, after = told.number("depth_pct_owf"), told.number("depth_after_pct_owf")
    if exceeds(after, before):
        return told.translate("Mends", "depth rises from {depth_pct_owf} to {depth_after_pct_owf}")
    return told.translate("Mends", "depth stays {depth_pct_owf}")


def _move_section_label(told: Told) -> str:
    sections = told.plan.sections if told.plan is not None else ()
    before = told.params.get("before")
    if told.plan is None or not isinstance(before, int) or before >= len(sections):
        return told.translate("Mends", "Move {section} to the end")
    other = section_name(told.plan, sections[before].id, told.tongue)
    return told.plus(other=other).translate("Mends", "Move {section} before {other}")


def _move_section_cost(told: Told) -> str:
    if told.number("count") == 0.0:
        return told.translate("Mends", "lengths stay; no edge is muddy then")
    return told.translate("Mends", "lengths stay; muddy edges left: {count}")


def _raise_uptake_cost(told: Told) -> str:
    return told.plus(depth=_depth_after(told)).translate(
        "Mends", "for every section that follows the fibre; here {depth}"
    )


def _raise_liquid_cost(told: Told) -> str:
    if "depth_pct_owf" in told.params:
        return told.plus(depth=_depth_after(told)).translate(
            "Mends", "liquid fixed for this section; {depth}"
        )
    return told.translate(
        "Mends", "liquid fixed for this section; neat stock, with no room for acid or water"
    )


def _lower_depth_label(told: Told) -> str:
    share = shown_briefly(SHARE, told.number("factor"), told.tongue)
    return told.plus(share=share).translate("Mends", "Settle for {share} of the depth")


def _lower_depth_cost(told: Told) -> str:
    if _is_shared(told):
        return told.translate("Mends", "paler, and still neat stock; the section gets a liquor of its own")
    return told.translate("Mends", "paler, and still neat stock, with no room for acid or water")


def _less_but_stronger_label(told: Told) -> str:
    if "stock_factor" in told.params:
        return told.translate("Mends", "Paint {liquid_ml} from stronger stocks")
    return told.translate("Mends", "Paint {liquid_ml}")


def _less_but_stronger_cost(told: Told) -> str:
    if "stock_factor" in told.params:
        return told.translate(
            "Mends",
            "the same dye takes a jar of {jar_pct}: stocks {stock_factor} times as strong, or stronger",
        )
    if not exceeds(told.number("liquid_ml"), told.number("dye_ml")):
        return told.translate(
            "Mends", "the same dye, so a jar of {jar_pct}: neat stock, no room for acid or water"
        )
    if _is_shared(told):
        return told.translate("Mends", "the same dye, so a jar of {jar_pct} of its own")
    return told.translate("Mends", "the same dye, so a jar of {jar_pct}; {let_down_ml} of it let-down")


def _acid_label(told: Told) -> str:
    if "still_uneven" in told.params:
        return told.translate("Mends", "Same acid in every jar")
    return told.translate("Mends", "{acid_g_per_l} acid in every jar")


def _acid_cost(told: Told) -> str:
    if told.params.get("still_uneven"):
        return told.translate(
            "Mends",
            "mix {acid_g_per_l} into every bottle; the acid will still differ {applied_ratio} times, as the"
            " ml/g do",
        )
    return told.translate("Mends", "mix {acid_g_per_l} into every bottle, dyes too")


def _acid_line_cost(told: Told) -> str:
    if told.params.get("still_uneven"):
        return told.translate(
            "Mends",
            "{stock} replaces let-down until every jar has {acid_g_per_l}; the acid will still differ"
            " {applied_ratio} times, as the ml/g do",
        )
    return told.translate("Mends", "{stock} replaces let-down until every jar has {acid_g_per_l}")


def _instead_cost(told: Told) -> str:
    return told.translate(
        "Mends",
        "the same rows are {length_m} long on the roving; all of them take {needed_g} of it, and there are"
        " {available_g}",
    )


MEND_WORDS: dict[str, MendWords] = {
    "spin-out": MendWords(
        lambda told: told.translate("Mends", "Spin out to {soak_ml_per_g}"),
        lambda told: told.translate("Mends", "a drier soak for the whole set; nothing to mix anew"),
    ),
    "less-but-stronger": MendWords(_less_but_stronger_label, _less_but_stronger_cost),
    "two-passes": MendWords(
        lambda told: told.translate("Mends", "Paint in two passes"),
        lambda told: told.translate(
            "Mends",
            "{first_ml} now; heat, cool, press out {press_out_ml}, then paint the other {second_pass_ml}",
        ),
    ),
    "wipe": MendWords(
        lambda told: told.translate("Mends", "Plan a wipe"),
        lambda told: told.translate(
            "Mends",
            "wiping out {wiped_ml} takes {dye_lost_share} of the dye: depth falls from {depth_pct_owf} to"
            " {depth_after_pct_owf}",
        ),
    ),
    "raise-uptake": MendWords(
        lambda told: told.translate("Mends", "Raise uptake to {uptake_ml_per_g}"),
        _raise_uptake_cost,
    ),
    "raise-liquid": MendWords(
        lambda told: told.translate("Mends", "Raise to {liquid_ml}"),
        _raise_liquid_cost,
    ),
    "lower-depth": MendWords(_lower_depth_label, _lower_depth_cost),
    "stronger-stock": MendWords(
        lambda told: told.translate("Mends", "Mix {stock} at {strength_g_per_l} or stronger"),
        lambda told: told.translate(
            "Mends", "depth and liquid stay; at exactly that strength the jar is neat stock"
        ),
    ),
    "same-as-acid-water": MendWords(
        lambda told: told.translate("Mends", "Same as acid water"),
        lambda told: told.translate(
            "Mends", "every bottle whose acid is not known counts as {acid_g_per_l}, as {stock} does"
        ),
    ),
    "acid-in-every-bottle": MendWords(_acid_label, _acid_cost),
    "acid-line": MendWords(
        lambda told: told.translate("Mends", "Acid as its own line"),
        _acid_line_cost,
    ),
    "even-the-liquid": MendWords(
        lambda told: told.translate("Mends", "Even out the liquid"),
        lambda told: told.translate(
            "Mends", "every jar has the same acid already; it is the ml/g that differ {applied_ratio} times"
        ),
    ),
    "take-out": MendWords(
        lambda told: told.translate("Mends", "Take it out"),
        lambda told: told.translate("Mends", "the section beside it grows into its place"),
    ),
    "make-enough": MendWords(
        lambda told: told.translate("Mends", "Make {made_ml}"),
        lambda told: told.translate("Mends", "nothing else changes"),
    ),
    "remove-stock": MendWords(
        lambda told: told.translate("Mends", "Take {stock} off the shelf"),
        lambda told: told.translate("Mends", "nothing else changes"),
    ),
    "remove-liquor": MendWords(
        lambda told: told.translate("Mends", "Remove liquor {liquor}"),
        lambda told: told.translate("Mends", "nothing else changes"),
    ),
    "bridge-with-liquor": MendWords(
        lambda told: told.translate("Mends", "Put {length_m} of {liquor} between them"),
        lambda told: told.translate("Mends", "half of it from each; both new edges stay clean"),
    ),
    "bridge-with-dye": MendWords(
        lambda told: told.translate("Mends", "Put {length_m} of {stock} between them"),
        lambda told: told.translate(
            "Mends", "a new liquor, {depth_pct_owf} deep; half of it from each; both new edges stay clean"
        ),
    ),
    "leave-gap": MendWords(
        lambda told: told.translate("Mends", "Leave a gap of {gap_m}"),
        lambda told: told.translate("Mends", "as wide as dye wicks; white fibre between them"),
    ),
    "move-section": MendWords(_move_section_label, _move_section_cost),
    "fold-by-weight": MendWords(
        lambda told: told.translate("Mends", "Fold by weight"),
        lambda told: told.translate(
            "Mends", "folds move to where legs weigh the same, and each leg gets marks of its own"
        ),
    ),
    "equal-halves": MendWords(
        lambda told: told.translate("Mends", "Move boundaries to equal grams"),
        lambda told: told.translate(
            "Mends", "boundaries that answer each other meet between them, by weight"
        ),
    ),
    "both-ends-instead": MendWords(
        lambda told: told.translate("Mends", "Plied from both ends of one ball"), _instead_cost
    ),
    "two-plies-instead": MendWords(
        lambda told: told.translate("Mends", "Split lengthwise into two plies"), _instead_cost
    ),
    "three-plies-instead": MendWords(
        lambda told: told.translate("Mends", "Split lengthwise into three plies"), _instead_cost
    ),
    "fractal-instead": MendWords(
        lambda told: told.translate("Mends", "Fractal, the stripes on its whole ply"), _instead_cost
    ),
    "chain-instead": MendWords(lambda told: told.translate("Mends", "Plied as a chain"), _instead_cost),
}

#: What is said on a button that mends several findings, `{count}` of them, in one way.
MEND_ALL_LABELS: dict[str, Telling] = {
    "raise-liquid": lambda told: told.translate("Mends", "Raise all {count}"),
    "less-but-stronger": lambda told: told.translate("Mends", "Less but stronger in all {count}"),
    "two-passes": lambda told: told.translate("Mends", "All {count} in two passes"),
    "wipe": lambda told: told.translate("Mends", "Plan a wipe for all {count}"),
    "lower-depth": lambda told: told.translate("Mends", "Settle for less depth in all {count}"),
    "take-out": lambda told: told.translate("Mends", "Take out all {count}"),
    "make-enough": lambda told: told.translate("Mends", "Make enough of all {count}"),
    "remove-stock": lambda told: told.translate("Mends", "Take all {count} off the shelf"),
    "remove-liquor": lambda told: told.translate("Mends", "Remove all {count}"),
}

UNKNOWN_MEND = MendWords(
    lambda told: told.translate("Mends", "Mend"),
    lambda told: told.translate("Mends", "This version has no words for it."),
)
