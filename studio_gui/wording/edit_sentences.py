"""What an edit that is refused is answered with: what stands in its way, and how to make room.

The rule of this module: every code of a refused edit has one sentence here.
"""

from __future__ import annotations

from studio_gui.wording.naming import section_name
from studio_gui.wording.told import Telling, Told


def _let_down_runs_out(told: Told) -> str:
    if not told.number("let_down_parts") > 0.0:
        return told.translate(
            "Refusals",
            "Liquor {liquor} is neat stock, with no let-down to give way to a weaker one. Mix a stronger"
            " stock, or keep the parts and let the depth fall.",
        )
    return told.translate(
        "Refusals",
        "Liquor {liquor} has {let_down_parts} parts of let-down and would have to give up {needed_parts}."
        " Mix a stronger stock, or keep the parts and let the depth fall.",
    )


def _depth_unreachable(told: Told) -> str:
    if told.params.get("needed_strength_g_per_l") is None:
        told = told.plus(first=told.translate("Refusals", "Mix stronger stocks"))
    else:
        told = told.plus(
            first=told.translate("Refusals", "Mix {stock} at {needed_strength_g_per_l} or stronger")
        )
    return told.translate(
        "Refusals",
        "{section}: depth {wanted_pct_owf} is out of reach. It takes {needed_ml} of stock, and {liquid_ml}"
        " is painted ({applied_ml_per_g}). {first}, or paint {needed_ml_per_g}, or enter a depth of at most"
        " {reach_pct_owf}.",
    )


def _no_hue_at_hand(told: Told) -> str:
    towards = {
        "redder": told.translate("Refusals", "redder"),
        "greener": told.translate("Refusals", "greener"),
        "yellower": told.translate("Refusals", "yellower"),
        "bluer": told.translate("Refusals", "bluer"),
    }.get(told.text("direction"), told.text("direction"))
    return told.plus(towards=towards).translate(
        "Refusals", "One graduation of any bottle at hand makes liquor {liquor} no {towards}."
    )


def _no_depth_at_hand(told: Told) -> str:
    if told.text("direction") == "lighter":
        return told.translate(
            "Refusals",
            "No graduation less of its dyes makes liquor {liquor} lighter in about its hue. Weaker stocks"
            " allow finer steps.",
        )
    return told.translate(
        "Refusals",
        "No graduation more of its dyes makes liquor {liquor} deeper in about its hue. Weaker stocks allow"
        " finer steps.",
    )


def _with_other_section(told: Told) -> Told:
    """Return `told` with the name of the second of two sections."""
    if told.plan is None:
        return told
    return told.plus(other_section=section_name(told.plan, told.text("other_id"), told.tongue))


EDITS: dict[str, Telling] = {
    "pieces-do-not-fill": lambda told: told.translate(
        "Refusals",
        "The pieces are {total_m} long together, and the roving is {length_m}. Measure them again, or put the"
        " length of the roving right first.",
    ),
    "places-not-rising": lambda told: told.translate(
        "Refusals",
        "The place at {place_m} does not come after the one before it. Enter places from start to end.",
    ),
    "place-past-end": lambda told: told.translate(
        "Refusals",
        "The place at {place_m} is past the end of the roving, which is {length_m} long. Take it out.",
    ),
    "boundary-locked": lambda told: told.translate(
        "Refusals", "{section} is locked, and its boundaries stay where they are. Unlock it first."
    ),
    "boundary-out-of-range": lambda told: told.translate(
        "Refusals", "The boundary cannot go to {position_m}. There is room from {low_m} to {high_m}."
    ),
    "not-neighbours": lambda told: told.translate(
        "Refusals", "The selected sections do not all lie side by side. Select a run without a break."
    ),
    "fold-out-of-range": lambda told: told.translate(
        "Refusals", "The fold cannot go to {position_m}. There is room from {low_m} to {high_m}."
    ),
    "only-section": lambda told: told.translate(
        "Refusals",
        "The only section is as long as the lay, {length_m}. Change the roving’s length or folds instead.",
    ),
    "section-locked": lambda told: told.translate("Refusals", "{section} is locked. Unlock it first."),
    "neighbours-locked": lambda told: told.translate(
        "Refusals",
        "{section} has only locked neighbours, which cannot grow into its place. Unlock one first.",
    ),
    "length-pinned": lambda told: told.translate(
        "Refusals",
        "{section}, at the end of the lay, is locked, so the lay keeps its length. Unlock it first.",
    ),
    "length-too-short": lambda told: told.translate(
        "Refusals",
        "A lay of {length_m} would end before a locked boundary at {pinned_m}. Unlock its section first.",
    ),
    "lengths-do-not-match": lambda told: told.translate(
        "Refusals", "{count} lengths do not fit {sections} sections. Give one length to each."
    ),
    "nothing-to-merge": lambda told: told.translate(
        "Refusals", "Choose two or more neighbouring sections to merge."
    ),
    "nothing-typed": lambda told: told.translate(
        "Refusals", "All amounts are 0. Enter how much to paint, such as 12 + 38."
    ),
    "liquor-in-use": lambda told: told.translate(
        "Refusals",
        "Liquor {liquor} is still painted somewhere ({count}). Give those sections another liquor first.",
    ),
    "liquor-in-stripes": lambda told: told.translate(
        "Refusals",
        "Liquor {liquor} is still wanted in stripes ({count}). Give those stripes another liquor first.",
    ),
    "no-stripes": lambda told: told.translate(
        "Refusals", "No stripes are wanted yet. Add one, or take them from the sections."
    ),
    "no-yarn-to-stripe": lambda told: told.translate(
        "Refusals",
        "No yarn comes of this roving: a strand is all wound off before plying. Wind off less.",
    ),
    "stripes-too-long": lambda told: told.translate(
        "Refusals",
        "The stripes need {needed_g} of each roving, and there are {available_g}: {over_g} too much, which is"
        " {over_plied_m} of yarn or {over_rows} rows. Shorten stripes by that, knit narrower, or take a"
        " heavier roving.",
    ),
    "liquor-not-painted": lambda told: told.translate(
        "Refusals",
        "Liquor {liquor} is not painted anywhere, so it has no jar to go by. Paint a section first.",
    ),
    "only-stock": lambda told: told.translate(
        "Refusals", "{stock} is the only stock in liquor {liquor}. Add another to share with."
    ),
    "no-let-down": lambda told: told.translate(
        "Refusals",
        "Liquor {liquor} needs let-down to fill its jar, and the shelf has none. Add water or acid water.",
    ),
    "depth-unreachable": _depth_unreachable,
    "stock-in-use": lambda told: told.translate(
        "Refusals", "{stock} is still in liquor {liquors}. Take it out there first."
    ),
    "letter-taken": lambda told: told.translate(
        "Refusals", "The letter {value} is that of liquor {liquor}. Choose another, such as {free}."
    ),
    "other-role": lambda told: told.translate(
        "Refusals", "{other} cannot take the place of {stock}: one is a dye, the other a let-down."
    ),
    "no-acid-water": lambda told: told.translate(
        "Refusals",
        "No let-down is known to carry acid, so {stock} cannot have the same. Enter its acid as a number.",
    ),
    "stock-is-acid-line": lambda told: told.translate(
        "Refusals", "{stock} is the acid line of every jar. End the acid line first."
    ),
    "no-steps": lambda told: told.translate(
        "Refusals", "There are no steps yet. Type at least one, such as 12+36."
    ),
    "step-empty": lambda told: told.translate(
        "Refusals", "Step {step} has 0 ml of everything. Enter how much to paint, or leave it out."
    ),
    "amounts-do-not-match": lambda told: told.translate(
        "Refusals",
        "Amounts in step {step}: {count}; stocks chosen: {stocks}. Type one amount for each stock, 0 where a"
        " step has none.",
    ),
    "stock-chosen-twice": lambda told: told.translate(
        "Refusals", "{stock} is chosen twice. Choose another stock for one of them."
    ),
    "liquor-empty": lambda told: told.translate(
        "Refusals", "Liquor {liquor} has nothing in it to fade from or to. Put a stock into it first."
    ),
    "fade-to-itself": lambda told: told.translate(
        "Refusals", "Both ends of the crossfade are liquor {liquor}. Choose another for one of them."
    ),
    "fade-of-one-section": lambda told: told.translate(
        "Refusals", "A fade needs two sections or more. Choose a longer run, or make new sections."
    ),
    "fade-ends-alike": lambda told: told.translate(
        "Refusals", "The fade ends as it begins. Choose another colour for one of its ends."
    ),
    "fade-of-many-dyes": lambda told: told.translate(
        "Refusals",
        "Colour {stop} of the fade is mixed of {dyes} dyes. Choose at most {most} for each colour.",
    ),
    "fade-out-of-reach": lambda told: told.translate(
        "Refusals",
        "Section {number} of the fade is to be {wanted_pct_owf} deep. It takes {needed_ml} of stock, and"
        " {liquid_ml} is painted. Mix stronger stocks, or ask for at most {reach_pct_owf}.",
    ),
    "section-without-liquid": lambda told: told.translate(
        "Refusals", "{section} is to get no liquid. Let it follow the fibre, or enter an amount, first."
    ),
    "no-dye-at-hand": lambda told: told.translate(
        "Refusals", "No bottle of dye is at hand. Put one on the shelf first."
    ),
    "no-colours": lambda told: told.translate("Refusals", "There is no colour yet. Add one first."),
    "nothing-lighter": lambda told: told.translate(
        "Refusals",
        "Liquor {liquor} cannot be let down by one graduation: less than that of dye is in its jar.",
    ),
    "nothing-deeper": lambda told: told.translate(
        "Refusals",
        "Liquor {liquor} cannot be deeper by one graduation: it has no dye, or no let-down to give way.",
    ),
    "no-hue-at-hand": _no_hue_at_hand,
    "no-depth-at-hand": _no_depth_at_hand,
    "section-wiped-dry": lambda told: told.translate(
        "Refusals", "What is wiped out of {section} takes nearly all its dye along. Wipe less there first."
    ),
    "let-down-runs-out": _let_down_runs_out,
    "more-strips-than-grams": lambda told: told.translate(
        "Refusals",
        "Ply {ply} weighs {ply_g}, too little to be split into {strips} strips of a gram or more. Split it"
        " into fewer.",
    ),
    "too-few-rovings": lambda told: told.translate(
        "Refusals",
        "{count} plies take a roving each, and the set has {rovings}. Paint more rovings, or ply fewer.",
    ),
    "lay-folded": lambda told: told.translate(
        "Refusals",
        "The lay is folded, so both halves are painted alike already. To make them weigh the same, fold by"
        " weight.",
    ),
    "lay-not-folded": lambda told: told.translate(
        "Refusals", "The lay is straight and has no fold to move. Fold it, or move boundaries to equal grams."
    ),
    "halves-not-alike": lambda told: told.translate(
        "Refusals",
        "Read from the two ends, colour number {count} is {liquor} on one and {other_liquor} on the other."
        " Mirror one half first.",
    ),
    "halves-locked-apart": lambda told: _with_other_section(told).translate(
        "Refusals",
        "{section} and {other_section} answer each other, {difference_g} apart, and both are locked there."
        " Unlock one of them.",
    ),
    "halves-without-room": lambda told: told.translate(
        "Refusals", "What is locked leaves no room for the boundaries between. Unlock a section first."
    ),
    "mend-is-advice": lambda told: told.translate(
        "Refusals", "This is advice for the bench; there is nothing the program could change by itself."
    ),
}
