"""What the checks say: a title (what and where) and a reason (why; and what to do, where no mend is offered).

The rule of this module: every check code has one title and one reason here. Quiet and specific: the numbers
of this plan, in the words of the bench.
"""

from __future__ import annotations

from dataclasses import dataclass

from studio_gui.domain.checks.check import Check
from studio_gui.domain.plan import Plan
from studio_gui.wording.naming import neighbour_letters, section_letters, section_name
from studio_gui.wording.numbers import UNKNOWN
from studio_gui.wording.quantities import DEPTH, shown
from studio_gui.wording.told import Telling, Told
from studio_gui.wording.translation import Tongue

#: Dye that creeps onto a neighbour is worth saying from here on, % owf.
_CREEP_TO_SAY_PCT_OWF = 0.05


@dataclass(frozen=True, slots=True)
class CheckWords:
    """The title and the reason of one check code."""

    title: Telling
    reason: Telling


def told_of(check: Check, plan: Plan, tongue: Tongue) -> Told:
    """Return what there is to tell of a check."""
    letters = section_letters(plan, check.section_ids, tongue)
    mended = {"has_mends": bool(check.mends)}
    return Told({**check.params, **mended}, tongue, plan, check.section_ids, {"letters": letters})


def _over_title(told: Told) -> str:
    if told.number("free_ml") > 0.0:
        return told.translate("Checks", "{section}: {free_ml} over the brim")
    return told.translate("Checks", "{section}: {free_before_wiping_ml} over the brim, to be wiped out")


def _over_reason(told: Told) -> str:
    if not told.number("free_ml") > 0.0:
        return told.translate("Checks", "The planned wipe of {wiped_ml} takes it.")
    neighbours = neighbour_letters(told.plan, told.section_ids[0], told.tongue) if told.plan else ""
    if not neighbours:
        return told.translate("Checks", "It will pool under the roving.")
    # nan, where there is no neighbour on that side, is never the larger
    creep = max(0.0, told.number("creep_before_pct_owf"), told.number("creep_after_pct_owf"))
    told = told.plus(neighbours=neighbours, creep=shown(DEPTH, creep, told.tongue))
    if creep < _CREEP_TO_SAY_PCT_OWF:
        return told.translate("Checks", "It will creep into {neighbours}.")
    return told.translate("Checks", "It will creep into {neighbours}, and dye them up to {creep} deep.")


def _under_reason(told: Told) -> str:
    if told.params["has_mends"]:
        return told.translate("Checks", "{applied_ml_per_g}; the core wets at {penetration_ml_per_g}.")
    return told.translate(
        "Checks",
        "{applied_ml_per_g}; the core wets at {penetration_ml_per_g}, which on this soak is over the brim."
        " Spin out drier, or measure both limits again.",
    )


def _acid_unknown_title(told: Told) -> str:
    if not told.text("stocks"):
        return told.translate("Checks", "Soak water: acid not known")
    if told.params.get("soak_water"):
        return told.translate("Checks", "{stocks} and the soak water: acid not known")
    return told.translate("Checks", "{stocks}: acid not known")


def _acid_unknown_reason(told: Told) -> str:
    if told.params["has_mends"] and not told.params.get("soak_water"):
        return told.translate("Checks", "The acid on {letters} cannot be reckoned.")
    return told.translate(
        "Checks", "The acid on {letters} cannot be reckoned. Enter it; 0 where there is none."
    )


def _acid_uneven_title(told: Told) -> str:
    told = _lowest_and_highest(told)
    if "ratio" not in told.params:
        return told.translate("Checks", "No acid on {lowest}, {highest_pct_owf} on {highest}")
    return told.translate("Checks", "Acid differs {ratio} times, {lowest} to {highest}")


def _acid_uneven_reason(told: Told) -> str:
    if "ratio" not in told.params:
        return told.translate("Checks", "The dye will strike unevenly.")
    return _lowest_and_highest(told).translate(
        "Checks",
        "{lowest_pct_owf} on {lowest}, {highest_pct_owf} on {highest}: the dye will strike unevenly.",
    )


def _lowest_and_highest(told: Told) -> Told:
    """Return `told` with the two sections' letters, or their names where both have the same letter."""
    ids = told.text("lowest_id"), told.text("highest_id")
    if told.plan is None:
        return told
    lowest, highest = (section_letters(told.plan, [section_id], told.tongue) for section_id in ids)
    if lowest == highest:
        lowest, highest = (section_name(told.plan, section_id, told.tongue) for section_id in ids)
    return told.plus(lowest=lowest or UNKNOWN, highest=highest or UNKNOWN)


def _stock_unused_reason(told: Told) -> str:
    if told.params["has_mends"]:
        return told.translate("Checks", "No liquor has any of it.")
    return told.translate("Checks", "It is in a liquor, but no section takes any of it.")


def _halves_differ_title(told: Told) -> str:
    if "liquor_id" in told.params:
        what = told.translate("Checks", "Halves slide {slide_singles_m} apart")
    else:
        what = told.translate("Checks", "Halves differ {difference_g} ({difference_share})")
    if "roving" in told.params:
        return told.plus(what=what).translate("Checks", "Roving {roving}: {what}")
    return what


def _halves_differ_reason(told: Told) -> str:
    """Say what comes of it, in singles, and what would mend it."""
    left = told.number("left_singles_m") > 0.0
    if "liquor_id" in told.params:
        what = told.translate("Checks", "At the end of {liquor} one half is that far behind the other.")
        if left:
            more = told.translate("Checks", "{left_singles_m} of singles stay on one bobbin.")
            what = f"{what} {more}"
    elif left:
        what = told.translate(
            "Checks", "{first_g} and {second_g}: {left_singles_m} of singles stay on one bobbin."
        )
    else:
        what = told.translate(
            "Checks", "{first_g} and {second_g}: colours slide up to {slide_singles_m} of singles apart."
        )
    mend = (
        told.translate("Checks", "Fold by weight, not by length.")
        if told.params.get("folded")
        else told.translate("Checks", "Move boundaries to equal grams.")
    )
    return f"{what} {mend}"


def _stripe_too_short_reason(told: Told) -> str:
    if told.params["has_mends"]:
        return told.translate(
            "Checks",
            "{shortest_m} on the roving at the shortest; under {least_m}, which is 1.5 staples, the fibres of"
            " its neighbours reach over it. Make it longer, or spin the same rows otherwise.",
        )
    return told.translate(
        "Checks",
        "{shortest_m} on the roving at the shortest; under {least_m}, which is 1.5 staples, the fibres of its"
        " neighbours reach over it. Make it longer.",
    )


CHECK_WORDS: dict[str, CheckWords] = {
    "over": CheckWords(_over_title, _over_reason),
    "under": CheckWords(
        lambda told: told.translate("Checks", "{section}: core may stay white"),
        _under_reason,
    ),
    "depth-out-of-reach": CheckWords(
        lambda told: told.translate("Checks", "{section}: shade out of reach"),
        lambda told: told.translate(
            "Checks",
            "It takes {needed_ml} of stock, and {liquid_ml} is painted: {reach_share} of the depth.",
        ),
    ),
    "no-room-for-let-down": CheckWords(
        lambda told: told.translate("Checks", "{section}: neat stock, no room for acid or water"),
        lambda told: told.translate(
            "Checks",
            "{needed_ml} of its {liquid_ml} is stock. Mix a stronger stock, or paint more.",
        ),
    ),
    "depth-over-take-up": CheckWords(
        lambda told: told.translate("Checks", "{stock}: deeper than the wool takes up"),
        lambda told: told.translate(
            "Checks",
            "{depth_pct_owf} on {letters}, the wool takes {take_up_pct_owf}: the rinse will not run clear.",
        ),
    ),
    "mix-is-a-guess": CheckWords(
        lambda told: told.translate("Checks", "{stock} is fluorescent: its mixes are guesses"),
        lambda told: told.translate(
            "Checks",
            "On {letters} it is mixed with other dyes, which take up some of the light that it sends out; how"
            " much is not known. Dye a sample of the mix.",
        ),
    ),
    "acid-unknown": CheckWords(_acid_unknown_title, _acid_unknown_reason),
    "acid-uneven": CheckWords(_acid_uneven_title, _acid_uneven_reason),
    "acid-too-low": CheckWords(
        lambda told: told.translate("Checks", "Too little acid on {sections}"),
        lambda told: told.translate(
            "Checks", "{lowest_pct_owf} at the lowest, {floor_pct_owf} wanted: dye may stay in the rinse."
        ),
    ),
    "acid-line-short": CheckWords(
        lambda told: told.translate("Checks", "No room for the acid in {sections}"),
        lambda told: told.translate(
            "Checks",
            "{wanted_g_per_l} is wanted in every jar; with so little let-down to replace it comes to"
            " {lowest_g_per_l}. Use a stronger acid stock, or stronger dye stocks.",
        ),
    ),
    "section-unpaintable": CheckWords(
        lambda told: told.translate("Checks", "{section}: too short to paint"),
        lambda told: told.translate(
            "Checks",
            "{length_m} long; under {least_m} what a gram of it gets means nothing. Make it longer, or take"
            " it out.",
        ),
    ),
    "section-short": CheckWords(
        lambda told: told.translate("Checks", "Too short to keep a clear colour: {sections}"),
        lambda told: told.translate(
            "Checks",
            "{shortest_m} at the shortest; under {least_m} both edges wick together. Make it longer, or paint"
            " drier and enter the narrower wicking width.",
        ),
    ),
    "halves-differ": CheckWords(_halves_differ_title, _halves_differ_reason),
    "edge-muddy": CheckWords(
        lambda told: told.translate("Checks", "Muddy where they meet: {sections}"),
        lambda told: told.translate(
            "Checks",
            "Mixed half and half over {wicking_mm}, they keep {kept_share} of the duller one’s colourfulness;"
            " under {limit_share} counts as muddy. Indicative: mixes of swatches can be off.",
        ),
    ),
    "stock-unused": CheckWords(
        lambda told: told.translate("Checks", "{stock}: not used"),
        _stock_unused_reason,
    ),
    "liquor-unused": CheckWords(
        lambda told: told.translate("Checks", "Liquor {liquor}: not painted anywhere"),
        lambda told: told.translate("Checks", "No section uses it."),
    ),
    "liquor-empty": CheckWords(
        lambda told: told.translate("Checks", "Liquor {liquor}: nothing in it"),
        lambda told: told.translate("Checks", "{sections} will stay undyed. Enter amounts, such as 12 + 38."),
    ),
    "two-jars": CheckWords(
        lambda told: told.translate("Checks", "Liquor {liquor}: {count} jars"),
        lambda told: told.translate(
            "Checks",
            "One depth at different ml/g takes a jar for each. Give {sections} the same ml/g to mix it once.",
        ),
    ),
    "leftover": CheckWords(
        lambda told: told.translate("Checks", "Ply {ply}: {left_singles_m} of singles left over"),
        lambda told: told.translate(
            "Checks",
            "{left_g}, {left_share} of the longest ply, stay on the bobbin when the shortest is empty. Even"
            " out what the plies weigh, or wind off less, before spinning.",
        ),
    ),
    "stripe-too-short": CheckWords(
        lambda told: told.translate("Checks", "No clean stripe on this staple: {sections}"),
        _stripe_too_short_reason,
    ),
    "stock-short": CheckWords(
        lambda told: told.translate("Checks", "{stock}: {short_ml} short"),
        lambda told: told.translate("Checks", "The jars take {need_ml} of it, and {made_ml} is to be made."),
    ),
    "strength-by-spoon": CheckWords(
        lambda told: told.translate("Checks", "{stock}: measured by spoon"),
        lambda told: told.translate(
            "Checks",
            "Level spoons differ by a tenth or more, and the depth with them. Weigh the dye to be sure.",
        ),
    ),
}

UNKNOWN_CHECK = CheckWords(
    lambda told: (
        told.translate("Checks", "Something to look at")
        if not told.section_ids
        else told.translate("Checks", "{sections}: something to look at")
    ),
    lambda told: told.translate("Checks", "This version has no words for it."),
)
